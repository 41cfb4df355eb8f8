"""SP056 size-stands-out

Severity  warning
Checks    in a list given by hand, no size lies far off the line that the sizes around it keep to.
Matters   one slipped key, 19 for 9 or 540 for 54, and one size of the garment cannot be worn; makers of the other sizes do
          not notice.
Mend      compare the number with its neighbours; where it is meant, accept it with a reason.
Source    common practice, no source.

Fires in XS:
    sizes: {names: [XS, S, M, L]}
    counts:
      short_rows: {by_hand: [19, 14, 19, 24], unit: rows}

Fires in M:
    sizes: {names: [S, M, L, XL]}
    body:
      head: {cm: [42, 74, 52, 57]}

Fires in XL:
    sizes: {names: [S, M, L, XL]}
    counts:
      band_sts: {by_hand: [44, 46, 50, 540], unit: sts}

Quiet:
    sizes: {names: [S, M, L, XL]}
    counts:
      band_sts: {by_hand: [44, 46, 50, 540], unit: sts}
    accept:
      - {code: SP056, name: band_sts, reason: a hem of many more stitches}

Quiet:
    sizes: {names: [XS, S, M, L]}
    counts:
      short_rows: {by_hand: [9, 14, 19, 24], unit: rows}
      band_sts: {by_hand: [40, 52, 56, 80], unit: sts}
      more: {by_hand: [0, 4, 1, 2], unit: times}
"""

from __future__ import annotations

from stitchproof.checks.grade import standing_out
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import amount_text
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def given_lists(sized: SizedPattern, report: Report) -> None:
    """Lists given by hand with one number that does not fit the others."""
    for quantity in sized.quantities:
        found = standing_out(quantity)
        if found is None:
            continue
        size, expected = found
        formula, name = quantity.formulas[size], sized.sizes[size]
        given = amount_text(quantity.values[size], quantity.kind)
        near = sorted((each for each in range(len(sized.sizes)) if each != size), key=lambda each: abs(each - size))[:2]
        beside = " and ".join(
            f"{sized.sizes[each]} {amount_text(quantity.values[each], quantity.kind)}" for each in sorted(near)
        )
        between = f"{given}, where {beside} lead to about {amount_text(expected, quantity.kind)}"
        report.add(
            Diagnostic(
                PAGE,
                f"{quantity.name} stands out from the sizes around it",
                Excerpt(formula.span if formula else quantity.value_span, "stands out"),
                sizes=(name,),
                sums=(SumLine(name, between),),
                help=("compare it with the sizes around it, or accept it with a reason",),
                about=quantity.name,
            )
        )


CHECKS = (given_lists,)
