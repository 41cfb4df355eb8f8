"""A pattern in its parts, each with its lines and with what the rules found in them.

While a pattern is followed, most of its parts are those of the check before. What a rule finds in one part, going by nothing
else, need not be found again; so rules on wording look part by part, and put together what they found.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from typing import TypeVar, cast

from stitchproof.checks.pattern_lines import Kind, Line, lines_in, words_in
from stitchproof.expansion.document import (
    Block,
    Caution,
    Document,
    Heading,
    Inline,
    Note,
    Number,
    Passage,
    Piece,
    Prose,
    Schematics,
    SizeTable,
    Step,
    Table,
    Text,
    Times,
    inlines_of,
    steps_of,
)
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.reading.pattern_source import Header
from stitchproof.source import Place

MOST_KEPT = 256
"""Parts that are remembered; a pattern has some twenty in each of the three Documents that a check makes."""
MOST_DOCUMENTS = 4
"""Documents that hold their parts together, however many these are; a check asks for three."""
Found = TypeVar("Found")


class Part:
    """A piece or a section: its blocks, its lines in reading order, and the other words that it prints, as of its tables."""

    def __init__(self, blocks: tuple[Block, ...], lines: Iterable[Line], cells: Iterable[Line]) -> None:
        self.blocks, self.lines, self.cells = blocks, tuple(lines), tuple(cells)
        self._found: dict[Callable[..., object], tuple[tuple[object, ...], tuple[object, ...]]] = {}

    @property
    def printed(self) -> tuple[Line, ...]:
        """All that it prints."""
        return (*self.lines, *self.cells)

    def numbers_in_steps(self) -> Iterator[tuple[Step, Number]]:
        """Every slot of a step."""
        for step in steps_of(self.blocks):
            yield from ((step, token) for token in inlines_of(step) if isinstance(token, Number))

    def found(self, find: Callable[..., Iterable[Found]], *given: object) -> tuple[Found, ...]:
        """What `find` finds in this part. It takes the part and what is given, which is compared, and goes by nothing else."""
        held = self._found.get(find)
        if held is None or held[0] != given:
            held = self._found[find] = given, tuple(find(self, *given))
        return cast(tuple[Found, ...], held[1])


_parts: dict[tuple[int, ...], tuple[tuple[object, ...], Part]] = {}
"""By the identities of what a part is made from. That is held with it: an identity may not go to others meanwhile."""
_documents: dict[int, tuple[Document, tuple[Part, ...]]] = {}


def parts_of(document: Document) -> tuple[Part, ...]:
    """The notes before the pieces, the pieces, the finishing, and what follows it, in reading order."""
    held = _documents.get(id(document))
    if held is None:
        parts = (
            *(_once(_front, each.blocks) for each in document.front),
            *map(part_of, document.pieces),
            *(_once(_finishing, each.blocks) for each in document.finishing),
            *(_once(_back, each.blocks) for each in document.back),
        )
        if len(_documents) >= MOST_DOCUMENTS:
            del _documents[next(iter(_documents))]
        held = _documents[id(document)] = document, parts
    return held[1]


def printed_parts(expanded: ExpandedPattern) -> tuple[Part, ...]:
    """What pattern.yaml gives to be printed, and the parts of the document."""
    header = expanded.sized.source.header
    return _once(_given, header), _once(_summary, expanded.document.title_block.summary), *parts_of(expanded.document)


def found_in(parts: Iterable[Part], find: Callable[..., Iterable[Found]], *given: object) -> Iterator[Found]:
    """What `find` finds in some parts, one after the other."""
    return (found for part in parts for found in part.found(find, *given))


def lines_of(document: Document) -> Iterator[Line]:
    """Every line of the notes before the pieces, of the pieces and of the finishing, in reading order."""
    return (line for part in parts_of(document) for line in part.lines)


def part_of(piece: Piece) -> Part:
    """A piece of a Document."""
    return _once(_piece, piece.name, piece.heading, piece.blocks)


def lines_of_piece(piece: Piece) -> tuple[Line, ...]:
    """Every heading, step and line of a note of a piece, in reading order."""
    return part_of(piece).lines


def instructions_of(document: Document) -> Iterator[Line]:
    """The lines that tell the maker what to do: the steps, and the words of the finishing."""
    return (line for line in lines_of(document) if line.is_instruction)


def _once(make: Callable[..., Part], *made_from: object) -> Part:
    key = (id(make), *map(id, made_from))
    held = _parts.get(key)
    if held is None:
        if len(_parts) >= MOST_KEPT:
            del _parts[next(iter(_parts))]
        held = _parts[key] = made_from, make(*made_from)
    return held[1]


def _front(blocks: tuple[Block, ...]) -> Part:
    return Part(blocks, lines_in(blocks, Kind.FRONT, ""), _cells(blocks))


def _finishing(blocks: tuple[Block, ...]) -> Part:
    return Part(blocks, lines_in(blocks, Kind.FINISHING, ""), _cells(blocks))


def _back(blocks: tuple[Block, ...]) -> Part:
    return Part(blocks, (), _cells(blocks))


def _piece(name: str, heading: Heading, inside: tuple[Block, ...]) -> Part:
    blocks = (heading, *inside)
    return Part(blocks, lines_in(blocks, Kind.STEP, name), _cells(inside))


def _given(header: Header) -> Part:
    """The title, the names of the sizes, and the special stitches."""
    words = [header.identity.title]
    words += [each for stitch in header.special_stitches for each in (stitch.name, stitch.how) if each]
    texts = [Text(" ".join(each.text.split()), Place(each.span)) for each in words]
    named = zip(header.sizes.names, header.sizes.name_spans, strict=True)
    texts[1:1] = [Text(name, Place(span)) for name, span in named]
    return Part((), (), chain.from_iterable(words_in((each,), Kind.FRONT) for each in texts))


def _summary(inlines: tuple[Inline, ...]) -> Part:
    return Part((), (), words_in(inlines_of(Prose(inlines)), Kind.FRONT))


def _cells(blocks: Iterable[Block]) -> Iterator[Line]:
    """The cells, labels and cautions of some blocks, which are no lines of their own."""
    for block in blocks:
        match block:
            case Table():
                for cell in chain(block.head, *block.rows):
                    yield from words_in(inlines_of(Prose(cell)), Kind.FRONT)
            case SizeTable() | Schematics():
                for line in block.lines:
                    yield from words_in(inlines_of(Prose(line.label)), Kind.FRONT)
            case Caution():
                for inner in block.blocks:
                    yield from words_in(inlines_of(inner), Kind.FRONT)
            case Passage() | Times() | Note():
                yield from _cells(block.blocks)
