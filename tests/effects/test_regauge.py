"""`regauge` from the command line: what a change comes to, in the order that a designer looks; written, and taken back.

The jobs are those that a designer is asked for after a pattern is finished; the numbers are worked out here by hand.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from stitchproof.command_line import main
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.source_edits.edit_source import edited_texts
from tests.architecture.code_reader import CLONE
from tests.source_edits.checked_once import checked_once
from tests.source_edits.edited import asked_for, edit
from tests.source_edits.test_demos_edited import demo

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture(scope="module")
def workplace(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("work")
    shutil.copytree(CLONE / "pattern_sources", folder / "pattern_sources")
    return folder


@pytest.fixture
def run(workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """`regauge` in a copy of the demos: its exit code, what it prints and what it reports."""
    monkeypatch.chdir(workplace)
    monkeypatch.setattr("stitchproof.what_if.checked", checked_once)

    def regauge(*arguments: str) -> tuple[int, str, str]:
        code = main(["regauge", *arguments])
        shown = capsys.readouterr()
        return code, shown.out, shown.err

    return regauge


def section(text: str, title: str) -> list[str]:
    """The lines of a part of the report."""
    lines = text.splitlines()
    begin = lines.index(title) + 1
    end = next((at for at in range(begin, len(lines)) if not lines[at].startswith("  ")), len(lines))
    return [line[2:] for line in lines[begin:end]]


def titles(text: str) -> list[str]:
    return [line for line in text.splitlines() if not line.startswith(" ") and not line.startswith("Not changed")]


def test_job_1_another_gauge(run: Run) -> None:
    """17 sts for 16: Baby 40 cm × 1.7 = 68 → 72 sts, 4 more than the gauge gives; 72 sts at 17 are 42.4 cm, 2.4 too wide."""
    code, out, err = run("cobblewick_hat", "gauges.crown.stitches=17")
    assert code == 1
    assert titles(out) == [
        "Set by hand, not recomputed", "Changed", "Counts", "Finished measures", "Yarn", "Rounded by more than half", "Checks",
    ]  # fmt: skip
    assert section(out, "Changed") == ["gauges.crown.stitches  16 per 10 cm → 17 per 10 cm"]
    counts = section(out, "Counts")
    assert counts[0].split("  ")[-1].strip() == "64 (72, 80, 88, 96) sts → 72 (80, 88, 96, 104) sts"
    assert section(out, "Rounded by more than half")[0] == "hat_sts[Baby]  68 sts → 72 sts: +4 (+2.4 cm / +0.9 in)"
    assert section(out, "Checks")[0].startswith(
        "fails now  error SP005: this does not hold: rounding to eight sections"
    )
    assert "error[SP005" in err
    assert out.splitlines()[-1].startswith("Not changed: ")


def test_job_2_two_sizes_more(run: Run, workplace: Path) -> None:
    """One below, one above. The sizes that were there keep every number; what nobody chose yet is told with its place."""
    source = workplace / "pattern_sources" / "cobblewick_hat" / "pattern.yaml"
    before = source.read_bytes()
    beside = ["--add-size", "Tiny", "--before", "Baby", "--add-size", "Huge", "--after", "Large"]
    code, out, err = run("cobblewick_hat", *beside, "body.head[Tiny]=37", "brim_sts[Tiny]=7", "body_rnds[Tiny]=5 rnds")
    assert (code, out) == (2, "")
    assert err.count("error[SP226 size-list-needs-a-value]") == 3
    assert "the neighbours, drawn on in a line, give `body.head[Huge]=67`" in err
    values = [
        "body.head[Tiny]=37",
        "brim_sts[Tiny]=7",
        "body_rnds[Tiny]=5 rnds",
        "body.head[Huge]=67",
        "brim_sts[Huge]=12",
    ]
    code, out, err = run("cobblewick_hat", *beside, *values, "--draw-on", "--write")
    sizes = section(out, "Sizes")
    assert (code, err) == (0, "")
    assert sizes[:2] == ["added    Tiny, Huge", "the same to the last number: Baby, Toddler, Child, Adult, Large"]
    assert sizes[2:4] == ["drawn on from the neighbours, and nobody's choice yet:", "  body_rnds[Huge]=9"]
    # 37 cm less 2 cm of ease at 1.6 sts to the cm are 56 sts, seven eighths of Baby's; 65 cm are 104.
    assert "hat_sts  Tiny 56 sts, Huge 104 sts" in sizes
    assert "names: [Tiny, Baby, Toddler, Child, Adult, Large, Huge]" in source.read_text()
    code, out, _ = run("cobblewick_hat", "--remove-size", "Tiny", "--remove-size", "Huge", "--write")
    assert (code, source.read_bytes()) == (0, before)
    assert section(out, "Sizes")[0] == "removed  Tiny, Huge"


def test_job_3_less_ease(run: Run) -> None:
    """From 8 cm to 4 cm: size 4, 108 + 4 cm at 1.7 are 190.4 → 190 sts, 111.8 cm; the promise of 7 to 9 cm no longer holds."""
    code, out, _ = run("saltmarrow_yoke_top", "ease.bust=4")
    assert code == 1
    assert section(out, "Changed") == ["ease.bust  8 cm → 4 cm"]
    body = next(line for line in section(out, "Counts") if line.startswith("body_sts "))
    assert body.split("→")[1].split(",")[2] == " 190"
    assert any("SP092: the ease of `finished_bust` over `bust`" in line for line in section(out, "Checks"))
    assert "To fit bust" not in out


def test_job_5_another_rate_at_the_rib(run: Run) -> None:
    """2 sts for each rib in place of 5 for two: 64 sts want 32 ribs, 72 want 36."""
    _, out, _ = run("cobblewick_hat", "rates.brim_edge.sts=2", "rates.brim_edge.per=1")
    assert section(out, "Changed") == ["rates.brim_edge (sts)  5 → 2", "rates.brim_edge (per)  2 ribs → 1 rib"]
    ribs = next(line for line in section(out, "Counts") if line.startswith("brim_ribs "))
    assert ribs.endswith("25 (29, 32, 35, 38) ribs → 32 (36, 40, 44, 48) ribs")
    assert not any(line.startswith("hat_sts") for line in section(out, "Counts"))


def test_job_6_a_longer_body(run: Run) -> None:
    """5 cm at 12 rounds to 10 cm are 6 rounds; nothing across changes."""
    code, out, _ = run("saltmarrow_yoke_top", "body_rnds+=6")
    assert code == 0
    changed = "body_rnds[1 … 9]  30 (30, 31, 32, 32, 33, 34, 35, 36) → 36 (36, 37, 38, 38, 39, 40, 41, 42)"
    assert section(out, "Changed") == [changed]
    assert "Counts" not in titles(out)
    assert [line.split("  ")[0] for line in section(out, "Finished measures")[::2]] == ["Underarm to hem (body_length)"]
    assert "30.5 (30.5," in section(out, "Finished measures")[0]
    assert "→ 35.5 (35.5," in section(out, "Finished measures")[0]


def test_job_9_the_row_gauge_after_testing(run: Run) -> None:
    """Counts across stay; what is set by hand in rounds comes out longer, and is told first."""
    _, out, _ = run("saltmarrow_yoke_top", "gauges.fabric.rounds=11.5")
    first = section(out, "Set by hand, not recomputed")
    assert first[0].startswith(
        "body_rnds  30 (30, 31, 32, 32, 33, 34, 35, 36) rnds; what is made of it moves: body_length"
    )
    assert titles(out)[0] == "Set by hand, not recomputed"
    counts = [line.split("  ")[0] for line in section(out, "Counts")]
    assert "yoke.rnds" in counts
    assert "body_sts" not in counts


def test_a_count_set_by_hand_is_told_with_what_it_measures_at_another_gauge(run: Run) -> None:
    """8 sts are 4.71 cm at 17 to 10 cm and 4.44 at 18; 22 sts are 12.94 cm and 12.22. The count itself stays."""
    _, out, _ = run("saltmarrow_yoke_top", "gauges.fabric.stitches=18", "underarm[9]=22")
    first = section(out, "Set by hand, not recomputed")[0]
    told = "underarm  8 (8, 10, 12, 14, 16, 18, 20, 22) sts; at the new gauge −0.3 cm / −0.1 in to −0.7 cm / −0.3 in"
    assert first == told


def test_a_plan_that_can_no_longer_be_made_leaves_numbers_open(run: Run) -> None:
    """64 sts are no seven sections: what hangs on the crown is not known, and the report says so and nothing else."""
    code, out, err = run("cobblewick_hat", "plans.crown_dec.sections=7")
    assert (code, "SP080" in err) == (1, True)
    assert section(out, "Changed") == ["crown_dec (sections)  8 → 7"]
    rounds = next(line for line in section(out, "Counts") if line.startswith("dec_rnds "))
    assert rounds.split("  ", 1)[1].strip() == "7 (8, 9, 10, 11) rnds → unknown"
    assert any(line.startswith("Height, brim edge to crown tip (height)") for line in section(out, "Finished measures"))


def test_a_count_set_by_hand_is_told_with_what_its_formula_gives(run: Run, workplace: Path) -> None:
    source = workplace / "pattern_sources" / "cobblewick_hat" / "pattern.yaml"
    before = source.read_bytes()
    code, _, err = run("cobblewick_hat", "hat_sts[Child]=72", "--write")
    assert code == 1  # written all the same; the report says what fails
    assert "SP005" in err
    assert "    by_hand: {Child: 72 sts}\n" in source.read_text()
    _, out, _ = run("cobblewick_hat", "ease=6 cm")
    told = "hat_sts  Child 72 sts, the formula gives 72 sts   (hat_around * crown.stitches)"
    assert section(out, "Set by hand, not recomputed")[0] == told
    assert run("cobblewick_hat", "hat_sts[Child]=80 sts", "--write")[0] == 0
    assert source.read_bytes() == before


def test_a_sweep_shows_each_value_and_writes_none(run: Run, workplace: Path) -> None:
    source = workplace / "pattern_sources" / "cobblewick_hat" / "pattern.yaml"
    before = source.read_bytes()
    code, out, _ = run("cobblewick_hat", "gauges.crown.stitches=16 to 17 stitches in halves")
    lines = out.splitlines()
    assert code == 1
    assert lines[0] == "gauges.crown.stitches"
    assert [line.split()[0] for line in lines[1:4]] == ["16", "16.5", "17"]
    assert lines[1].endswith("nothing fails that did not before")
    assert "SP005" in lines[3]
    assert "hat_sts" in lines
    assert run("cobblewick_hat", "ease=2..3/0.5", "--write")[0] == 2
    assert source.read_bytes() == before


def test_the_same_for_a_machine(run: Run) -> None:
    code, out, _ = run("cobblewick_hat", "brim_sts[Baby]=9", "--format", "json")
    told = json.loads(out)
    assert (code, told["effect"]["format"]) == (0, "stitchproof-effect")
    assert told["effect"]["counts"][0] == {
        "name": "brim_chain",
        "sizes": ["Baby", "Toddler", "Child", "Adult", "Large"],
        "old": ["9 sts", "10 sts", "11 sts", "12 sts", "12 sts"],
        "new": ["10 sts", "10 sts", "11 sts", "12 sts", "12 sts"],
    }
    code, out, _ = run("cobblewick_hat", "brim_sts[Baby]=8 to 9 by 1", "--format", "json")
    assert [step["value"] for step in json.loads(out)["sweep"]["steps"]] == ["8", "9"]


CHANGES = {
    "cobblewick_hat": [
        ("gauges.crown.stitches=16.1", "gauges.crown.stitches=16"),
        ("hat_sts[Child]=88", "hat_sts[Child]=80 sts"),
        ("brim_sts[Large]=12 sts", "brim_sts[Large]=11"),
        ("yarn.margin=12%", "yarn.margin=10%"),
    ],
    "saltmarrow_yoke_top": [
        ("gauges.rib.rounds=15", "gauges.rib.rounds=14"),
        ("body.bust[3]=99", "body.bust[3]=98 cm"),
        ("hem.rnds=9", "hem.rnds=8 rnds"),
        ("sleeve.top[2]=60 sts", "sleeve.top[2]=58"),
    ],
    "thornhollow_waistcoat": [
        ("buttons=6", "buttons=5"),
        ("yarn.sample=320 g", "yarn.sample=318"),
        ("button[4]=16 mm", "button[4]=15"),
        ("least_ease=6.5", "least_ease=7 cm"),
    ],
    "pebblewold_cowl": [
        ("target[Long loop]=121", "target[Long loop]=120"),
        ("rnds-=2", "rnds+=2"),
        ("way_3.total[Easy]=118", "way_3.total[Easy]=116 sts"),
        ("edge_stretch=1.06", "edge_stretch=1.05"),
    ],
}


@pytest.mark.parametrize("name", ["cobblewick_hat", "pebblewold_cowl"])
def test_the_old_values_give_the_old_file(run: Run, workplace: Path, name: str) -> None:
    """Several changes at once: a gauge, a measure, a list, a count that a formula gives, a number for all sizes."""
    source = workplace / "pattern_sources" / name / "pattern.yaml"
    before = source.read_bytes()
    assert run(name, *(change for change, _ in CHANGES[name]), "--write")[0] in (0, 1)
    changed = source.read_bytes()
    assert changed != before
    now = changed.decode().splitlines()
    assert len([line for line in before.decode().splitlines() if line not in now]) <= len(CHANGES[name])
    assert run(name, *(back for _, back in CHANGES[name]), "--write")[0] == 0
    assert source.read_bytes() == before


@pytest.mark.parametrize("name", ["saltmarrow_yoke_top", "thornhollow_waistcoat"])
def test_the_old_values_give_the_old_text_of_the_larger_demos(name: str) -> None:
    """The same in memory, without the checks, which take their time."""
    sized = demo(name)
    edited = edit(CLONE / "pattern_sources" / name, sized, *(change for change, _ in CHANGES[name]))
    assert edited.faults == ()
    assert edited.after != edited.before
    now = size_pattern(edited.source, Report(sized.sizes))
    back = edited_texts(edited.after, now, [asked_for(now, each) for _, each in CHANGES[name]])
    assert back.after == edited.before


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["ease"], "SP225"),
        (["=4"], "SP225"),
        (["ease=1 to 9 in halves", "brim_chain=8 to 9 in ones"], "SP225"),
        (["ease=1 to 900 in tenths"], "SP225"),
        (["ease=1 to 2 in dozens"], "SP225"),
        (["hat_sts+=8"], "SP225"),
        (["brim_rows+=2 cm", "ease=3"], "SP225"),
        ([], "SP225"),
        (["eese=4 cm"], "SP007"),
        (["head[Giant]=70"], "SP029"),
        (["--add-size", "Baby"], "SP227"),
        (["--add-size", "Huge", "--after", "Giant"], "SP029"),
        (["--add-size", "A=B"], "SP225"),
        (["--remove-size", "Giant"], "SP029"),
        (["--remove-size", "Adult"], "SP227"),
        (["ease=4 cm +"], "SP020"),
        (["crown_dec.dec_rounds=9"], "SP220"),
        (["yarn.grams=50"], "SP220"),
        (["brim_sts=[8, 9]"], "SP220"),
    ],
)
def test_what_cannot_be_done_is_told_and_nothing_is_written(
    run: Run, workplace: Path, arguments: list[str], code: str
) -> None:
    source = workplace / "pattern_sources" / "cobblewick_hat" / "pattern.yaml"
    before = source.read_bytes()
    ended, out, err = run("cobblewick_hat", *arguments)
    assert (ended, out) == (2, "")
    assert f"[{code} " in err
    assert source.read_bytes() == before


def test_a_fault_of_our_own_is_told_as_one(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("stitchproof.what_if.read_requests", fails)
    code, out, err = run("cobblewick_hat", "ease=4")
    assert (code, out) == (3, "")
    assert "error[SP000" in err
    assert "Traceback" not in err


def test_a_pattern_that_is_not_there(run: Run) -> None:
    code, out, err = run("nowhere", "ease=4")
    assert (code, out) == (2, "")
    assert "SP011" in err


def test_a_size_beside_one_that_is_not_added_is_no_command(run: Run) -> None:
    with pytest.raises(SystemExit) as ended:
        run("cobblewick_hat", "--after", "Baby")
    assert ended.value.code == 2


def test_what_has_no_place_of_its_own_is_tried_and_not_written(run: Run, workplace: Path) -> None:
    """A figure of a shipped table: the effect is shown, with what to do by hand; --write is refused."""
    folder = workplace / "pattern_sources" / "small"
    folder.mkdir(exist_ok=True)
    (folder / "pattern.yaml").write_text(
        "dialect: 1\ntitle: Band\nrevision: 1\ndate: 2026-01-01\ndesigner: A\ncontact: a@example.org\n"
        "sizes: {names: [S, M]}\nbody: {from: women, rows: [bust], take: low}\ngauges:\n"
        "  fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}\n"
        "counts:\n  band: {is: bust * fabric.stitches, round: nearest}\npieces:\n  band: {gauge: fabric, worked: rows}\n",
        encoding="utf-8",
    )
    (folder / "text.md").write_text(
        "## Band {band}\n\nCh <band + 1>.\nRow 1: Sc in 2nd ch from hook and in each ch across. — <band> sc\n"
    )
    code, out, err = run("small", "bust[M]=100 cm")
    assert code in (0, 1)
    assert "SP220" in err
    assert "write a row of your own under `body`: `bust: {cm: […, …]}`" in err
    assert section(out, "Counts") == ["band  130 (146) sts → 130 (160) sts"]  # 100 cm at 1.6 sts to the cm
    assert run("small", "bust[M]=100 cm", "--write")[0] == 2
