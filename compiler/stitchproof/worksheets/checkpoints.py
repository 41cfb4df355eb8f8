"""What a tester is asked at which line: the stitches she has there, and how long her piece is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.expansion.document import (
    Block,
    Document,
    Heading,
    Number,
    Passage,
    Piece,
    Role,
    Step,
    Text,
    Times,
    Token,
    Word,
    inlines_of,
)
from stitchproof.measures.dimension import LENGTH, WEIGHT


class GaugeAsked(Struct, frozen=True):
    """A gauge that a tester measures. stitches, rows: over `over` cm, as the pattern has them; None where it does not say."""

    name: str
    stitches: Fraction | None
    rows: Fraction | None
    rows_noun: str
    over: Fraction


class Checkpoint(Struct, frozen=True):
    """A line where a tester stops. line: its number in her copy. counts: the stitches the pattern states there, in the
    order it names them; cm: the lengths it states. Exact."""

    line: int
    piece: str
    words: str
    counts: tuple[Fraction, ...]
    cm: tuple[Fraction, ...]

    @property
    def asks_count(self) -> bool:
        """Whether stitches are to be counted here."""
        return bool(self.counts)

    @property
    def asks_cm(self) -> bool:
        """Whether a length is to be measured here."""
        return bool(self.cm)


class Worksheet(Struct, frozen=True):
    """What one size of a pattern is asked. grams: the yarn that its list of materials states, or None."""

    title: str
    revision: str
    size: str
    checkpoints: tuple[Checkpoint, ...]
    gauges: tuple[GaugeAsked, ...]
    grams: Fraction | None


def worksheet_for(document: Document, gauges: tuple[GaugeAsked, ...]) -> Worksheet:
    """The worksheet for a Document of one size. Raises ValueError for one of more sizes."""
    if len(document.sizes.chosen) != 1:
        raise ValueError("a tester works one size")
    (size,) = document.sizes.chosen
    block = document.title_block
    points = tuple(_checkpoints(document, size))
    return Worksheet(block.title, block.revision, document.sizes.names[size], points, gauges, _grams(document, size))


def _checkpoints(document: Document, size: int) -> Iterator[Checkpoint]:
    """The last stated count of every stretch between headings, and every line that says what the piece measures."""
    line = 0
    for piece in document.pieces:
        for stretch in _stretches(piece):
            numbered = [(line + place, step) for place, step in enumerate(stretch, 1)]
            line += len(stretch)
            counted = [place for place, step in numbered if _of_role(step, Role.STATED_COUNT)]
            last = counted[-1] if counted else 0
            for place, step in numbered:
                counts = _values(_of_role(step, Role.STATED_COUNT), size) if place == last else ()
                cm = _values(_lengths(step), size)
                if counts or cm:
                    yield Checkpoint(place, _words(piece.heading.inlines, size), _named(step, size), counts, cm)


def _stretches(piece: Piece) -> Iterator[list[Step]]:
    """The steps of a piece between its headings, in the order in which they are read."""
    stretch: list[Step] = []
    for block in _opened(piece.blocks):
        if isinstance(block, Step):
            stretch.append(block)
        elif stretch:
            yield stretch
            stretch = []
    if stretch:
        yield stretch


def _opened(blocks: Iterable[Block]) -> Iterator[Heading | Step]:
    for block in blocks:
        if isinstance(block, Passage | Times):
            yield from _opened(block.blocks)
        elif isinstance(block, Heading | Step):
            yield block


def _of_role(step: Step, role: Role) -> list[Number]:
    """Of the last part that states a count: the numbers of its last statement."""
    found: list[Number] = []
    for part in step.parts:
        here = [token for token in part.tokens if isinstance(token, Number) and token.role is role]
        found = here or found
    return found


def _lengths(step: Step) -> list[Number]:
    said = any(isinstance(inline, Text) and "measure" in inline.text.lower() for inline in inlines_of(step))
    return [inline for inline in inlines_of(step) if said and isinstance(inline, Number) and inline.dimension == LENGTH]


def _values(numbers: Iterable[Number], size: int) -> tuple[Fraction, ...]:
    values = [number.values[size] for number in numbers if size in number.served]
    return tuple(value for value in values if isinstance(value, Fraction))


def _named(step: Step, size: int) -> str:
    """A step's label; where it has none, its words up to what is asked."""
    label = _words(step.label, size).strip(" :")
    if label:
        return label
    tokens = [token for part in step.parts for token in part.tokens]
    asked = [place for place, token in enumerate(tokens) if isinstance(token, Number) and _is_asked(token)]
    return _words(tokens[: asked[0]] if asked else tokens, size).rstrip(" —(.")


def _is_asked(number: Number) -> bool:
    """Whether it is an answer that the tester is to find herself."""
    return number.role is Role.STATED_COUNT or number.dimension == LENGTH


def _words(tokens: Iterable[Token | object], size: int) -> str:
    said = []
    for token in tokens:
        match token:
            case Text(text=text) | Word(as_written=text):
                said.append(text)
            case Number(values=values):
                said.append(_told(values[size]))
    return " ".join("".join(said).split())


def _told(value: object) -> str:
    if not isinstance(value, Fraction):
        return "–"
    return str(value.numerator) if value.denominator == 1 else f"{float(value):.1f}"


def _grams(document: Document, size: int) -> Fraction | None:
    """All weights in the list of materials."""
    blocks = [block for section in document.front if section.key == "materials" for block in section.blocks]
    numbers = [each for block in blocks for each in inlines_of(block) if isinstance(each, Number)]
    weights = _values((number for number in numbers if number.dimension == WEIGHT), size)
    return sum(weights, Fraction(0)) if weights else None
