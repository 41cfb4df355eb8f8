"""Reads pages back: the text blocks of an HTML page, of a PrintDocument and of a PDF, blanks made plain."""

from collections.abc import Iterator, Mapping
from functools import cache
from html.parser import HTMLParser
from io import BytesIO
from itertools import groupby

from pypdf import PdfReader

from stitchproof.editions.edition import Edition, make_editions
from stitchproof.editions.html import Draft
from stitchproof.editions.print_document import (
    EmphasisText,
    LinkText,
    PrintBlock,
    PrintBullets,
    PrintCaution,
    PrintDocument,
    PrintFigure,
    PrintForSizes,
    PrintHeading,
    PrintInline,
    PrintNote,
    PrintPassage,
    PrintProse,
    PrintSchematics,
    PrintSizeTable,
    PrintStep,
    PrintTable,
    PrintTablesAbreast,
    PrintTutorial,
    SizeRow,
    StrongText,
    Vector,
    visible_text,
)
from tests.editions.samples import mitt, yoke

BLOCKS = {"h1", "h2", "h3", "h4", "h5", "h6", "p", "li", "th", "td", "figcaption"}
NO_WORDS: Mapping[str, str] = {}
SAMPLES = {"mitt": mitt, "yoke": yoke}


@cache
def edition_of(sample: str, errors: int | None = None, marked: str = "") -> Edition:
    """The edition in all sizes of a sample, made once for all tests."""
    draft = None if errors is None else Draft(errors, {marked: ("the row does not add up",)})
    return make_editions(SAMPLES[sample](), ["all_sizes"], (), draft)[0]


def html_of(edition: Edition) -> str:
    return next(file.content for file in edition.files if file.name.endswith(".html")).decode()


def pdf_of(edition: Edition) -> PdfReader:
    return PdfReader(BytesIO(next(file.content for file in edition.files if file.name.endswith(".pdf"))))


def plain(text: str) -> str:
    """Text with every blank a plain one and without the joiner that no reader sees."""
    return " ".join(text.replace("\N{WORD JOINER}", "").split())


def html_blocks(html: str) -> list[str]:
    """The text of every block element outside the list of links, in order."""
    reader = _BlockReader()
    reader.feed(html)
    return [text for text in map(plain, reader.blocks) if text]


class _BlockReader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.blocks: list[str] = []
        self.inside = False
        self.left_out = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.left_out += tag in ("nav", "style", "title")
        if tag in BLOCKS and not self.left_out:
            self.blocks.append("")
            self.inside = True
        elif tag == "br":
            self.handle_data(" ")

    def handle_endtag(self, tag: str) -> None:
        self.left_out -= tag in ("nav", "style", "title")
        self.inside = self.inside and tag not in BLOCKS

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.blocks[-1] += data


def document_blocks(document: PrintDocument, words: Mapping[str, str] = NO_WORDS) -> list[str]:
    """What the sections of a PrintDocument have to show, block by block, without any template."""
    texts: list[str] = []
    for section in document.sections:
        texts.append(visible_text(section.title))
        texts.append(section.tag)
        for block in section.blocks:
            texts.extend(block_texts(block, words))
        if section.key == "sizes":
            texts.append(document.how_to_read)
    return [text for text in map(plain, texts) if text]


def block_texts(block: PrintBlock, words: Mapping[str, str] = NO_WORDS) -> list[str]:
    match block:
        case PrintStep():
            return _step_texts(block)
        case PrintHeading() | PrintProse():
            return [visible_text(block.inlines)]
        case PrintBullets():
            return [visible_text(item) for item in block.items]
        case PrintTable():
            heads = [visible_text(cell) for cell in block.head]
            told = words.get("tables") == "in lines" and len(heads) > 2
            before = [f"{head}: " for head in heads] if told else [""] * len(heads or block.rows[0])
            rows = [[head + visible_text(cell) for head, cell in zip(before, row, strict=True)] for row in block.rows]
            return [*heads, *(text for row in rows for text in row)]
        case PrintTablesAbreast():
            return [text for half in block.halves for text in block_texts(half, words)]
        case PrintSizeTable():
            if words.get("tables") == "in lines":
                return _measure_lines(block)
            if len(block.columns) == 1:
                return _measures(block)
            head = ["Size", *(f"{column.called} {column.name}" for column in block.columns)]
            rows = [[_measure(row.label, row.unit), *(cell.text for cell in row.cells)] for row in block.rows]
            return head + [text for row in rows for text in row]
        case PrintFigure():
            return [visible_text(block.caption)]
        case PrintTutorial():
            return [f"{visible_text(block.words)} ({block.address})"]
        case PrintSchematics():
            titles = [f"{visible_text(each.title)} {each.drawn_for}" for each in block.drawings]
            return [block.drawn_for, *titles, *(block_texts(block.table, words) if block.table else ())]
        case PrintPassage():
            return [block.tag, *(text for inner in block.blocks for text in block_texts(inner, words))]
        case PrintNote() | PrintForSizes():
            return [text for inner in block.blocks for text in block_texts(inner, words)]
        case PrintCaution():
            tag = f"Caution. {block.tag}" if block.tag else "Caution"
            return [tag, *(text for inner in block.blocks for text in block_texts(inner, words))]


def _by_label(table: PrintSizeTable) -> Iterator[tuple[str, list[SizeRow]]]:
    for label, rows in groupby(table.rows, key=lambda row: visible_text(row.label)):
        yield label, list(rows)


def _measure_lines(table: PrintSizeTable) -> list[str]:
    """A paragraph for each measure: its name, then a line for each unit."""
    return [" ".join([label, *(row.vector.text for row in rows)]) for label, rows in _by_label(table)]


def _measures(table: PrintSizeTable) -> list[str]:
    """One size: a column for each unit."""
    units = list(dict.fromkeys(row.unit for row in table.rows))
    (column,) = table.columns
    texts = [f"Size {column.called} {column.name}", *units]
    for label, rows in _by_label(table):
        cells = {row.unit: row.cells[0].text + row.mark for row in rows}
        texts += [label, *(cells.get(unit, "") for unit in units)]
    return texts


def _measure(label: tuple[PrintInline, ...], unit: str) -> str:
    return visible_text(label) + (f", {unit}" if unit else "")


def _step_texts(step: PrintStep) -> list[str]:
    label = (f"{step.number} " if step.number else "") + visible_text(step.label)
    first, *others = step.lines
    opening = (
        [label, f"{first.tag} {visible_text(first.inlines)}"] if first.tag else [label + visible_text(first.inlines)]
    )
    return opening + [f"{line.tag} {visible_text(line.inlines)}" for line in others]


def vectors_in(blocks: tuple[PrintBlock, ...]) -> Iterator[Vector]:
    """Every number of some blocks, in the order they are read."""
    for block in blocks:
        match block:
            case PrintStep():
                for line in (block.label, *(each.inlines for each in block.lines)):
                    yield from line_vectors(line)
            case PrintHeading() | PrintProse():
                yield from line_vectors(block.inlines)
            case PrintPassage() | PrintNote() | PrintCaution():
                yield from vectors_in(block.blocks)
            case _:
                pass


def line_vectors(line: tuple[PrintInline, ...]) -> Iterator[Vector]:
    for inline in line:
        match inline:
            case Vector():
                yield inline
            case StrongText() | EmphasisText() | LinkText():
                yield from line_vectors(inline.inlines)
            case _:
                pass
