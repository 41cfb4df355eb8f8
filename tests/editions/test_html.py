"""The page on a screen: the same words as on paper, nothing loaded from elsewhere, readable headings and colours.

Contrast is computed as WCAG 2.2 defines it (success criterion 1.4.3: at least 4.5 : 1 for text).
"""

import re
from collections.abc import Callable
from functools import partial
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from msgspec.structs import replace

from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.html import in_order, print_html
from stitchproof.editions.line_numbers import numbered
from stitchproof.editions.set_type import set_type
from stitchproof.editions.styles import edition_names, shipped_styles
from stitchproof.editions.words_in_use import only_words_in_use
from stitchproof.expansion.document import Document
from tests.editions.demos import SHIPPED, document_of
from tests.editions.page_text import SAMPLES, document_blocks, edition_of, html_blocks, html_of, plain
from tests.editions.samples import document, mitt, prose, row, sizes_of

ALL = (0, 1)
NUMBERED = sizes_of("S M", (1,), by_number=True)
FOLDERS = {name: find_edition(name, ()) for name in edition_names(())}
EDITIONS = [name for name, folder in FOLDERS.items() if folder.screen and folder.paper and folder.holds == "pattern"]


PATTERNS: dict[str, Callable[[], Document]] = {**SAMPLES, **{name: partial(document_of, name) for name in SHIPPED}}


@pytest.mark.parametrize("name", EDITIONS)
@pytest.mark.parametrize("pattern", PATTERNS)
def test_screen_and_paper_show_the_same_words_block_by_block(pattern: str, name: str) -> None:
    folder = find_edition(name, ())
    whole = PATTERNS[pattern]()
    chosen = choose_sizes(whole, (1,)) if folder.each_size else whole
    printed = set_type(only_words_in_use(chosen))
    if folder.line_numbers:
        printed = numbered(printed)
    assert folder.screen is not None
    assert folder.paper is not None
    screen = html_blocks(print_html(printed, folder, folder.screen))
    assert screen == html_blocks(print_html(printed, folder, folder.paper))
    in_order_of_edition = replace(printed, sections=in_order(printed, folder.parts))
    expected = document_blocks(in_order_of_edition, folder.words)
    assert screen[screen.index(expected[0]) :][: len(expected)] == expected


def test_every_number_of_a_vector_knows_its_size() -> None:
    html = html_of(edition_of("mitt"))
    first_row = re.search(r'<b class="label">Row\u00a01:</b>.*', html)
    assert first_row is not None
    numbers = re.findall(r'<span data-size="(\d)">([^<]+)</span>', first_row[0])
    assert numbers == [("1", "7"), ("2", "9"), ("3", "11"), ("4", "12"), ("5", "13"), ("6", "13"), ("7", "14")]


class _Outline(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))


def tags_of(html: str) -> list[tuple[str, dict[str, str | None]]]:
    outline = _Outline()
    outline.feed(html)
    return outline.tags


@pytest.mark.parametrize("sample", SAMPLES)
def test_landmarks_headings_and_language(sample: str) -> None:
    tags = tags_of(html_of(edition_of(sample)))
    names = [name for name, _ in tags]
    assert tags[0] == ("html", {"lang": "en"})
    assert [names.count(landmark) for landmark in ("header", "nav", "main", "footer", "h1")] == [1, 1, 1, 1, 1]
    levels = [int(name[1]) for name in names if re.fullmatch(r"h[1-6]", name)]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("sample", SAMPLES)
def test_links_within_the_page_arrive(sample: str) -> None:
    tags = tags_of(html_of(edition_of(sample)))
    places = {facts["id"] for _, facts in tags if "id" in facts}
    leads = {str(facts["href"])[1:] for _, facts in tags if str(facts.get("href", "")).startswith("#")}
    assert leads <= places
    assert len(leads) > 1


@pytest.mark.parametrize("sample", SAMPLES)
def test_nothing_is_loaded_from_elsewhere(sample: str) -> None:
    html = html_of(edition_of(sample))
    tags = tags_of(html)
    assert not {"script", "link", "img", "iframe", "object"} & {name for name, _ in tags}
    assert not [facts for _, facts in tags if "src" in facts]
    assert not re.search(r"url\(|@import|@font-face", html)
    assert "default-src 'none'" in html


def test_text_is_escaped() -> None:
    sharp = document(NUMBERED, prose("<script>alert(1)</script> & more"), row("R<b>:", "<i>Sc</i>", ALL))
    folder = find_edition("all_sizes", ())
    assert folder.screen is not None
    html = print_html(set_type(sharp), folder, folder.screen)
    assert "<script" not in html
    assert "<i>Sc" not in html
    assert "<script>alert(1)</script> & more" in html_blocks(html)


def test_a_draft_says_so_and_marks_the_row() -> None:
    blocks = html_blocks(html_of(edition_of("mitt", 2, "hand/Rnd 2")))
    assert blocks[0] == "DRAFT with 2 errors"
    fault = blocks.index("Fault: the row does not add up")
    assert blocks[fault - 1].startswith("Sizes Tot, S, L and XL only:")
    assert html_blocks(html_of(edition_of("mitt", 1)))[0] == "DRAFT with 1 error"
    assert "DRAFT" not in html_of(edition_of("mitt"))


def test_parts_print_in_the_order_of_the_edition() -> None:
    printed = set_type(mitt())
    keys = [section.key for section in in_order(printed, ("gauge", "pieces", "sizes"))]
    assert keys == [
        "gauge", "cuff", "hand", "thumb", "sizes", "materials", "notes", "cautions", "abbreviations", "finishing",
    ]  # fmt: skip
    assert len(in_order(printed, ())) == len(printed.sections)


def test_a_part_behind_the_pieces_may_have_its_own_place() -> None:
    """Drawings come after the finishing, or wherever an edition names them."""
    printed = set_type(document_of("cobblewick_hat"))
    last = [section.key for section in in_order(printed, ("pieces", "finishing", "schematics", "back"))]
    first = [section.key for section in in_order(printed, ("sizes", "schematics", "materials", "pieces"))]
    assert last[last.index("finishing") + 1] == "schematics"
    assert first[first.index("sizes") + 1] == "schematics"
    assert sorted(first) == sorted(last)


def luminance(colour: str) -> float:
    """Relative luminance of a #rrggbb colour, by WCAG 2.2."""
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_black_and_white_is_21() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize("colour", ["ink", "quiet", "accent"])
def test_text_stands_out_from_the_page(colour: str, scheme: int) -> None:
    style = "".join(
        (shipped_styles() / "parts" / name).read_text(encoding="utf-8") for name in ("tokens.css", "dark.css")
    )
    values = re.findall(rf"--{colour}: (#\w{{6}});", style)
    papers = re.findall(r"--paper: (#\w{6});", style)
    assert contrast(values[scheme], papers[scheme]) >= 4.5


def test_words_of_a_row_are_read_in_one_go() -> None:
    """A screen reader gets the row as one paragraph of text: label, words, count."""
    assert "Row 2: Ch 1, sc-blo in each st across, turn. — 7 (9, 11, 12) (13, 13, 14) sc" in map(
        plain, html_blocks(html_of(edition_of("mitt")))
    )
