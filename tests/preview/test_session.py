"""What a session shows while a pattern is being written: the page as it is, a draft, the last good page."""

from __future__ import annotations

import random
import re
import shutil
from html import unescape
from pathlib import Path

import pytest

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.editions.edition import make_editions
from stitchproof.preview import offers as offers_module
from stitchproof.preview import session as session_module
from stitchproof.preview.pages import PAGE_STYLE
from stitchproof.preview.session import Session
from stitchproof.preview.shown import FindingShown, Shown, State
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.sizing.changes import Changes
from stitchproof.stages import CheckOutcome, checked_folder, try_changes
from tests.editions.demos import document_of
from tests.preview.running import COWL, HAT, TOP, session_of, workspace_with


@pytest.fixture
def hat(tmp_path: Path) -> Session:
    session = session_of(workspace_with(tmp_path, HAT))
    session.refresh()
    return session


def plant(session: Session, old: str, new: str, name: str = "pattern.yaml") -> None:
    file = session.folder / name
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def plain(html: str) -> str:
    """A page without what is there only because it is looked at while it is written."""
    html = re.sub(r"<style>.*?</style>", "", html, flags=re.DOTALL)
    html = re.sub(r' data-row="[^"]*"', "", html)
    inner = re.compile(
        r'<span class="number"[^>]*>((?:(?!</?span).|<span(?! class="number")[^>]*>(?:(?!</?span).)*</span>|'
        r'<span class="vector">(?:(?!</?span).|<span[^>]*>(?:(?!</?span).)*</span>)*</span>)*?)</span>',
        re.DOTALL,
    )
    return inner.sub(r"\1", html)


@pytest.mark.parametrize("pattern", [HAT, TOP])
def test_the_page_is_the_edition(pattern: str, tmp_path: Path) -> None:
    """But for what can be asked about, every character is that of the file that `build` makes."""
    session = session_of(workspace_with(tmp_path, pattern), pattern)
    shown = session.refresh()
    (tmp_path / "styles" / "all_sizes").mkdir(parents=True)
    (tmp_path / "styles" / "all_sizes" / "edition.yaml").write_text("print:\n")
    (made,) = make_editions(document_of(pattern), ["all_sizes"], [tmp_path / "styles"])
    assert shown.state is State.SOUND
    assert plain(shown.page) == plain(made.files[0].content.decode())


def test_a_draft_is_marked_at_its_rows(hat: Session) -> None:
    plant(hat, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
    shown = hat.refresh()
    assert shown.state is State.DRAFT
    assert "DRAFT with 1 error" in shown.page
    assert "`brim_stz` is not a name of this pattern (all sizes)" in shown.page
    (found,) = shown.findings
    assert (found.severity, found.code) == ("error", "SP007")
    (line,) = found.excerpts[0].lines
    assert (line.marked, found.excerpts[0].place) == ("brim_stz", f"pattern.yaml, line {line.number}")
    assert found.row.startswith("brim/")
    assert f'data-row="{found.row}"' in shown.page


def test_what_cannot_be_read_leaves_the_last_good_page(hat: Session) -> None:
    good = hat.shown.page if hat.shown else ""
    text = (hat.folder / "pattern.yaml").read_text("utf-8")
    (hat.folder / "pattern.yaml").write_text("title: [\n", encoding="utf-8")
    shown = hat.refresh()
    assert (shown.state, shown.page, shown.title) == (State.OLD, good, "Cobblewick Hat")
    assert shown.findings[0].severity == "error"
    (hat.folder / "pattern.yaml").write_text(text, encoding="utf-8")
    shown = hat.refresh()
    assert (shown.state, shown.page, shown.findings) == (State.SOUND, good, ())


def test_a_folder_that_is_gone_leaves_the_last_good_page(hat: Session, tmp_path: Path) -> None:
    good = hat.shown.page if hat.shown else ""
    shutil.move(hat.folder, tmp_path / "elsewhere")
    shown = hat.refresh()
    assert (shown.state, shown.page) == (State.OLD, good)
    assert "is not there" in shown.findings[0].headline
    shutil.move(tmp_path / "elsewhere", hat.folder)
    assert hat.refresh().state is State.SOUND


def test_a_pattern_that_cannot_be_read_at_first(tmp_path: Path) -> None:
    session = session_of(workspace_with(tmp_path, HAT))
    (session.folder / "pattern.yaml").write_bytes(b"\xff\xfe")
    assert (session.refresh().state, session.refresh().page) == (State.NONE, "")


@pytest.mark.parametrize("cut", [0, 1, 40, 700, 2500])
def test_a_half_written_file(cut: int, hat: Session) -> None:
    """Whatever a save left for a moment: what is shown is a page, and the next look is as if it had not been."""
    good = hat.shown.page if hat.shown else ""
    whole = (hat.folder / "pattern.yaml").read_bytes()
    (hat.folder / "pattern.yaml").write_bytes(whole[:cut])
    assert "<html" in hat.refresh().page
    (hat.folder / "pattern.yaml").write_bytes(whole)
    assert hat.refresh().page == good


def test_a_style_that_cannot_be_used_is_a_finding(hat: Session, tmp_path: Path) -> None:
    good = hat.shown.page if hat.shown else ""
    own = tmp_path / "styles" / "parts"
    own.mkdir(parents=True)
    (own / "screen.html.j2").write_text("{% if %}")
    shown = hat.refresh()
    assert (shown.state, shown.page) == (State.OLD, good)
    assert "parts" in shown.findings[-1].excerpts[0].place or "all_sizes" in shown.findings[-1].excerpts[0].place
    (own / "screen.html.j2").write_text("<!doctype html><title>{{ document.title.title }}</title>")
    assert hat.refresh().page == "<!doctype html><title>Cobblewick Hat</title>"
    (own / "screen.html.j2").unlink()
    assert hat.refresh().page == good


def test_a_fault_of_our_own_is_told_and_the_preview_goes_on(hat: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    good = hat.shown.page if hat.shown else ""
    with monkeypatch.context() as broken:
        broken.setattr(session_module, "draft_of", lambda *_: 1 / 0)
        plant(hat, "brim_chain: brim_sts + 1", "brim_chain: brim_stz + 1")
        shown = hat.refresh()
        assert (shown.state, shown.page) == (State.OLD, good)
        assert "SP000" in {each.code for each in shown.findings}
        broken.setattr(hat, "check", lambda: 1 / 0)
        assert [each.code for each in hat.refresh().findings] == ["SP000"]
    assert hat.refresh().state is State.DRAFT


def test_findings_stand_in_the_order_of_the_text(tmp_path: Path) -> None:
    """pattern.yaml first, then the texts as the pattern reads them, each from top to bottom."""
    session = session_of(workspace_with(tmp_path, COWL), COWL)
    texts = sorted(path.name for path in session.folder.glob("*.md"))
    for name in texts[1:3]:
        with (session.folder / name).open("a", encoding="utf-8") as file:
            file.write("\nRnd 90: Sc in each st around to <nowhere_at_all>.\n")
    plant(session, "title:", "tittle: x\ntitle:")
    places = [found.excerpts[0].place for found in session.refresh().findings]
    files = [place.partition(",")[0] for place in places]
    order = ["pattern.yaml", *texts]
    assert files == sorted(files, key=order.index)
    assert {"pattern.yaml", *texts[1:3]} <= set(files)


BY_HAND = ("is: hat_around * crown.stitches\n    round: nearest", "by_hand: [63, 72, 80, 88, 96]\n    unit: sts")
"""The hat's sizes by hand; the first does not go into the sections of its crown."""


def offers_in(shown: Shown | None) -> list[tuple[str, str, str, str]]:
    found = shown.findings if shown else ()
    return [(each.size, each.value, each.name, each.written) for finding in found for each in finding.offers]


def test_what_would_work_comes_after_the_page(hat: Session) -> None:
    """By the name and in the form that it is set in; while it is looked for, that is said."""
    plant(hat, *BY_HAND)
    first = hat.refresh()
    assert (offers_in(first), [each.looking for each in first.findings]) == ([], [True])
    assert hat.offer(lambda: False)
    assert hat.shown
    assert offers_in(hat.shown) == [("Baby", "64 sts", "hat_sts", "64 sts")]
    assert (hat.shown.version, hat.shown.page) == (first.version + 1, first.page)
    assert not any(each.looking for each in hat.shown.findings)
    assert not hat.offer(lambda: False)


WRONG_TIMES = (
    "sts, hdc2tog] 8 times. — <crown_dec.after(k)> hdc",
    "sts, hdc2tog] 7 times. — <crown_dec.after(k)> hdc",
    "40_crown.md",
)
"""A count of the crown that does not come out."""


def notes_in(shown: Shown | None) -> set[str]:
    return {each.note for found in (shown.findings if shown else ()) for each in found.sums}


def test_likely_causes_come_after_the_page(hat: Session) -> None:
    """The sum is told with the page; the number that would fit, which takes trials, soon after, and at once from then on."""
    plant(hat, *WRONG_TIMES)
    first = hat.refresh()
    assert first.findings and notes_in(first) == {""}
    assert all(each.looking for each in first.findings)
    assert hat.offer(lambda: False)
    assert hat.shown
    assert hat.shown.page == first.page
    assert any("would fit" in note for note in notes_in(hat.shown))
    assert not any(each.looking for each in hat.shown.findings)
    assert not hat.offer(lambda: False)
    told = notes_in(hat.shown)
    plant(hat, "in each ch across, turn.", "in every ch across, turn.", "20_brim.md")
    assert notes_in(hat.refresh()) == told
    assert told == {line.note for found in checked_folder(hat.folder, "", {}).findings for line in found.sums}


def test_causes_of_another_source_are_not_told(hat: Session) -> None:
    """What is saved while they are looked for is looked at first."""
    plant(hat, *WRONG_TIMES)
    first = hat.refresh()
    plant(hat, "in each ch across, turn.", "in every ch across, turn.", "20_brim.md")
    assert not hat.offer(lambda: False)
    assert hat.shown is first


def test_what_is_new_is_told_of_page_and_frame_apart(hat: Session, tmp_path: Path) -> None:
    """A word is new on the page alone, values that work beside it alone, a style perhaps in both."""

    def since() -> tuple[int, int]:
        assert hat.shown
        return hat.shown.page_since, hat.shown.frame_since

    assert since() == (1, 1)
    plant(hat, "in each ch across, turn.", "in every ch across, turn.", "20_brim.md")
    hat.refresh()
    assert since() == (2, 1)
    hat.refresh()
    assert since() == (2, 1)
    plant(hat, *BY_HAND)
    hat.refresh()
    assert since() == (3, 3)
    hat.offer(lambda: False)
    assert since() == (3, 4)
    (tmp_path / "styles" / "own").mkdir(parents=True)
    (tmp_path / "styles" / "own" / "edition.yaml").write_text("title: Own\n", encoding="utf-8")
    hat.refresh()
    assert since()[1] == 5


def test_what_was_tried_is_not_tried_again(hat: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    """Looking is given up for whoever waits, and goes on from there; a save that changes nothing has all of it at once."""
    tries: list[Changes] = []

    def counted(source: PatternSource, changes: Changes) -> tuple[Diagnostic, ...]:
        tries.append(changes)
        return try_changes(source, changes)

    monkeypatch.setattr(offers_module, "try_changes", counted)
    plant(hat, *BY_HAND)
    hat.refresh()
    assert not hat.offer(lambda: len(tries) > 0)
    assert len(tries) == 1
    hat.offer(lambda: False)
    assert offers_in(hat.shown)
    tried, version = len(tries), hat.shown.version if hat.shown else 0
    assert len({frozenset(each.items()) for each in tries}) == tried > 1
    assert offers_in(hat.refresh()) == [("Baby", "64 sts", "hat_sts", "64 sts")]
    assert (len(tries), hat.shown.version if hat.shown else 0) == (tried, version)
    plant(hat, "title: ", "title: A ")
    assert offers_in(hat.refresh()) == []


def edits(texts: dict[str, str], seed: int) -> dict[str, str]:
    """The texts with a change as a designer makes it: a number, a word, a line more or less, or back."""
    chance = random.Random(seed)  # noqa: S311
    name = chance.choice(sorted(texts))
    lines = texts[name].split("\n")
    at = chance.randrange(len(lines))
    match chance.randrange(5):
        case 0:
            lines[at] = re.sub(r"\d+", lambda found: str(int(found[0]) + chance.choice((-1, 1, 2))), lines[at], count=1)
        case 1:
            lines[at] = lines[at].replace("st", "sts", 1)
        case 2:
            lines.insert(at, lines[at])
        case 3:
            del lines[at]
        case _:
            lines[at] = lines[at].replace("around", "across")
    return {**texts, name: "\n".join(lines)}


@pytest.mark.parametrize("pattern", [HAT, TOP])
def test_what_is_kept_changes_nothing(pattern: str, tmp_path: Path) -> None:
    """After any edits, page and findings are those of a preview that starts now."""
    session = session_of(workspace_with(tmp_path, pattern), pattern)
    texts = {path.name: path.read_text("utf-8") for path in session.folder.iterdir()}
    first = dict(texts)
    for seed in range(5 if pattern == HAT else 1):
        texts = first if seed == 3 else edits(texts, seed)
        for name, text in texts.items():
            (session.folder / name).write_text(text, encoding="utf-8")
        shown = session.refresh()
        fresh = Session(session.workspace, session.folder).refresh()
        if shown.state not in (State.OLD, State.NONE):
            assert shown.page == fresh.page
        assert told(shown.findings) == told(fresh.findings)


def told(findings: tuple[FindingShown, ...]) -> list[tuple[str, str]]:
    return [(each.code, each.headline) for each in findings]


def test_rows_that_are_not_proved_are_marked(hat: Session) -> None:
    plant(hat, "in each ch across, turn.", "in each ch across, turn by a spell.", "20_brim.md")
    shown = hat.refresh()
    assert '<span class="not_proved">not proved</span>' in shown.page
    assert shown.page.count('<span class="not_proved">') == sum(
        step.proof.value in ("not read", "from stated", "on trust")
        for piece in (shown.outcome.worked.pieces if shown.outcome.worked else ())
        for step in piece.steps
    )


def test_the_session_asks_one_seam(tmp_path: Path) -> None:
    """Whoever knows what has not changed can answer in the place of a whole check."""
    session = session_of(workspace_with(tmp_path, HAT))
    asked: list[Path] = []

    def check() -> CheckOutcome:
        asked.append(session.folder)
        return checked_folder(session.folder, "the hat", {})

    assert Session(session.workspace, session.folder, check).refresh().state is State.SOUND
    assert asked == [session.folder]


def test_the_page_is_dressed_for_the_preview(hat: Session) -> None:
    style = unescape(hat.shown.page if hat.shown else "").partition("<style>")[2].partition("</style>")[0]
    assert ".not_proved" in style, PAGE_STYLE
