"""A returned worksheet held against what the pattern was worked out to: counts exactly, lengths and grams within a margin."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.values import exact_text, rounded_text
from stitchproof.worksheets.checkpoints import Checkpoint, Worksheet
from stitchproof.worksheets.returned import Measured, Reached, Returned

CM_MARGIN, CM_SHARE = Fraction(1), Fraction(3, 100)
"""A length may be off by a centimetre or three hundredths, whichever is more (common practice, no source)."""
GAUGE_SHARE = Fraction(3, 100)
"""About half a stitch in 16 (common practice, no source)."""
LEFT_OVER = Fraction(1, 4)
"""Yarn that is left over of what the pattern asks for, above which it asks for too much (common practice, no source)."""


class Compared(Struct, frozen=True):
    """One answer beside what was worked out. told: what the difference means, "" where there is none."""

    where: str
    expected: str
    found: str
    told: str = ""


def compare(worksheet: Worksheet, returned: Returned) -> tuple[Compared, ...]:
    """All answers of a worksheet in the order of the copy; questions left empty are left out."""
    points = {point.line: point for point in worksheet.checkpoints}
    found = [each for gauge in returned.gauges for each in _gauge(worksheet, gauge)]
    for reached in returned.reached:
        point = points.get(reached.line)
        if point is not None:
            found += [*_counts(point, reached), *_length(point, reached)]
        elif reached.counts or reached.cm is not None:
            found.append(
                Compared(f"line {reached.line}", "–", "", "this line has nothing to compare: is its number right?")
            )
    found += _grams(worksheet, returned)
    return tuple(found)


def _counts(point: Checkpoint, reached: Reached) -> Iterator[Compared]:
    if not reached.counts:
        return
    expected, found = (" + ".join(map(exact_text, numbers)) for numbers in (point.counts, reached.counts))
    off = sum(reached.counts, Fraction(0)) - sum(point.counts, Fraction(0))
    told = ""
    if reached.counts != point.counts and off:
        told = f"{exact_text(abs(off))} {'more' if off > 0 else 'fewer'} than the rows make"
    elif reached.counts != point.counts and len(reached.counts) == len(point.counts):
        told = "the same in all, but not of each kind"
    yield Compared(_place(point), expected, found, told)


def _length(point: Checkpoint, reached: Reached) -> Iterator[Compared]:
    if reached.cm is None or not point.cm:
        return
    expected = min(point.cm, key=lambda cm: abs(cm - (reached.cm or 0)))
    off = reached.cm - expected
    told = ""
    if abs(off) > max(CM_MARGIN, expected * CM_SHARE):
        told = f"{_one(abs(off))} cm {'longer' if off > 0 else 'shorter'} than at the pattern's gauge"
    yield Compared(_place(point), f"{_one(expected)} cm", f"{_one(reached.cm)} cm", told)


def _gauge(worksheet: Worksheet, measured: Measured) -> Iterator[Compared]:
    asked = next((gauge for gauge in worksheet.gauges if gauge.name == measured.name), None)
    if asked is None:
        return
    for words, numbers in (("before washing", measured.before), ("after washing", measured.after)):
        for noun, expected, found in zip(("sts", asked.rows_noun), (asked.stitches, asked.rows), numbers, strict=True):
            if expected is None or found is None:
                continue
            told = ""
            if words == "after washing" and abs(found - expected) > expected * GAUGE_SHARE:
                told = "tighter than the pattern's gauge" if found > expected else "looser than the pattern's gauge"
            yield Compared(f"gauge {asked.name}, {noun}, {words}", exact_text(expected), exact_text(found), told)


def _grams(worksheet: Worksheet, returned: Returned) -> Iterator[Compared]:
    if returned.grams is None or worksheet.grams is None:
        return
    told = ""
    if returned.grams > worksheet.grams:
        told = f"{_one(returned.grams - worksheet.grams)} g more than the list of materials asks for"
    elif returned.grams < worksheet.grams * (1 - LEFT_OVER):
        told = "more than a quarter of the yarn is left over"
    yield Compared("yarn", f"{_one(worksheet.grams)} g", f"{_one(returned.grams)} g", told)


def _place(point: Checkpoint) -> str:
    words = point.words if len(point.words) <= 60 else point.words[:57].rsplit(" ", 1)[0] + " …"
    return f"line {point.line}, {words}"


def _one(number: Fraction) -> str:
    return rounded_text(number, 1)
