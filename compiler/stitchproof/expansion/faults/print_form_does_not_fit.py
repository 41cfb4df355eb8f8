"""SP120 print-form-does-not-fit

Severity  error
Checks    a slot asks for its number in a form that the number can take, as `<length as cm>` does: mm, cm, in, m and yd
          are for lengths, g and oz for weights, words, times and ordinal (1st, 2nd) for counts, percent and decimal for
          plain numbers.
Matters   stitches printed as centimetres would tell the maker something else than you mean.
Mend      take the `as …` out, or name a value that has such a form.
Source    how formulas are written for stitchproof.

Fires in S, M:
    counts:
      body_sts: 40 sts
    ---
    Row 1: Sc in each st across. The row measures <body_sts as cm>.

Quiet:
    measures:
      button: 15 mm
    ratios:
      stretch: 1.15
    ---
    The buttons measure <button as mm>, and the edge stretches to <stretch as percent> of its length.
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.slot import PrintAs, Slot
from stitchproof.measures.dimension import LENGTH, WEIGHT

PAGE = read_page(__doc__)


def fits_its_number(print_as: PrintAs, kind: Kind) -> bool:
    """Whether a number of a kind can be printed in a way."""
    if print_as is PrintAs.USUAL:
        return True
    if print_as.is_length or print_as.is_weight:
        return kind.dimension == (LENGTH if print_as.is_length else WEIGHT)
    return kind.dimension.is_plain if print_as.is_share else kind.dimension.is_count


def print_form_does_not_fit(slot: Slot, kind: Kind) -> Diagnostic:
    """slot: as written. kind: what its number is."""
    fitting = [each.value for each in PrintAs if each is not PrintAs.USUAL and fits_its_number(each, kind)]
    offered = f"write `as {'`, `as '.join(fitting)}`, or take the `as` out" if fitting else "take the `as` out"
    return Diagnostic(
        PAGE,
        f"`{slot.span.text}` is {kind.in_words()} and cannot print as {slot.print_as.value}",
        Excerpt(slot.span, f"this is {kind.in_words()}"),
        help=(offered,),
    )
