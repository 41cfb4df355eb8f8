"""The lines of `materials`, and the numbers in them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.expansion.document import Number
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.values import PerSize
from stitchproof.reading.pattern_source import Words
from stitchproof.source import Span

CM_PER_METRE = 100
IN_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


class PartsCount(Struct, frozen=True):
    """A number of parts, listed or asked for. in_full: whether it must be all of them, not a share or a bound.

    typed: written as digits or a word, the same in all sizes.
    """

    values: PerSize
    span: Span
    in_full: bool
    typed: bool = False


def materials_lines(expanded: ExpandedPattern) -> Iterator[Line]:
    """Each line of `materials`, in order."""
    return found_in(parts_of(expanded.document), _within, expanded.sized.source.header.materials)


def _within(part: Part, materials: tuple[Words, ...]) -> Iterator[Line]:
    for line in part.lines:
        span = line.tokens[0][1].place.span
        places = (each.span for each in materials if each.span.file is span.file)
        if any(each.start <= span.start and span.end <= each.end for each in places):
            yield line


def number_values(line: Line, match: re.Match[str], group: str, sizes: int) -> PerSize:
    """A number that a pattern found in a line, one value per size: a slot, digits, or a word such as "five"."""
    slot = line.number_at(match.start(group))
    if slot is not None:
        return slot.values
    word = match[group].lower()
    number = Fraction(word) if word.isdecimal() else Fraction(IN_WORDS.index(word) + 1 if word in IN_WORDS else 1)
    return (number,) * sizes


def text_in_size(line: Line, size: int) -> str:
    """A line as one size reads it; lengths exact in m, weights exact in g. "" where a number has no value there."""
    found = []
    for at, token in line.tokens:
        if not isinstance(token, Number):
            found.append(line.text[at : at + len(token.text if hasattr(token, "text") else token.as_written)])
            continue
        value = token.values[size] if size in token.served else None
        if not isinstance(value, Fraction):
            return ""
        unit = {LENGTH: " m", WEIGHT: " g"}.get(token.dimension, "")
        found.append(f"{value / CM_PER_METRE if unit == ' m' else value}{unit}")
    return "".join(found)


def total_of(listed: Iterable[PartsCount], size: int) -> Fraction | None:
    """All the lines of one kind of part together, in a size; None where one has no number there."""
    values = [each.values[size] for each in listed]
    numbers = [each for each in values if isinstance(each, Fraction)]
    return sum(numbers, Fraction(0)) if len(numbers) == len(values) else None
