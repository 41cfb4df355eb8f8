"""The PDF: its page, its counts, its tags, its fonts, and what it refuses to fetch."""

import ast
import logging
import subprocess
import sys
from functools import cache
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from pypdf import PageObject, PdfReader

import stitchproof.editions
from stitchproof.editions import presses
from stitchproof.editions.assets import Asset, Assets
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import Beside, Wanted, make_editions
from stitchproof.editions.pdf import Pdf, write_pdf
from stitchproof.editions.print_document import PrintDocument, Vector
from stitchproof.editions.set_type import set_type
from stitchproof.expansion.document import Block
from tests.editions.page_text import SAMPLES, edition_of, pdf_of, plain, vectors_in
from tests.editions.samples import count, document, heading, row, sizes_of

POINTS_PER_MM = 72 / 25.4
A4 = (210, 297)
"""ISO 216, mm."""
US_LETTER = (215.9, 279.4)
"""ANSI/ASME Y14.1 size A, 8½ by 11 inches, in mm."""


def counts_of(document: PrintDocument) -> list[Vector]:
    return [vector for section in document.sections for vector in vectors_in(section.blocks)]


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_number_stands_in_the_pdf_in_order(sample: str) -> None:
    text = plain(" ".join(page.extract_text() for page in pdf_of(edition_of(sample)).pages))
    position = 0
    vectors = counts_of(set_type(SAMPLES[sample]()))
    assert len(vectors) > 20
    for vector in vectors:
        found = text.find(plain(vector.text), position)
        assert found >= 0, f"{plain(vector.text)} after {text[position - 40 : position]}"
        position = found + len(plain(vector.text))


@pytest.mark.parametrize("sample", SAMPLES)
def test_a_vector_stays_on_one_line(sample: str) -> None:
    lines = [plain(line) for page in pdf_of(edition_of(sample)).pages for line in page.extract_text().splitlines()]
    for vector in counts_of(set_type(SAMPLES[sample]())):
        assert any(plain(vector.text) in line for line in lines), vector.text


@pytest.mark.parametrize("sample", SAMPLES)
def test_a_count_stands_beside_the_word_before_it(sample: str) -> None:
    lines = [plain(line) for page in pdf_of(edition_of(sample)).pages for line in page.extract_text().splitlines()]
    assert not [line for line in lines if line.startswith("—") or line.endswith("—")]


@cache
def page_lines() -> tuple[tuple[str, ...], ...]:
    """The lines of each page of a long piece: rows of four lines and more, each under a heading."""
    blocks: list[Block] = []
    for k in range(45):
        words = "Sc in each of next {n} sts, " * (8 + k % 7)
        blocks.append(heading(3, f"Heading {k}"))
        blocks.append(row(f"Rnd {k}:", f"{words}join. — {{n}} sc", (0, 1, 2), n=count(k, k + 1, k + 2)))
    sizes = sizes_of("S M L", (2,))
    (edition,) = make_editions(document(sizes, *blocks), ["all_sizes"])
    pages = pdf_of(edition).pages
    return tuple(tuple(plain(line) for line in page.extract_text().splitlines() if line.strip()) for page in pages)


def test_a_row_stays_on_one_page() -> None:
    pages = [" ".join(lines) for lines in page_lines()]
    assert len(pages) > 5
    for k in range(45):
        (page,) = [text for text in pages if f"Rnd {k}:" in text]
        assert f"join. — {k} ({k + 1}, {k + 2}) sc" in page


def test_no_heading_is_left_alone_at_the_foot_of_a_page() -> None:
    for lines in page_lines():
        for line, after in pairwise(lines):
            assert not line.startswith("Heading") or after.startswith("Rnd"), line


def test_the_page_fits_a4_and_us_letter_with_broad_margins() -> None:
    for page in pdf_of(edition_of("mitt")).pages:
        width, height = (float(side) / POINTS_PER_MM for side in page.mediabox[2:])
        assert (width, height) == pytest.approx((210, 279.4), abs=0.01)
        assert width <= min(A4[0], US_LETTER[0]) + 0.01
        assert height <= min(A4[1], US_LETTER[1]) + 0.01
        left, right, bottom, top = _printed_box(page)
        assert left >= 15
        assert bottom >= 10
        assert width - right >= 15
        assert height - top >= 10


def _printed_box(page: PageObject) -> tuple[float, float, float, float]:
    """Left and right ends of the text lines and lowest and highest baseline, in mm."""
    spots: list[tuple[float, float]] = []

    def note(text: str, cm: list[float], tm: list[float], font: object, size: float) -> None:
        if text.strip():
            spots.append(((tm[4] * cm[0] + cm[4]) / POINTS_PER_MM, (tm[5] * cm[3] + cm[5]) / POINTS_PER_MM))

    page.extract_text(visitor_text=note)
    across, up = zip(*spots, strict=True)
    return min(across), max(across), min(up), max(up)


def test_every_page_names_pattern_revision_contact_and_page() -> None:
    reader = pdf_of(edition_of("mitt"))
    for number, page in enumerate(reader.pages, 1):
        text = plain(page.extract_text())
        assert "Fernhythe Mitts, Revision 2, 2026-03-14" in text
        assert "help@fernhythe.example" in text
        assert f"Page {number} of {len(reader.pages)}" in text


def test_a_draft_says_so_on_every_page() -> None:
    for page in pdf_of(edition_of("mitt", 2, "hand/Rnd 2")).pages:
        assert "DRAFT with 2 errors" in page.extract_text()
    assert "DRAFT" not in "".join(page.extract_text() for page in pdf_of(edition_of("mitt")).pages)


def test_title_language_outline_and_tags() -> None:
    """Facts that ISO 14289-1 (PDF/UA-1) asks for; no full conformance is claimed."""
    reader = pdf_of(edition_of("mitt"))
    catalog: Any = reader.trailer["/Root"]
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Fernhythe Mitts", "Odile Brandreth")
    assert catalog["/Lang"] == "en"
    assert catalog["/MarkInfo"]["/Marked"]
    assert catalog["/ViewerPreferences"]["/DisplayDocTitle"]
    assert b'pdfuaid:part="1"' in catalog["/Metadata"].get_data()
    kinds = _structure(catalog["/StructTreeRoot"])
    assert {"/H1", "/H2", "/H3", "/P", "/Table", "/TH", "/TD", "/L", "/Link"} <= set(kinds)
    assert _titles(reader.outline)[:3] == ["Fernhythe Mitts", "Sizes and finished measurements", "Materials"]
    assert {"Cuff", "Hand", "Closing the top", "Thumb", "Finishing"} <= set(_titles(reader.outline))


def _structure(node: Any) -> list[str]:
    """The kinds of all structure elements below a node."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        return [kind for child in node for kind in _structure(child)]
    if not isinstance(node, dict) or ("/K" not in node and "/S" not in node):
        return []
    return [str(node.get("/S")), *_structure(node.get("/K", []))]


def _titles(outline: Any) -> list[str]:
    if isinstance(outline, list):
        return [title for each in outline for title in _titles(each)]
    return [str(outline["/Title"])]


def test_only_packaged_fonts_are_used() -> None:
    names = set()
    for page in pdf_of(edition_of("mitt")).pages:
        resources: Any = page["/Resources"]
        for font in resources["/Font"].values():
            names.add(str(font.get_object()["/BaseFont"]).partition("+")[2])
    assert names
    assert all(
        name.startswith(("Source-Sans-Pro", "SourceSansPro", "Source-Serif-Pro", "SourceSerifPro")) for name in names
    )


def test_every_sign_of_the_notation_is_in_the_fonts() -> None:
    signs = "– — − × ″ ½ ¼ ¾ ⅓ ⅔ ⅛ é ü ø ? [ ] * … ’ “ ”"
    faces = ['400 11pt "Source Sans Pro"', '600 11pt "Source Sans Pro"', '400 11pt "Source Serif Pro"']
    paragraphs = "".join(f"<p style='font: {face}'>{signs}</p>" for face in faces)
    pdf = write_pdf(f"<html lang=en><title>Signs</title>{paragraphs}</html>")
    text = PdfReader(BytesIO(pdf.content)).pages[0].extract_text()
    assert text.split() == signs.split() * 3
    assert pdf.messages == ()


def test_the_renderer_has_nothing_to_say_about_our_pages() -> None:
    assert edition_of("mitt").messages == ()
    assert edition_of("yoke").messages == ()


def test_the_same_document_gives_the_same_bytes() -> None:
    edition_of.cache_clear()
    first = edition_of("yoke")
    edition_of.cache_clear()
    assert edition_of("yoke") == first
    assert edition_of("yoke") is not first


ATTACKS = {
    "picture over the network": '<img src="http://127.0.0.1:9/x.png" alt="">',
    "picture from a file": '<img src="file:///etc/hostname" alt="">',
    "picture inside the page": '<img src="data:image/png;base64,iVBORw0KGgo=" alt="">',
    "picture beside the page": '<img src="../x.png" alt="">',
    "style sheet": '<link rel="stylesheet" href="https://127.0.0.1:9/x.css">',
    "import": '<style>@import "file:///etc/hostname";</style>',
    "font": "<style>@font-face{font-family:x;src:url(http://127.0.0.1:9/x.ttf)}p{font-family:x}</style>",
    "background": "<style>p{background:url(file:///etc/hostname)}</style>",
    "attachment": '<link rel="attachment" href="file:///etc/hostname">',
}


@pytest.mark.parametrize("attack", ATTACKS)
def test_nothing_outside_is_fetched_and_each_refusal_is_told(attack: str) -> None:
    pdf = write_pdf(f"<html lang=en><title>x</title><body><p>Text</p>{ATTACKS[attack]}</body></html>")
    assert any(message.startswith("refused to fetch") for message in pdf.messages)
    reader = PdfReader(BytesIO(pdf.content))
    assert not reader.pages[0].images
    assert not reader.attachments


def test_the_record_is_attached_as_data_with_a_time_that_never_changes() -> None:
    """ISO 32000-2, 7.11.3 and 14.13 (from memory): an associated file, its kind of relation, its media type."""
    page, record = "<html lang=en><title>x</title><p>Text</p></html>", b'{"format": "record"}\n'
    content = write_pdf(page, None, record).content
    assert content == write_pdf(page, None, record).content != write_pdf(page).content
    reader = PdfReader(BytesIO(content))
    assert reader.attachments == {"record.json": [record]}
    root: Any = reader.root_object
    (file,) = root["/AF"]
    facts = file.get_object()
    assert (facts["/AFRelationship"], facts["/UF"]) == ("/Data", "record.json")
    assert "as data" in facts["/Desc"]
    held = facts["/EF"]["/F"]
    assert held["/Subtype"] == "/application/json"
    assert {held["/Params"][key] for key in ("/CreationDate", "/ModDate")} == {"D:19800101000000Z"}


def test_a_pdf_with_all_sizes_holds_the_record_and_no_other_does(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[bytes] = []

    def counted(html: str, assets: Assets, record: bytes) -> Pdf:
        asked.append(record)
        return Pdf(b"", ())

    monkeypatch.setattr(presses, "write_pdf", counted)
    monkeypatch.setattr(presses, "processors", lambda: 1)
    document = SAMPLES["mitt"]()
    make_editions(document, ["all_sizes", Wanted("one_size", (0,))], beside=Beside(record=b"record"))
    make_editions(choose_sizes(document, (0, 1)), ["all_sizes"], beside=Beside(record=b"record"))
    assert asked == [b"record", b"", b""]


def test_a_named_asset_is_fetched() -> None:
    square = b'<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"><rect width="10" height="10"/></svg>'
    page = '<html lang=en><title>x</title><p>Text<img src="asset:square.svg" alt="a square"></p></html>'
    assert write_pdf(page, {"square.svg": Asset(square, "image/svg+xml")}).messages == ()
    assert any("asset:other.svg" in each for each in write_pdf(page.replace("square.svg", "other.svg")).messages)


def test_every_message_of_the_renderer_is_handed_on(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.DEBUG):
        pdf = write_pdf("<html lang=en><title>x</title><style>p{colour:red}</style><p>Text</p></html>")
    assert any("colour" in message for message in pdf.messages)
    assert not caplog.records


def test_the_renderer_waits_until_a_pdf_is_asked_for() -> None:
    path = [entry for entry in sys.path if entry]
    asked = "import stitchproof.editions.edition, stitchproof.editions.pdf; print('weasyprint' in sys.modules)"
    code = f"import sys; sys.path[:0] = {path!r}; {asked}"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.strip() == "False"


def test_the_package_itself_imports_nothing() -> None:
    source = Path(str(stitchproof.editions.__file__)).read_text(encoding="utf-8")
    assert not [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Import | ast.ImportFrom)]
