"""Every edition of the shipped patterns: the numbers are all there, in order; and each edition keeps what it promises."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator
from functools import cache
from html import unescape
from math import inf
from typing import Any

import pytest
from pypdf import PdfReader
from syrupy.assertion import SnapshotAssertion

from stitchproof.checks.signs_printed import NO_BREAK_HYPHEN, prints
from stitchproof.editions.edition import Edition
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.html import in_order
from stitchproof.editions.print_document import PrintDocument, PrintTable, PrintTablesAbreast, visible_text
from stitchproof.editions.set_type import set_type
from stitchproof.editions.styles import edition_names
from tests.editions.demos import SHIPPED, document_of, made, set_in_one_size
from tests.editions.drawn_pages import drawings_on, schematics_of
from tests.editions.page_text import document_blocks, html_blocks, html_of, pdf_of, plain, vectors_in
from tests.editions.pdf_structure import Element, structure_of, text_marks

NOTHING_TO_SEE = ("Zs", "Zl", "Zp", "Cf", "Cc", "Cn", "Co", "Cs", "Mn")
"""Kinds of signs that show nothing by themselves, or that Unicode has not given away."""
POINTS_PER_CM = 72 / 2.54
SIZE = 1
PAGES = ("all_sizes", "one_size", "large_print", "testers_copy")
SHOWN = [("cobblewick_hat", name) for name in PAGES] + [(name, "all_sizes") for name in SHIPPED[1:]]
"""Pages are made of these alone: a page takes a second."""


def edition(name: str, kind: str) -> tuple[Edition, PrintDocument]:
    if kind == "all_sizes":
        return made(name, kind), set_type(document_of(name))
    return made(name, kind, SIZE), set_in_one_size(name, SIZE)


@cache
def pdf(name: str, kind: str) -> PdfReader:
    """Read once for all tests: what was looked up in it stays looked up."""
    return pdf_of(edition(name, kind)[0])


@cache
def texts(name: str, kind: str) -> tuple[str, ...]:
    """The text of each page."""
    return tuple(page.extract_text() for page in pdf(name, kind).pages)


@cache
def structure(name: str, kind: str) -> Element:
    return structure_of(pdf(name, kind))


@pytest.mark.parametrize(("name", "kind"), SHOWN)
def test_every_number_is_in_the_pdf_in_order(name: str, kind: str) -> None:
    _, printed = edition(name, kind)
    text = "".join(plain(" ".join(texts(name, kind))).split())
    position = 0
    sections = in_order(printed, find_edition(kind, ()).parts)
    vectors = [vector for section in sections for vector in vectors_in(section.blocks)]
    assert len(vectors) > 20
    for vector in vectors:
        wanted = "".join(plain(vector.text).split())
        at = text.find(wanted, position)
        assert at >= 0, f"{plain(vector.text)} after {text[position - 40 : position]}"
        position = at + len(wanted)


@pytest.mark.parametrize(("name", "kind"), SHOWN)
def test_title_language_and_no_complaint(name: str, kind: str) -> None:
    found, printed = edition(name, kind)
    reader = pdf(name, kind)
    root: Any = reader.root_object
    assert found.messages == ()
    assert reader.metadata is not None
    assert reader.metadata.title == printed.title.title
    assert str(root["/Lang"]) == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/ID" in reader.trailer
    dated = [key for key in reader.metadata if "Date" in key]
    assert (dated, b"Date" in root["/Metadata"].get_data()) == ([], False)


@pytest.mark.parametrize(("name", "kind"), SHOWN)
def test_every_heading_is_a_bookmark_and_a_heading_to_hear(name: str, kind: str) -> None:
    found, _ = edition(name, kind)
    reader = pdf(name, kind)
    headings = re.findall(r"<h([1-6])[^>]*>(.*?)</h", html_of(found), re.S)
    told = [(int(level), plain(unescape(re.sub(r"<[^>]+>", "", words))).strip()) for level, words in headings]
    assert len(told) > 10
    if kind == "large_print":  # on the screen the list of contents needs no heading
        told.insert(1, (2, "Contents"))
    assert list(bookmarks(reader.outline)) == [words for _, words in told]
    heard = structure(name, kind).all("/H1", "/H2", "/H3", "/H4", "/H5", "/H6")
    assert [int(each.kind[2:]) for each in heard] == [level for level, _ in told]


def bookmarks(outline: Any) -> Iterator[str]:
    for each in outline:
        if isinstance(each, list):
            yield from bookmarks(each)
        else:
            yield plain(str(each["/Title"])).strip()


@pytest.mark.parametrize(("name", "kind"), SHOWN)
def test_all_that_is_text_is_heard_once_and_nothing_else(name: str, kind: str) -> None:
    """Names and numbers of pages, and a tester's watermark, are artifacts: nobody hears them in the middle of a row."""
    reader = pdf(name, kind)
    heard = Counter(mark for each in structure(name, kind).all() for mark in each.marked)
    assert set(heard.values()) == {1}
    for page in range(len(reader.pages)):
        painted = list(text_marks(reader, page))
        numbers = {(page, mark) for mark in painted if mark != "artifact"}
        assert numbers <= set(heard)
        assert painted.count("artifact") >= {"large_print": 1, "testers_copy": 4}.get(kind, 3)
    parts = [each.kind for each in structure(name, kind).kids]
    assert parts.count("/Part") == 1
    assert "/P" not in parts


@pytest.mark.parametrize(("name", "kind"), SHOWN)
def test_the_structure_holds_what_each_of_its_kinds_may(name: str, kind: str) -> None:
    """From memory of ISO 32000-1, 14.8.4, and ISO 14289-1: headers with a scope, lists of items, captions in their figures."""
    reader = pdf(name, kind)
    document = structure(name, kind)
    for table in document.all("/Table"):
        for head in table.all("/THead"):
            assert {cell.facts["/A"]["/Scope"] for cell in head.all("/TH")} == {"/Column"}
        for body in table.all("/TBody"):
            assert {cell.facts["/A"]["/Scope"] for cell in body.all("/TH")} == {"/Row"}
    assert all(kid.kind == "/LI" for each in document.all("/L") for kid in each.kids)
    assert not [1 for each in document.all("/H1", "/H2", "/H3", "/P") for kid in each.kids if kid.kind == each.kind]
    figures = list(document.all("/Figure"))
    assert len(figures) == len(list(document.all("/Caption"))) >= 1
    for figure in figures:
        assert "Outline of" in figure.facts["/Alt"]
        assert [kid.kind for kid in figure.kids] == ["/Caption"]
        left, low, right, high = (float(side) for side in figure.facts["/A"]["/BBox"])
        width, height = (float(side) for side in reader.pages[figure.page].mediabox[2:])
        assert 0 < left < right < width
        assert 0 < low < high < height


@pytest.mark.parametrize(("name", "kind"), SHOWN)
def test_all_fonts_are_the_packaged_ones_and_embedded(name: str, kind: str) -> None:
    reader = pdf(name, kind)
    fonts: dict[str, Any] = {}
    for page in reader.pages:
        resources: Any = page["/Resources"]
        fonts.update(resources["/Font"])
    assert fonts
    for font in fonts.values():
        (inner,) = font.get_object()["/DescendantFonts"]
        described = inner.get_object()["/FontDescriptor"]
        assert re.search(r"\+Source-?(?:Sans|Serif)-?Pro", str(described["/FontName"]))
        assert "/FontFile3" in described


def test_a_drawing_is_told_in_words() -> None:
    """On the screen title and description, named by the drawing (WAI-ARIA 1.2, `aria-labelledby`); on paper the title alone,
    which is what the renderer makes the alternative text of a figure."""
    printed = set_type(document_of("cobblewick_hat"))
    html = html_of(made("cobblewick_hat", "all_sizes"))
    said = re.findall(r'aria-labelledby="(\w+) (\w+)"', html)
    assert len(said) == len(set(said)) == 2
    for title, description in said:
        assert html.count(f'id="{title}"') == html.count(f'id="{description}"') == 1
    block = schematics_of(printed)
    assert block.drawn_for.startswith("All pieces are drawn to one scale, for size 4 Adult")
    assert "Hat circumference, 55 cm / 21¾ in" in block.drawings[1].in_words
    paper = drawings_on(printed)[1].root.find("{http://www.w3.org/2000/svg}title")
    assert paper is not None
    assert paper.text == block.drawings[1].in_words


@pytest.mark.parametrize("name", SHIPPED)
def test_the_pdf_holds_every_drawing_whole_with_its_words(name: str) -> None:
    """Letters of a drawing stand on the page of its title; each is a figure with an alternative text (ISO 14289-1, 7.3)."""
    found, printed = edition(name, "all_sizes")
    assert found.messages == ()
    pages = [" ".join(text.split()) for text in texts(name, "all_sizes")]
    for drawing in schematics_of(printed).drawings:
        title = visible_text(drawing.title).split()[0]
        assert any(
            title in page and all(re.search(rf"\b{each.letter}\b", page) for each in drawing.measures) for page in pages
        )
    said = alternative_texts(pdf(name, "all_sizes").root_object["/StructTreeRoot"])
    assert said == [drawing.in_words for drawing in schematics_of(printed).drawings]


def alternative_texts(node: object) -> list[str]:
    """Of every figure in a structure tree, in order."""
    held = getattr(node, "get_object", lambda: node)()
    if isinstance(held, list):
        return [text for each in held for text in alternative_texts(each)]
    if not isinstance(held, dict):
        return []
    own = [str(held["/Alt"])] if held.get("/S") == "/Figure" else []
    return own + (alternative_texts(held["/K"]) if "/K" in held else [])


@pytest.mark.parametrize("name", SHIPPED)
def test_one_size_has_one_number_in_each_place(name: str) -> None:
    sizes = document_of(name).sizes.names
    for size in range(len(sizes)):
        for text in document_blocks(set_in_one_size(name, size)):
            assert not re.search(r"\d \(\d+,", text), text
            assert " – " not in text.replace("2–", ""), text
            assert not re.search(r"\b(?:Sizes? [\d, and]+|other sizes|All sizes)(?: only)?:", text), text
            assert not re.search(r"\b1 (?:sts|rnds|rows|times|balls|markers|ribs)\b", text), text


@pytest.mark.parametrize("name", SHIPPED)
def test_exactly_the_abbreviations_in_use_are_listed(name: str) -> None:
    for size in range(len(document_of(name).sizes.names)):
        printed = set_in_one_size(name, size)
        listed = {
            plain("".join(getattr(inline, "text", "") for inline in row[0])).removesuffix("(s)")
            for section in printed.sections
            if section.key == "abbreviations"
            for block in section.blocks
            for table in (block.halves if isinstance(block, PrintTablesAbreast) else (block,))
            if isinstance(table, PrintTable)
            for row in table.rows
        }
        others = [s for s in printed.sections if s.key != "abbreviations"]
        text = " ".join(document_blocks(PrintDocument(printed.title, (), "", "", tuple(others)))).lower()
        text += plain(" ".join(getattr(inline, "text", "") for inline in printed.title.summary)).lower()
        assert listed
        assert [short for short in listed if not re.search(rf"(?<!\w){re.escape(short.lower())}", text)] == []


def test_an_abbreviation_of_other_sizes_is_left_out() -> None:
    """In the smallest sizes the neckband has no decreases: what only larger sizes work is not listed."""
    used = {size: "hdc2tog" in " ".join(document_blocks(set_in_one_size("cobblewick_hat", size))) for size in (0, 4)}
    assert used == {0: True, 4: True}
    small = " ".join(document_blocks(set_in_one_size("saltmarrow_yoke_top", 0)))
    assert "Sizes" not in small.replace("Sizes and finished", "")


def test_large_print_keeps_its_promises() -> None:
    """Published minimum for low vision (accessiblepatternsindex.com, accessibility tips): 22 pt upright sans serif, 2.5 cm."""
    reader = pdf("cobblewick_hat", "large_print")
    smallest: list[float] = []
    left: list[float] = []
    fonts: set[str] = set()
    for page in reader.pages:

        def seen(text: str, cm: list[float], tm: list[float], font: dict[str, str] | None, size: float) -> None:
            if text.strip():
                drawn = tm[3] < 0  # in a drawing, which counts in millimetres from its own corner
                smallest.append(size * POINTS_PER_CM / 10 if drawn else size * abs(tm[3]) * abs(cm[3]))
                left.append(cm[0] * tm[4] + cm[4] if not drawn else inf)
                fonts.add(str((font or {}).get("/BaseFont", "")))

        page.extract_text(visitor_text=seen)
    assert min(smallest) >= 22 - 0.1
    assert min(left) >= 2.5 * POINTS_PER_CM - 1
    assert fonts
    assert not [font for font in fonts if re.search("italic|oblique|serif", font, re.I)]
    words = " ".join(html_blocks(html_of(made("cobblewick_hat", "large_print", SIZE))))
    assert "Letters of 22 points" in words


def test_a_testers_lines_are_numbered_without_a_gap() -> None:
    html = html_of(made("cobblewick_hat", "testers_copy", SIZE))
    numbers = [int(number) for number in re.findall(r'class="line_number">(\d+)<', html)]
    assert numbers == list(range(1, len(numbers) + 1))
    assert len(numbers) > 15
    assert all("Tester" in page and "revision 1" in page for page in texts("cobblewick_hat", "testers_copy"))


def test_the_worksheet_to_fill_in(snapshot: SnapshotAssertion) -> None:
    files = {file.name: file.content for file in made("cobblewick_hat", "testers_copy", SIZE).files}
    assert files["cobblewick_hat_testers_copy_size_toddler_worksheet.yaml"].decode() == snapshot


@pytest.mark.parametrize("name", SHIPPED)
def test_the_listing_tells_what_a_buyer_decides_by(name: str, snapshot: SnapshotAssertion) -> None:
    files = {file.name.rpartition(".")[2]: file.content.decode() for file in made(name, "listing").files}
    assert files == snapshot


@pytest.mark.parametrize("name", SHIPPED)
def test_nothing_can_be_worked_from_the_listing(name: str) -> None:
    text = made(name, "listing").files[0].content.decode()
    rows = [plain(line) for piece in document_of(name).pieces for line in _lines(piece)]
    assert rows
    assert not [line for line in rows if line in plain(text)]


def _lines(piece: object) -> list[str]:
    from stitchproof.expansion.document import Piece, Text, steps_of

    assert isinstance(piece, Piece)
    words = ["".join(t.text for t in p.tokens if isinstance(t, Text)) for s in steps_of(piece.blocks) for p in s.parts]
    return [each for each in words if len(each) > 20]


def packaged_signs() -> set[int]:
    """What the fonts have that pages are set in."""
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    from stitchproof.editions.fonts import LEFT_OUT, font_folders

    faces = [face for folder in font_folders() for face in sorted(folder.iterdir()) if face.suffix in (".otf", ".ttf")]
    used = [face for face in faces if not any(face.match(pattern) for pattern in LEFT_OUT)]
    assert len(used) == 12
    signs: set[int] = set()
    for face in used:
        with TTFont(face, lazy=True) as font:
            signs.update(font.getBestCmap())
    return signs


def test_the_list_of_signs_is_that_of_the_fonts() -> None:
    held = {ord(sign) for sign in map(chr, range(0x20, 0x20000)) if unicodedata.category(sign) not in NOTHING_TO_SEE}
    fonts = packaged_signs()
    listed = {sign for sign in held if prints(chr(sign), 0)}
    assert listed - fonts == {ord(NO_BREAK_HYPHEN)}
    assert held & fonts == listed - {ord(NO_BREAK_HYPHEN)}


def test_every_sign_of_the_demos_is_in_the_packaged_fonts() -> None:
    held = packaged_signs()
    for name in SHIPPED:
        for printed in (set_type(document_of(name)), set_in_one_size(name, SIZE, "UK")):
            signs = set("".join(document_blocks(printed)))
            assert not {sign for sign in signs if ord(sign) not in held}


def test_every_shipped_edition_is_looked_at_here() -> None:
    """The maker's page is looked at in a browser, in tests/pages."""
    patterns = {name for name in edition_names(()) if find_edition(name, ()).holds == "pattern"}
    assert patterns == {*PAGES, "listing", "makers_page"}
