"""SP055 grading-turns-back

Severity  warning
Checks    a body measure, a finished length, or a length or width in stitches, given by hand, does not fall from one
          size to the next. A list that never rises is taken to be meant.
Matters   sizes run from small to large; a place that gets smaller in a larger size is most often a slip in one number of a list.
Mend      compare the two sizes with those around them; where it is meant, accept it with a reason.
Source    common practice, no source.

Fires in XL:
    sizes: {names: [S, M, L, XL]}
    measures:
      neck: {by_hand: [17, 17.5, 18, 17.5], unit: cm}
    finished: {Neck width: <neck>}

Fires in L:
    sizes: {names: [S, M, L, XL, 2XL]}
    body:
      cross_back: {cm: [34, 37, 36, 38, 39]}

Fires in L:
    sizes: {names: [S, M, L, XL, 2XL]}
    counts:
      cuff_sts: {by_hand: [32, 40, 36, 48, 64], unit: sts, gauge: fabric}

Fires in L:
    sizes: {names: [S, M, L]}
    counts:
      sleeve_rows: [40 rows, 44 rows, 40 rows]
    finished: {Sleeve length: <sleeve_rows / fabric.rows>}

Quiet:
    sizes: {names: [S, M, L, XL, 2XL]}
    body:
      back_neck: {cm: [14.5, 14.5, 16, 16, 16]}
    measures:
      ease: {by_hand: [8, 10, 8, 6, 6], unit: cm}
      height: {by_hand: [24, 24, 20, 20, 18], unit: cm}
    counts:
      incs_each: {by_hand: [28, 31, 28, 34, 32], unit: sts}
      every_2nd: {by_hand: [3, 4, 5, 4, 5], unit: times}
    finished: {Height: <height>}
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.grade import YARN_LENGTHS, fall, fallen, inputs_of, risen, standing_out, turns_back
from stitchproof.checks.parts import Part, found_in, parts_of
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number, SizeLine, SizeTable, Text
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import on_cm_grid
from stitchproof.measures.values import PerSize
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

PAGE = read_page(__doc__)
HELP = ("compare it with the sizes around it, or accept it with a reason",)
NOISE = Fraction(1, 4)
"""Centimetres: a smaller fall of a finished length comes of rounding to whole stitches."""


def given_values(sized: SizedPattern, report: Report) -> None:
    """Body measures, lengths and widths given by hand."""
    for quantity in sized.quantities:
        sizes = turns_back(quantity) if not standing_out(quantity) else ()
        if not sizes:
            continue
        lines = tuple(fall(quantity.values, each, sized.sizes, quantity.kind, quantity.cm_per_unit) for each in sizes)
        spans = [formula.span if (formula := quantity.formulas[each]) else quantity.value_span for each in sizes]
        places = tuple(Excerpt(span, "falls") for span in spans)
        report.add(_report(quantity.name, quantity.name, places, tuple(sized.sizes[each] for each in sizes), lines))


def finished_lengths(expanded: ExpandedPattern, report: Report) -> None:
    """Lengths of the table of sizes whose inputs are not reported for themselves."""
    sized = expanded.sized
    for line, falls in found_in(parts_of(expanded.document), _falling):
        sizes = tuple(size for size in falls if not _caused_elsewhere(line.number, size, sized))
        if sizes:
            kind = Kind(LENGTH, line.number.noun)
            sums = tuple(fall(line.number.values, size, sized.sizes, kind) for size in sizes)
            place = (Excerpt(line.number.place.span, "falls"),)
            report.add(
                _report(_label(line), line.number.written, place, tuple(sized.sizes[size] for size in sizes), sums)
            )


def _falling(part: Part) -> Iterator[tuple[SizeLine, tuple[int, ...]]]:
    """The lines of tables of sizes that fall somewhere, with the sizes."""
    for block in part.blocks:
        for line in block.lines if isinstance(block, SizeTable) else ():
            if falls := _printed_falls(line.number):
                yield line, falls


def _printed_falls(number: Number) -> tuple[int, ...]:
    """The sizes in which the printed length is below that of the size before, in a line that rises elsewhere."""
    in_yarn = number.print_as in (PrintAs.METRES, PrintAs.YARDS) or number.noun in YARN_LENGTHS
    if number.dimension != LENGTH or in_yarn or not risen(number.values):
        return ()
    printed: PerSize = tuple(on_cm_grid(each) if isinstance(each, Fraction) else each for each in number.values)
    return tuple(
        size for size in fallen(number.values) if size in fallen(printed) and _is_more_than_noise(number, size)
    )


def _is_more_than_noise(number: Number, size: int) -> bool:
    before, here = number.values[size - 1], number.values[size]
    return isinstance(before, Fraction) and isinstance(here, Fraction) and before - here >= NOISE


def _caused_elsewhere(number: Number, size: int, sized: SizedPattern) -> bool:
    names = tuple(re.findall(r"[^\W\d][\w.]*", number.written))
    return any(_is_reported(quantity, size) for quantity in inputs_of(names, sized.scope))


def _is_reported(quantity: Quantity, size: int) -> bool:
    out = standing_out(quantity)
    return size in turns_back(quantity) or (out is not None and out[0] in (size - 1, size))


def _label(line: SizeLine) -> str:
    return "".join(each.text for each in line.label if isinstance(each, Text)).strip() or line.number.written


def _report(
    what: str, about: str, places: tuple[Excerpt, ...], sizes: tuple[str, ...], sums: tuple[SumLine, ...]
) -> Diagnostic:
    headline = f"{what} falls from one size to the next"
    return Diagnostic(PAGE, headline, places[0], sizes=sizes, related=places[1:], sums=sums, help=HELP, about=about)


CHECKS = (given_values, finished_lengths)
