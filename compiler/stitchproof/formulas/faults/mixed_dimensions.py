"""SP008 mixed-dimensions

Severity  error
Checks    what is added, compared or chosen between measures the same thing: stitches with stitches, rows with rows,
          lengths with lengths. A bare number beside a count takes the count's unit. What a value comes to is something that
          is measured: no stitches squared.
Matters   60 cm plus 8 stitches is nothing; a slip like this makes every size wrong at once.
Mend      turn one side into the other at a gauge: a length times `gauge.stitches` is stitches, rows over `gauge.rows` a
          length. Stitches or rows that are worked out become times, groups or pairs by their unit: `is: sts / 2, unit: pairs`.
Source    common practice, no source.

Fires in S, M:
    measures:
      bust: [90 cm, 98 cm]
    counts:
      body_sts: {is: bust + 8 sts, round: nearest}
    ---
    Row 1: Sc in each st across. — <body_sts> sc

Fires in S, M:
    counts:
      decs: {is: 3 sts, unit: times}

Fires in S, M:
    counts:
      incs: {by_hand: [4, 5], unit: times}
      hand_sts: {is: 30 sts + incs, unit: sts}

Fires in S, M:
    counts:
      hand_rows: 4 rows
      hand_sts: 30 sts + hand_rows

Fires in S, M:
    ratios:
      ease: 5 cm

Quiet:
    ratios:
      stretch: 1.15
    counts:
      cuff_sts: [40 sts, 44 sts]
      pairs: {is: cuff_sts / 2, unit: pairs}
      hand_rows: 4 rows
      incs: {is: hand_rows, unit: times}
      with_incs: cuff_sts + incs * 2 sts
      stretched: {is: cuff_sts * stretch, round: nearest}

Fires:
    measures:
      width: 40 sts * fabric.stitches
    ---
    Row 1: Sc in each st across. The piece is <width> wide.

Quiet:
    measures:
      bust: [90 cm, 100 cm]
    counts:
      body_sts: bust * fabric.stitches + 8 sts
    ---
    Row 1: Sc in each st across. — <body_sts> sc
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.formulas.kind import Kind
from stitchproof.measures.dimension import ROWS, STITCHES
from stitchproof.source import Span

PAGE = read_page(__doc__)


def mixed_dimensions(span: Span, left_span: Span, left: Kind, right_span: Span, right: Kind) -> Diagnostic:
    """span: the whole of the sum. left, right: what its two sides are."""
    return Diagnostic(
        PAGE,
        f"`{span.text}` mixes {left.in_words()} with {right.in_words()}",
        Excerpt(span),
        related=(Excerpt(left_span, f"this is {left.in_words()}"), Excerpt(right_span, f"this is {right.in_words()}")),
        help=(
            _to_stitches(left_span, left, right_span, right)
            or "turn one side into the other at a gauge, or correct the name",
        ),
    )


def _to_stitches(left_span: Span, left: Kind, right_span: Span, right: Kind) -> str:
    """What to write where times or rows meet stitches, which no gauge turns into one another; else ""."""
    for one, other_span, other in ((left, right_span, right), (right, left_span, left)):
        if one.dimension != STITCHES or not other_span.text.replace(".", "_").isidentifier():
            continue
        if other.dimension.is_plain and other.noun:
            return f"where 2 stitches come of each of these {other.noun}, write `{other_span.text} * 2 sts`"
        if other.dimension == ROWS:
            named = f"`times_worked: {{is: {other_span.text}, unit: times}}`"
            return f"where 2 stitches come of each row, name them as times, {named}, and write `times_worked * 2 sts`"
    return ""


def unit_contradicts(value: Span, kind: Kind, there: Span, unit: Kind) -> Diagnostic:
    """A value comes out as one thing, and its `unit:` says another."""
    return Diagnostic(
        PAGE,
        f"`{value.text}` is {kind.in_words()}, and its unit says {unit.in_words()}",
        Excerpt(value, f"this is {kind.in_words()}"),
        related=(Excerpt(there, f"this says {unit.in_words()}"),),
        help=(
            "correct the unit, or leave out the one that is written with the number"
            if unit.dimension.is_count and kind.dimension.is_count
            else "correct the unit, or turn the value into it at a gauge",
        ),
    )


def not_a_ratio(name: str, span: Span, kind: Kind) -> Diagnostic:
    """A value with a unit stands under `ratios`."""
    return Diagnostic(
        PAGE,
        f"{name} stands under `ratios` and has a unit",
        Excerpt(span, f"this is {kind.in_words()}"),
        help=("a ratio is a plain number, such as 1.15 or 88%; put this under `measures` or `counts`",),
    )


def measures_nothing(span: Span, kind: Kind) -> Diagnostic:
    """What a value comes to is no thing that a pattern measures, most often because * stands for / or the other way."""
    return Diagnostic(
        PAGE,
        f"`{span.text}` comes out as {kind.in_words()}, which measures nothing",
        Excerpt(span, f"this is {kind.in_words()}"),
        help=("a length times a gauge is stitches or rows, and stitches or rows divided by a gauge are a length",),
    )


def not_a_count(span: Span, kind: Kind) -> Diagnostic:
    """A length or a weight stands where stitches, rows or times are counted."""
    is_this = f"this is {kind.in_words()}"
    return Diagnostic(
        PAGE,
        f"`{span.text}` is {kind.in_words()}, and stands where a count should",
        Excerpt(span, is_this),
        help=("give a number of stitches, rows or times, or turn it into one at a gauge",),
    )


def test_for_number(span: Span) -> Diagnostic:
    """A comparison stands where a number should."""
    return Diagnostic(
        PAGE,
        f"`{span.text}` is a test, and stands where a number should",
        Excerpt(span, "this is a test"),
        help=("write `a if test else b` to choose a number by a test",),
    )


def not_a_test(span: Span) -> Diagnostic:
    """A number stands where a comparison should."""
    return Diagnostic(
        PAGE,
        f"`{span.text}` is a number, and stands where a test should",
        Excerpt(span, "this is a number"),
        help=("compare it with something, for example `… > 0`",),
    )
