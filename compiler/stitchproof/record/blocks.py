"""The lines of a pattern as the record holds them: words and slots for all sizes, the numbers of each size apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.number_text import settings_of, size_text
from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Document,
    Emphasis,
    Figure,
    Heading,
    Inline,
    Link,
    Note,
    Number,
    Passage,
    Prose,
    Role,
    Schematics,
    Served,
    SizeLine,
    SizeTable,
    Step,
    Strong,
    Table,
    Tag,
    Text,
    Times,
    Tutorial,
    Word,
)
from stitchproof.record.names_used import used_in_text
from stitchproof.record.record import RecordedBlock, RecordedSlot, Token
from stitchproof.sizing.sized_pattern import PatternScope

Line = tuple[Inline, ...]
KINDS: dict[type, str] = {
    Heading: "heading",
    Prose: "paragraph",
    Bullets: "item",
    Table: "table row",
    SizeTable: "measure",
    Schematics: "drawn measure",
    Figure: "photo",
    Tutorial: "tutorial",
}
"""What each line of a block is. A table, a list and a drawing are as many lines as they have measures or items."""


class BlockInSizes(Struct, frozen=True):
    """A block, and its numbers: per index of a size that reads it, for each part it reads the numbers as printed."""

    block: RecordedBlock
    numbers: dict[int, tuple[tuple[str, ...], ...]]


class _Around(Struct, frozen=True):
    """What a block stands in."""

    key: str
    title: str
    piece: str
    served: Served
    inside: str = ""
    condition: str = ""
    chosen_by: tuple[str, ...] = ()


def blocks_in_sizes(document: Document, scope: PatternScope) -> tuple[BlockInSizes, ...]:
    """Every block of a pattern, front to back."""
    return tuple(_Blocks(document, scope).all())


class _Blocks:
    """One walk over the document; it knows how many blocks of a kind it met in a section."""

    def __init__(self, document: Document, scope: PatternScope) -> None:
        self.document = document
        self.scope = scope
        self.met: dict[str, int] = {}

    def all(self) -> Iterator[BlockInSizes]:
        document = self.document
        everyone = tuple(range(len(document.sizes.names)))
        for section in document.front:
            yield from self.inside(section.blocks, _Around(section.key, section.title, "", everyone))
        for piece in document.pieces:
            around = _Around(piece.name, _words(piece.heading.inlines), piece.name, piece.served)
            yield from self.inside((piece.heading, *piece.blocks), around)
        for section in (*document.finishing, *document.back):
            yield from self.inside(section.blocks, _Around(section.key, section.title, "", everyone))

    def inside(self, blocks: Iterable[Block], around: _Around) -> Iterator[BlockInSizes]:
        before: tuple[str, ...] = ()
        for block in blocks:
            match block:
                case Passage():
                    served = tuple(size for size in block.served if size in around.served)
                    names = before if block.tag is Tag.OTHER else used_in_text(block.chosen_by, self.scope)
                    before = tuple(dict.fromkeys((*before, *names)))
                    within = _Around(
                        around.key,
                        around.title,
                        around.piece,
                        served,
                        around.inside,
                        block.chosen_by or around.condition,
                        tuple(dict.fromkeys((*around.chosen_by, *names))),
                    )
                    yield from self.inside(block.blocks, within)
                case Times():
                    yield self.made("times", ((Text(f"Make {block.times}:", block.place),),), around)
                    yield from self.inside(block.blocks, around)
                case Note() | Caution():
                    served = block.served if isinstance(block, Caution) else around.served
                    word = "caution" if isinstance(block, Caution) else "note"
                    within = replace(around, served=served, inside=word)
                    yield from self.inside(block.blocks, within)
                case Step():
                    yield self.step(block, around)
                case _:
                    for line in lines_of(block):
                        yield self.made(KINDS[type(block)], (line,), around)

    def step(self, step: Step, around: _Around) -> BlockInSizes:
        parts = (step.label, *(part.tokens for part in step.parts))
        sizes = [around.served, *(tuple(s for s in part.served if s in around.served) for part in step.parts)]
        return self.made("row", parts, around, step.identity, tuple(sizes))

    def made(
        self, kind: str, lines: tuple[Line, ...], around: _Around, identity: str = "", served: tuple[Served, ...] = ()
    ) -> BlockInSizes:
        identity = self._identity(identity or f"{around.key}/{around.inside or kind}", always=not identity)
        lined = [tuple(_opened(line)) for line in lines]
        served = served or (around.served,) * len(lines)
        readers = tuple(s for s in around.served if kind != "row" or any(s in sizes for sizes in served[1:]))
        alike = all(set(readers) <= set(sizes) for sizes in served)
        names = self.document.sizes.names
        block = RecordedBlock(
            identity,
            kind,
            around.title,
            tuple(self._tokens(line) for line in lined),
            () if alike else tuple(tuple(names[size] for size in sizes) for sizes in served),
            around.piece,
            around.inside,
            around.condition,
            around.chosen_by,
        )
        numbers = {
            size: _short(
                tuple(self._numbers(line, size) for line, sizes in zip(lined, served, strict=True) if size in sizes)
            )
            for size in readers
        }
        return BlockInSizes(block, numbers)

    def _identity(self, wanted: str, always: bool) -> str:
        """A row keeps its own; other blocks are numbered, and so is a row of which there are several."""
        self.met[wanted] = self.met.get(wanted, 0) + 1
        number = self.met[wanted]
        return f"{wanted}/{number}" if always or number > 1 else wanted

    def _tokens(self, line: Line) -> tuple[Token, ...]:
        tokens: list[Token] = []
        for inline in line:
            if isinstance(inline, Number):
                role = "" if inline.role is Role.PLAIN else inline.role.value
                tokens.append(RecordedSlot(inline.written, used_in_text(inline.written, self.scope), role))
            else:
                text = _text(inline)
                if tokens and isinstance(tokens[-1], str):
                    tokens[-1] += text
                else:
                    tokens.append(text)
        return tuple(tokens)

    def _numbers(self, line: Line, size: int) -> tuple[str, ...]:
        return tuple(self._number(each, size) for each in line if isinstance(each, Number))

    def _number(self, number: Number, size: int) -> str:
        settings = settings_of(number, self.document.units)
        return " / ".join(f"{size_text(number, each, size)} {each.unit}".rstrip() for each in settings)


def _short(numbers: tuple[tuple[str, ...], ...]) -> tuple[tuple[str, ...], ...]:
    """Nothing, where no part has a number."""
    return numbers if any(numbers) else ()


def lines_of(block: Block) -> tuple[Line, ...]:
    """What stands in a block, line by line: an item of a list, a row of a table, a measure with its label."""
    match block:
        case Heading() | Prose():
            return (block.inlines,)
        case Bullets():
            return block.items
        case Table():
            return tuple(_cells(row) for row in (block.head, *block.rows) if row)
        case SizeTable():
            return tuple(_labelled(line) for line in block.lines)
        case Schematics():
            return tuple(
                _with_words(f"{letter} ", _labelled(line))
                for letter, line in zip(block.letters, block.lines, strict=True)
            )
        case Figure():
            return (_with_words(f"{block.alt} ", block.caption),)
        case Tutorial():
            return (_with_words("", block.words, f" ({block.address})"),)
        case _:
            return ()


def _labelled(line: SizeLine) -> Line:
    return (*line.label, Text(": ", line.number.place), line.number)


def _cells(row: tuple[Line, ...]) -> Line:
    joined: list[Inline] = []
    for number, cell in enumerate(row):
        joined += [*([_plain(" | ")] if number else []), *cell]
    return tuple(joined)


def _with_words(before: str, line: Line, after: str = "") -> Line:
    return (*([_plain(before)] if before else []), *line, *([_plain(after)] if after else []))


class _Said(Struct, frozen=True):
    """Words that the record adds to tell what a page shows by its layout."""

    text: str


def _plain(text: str) -> Inline:
    return _Said(text)  # type: ignore[return-value]


def _opened(line: Line) -> Iterator[Inline]:
    for inline in line:
        if isinstance(inline, Strong | Emphasis | Link):
            yield from _opened(inline.inlines)
            if isinstance(inline, Link):
                yield _plain(f" ({inline.address})")
        else:
            yield inline


def _text(inline: Inline) -> str:
    match inline:
        case Word(as_written=text):
            return text
        case Text(text=text) | _Said(text=text):
            return text
    raise AssertionError(f"{type(inline).__name__} is opened up before")


def _words(line: Line) -> str:
    return "".join(_text(each) for each in _opened(line) if not isinstance(each, Number)).strip()
