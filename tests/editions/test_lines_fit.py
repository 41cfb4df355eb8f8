"""No line runs out of its page, and where a long line ends it ends at a good place. Common practice, no source."""

import re
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.fit_lines import fit_lines
from stitchproof.editions.html import print_html
from stitchproof.editions.line_breaks import fit_line, half_figures
from stitchproof.editions.no_break import hold_row
from stitchproof.editions.print_document import (
    Entry,
    PlainText,
    PrintInline,
    StrongText,
    Unbroken,
    Vector,
    visible_text,
)
from stitchproof.editions.set_type import set_type
from stitchproof.expansion.document import Bullets, Document, Role, Section, SizeTable, Table
from tests.editions.page_boxes import Line, lines_of
from tests.editions.page_text import document_blocks, html_blocks
from tests.editions.samples import document, length, line, mitt, row, size_line, sizes_of, yoke
from tests.editions.ten_sizes import SIZES, TEN, check, coat, measures

SAMPLES = {"mitt": mitt, "yoke": yoke, "coat": coat}
NUMBER = re.compile(r"\d[\d.½¼¾]*")


@cache
def printed(sample: str) -> list[Line]:
    return lines_of(SAMPLES[sample]())


def shown(whole: Document) -> list[str]:
    """The lines of a small document's one piece."""
    lines = [each.text.strip() for each in lines_of(whole)]
    return lines[lines.index("Piece") + 1 :]


@pytest.mark.parametrize("sample", SAMPLES)
def test_no_text_stands_outside_its_page_or_its_cell(sample: str) -> None:
    assert [each for each in printed(sample) if not each.is_inside] == []


@pytest.mark.parametrize("sample", SAMPLES)
def test_no_line_ends_inside_a_number_or_behind_an_opening_bracket(sample: str) -> None:
    folder = find_edition("all_sizes", ())
    assert folder.paper is not None
    blocks = html_blocks(print_html(set_type(SAMPLES[sample]()), folder, folder.paper))
    whole = [number for text in blocks for number in NUMBER.findall(text)]
    lines = [each.text for each in printed(sample)]
    # A head of a table that goes on over a page is printed again; its numbers are those of the sizes.
    in_lines = [number for text in lines for number in NUMBER.findall(text)]
    assert [number for number in in_lines if len(number) > 2] == [number for number in whole if len(number) > 2]
    assert not [text for text in lines if text.rstrip().endswith("(")]


def test_a_long_length_and_the_count_after_it_are_not_one_piece() -> None:
    lines = shown(document(SIZES, measures(TEN)))
    assert lines[-1] == "— 1010 (1028, 1046, 1064, 1082) (1100, 1118, 1136, 1154, 1172) hdc"
    assert lines[-2].endswith("64¼) in.")


def test_a_label_with_a_vector_runs_on_like_any_text() -> None:
    first, *others = shown(document(SIZES, check(TEN)))
    assert first.startswith("Check after V Row 15 (17, 19, 21, 23) (25, 27, 29, 31, 33)")
    assert len(others) <= 2


def test_words_before_a_held_word_fill_their_line() -> None:
    """The renderer breaks text that ends with a no-break space after its first word; none may end so."""
    words = "Ch 3, turn, skip the first of the sts and work in each of the next sts as before, then 3"
    lines = shown(document(SIZES, row("", f"{words} hdc-in-the-back-loop-only-and-the-front-loop.", TEN)))
    assert all(len(text) > 40 for text in lines)


GROUPS = ((Entry(0, "1010"),), tuple(Entry(k, f"{1010 + k}") for k in range(1, 5)), (Entry(5, "1015"),))
LONG = Vector(GROUPS, "", Role.STATED_COUNT)
ROW = hold_row((PlainText("Sc across, turn. — "), LONG, PlainText(" sc")))


@pytest.mark.parametrize(
    ("room", "pieces"),
    [
        (90, ["Sc", "across,", "turn. — 1010 (1011, 1012, 1013, 1014) (1015) sc"]),
        (35, ["Sc", "across,", "turn.", "— 1010 (1011, 1012, 1013, 1014) (1015) sc"]),
        (30, ["Sc", "across,", "turn.", "— 1010 (1011, 1012, 1013, 1014)", "(1015) sc"]),
        (24, ["Sc", "across,", "turn. — 1010", "(1011, 1012, 1013, 1014)", "(1015) sc"]),
        (12, ["Sc", "across,", "turn. — 1010", "(1011, 1012,", "1013, 1014)", "(1015) sc"]),
    ],
)
def test_the_weakest_hold_gives_way_first(room: int, pieces: list[str]) -> None:
    """The count leaves its row's last word, then brackets part, then the numbers of a bracket."""
    assert runs_of(fit_line(ROW, room)) == pieces


def runs_of(fitted: tuple[PrintInline, ...]) -> list[str]:
    """What no line may break, piece by piece, no-break spaces as plain ones."""
    text = "".join(_text(inline) for inline in fitted)
    return [run.replace("\u00a0", " ").replace("\u2060", "") for run in text.split(" ")]


def _text(inline: PrintInline) -> str:
    return inline.text if isinstance(inline, PlainText | Unbroken | Vector) else "".join(map(_text, inline.inlines))


def test_a_word_with_hyphens_that_no_line_holds_may_break() -> None:
    word = "hdc-" * 10 + "blo"
    assert fit_line((Unbroken(word),), 20) == (PlainText(word),)
    assert fit_line((Unbroken("hdc-blo"),), 20) == (Unbroken("hdc-blo"),)


@st.composite
def rows(draw: st.DrawFn) -> tuple[PrintInline, ...]:
    """Words, vectors of any grouping, words with hyphens and bold words, held as a row is."""
    words = st.sampled_from(["Sc in next ", " sts, turn. — ", " 3 ch ", ", ", " times.", "*", " hdc"]).map(PlainText)
    entry = st.integers(0, 12_000).map(lambda value: Entry(0, str(value) if value else "–"))
    groups = st.lists(st.lists(entry, min_size=1, max_size=9).map(tuple), min_size=1, max_size=4)
    vectors = groups.map(lambda made: Vector(((made[0][0],), *made), "", Role.PLAIN))
    hyphened = st.sampled_from(["sc-blo", "ch-2"]).map(Unbroken)
    plain = st.one_of(words, vectors, hyphened)
    bold = st.lists(plain, min_size=1, max_size=3).map(lambda inner: StrongText(tuple(inner)))
    return hold_row(tuple(draw(st.lists(st.one_of(plain, bold), min_size=1, max_size=8))))


@given(rows(), st.integers(12, 80))
def test_nothing_held_together_is_wider_than_the_room(given_row: tuple[PrintInline, ...], room: int) -> None:
    fitted = fit_line(given_row, room)
    assert visible_text(fitted) == visible_text(given_row)
    for run in runs_of(fitted):
        assert " " not in run or half_figures(run) <= 2 * room
    assert fit_line(fitted, room) == fitted


PHONE_TEXT = 288
"""CSS pixels: a line of a part of a step in a passage on a screen of 360 pixels (screen.css)."""
PHONE_FIGURE = 10.9
"""CSS pixels: a figure of 17 pixels in DejaVu Sans or Verdana, the widest of the usual fonts; measured."""


@pytest.mark.parametrize("sample", SAMPLES)
def test_what_is_held_together_fits_a_phone(sample: str) -> None:
    folder = find_edition("all_sizes", ())
    assert folder.screen is not None
    html = print_html(set_type(SAMPLES[sample]()), folder, folder.screen)
    runs = [run for block in blocks_with_breaks(html) for run in block.split(" ")]
    too_wide = [run for run in runs if half_figures(run) * PHONE_FIGURE / 2 > PHONE_TEXT and "\u00a0" in run]
    assert too_wide == []
    whole = re.findall(r'<span class="whole">([^<]*)</span>', html)
    assert [word for word in whole if half_figures(word) * PHONE_FIGURE / 2 > PHONE_TEXT] == []


def blocks_with_breaks(html: str) -> list[str]:
    """The text of the paragraphs, items and cells of a page, its no-break spaces kept."""
    blocks = re.findall(r"<(?:p|li|h\d|td|th)\b[^>]*>(.*?)</(?:p|li|h\d|td|th)>", html, re.DOTALL)
    return [re.sub(r"<[^>]*>", "", block) for block in blocks]


def test_the_figures_of_a_long_table_stand_in_line() -> None:
    by_column: dict[int, set[float]] = {}
    for each in printed("coat"):
        if each.column and NUMBER.fullmatch(each.text.strip()) and len(each.text.strip()) > 2:
            by_column.setdefault(each.column, set()).add(round(each.right, 1))
    columns = {column: ends for column, ends in by_column.items() if column > 2}
    assert len(columns) == 8
    assert all(len(ends) == 1 for ends in columns.values())


def test_a_measure_keeps_its_two_units_on_one_page() -> None:
    table = SizeTable(tuple(size_line(f"Edge {k}", length(*[10 + k] * 3)) for k in range(40)))
    lines = lines_of(document(sizes_of("S M L", (2,)), front=(Section("sizes", "Sizes", (table,)),)))
    pages = [{each.page for each in lines if each.text.startswith(f"Edge {k},")} for k in range(40)]
    assert all(len(on) == 1 for on in pages)
    assert len({page for on in pages for page in on}) > 1


@pytest.mark.parametrize("before", range(0, 36, 5))
def test_a_table_leaves_no_less_than_three_rows_on_a_page(before: int) -> None:
    words = Table(
        (line("Edge"), line("How"), line("Why")), tuple((line(f"E{k}"), line("a"), line("b")) for k in range(7))
    )
    rows_before = tuple(row(f"Row {k}:", "Sc across.", (0, 1, 2)) for k in range(before))
    whole = document(sizes_of("S M L", (2,)), *rows_before, words)
    on_page = [each.page for each in lines_of(whole) if re.fullmatch(r"E\d", each.text.strip())]
    assert len(on_page) == 7
    assert all(on_page.count(page) >= 3 for page in on_page)


def test_a_short_list_stays_on_one_page() -> None:
    for before in range(26, 36):
        rows_before = tuple(row(f"Row {k}:", "Sc across.", (0, 1, 2)) for k in range(before))
        whole = document(sizes_of("S M L", (2,)), *rows_before, Bullets((line("Item 1"), line("Item 2")), False))
        assert len({each.page for each in lines_of(whole) if "Item" in each.text}) == 1


def test_one_size_stands_near_its_measure() -> None:
    lines = lines_of(choose_sizes(coat(), (3,)))
    figures = [each for each in lines if each.column == 1 and NUMBER.fullmatch(each.text.strip())]
    assert figures
    half_of_the_page = 105 * 96 / 25.4
    assert all(each.right < half_of_the_page + 40 for each in figures)


def test_many_abbreviations_stand_in_two_halves_on_one_page() -> None:
    for before in range(26, 36, 3):
        cells = tuple((line(f"A{k}"), line(f"meaning {k}")) for k in range(15))
        rows_before = tuple(row(f"Row {k}:", "Sc across.", (0, 1, 2)) for k in range(before))
        whole = document(sizes_of("S M L", (2,)), *rows_before, Table((line("Short"), line("In full")), cells))
        found = [each for each in lines_of(whole) if re.fullmatch(r"A\d+", each.text.strip())]
        assert [each.text.strip() for each in found] == [f"A{k}" for k in range(15)]
        assert len({each.page for each in found}) == 1
        assert sorted({round(each.left) for each in found}) == [round(found[0].left), round(found[-1].left)]
        assert found[-1].left > found[0].left + 100


def test_a_narrow_page_changes_no_word() -> None:
    whole = set_type(coat())
    assert document_blocks(fit_lines(whole, 12)) == document_blocks(whole)


def test_all_sizes_of_a_step_fit_whichever_are_chosen() -> None:
    for chosen in (TEN[:1], TEN[:4], TEN[3:]):
        assert [each for each in lines_of(choose_sizes(coat(), chosen)) if not each.is_inside] == []


def test_lines_follow_each_other_down_the_page() -> None:
    """So that the tests above look at lines in reading order."""
    assert all(before.page <= after.page for before, after in pairwise(printed("coat")))
