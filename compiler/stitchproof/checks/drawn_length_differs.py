"""SP201 drawn-length-differs

Severity  error
Checks    the number on a line of a schematic is the length of the line as it is drawn, in every size, to within a hundredth
          or what rounding for print can make (a quarter of a centimetre); twice that length where the line goes around
          (`around: yes`).
Matters   the maker holds her work against the drawing; the letter says one length and the shape another.
Mend      draw the line between the corners that the number is about, or show the number that the shape is made of.
Source    common practice, no source.

Fires in S, M:
    measures:
      around: {by_hand: [80, 90], unit: cm}
    schematics:
      piece:
        outline:
          hem: start
          hem_side: {right: around / 2}
          top_side: {up: 40 cm}
          top: {left: around / 2}
        measures:
          - {label: Bust, shows: around, from: hem, to: hem_side}

Quiet:
    measures:
      around: {by_hand: [80, 90], unit: cm}
    schematics:
      piece:
        outline:
          hem: start
          hem_side: {right: around / 2}
          top_side: {up: 40 cm}
          top: {left: around / 2}
        measures:
          - {label: Bust, shows: around, from: hem, to: hem_side, around: yes}
          - {label: Length, shows: 40 cm, from: hem_side, to: top_side}
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.claim_sums import number_text, side_text, too_much
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import Kind
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import CM_GRID
from stitchproof.outlines.outline import Outline, measured
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.sizing.sized_schematics import SizedMeasure, SizedSchematic

PAGE = read_page(__doc__)
MAY_DIFFER = Fraction(1, 100)
HALF_A_STEP = CM_GRID.of / 2
RUNS = {"across": ", across", "up": ", upward", "along": ", along the outline", "straight": ""}


def lines_of_drawings(sized: SizedPattern, report: Report) -> None:
    """Measures of drawings that show another length than they are drawn."""
    for schematic in sized.schematics:
        terms = [length.term for length in schematic.lengths]
        for measure in schematic.measures:
            for size in schematic.served:
                outline, shown = schematic.outlines[size], measure.shows.at(size)
                if outline is None or shown is None or term_follows_from_wrong((*terms, measure.shows), size, sized):
                    continue
                drawn = _drawn(measure, outline)
                off = abs(drawn - shown)
                if off > HALF_A_STEP and off > MAY_DIFFER * abs(shown):
                    report.add(_differs(schematic, measure, drawn, shown, size, sized))


def _drawn(measure: SizedMeasure, outline: Outline) -> Fraction:
    length = measured(outline, measure.start, measure.end, measure.run)
    return Fraction(round(length * 10_000), 10_000) * (2 if measure.around else 1)


def _differs(
    schematic: SizedSchematic,
    measure: SizedMeasure,
    drawn: Fraction,
    shown: Fraction,
    size: int,
    sized: SizedPattern,
) -> Diagnostic:
    formula = measure.shows.formula
    line = f"from `{measure.start}` to `{measure.end}`{RUNS[measure.run]}"
    around = ", seen double" if measure.around else ""
    half = " or `around: yes`, if the piece lies double there" if abs(2 * drawn - shown) <= MAY_DIFFER * shown else ""
    text = (
        f"{number_text(drawn, Kind(LENGTH, 'cm'))} drawn; {formula.text} = {side_text(formula.node, sized.scope, size)}"
    )
    return Diagnostic(
        PAGE,
        f"`{formula.text}` is not the length of its line in the drawing of `{schematic.name}`",
        Excerpt(formula.span, f"shown on the line {line}{around}"),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], text, drawn, shown, too_much(drawn - shown, Kind(LENGTH, "cm"))),),
        help=(f"show the length that the line has, or draw it between other corners{half and ';' + half}",),
    )


CHECKS = (lines_of_drawings,)
