"""A slot: a formula in the text, `<cuff_rows>`, with an optional way of printing, `<bust as cm>`."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.nearest import nearest
from stitchproof.expressions import expression
from stitchproof.formulas.faults.formula_not_readable import formula_not_readable
from stitchproof.formulas.faults.slot_not_closed import comparison_in_slot, slot_not_closed, slot_without_name
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Formula
from stitchproof.measures.units import UNITS
from stitchproof.source import Span


class PrintAs(Enum):
    """How a slot asks its number to be printed."""

    USUAL = "usual"
    MM = "mm"
    CM = "cm"
    INCHES = "in"
    METRES = "m"
    YARDS = "yd"
    GRAMS = "g"
    OUNCES = "oz"
    WORDS = "words"
    TIMES = "times"
    ORDINAL = "ordinal"
    PERCENT = "percent"
    DECIMAL = "decimal"

    @property
    def is_length(self) -> bool:
        return self in (PrintAs.MM, PrintAs.CM, PrintAs.INCHES, PrintAs.METRES, PrintAs.YARDS)

    @property
    def is_weight(self) -> bool:
        return self in (PrintAs.GRAMS, PrintAs.OUNCES)

    @property
    def is_share(self) -> bool:
        """A way of printing a plain number that is no count."""
        return self in (PrintAs.PERCENT, PrintAs.DECIMAL)


class Slot(Struct, frozen=True):
    """`span` covers the angle brackets."""

    formula: Formula
    print_as: PrintAs
    span: Span


_OPENING = expression(r"(?<!\\)<(?:(?=[^\W\d]|[\d(])(?!https?://|mailto:)|(?P<empty>[ \t]*>))")
_COMPARISON = expression(r"=?[ \t]*[\w(.-][^<>\n]*>")
"""What follows a `>` that compares and closes nothing: another value, and the `>` that does close."""
_AS = expression(r"\s+as\s+(\w+|%)\s*$")


def slots_in(span: Span) -> Iterator[Slot | Diagnostic]:
    """Every slot in a stretch of text, in order, or the report of why it cannot be read."""
    position = 0
    while opening := _OPENING.search(span.text, position):
        if opening["empty"]:
            position = opening.end()
            yield slot_without_name(span.part(opening.start(), opening.end()))
            continue
        end = _closing(span.text, opening.end())
        if end is None:
            line_end = span.text.find("\n", opening.start())
            stop = len(span.text) if line_end < 0 else line_end
            yield slot_not_closed(span.part(opening.start(), stop))
            # Where nothing more closes on the line, the slots behind it are not closed either: one cause, one report.
            position = opening.end() if ">" in span.text[opening.end() : stop] else stop
            continue
        position = end + 1
        comparison = _COMPARISON.match(span.text, end + 1) if _could_be_compared(span.text, end) else None
        if comparison:
            position = comparison.end()
            yield comparison_in_slot(span.part(opening.start(), position))
            continue
        if "@" in span.text[opening.end() : end]:
            continue  # an e-mail address in angle brackets is Markdown's
        yield _slot(span.part(opening.start(), end + 1))


def _no_way_of_printing(word: Span, names: list[str]) -> Diagnostic:
    """The report of a word after `as` that is none; the nearest is offered, `in` for `inches`."""
    unit = UNITS[word.text].noun if word.text in UNITS else "percent" if word.text == "%" else ""
    near = unit if unit in names else nearest(word.text, names)
    known = f"after `as` write {', '.join(names[:-1])} or {names[-1]}"
    return formula_not_readable(
        word, f"`{word.text}` is not a way of printing", f"write `as {near}`; {known}" if near else known
    )


def _closing(text: str, start: int) -> int | None:
    """Where the slot that begins at `start` closes: the first > outside round brackets, on the same line."""
    depth = 0
    for position in range(start, len(text)):
        character = text[position]
        if character == "\n":
            return None
        depth += (character == "(") - (character == ")")
        if character == ">" and depth <= 0:
            return position
    return None


def _could_be_compared(text: str, end: int) -> bool:
    """Whether the `>` at `end` has the look of a comparison: a blank before it, or an = after it."""
    return text[end - 1].isspace() or text[end + 1 : end + 2] == "="


def _slot(span: Span) -> Slot | Diagnostic:
    inner = span.part(1, len(span.text) - 1)
    way = _AS.search(inner.text)
    if not way:
        formula = read_formula(inner)
        return Slot(formula, PrintAs.USUAL, span) if isinstance(formula, Formula) else formula
    names = [each.value for each in PrintAs if each is not PrintAs.USUAL]
    if way[1] not in names:
        return _no_way_of_printing(inner.part(way.start(1), way.end(1)), names)
    formula = read_formula(inner.part(0, way.start()))
    return Slot(formula, PrintAs(way[1]), span) if isinstance(formula, Formula) else formula
