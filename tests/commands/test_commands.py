"""The commands as a user types them: what they print where, what they write, and how they end."""

from __future__ import annotations

import json
import shutil
from contextlib import chdir, redirect_stdout
from io import StringIO
from pathlib import Path

import pypdf
import pytest

from stitchproof import stages
from stitchproof.command_line import main
from stitchproof.diagnostics.terminal import as_text

ROOT = Path(__file__).parents[2]


@pytest.fixture
def workspace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A workspace with the hat in it, as the current folder."""
    shutil.copytree(ROOT / "pattern_sources" / "cobblewick_hat", tmp_path / "pattern_sources" / "cobblewick_hat")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The workspace with the hat built in all sizes, and what that printed: made once, and left as it is."""
    root = tmp_path_factory.mktemp("built")
    shutil.copytree(ROOT / "pattern_sources" / "cobblewick_hat", root / "pattern_sources" / "cobblewick_hat")
    with chdir(root), redirect_stdout(StringIO()) as printed:
        assert main(["build", "cobblewick_hat", "--edition", "all_sizes"]) == 0
    return root, printed.getvalue()


def plant(workspace: Path, old: str, new: str, name: str = "pattern.yaml") -> None:
    file = workspace / "pattern_sources" / "cobblewick_hat" / name
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_clean_check(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing found is said in one line, below what is proved; exit 0."""
    assert main(["check", "cobblewick_hat"]) == 0
    shown = capsys.readouterr()
    assert shown.out.startswith("cobblewick_hat: 21 rows proved, 28 stated counts held in all sizes\n")
    assert shown.err == "nothing found in cobblewick_hat\n"


def test_a_pattern_is_found_by_folder_too(workspace: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A name under pattern_sources/, or a folder, from anywhere inside the workspace."""
    assert main(["check", "pattern_sources/cobblewick_hat"]) == 0
    monkeypatch.chdir(workspace / "pattern_sources" / "cobblewick_hat")
    assert main(["check", "."]) == 0
    assert main(["check", "cobblewick_hat"]) == 0


def test_findings_go_to_standard_error_and_exit_1(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A fault: the report and a closing count on standard error."""
    plant(workspace, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
    assert main(["check", "cobblewick_hat"]) == 1
    shown = capsys.readouterr()
    assert "3 not proved" in shown.out.splitlines()[0]
    assert shown.err.startswith("error[SP007 unknown-name]: `brim_stz` is not a name of this pattern (all sizes)\n")
    assert shown.err.endswith("\n1 error in cobblewick_hat\n")


def test_a_row_with_a_fault_is_not_among_the_proved(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The last decrease round of each of the 5 sizes, too wide for its stitches: they and their counts are taken out.

    Four of them hold a second count, of the sizes that go on; so 28 - 9 are held.
    """
    plant(workspace, "[Hdc2tog] 8 times", "[Hdc2tog] 9 times", "40_crown.md")
    assert main(["check", "cobblewick_hat"]) == 1
    shown = capsys.readouterr()
    assert shown.out.startswith("cobblewick_hat: 16 rows proved, 5 with a fault, 19 stated counts held in all sizes\n")
    assert "  crown  8 rows proved, 5 with a fault\n" in shown.out
    assert shown.err.startswith("error[SP137 row-runs-past-the-end]: Dec Rnd 7 of crown")


def test_json_holds_the_same_facts(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The machine form goes to standard output, and the terminal text can be made from it again."""
    plant(workspace, "by_hand: [8, 9, 10, 11, 11]", "by_hand: [8, 9, 10, 11]")
    assert main(["check", "cobblewick_hat"]) == 1
    text = capsys.readouterr().err
    assert main(["check", "cobblewick_hat", "--format", "json"]) == 1
    shown = capsys.readouterr()
    held = json.loads(shown.out)
    assert shown.err == ""
    assert (held["format"], held["version"]) == ("stitchproof-diagnostics", 1)
    assert text.startswith(as_text(held["diagnostics"]))


def test_output_file(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Either form goes into a file when asked."""
    assert main(["check", "cobblewick_hat", "--format", "json", "--output", "found.json"]) == 0
    assert json.loads((workspace / "found.json").read_text("utf-8"))["diagnostics"] == []
    assert capsys.readouterr().out == ""


def test_warnings_pass_unless_strict(workspace: Path) -> None:
    """A passage that serves nobody is a warning."""
    plant(workspace, "## Finishing", "::: sizes with hat_sts > 200\nToo large.\n:::\n\n## Finishing", "50_finishing.md")
    assert main(["check", "cobblewick_hat"]) == 0
    assert main(["check", "cobblewick_hat", "--strict"]) == 1


def test_an_accepted_warning_passes_strict(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Accepted with a reason, in YAML or in the text, a warning is counted and no more; the reason is in the JSON."""
    passage = "::: sizes with hat_sts > 200\nToo large.\n:::\n\n## Finishing"
    plant(workspace, "## Finishing", f"::: accept SP030 for a size to come\n{passage}", "50_finishing.md")
    assert main(["check", "cobblewick_hat", "--strict"]) == 0
    assert capsys.readouterr().err == "1 accepted in cobblewick_hat\n"
    main(["check", "cobblewick_hat", "--format", "json"])
    assert json.loads(capsys.readouterr().out)["diagnostics"][0]["accepted"] == "for a size to come"
    plant(workspace, "::: accept SP030 for a size to come\n", "", "50_finishing.md")
    plant(workspace, "must_hold:", "accept: [{code: passage-serves-nobody, reason: for a size to come}]\nmust_hold:")
    assert main(["check", "cobblewick_hat", "--strict"]) == 0


def test_an_acceptance_covers_its_own_lines_only(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Before another passage it accepts nothing there, and says so; without a reason it is a fault."""
    passage = "::: sizes with hat_sts > 200\nToo large.\n:::\n\n"
    plant(workspace, "## Finishing", f"::: accept SP030 why not\nWords.\n\n{passage}## Finishing", "50_finishing.md")
    assert main(["check", "cobblewick_hat", "--strict"]) == 1
    assert "SP040 acceptance-matches-nothing" in capsys.readouterr().err
    plant(workspace, "::: accept SP030 why not", "::: accept SP030", "50_finishing.md")
    assert main(["check", "cobblewick_hat"]) == 1
    assert "this acceptance does not say its code and its reason" in capsys.readouterr().err


def test_a_name_cannot_drive_the_terminal(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Control signs in a folder's name show as a sign of their own, in the report and in the closing line."""
    assert main(["check", "odd\x1b[31m\nname"]) == 2
    shown = capsys.readouterr().err
    assert "\x1b" not in shown
    assert shown.endswith("1 error in odd�[31m�name\n")


def test_all_faults_of_a_run_at_once(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Faults in the numbers and in the texts come in one go, by file and place."""
    plant(workspace, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
    plant(workspace, "— <hat_sts> hdc", "— XX hdc", "30_body.md")
    plant(workspace, "<crown_dec.before(k)>", "<crown_dec.before(j)>", "40_crown.md")
    assert main(["check", "cobblewick_hat"]) == 1
    lines = [line for line in capsys.readouterr().err.splitlines() if line.startswith("error[")]
    assert [line[6:11] for line in lines] == ["SP010", "SP007", "SP007"]


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["check", "cobblewick"], "cobblewick is not a pattern folder, nor a name under pattern_sources/"),
        (["check", "cobblewick"], "= help: the patterns here are cobblewick_hat"),
        (["build", "nowhere/at_all"], "error[SP011 file-not-readable]: nowhere/at_all is not a pattern folder"),
        (["build", "cobblewick_hat", "--size", "Giant"], "`Giant` is not a size of this pattern"),
        (["explain", "SP999"], "SP999 is not a fault"),
        (["explain", "cobblewick_hat", "hat_stz"], "`hat_stz` is not a name of this pattern"),
        (["explain", "cobblewick_hat", "hat_stz"], "= help: write `hat_sts`"),
        (["explain", "cobblewick_hat", "hat_sts[Adlut]"], "= help: write `Adult`"),
        (["explain", "not-whole"], "= help: write `count-not-whole`"),
        (["explain", "cobblewick", "hat_sts"], "cobblewick is not a pattern folder"),
        (["explain", "a", "b", "c"], "explain takes a CODE, or a PATTERN and a NAME"),
        (["new", "pattern_sources"], "is there already and not empty"),
    ],
)
def test_what_cannot_run_says_why(
    workspace: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], says: str
) -> None:
    """Exit 2, one report or sentence, no traceback."""
    assert main(arguments) == 2
    shown = capsys.readouterr()
    assert says in shown.err
    assert "Traceback" not in shown.err


@pytest.mark.parametrize("content", [None, b"\xff\xfe\x00", b"title: \x00\x01"])
def test_unreadable_header_cannot_run(
    workspace: Path, capsys: pytest.CaptureFixture[str], content: bytes | None
) -> None:
    """A missing or binary pattern.yaml is reported like any fault, and ends with 2."""
    header = workspace / "pattern_sources" / "cobblewick_hat" / "pattern.yaml"
    header.unlink()
    if content is not None:
        header.write_bytes(content)
    assert main(["check", "cobblewick_hat"]) == 2
    assert "error[SP011 file-not-readable]" in capsys.readouterr().err


def test_our_own_fault_says_so(
    workspace: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A bug of the compiler is a report of its own kind with exit 3, in text and in JSON, never a traceback."""

    def broken(*_: object) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr(stages, "expand_pattern", broken)
    assert main(["check", "cobblewick_hat"]) == 3
    shown = capsys.readouterr().err
    assert "error[SP000 internal-fault]" in shown
    assert "this is our mistake, not yours" in shown
    assert "Traceback" not in shown
    assert main(["check", "cobblewick_hat", "--format", "json"]) == 3
    assert json.loads(capsys.readouterr().out)["diagnostics"][0]["code"] == "SP000"


def test_build_writes_html_and_pdf_and_names_them(built: tuple[Path, str]) -> None:
    """The files lie under build/ of the workspace; their names go to standard output."""
    root, printed = built
    files = [line for line in printed.splitlines() if line.startswith("build/")]
    assert files == [
        "build/cobblewick_hat/cobblewick_hat_all_sizes.html",
        "build/cobblewick_hat/cobblewick_hat_all_sizes.pdf",
        "build/cobblewick_hat/record.json",
        "build/cobblewick_hat/pages.json",
    ]
    assert all((root / file).stat().st_size > 1_000 for file in files)


def test_failed_build_leaves_the_earlier_one(
    workspace: Path, built: tuple[Path, str], capsys: pytest.CaptureFixture[str]
) -> None:
    """On an error no edition is written and the old files stay, byte for byte."""
    shutil.copytree(built[0] / "build", workspace / "build")
    before = _contents(workspace / "build")
    plant(workspace, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
    capsys.readouterr()
    assert main(["build", "cobblewick_hat", "--edition", "all_sizes"]) == 1
    shown = capsys.readouterr()
    assert "build/" not in shown.out
    assert "nothing was written for cobblewick_hat; an earlier build is as it was" in shown.err
    assert _contents(workspace / "build") == before


def test_draft_prints_in_spite_of_errors(workspace: Path) -> None:
    """Each fault stands beside its row, and every page says how many there are; the exit code stays 1."""
    plant(workspace, "by_hand: [8, 9, 10, 11, 11]", "by_hand: [8, 9, 10, 11]")
    assert main(["build", "cobblewick_hat", "--edition", "all_sizes", "--draft"]) == 1
    folder = workspace / "build" / "cobblewick_hat"
    html = (folder / "cobblewick_hat_all_sizes.html").read_text("utf-8")
    assert "brim_sts has 4 values for 5 sizes" in html
    pages = [page.extract_text() for page in pypdf.PdfReader(folder / "cobblewick_hat_all_sizes.pdf").pages]
    assert all("DRAFT with 1 error" in page for page in pages)


def test_files_of_the_build_before_that_go_are_named(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The folder of a build holds what one command made."""
    earlier = workspace / "build" / "cobblewick_hat"
    earlier.mkdir(parents=True)
    for name in ("record.json", "cobblewick_hat_makers_page.html"):
        (earlier / name).write_text("", encoding="utf-8")
    assert main(["build", "cobblewick_hat", "--edition", "listing"]) == 0
    (line,) = [each for each in capsys.readouterr().err.splitlines() if each.startswith("no longer there")]
    assert line.endswith(": build/cobblewick_hat/cobblewick_hat_makers_page.html")


def test_one_size(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One number per place, no brackets of sizes, no tags, no dashes; that all sizes are left out is said."""
    assert main(["build", "cobblewick_hat", "--edition", "all_sizes", "--size", "Large", "--to", "large_only"]) == 0
    assert "all_sizes is printed for Large only" in capsys.readouterr().err
    pages = pypdf.PdfReader(workspace / "large_only" / "cobblewick_hat" / "cobblewick_hat_size_large.pdf").pages
    text = " ".join("".join(page.extract_text() for page in pages).split())
    assert "Rep Row 2 until there are 76 rows in all." in text
    assert "Dec Rnd 11: [Hdc2tog] 8 times." in text
    assert "only:" not in text
    assert "–" not in text


@pytest.mark.parametrize("sizes", [["Large"], ["Large", "Large"], ["crown=Large"]])
def test_two_editions_that_would_be_one_file_are_refused_before_any_work(
    sizes: list[str], workspace: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The later one was written over the other without a word."""
    asked = [part for size in sizes for part in ("--size", size)]
    assert main(["build", "cobblewick_hat", "--edition", "all_sizes", "--edition", "one_size", *asked]) == 2
    told = capsys.readouterr().err
    assert f"all_sizes and one_size are both printed for {sizes[0]} only" in told
    assert "ask for one of them" in told


def test_two_builds_are_the_same_bytes(workspace: Path, built: tuple[Path, str]) -> None:
    """The same source gives the same files."""
    assert main(["build", "cobblewick_hat", "--edition", "all_sizes", "--to", "again"]) == 0
    assert _contents(workspace / "again") == _contents(built[0] / "build")


def test_new_pattern_builds_at_once(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`new` makes a folder whose title comes from its name, and which checks clean even strictly."""
    assert main(["new", "river_scarf"]) == 0
    assert main(["check", "river_scarf", "--strict"]) == 0
    assert "title: River Scarf" in (workspace / "river_scarf" / "pattern.yaml").read_text("utf-8")
    assert main(["build", "river_scarf"]) == 0
    assert (workspace / "build" / "river_scarf" / "river_scarf_all_sizes.pdf").is_file()


def test_explain_a_code_and_a_number(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Both forms of explain print to standard output."""
    assert main(["explain", "pick-up-not-whole"]) == 0
    assert capsys.readouterr().out.startswith("SP004 pick-up-not-whole (error)\n")
    assert main(["explain", "checklist"]) == 0
    assert "SP004" in capsys.readouterr().out
    assert main(["explain", "cobblewick_hat", "brim_rows"]) == 0
    assert "Baby     25 ribs × 2 rows = 50 rows" in capsys.readouterr().out


def test_explain_of_one_size_and_at_one_k(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "cobblewick_hat", "brim_rows[Baby]"]) == 0
    assert "Toddler" not in capsys.readouterr().out
    assert main(["explain", "cobblewick_hat", "crown_dec.after"]) == 0
    assert "11  –       –        –       –       8 sts" in capsys.readouterr().out
    assert main(["explain", "cobblewick_hat", "crown_dec.before(3)[Adult]"]) == 0
    assert "Adult  rnd 5: 72 sts − 8 × 2 = 56 plain sts; 56 = 8 × 7: 8 groups of 7" in capsys.readouterr().out


@pytest.mark.parametrize("form", ["json", "sarif"])
@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["explain", "SP999"], "SP121"),
        (["explain", "cobblewick_hat", "hat_stz"], "SP007"),
        (["explain", "cobblewick_hat", "hat_sts[Adlut]"], "SP029"),
        (["explain", "nowhere", "hat_sts"], "SP011"),
        (["build", "cobblewick_hat", "--size", "Adlut"], "SP029"),
    ],
)
def test_what_is_asked_for_and_not_there_is_a_finding(
    workspace: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], code: str, form: str
) -> None:
    """In every machine form, on standard output, with nothing beside it; exit 2."""
    assert main([*arguments, "--format", form]) == 2
    shown = capsys.readouterr()
    held = json.loads(shown.out)
    found = held["diagnostics"] if form == "json" else held["runs"][0]["results"]
    assert [each["code" if form == "json" else "ruleId"] for each in found] == [code]
    assert shown.err == ""


def test_explain_in_a_machine_form_and_into_a_file(workspace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "cobblewick_hat", "brim_rows", "--format", "json", "--output", "told.json"]) == 0
    held = json.loads(Path("told.json").read_text("utf-8"))
    assert held["diagnostics"] == []
    assert "25 ribs × 2 rows = 50 rows" in held["text"]
    assert main(["explain", "cobblewick_hat", "brim_rows", "--output", "told.txt"]) == 0
    assert Path("told.txt").read_text("utf-8") == held["text"]
    assert capsys.readouterr().out == ""


def test_missing_style_is_a_finding(
    workspace: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A house style that is broken is reported, and nothing is written."""
    style = workspace / "styles" / "all_sizes"
    style.mkdir(parents=True)
    (style / "edition.yaml").write_text("title: [", encoding="utf-8")
    assert main(["build", "cobblewick_hat"]) == 1
    assert "error[SP039 page-not-printed]" in capsys.readouterr().err
    assert not (workspace / "build" / "cobblewick_hat").exists()


def _contents(folder: Path) -> dict[str, bytes]:
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}
