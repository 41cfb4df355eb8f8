"""What a page of the preview can ask for: how a number came about, drawings, a change tried and written, PDFs."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from stitchproof.preview.desk import Desk, NotOnThePage
from stitchproof.what_if import regauge
from tests.preview.running import HAT, session_of, workspace_with


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """The hat's desk, for tests that leave its files as they are."""
    desk = Desk(session_of(workspace_with(tmp_path_factory.mktemp("desk"), HAT)))
    desk.session.refresh()
    yield desk
    desk.close()


@pytest.fixture
def own(tmp_path: Path) -> Iterator[Desk]:
    desk = Desk(session_of(workspace_with(tmp_path, HAT)))
    desk.session.refresh()
    yield desk
    desk.close()


def words(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def test_a_number_is_told_in_every_size(desk: Desk) -> None:
    """The sum of each size, as `explain` prints it, and every row that prints it."""
    told = desk.number({"written": "hat_sts", "row": ""})
    assert all(f"{size}</th>" in told for size in ("Baby", "Toddler", "Child", "Adult", "Large"))
    assert "formula" in told and "hat_around" in told
    assert re.search(r'data-row="body/[^"]+"', told)


def test_a_number_of_a_row_has_the_values_of_that_row(desk: Desk) -> None:
    """One formula in a loop has other values in each of its rows."""
    page = desk.page({})
    rows = re.findall(r'data-row="(crown/[^"]+)"(?:(?!data-row=).)*?data-number="([^"]+\(k\)[^"]*)"', page, re.DOTALL)
    same = [row for row, written in rows if written == rows[0][1]]
    first, second = (desk.number({"written": rows[0][1], "row": row}) for row in same[:2])
    assert words(first).partition("How it came about")[0] != words(second).partition("How it came about")[0]


def test_every_number_of_the_page_can_be_asked_about(desk: Desk) -> None:
    written = set(re.findall(r'data-number="([^"]+)"', desk.page({})))
    assert len(written) > 20
    for each in written:
        assert "In every size" in desk.number(
            {"written": each.replace("&#39;", "'").replace("&lt;", "<").replace("&gt;", ">")}
        )


def test_drawings_of_a_size_and_of_all(desk: Desk) -> None:
    one, over = desk.drawings({"size": "3"}), desk.drawings({"size": "3", "over": "yes"})
    assert "Size 3 Child, to scale" in one
    assert one.count("<svg") * 2 == over.count("<svg")
    dashes = re.findall(r'data-size="(\d)" [^>]*?stroke-width="([\d.]+)"(?: stroke-dasharray="([^"]+)")?', over)
    through = {size for size, _, dash in dashes if not dash}
    assert through == {"3"}
    of_others = [dash for size, _, dash in dashes[:5] if dash]
    assert len(set(of_others)) == len(of_others) == 4
    assert all(f">{name}</text>" in over for name in "12345")
    assert "Size 3 Child" in desk.drawings({"size": "99"})


def test_a_change_is_tried_and_shown(desk: Desk) -> None:
    before = {path: path.read_bytes() for path in desk.session.folder.iterdir()}
    told = desk.try_out([("change", "gauges.crown.stitches=19")])
    assert {path: path.read_bytes() for path in desk.session.folder.iterdir()} == before
    key = re.search(r'data-tried="([^"]+)"', told)
    assert key
    page = desk.page({"tried": key[1]})
    olds = re.findall(r"<del>([^<]+)</del> → ", page)
    assert olds
    now = re.sub("<[^>]+>", "", desk.page({}))
    assert all(re.sub("\\W+", "", old) in re.sub("\\W+", "", now) for old in olds)
    assert re.search(r"<del>\d+</del> → <b>\d+</b>|<del>[^<]+ sts</del> → <b>[^<]+ sts</b>", told)
    assert "stitches: 19" in words(told)


def test_the_page_of_a_change_is_that_of_the_changed_source(own: Desk) -> None:
    """Without the old numbers it is the page that stands there once the change is written."""
    told = own.try_out([("change", "ease=3 cm")])
    key = re.search(r'data-tried="([^"]+)"', told)
    assert key
    tried = re.sub(r'<span class="was"><del>.*?</del> → </span>', "", own.page({"tried": key[1]}))
    assert "Written" in own.write([("key", key[1])])
    assert own.session.refresh().page == tried


def test_writing_does_what_regauge_does(own: Desk, tmp_path: Path) -> None:
    other = session_of(workspace_with(tmp_path / "other", HAT))
    regauge(other.folder, ["gauges.crown.stitches=19", "ease=3 cm"], write=True, within=other.workspace.root)
    told = own.try_out([("change", "gauges.crown.stitches=19"), ("change", "ease=3 cm")])
    key = re.search(r'data-key="([^"]+)"', told)
    assert key
    own.write([("key", key[1])])
    assert (own.session.folder / "pattern.yaml").read_bytes() == (other.folder / "pattern.yaml").read_bytes()


def test_what_changed_meanwhile_is_not_written(own: Desk) -> None:
    told = own.try_out([("change", "ease=3 cm")])
    key = re.search(r'data-key="([^"]+)"', told)
    assert key
    file = own.session.folder / "pattern.yaml"
    file.write_text(file.read_text("utf-8") + "# a word more\n", encoding="utf-8")
    meanwhile = file.read_bytes()
    answer = own.write([("key", key[1])])
    assert "Nothing was written" in answer
    assert "it has changed since it was read" in words(answer)
    assert file.read_bytes() == meanwhile


def test_a_change_is_written_once(own: Desk) -> None:
    key = re.search(r'data-key="([^"]+)"', own.try_out([("change", "ease=3 cm")]))
    assert key
    assert "Written" in own.write([("key", key[1])])
    assert "too long ago" in own.write([("key", key[1])])
    assert "too long ago" in own.write([("key", "made up")])


@pytest.mark.parametrize("change", ["ease", "eese=3 cm", "ease=3 sheep", "ease[Giant]=3 cm", "=", "ease=<script>"])
def test_what_is_not_understood_is_a_finding(change: str, desk: Desk) -> None:
    told = desk.try_out([("change", change)])
    assert 'class="severity">Error' in told
    assert "<script>" not in told
    assert 'id="write"' not in told


def test_a_sweep_is_looked_at(desk: Desk) -> None:
    told = desk.try_out([("change", "ease=2 to 3 cm in halves")])
    assert "2.5 cm" in told
    assert 'id="write"' not in told


def test_nothing_asked(desk: Desk) -> None:
    assert "Nothing is asked for yet" in desk.try_out([])


def test_what_is_not_there_is_not_answered(desk: Desk) -> None:
    for ask in (
        lambda: desk.number({"written": "no such formula"}),
        lambda: desk.explanation({"code": "SP999"}),
        lambda: desk.page({"tried": "x"}),
        lambda: desk.print([("edition", "none")]),
        lambda: desk.printed("1", "x.pdf"),
    ):
        with pytest.raises(NotOnThePage):
            ask()


def test_every_text_of_the_pattern_is_escaped(own: Desk) -> None:
    """A title, a name and a fault that hold HTML stand there as words."""
    file = own.session.folder / "pattern.yaml"
    text = file.read_text("utf-8").replace("title: Cobblewick Hat", 'title: "Hat <img src=x onerror=alert(1)>"', 1)
    file.write_text(text.replace("brim_chain: brim_sts + 1", "brim_chain: <svg onload=alert(1)>", 1), encoding="utf-8")
    own.session.refresh()
    frame = own.frame()
    assert "<img src=x" not in frame
    assert "<svg onload" not in frame
    assert "&lt;img src=x" in frame
