"""SP053 typed-sizes-do-not-fit

Severity  error
Checks    a sized number typed into the text has one number for each size of the pattern, in the pattern's own brackets.
Matters   makers count along the bracket to the number of their size; where one is missing, or the brackets differ from those
          everywhere else, they take a wrong one.
Mend      give the number a name in pattern.yaml, one value per size, and print it by a slot: the brackets are then right by
          themselves.
Source    common practice, no source.

Fires:
    sizes: {names: [S, M, L, XL]}
    ---
    Row 1: Sc in each of next 12 (14, 16) sts, turn.

Fires:
    sizes: {names: [S, M, L, XL], groups: [2, 1]}
    ---
    Row 1: Sc in each of next 12 (14, 16, 18) sts, turn.

Fires:
    sizes: {names: [S, M, L]}
    ---
    Row 1: Sc in each of next 12 [14, 16] sts, turn.

Quiet:
    sizes: {names: [S, M, L]}
    counts:
      band_sts: {by_hand: [12, 14, 16], unit: sts}
    ---
    Row 1 (RS): (Sc, ch 1, sc) in next ch-1 sp, sc in each of next <band_sts> sts, turn.
"""

from __future__ import annotations

from stitchproof.checks.printed_lines import calls_to, excerpt
from stitchproof.checks.typed_vectors import TypedVector, bracket_lengths, typed_vectors
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import SizeList
from stitchproof.expansion.expanded_pattern import ExpandedPattern

PAGE = read_page(__doc__)


def sizes_of_typed_numbers(expanded: ExpandedPattern, report: Report) -> None:
    """Typed sized numbers with too few or too many numbers, or with brackets of their own."""
    sizes = expanded.document.sizes
    for vector in typed_vectors(expanded):
        if len(vector.entries) != len(sizes.names):
            numbers, names = len(vector.entries), len(sizes.names)
            label = f"{numbers} numbers for {names} size{'s' if names > 1 else ''}"
            report.add(_report(vector, f"`{vector.text}` has {label}", label))
        elif vector.square or vector.groups != bracket_lengths(sizes):
            label = f"elsewhere {_in_brackets(sizes)}"
            report.add(_report(vector, f"`{vector.text}` has other brackets than the pattern", label))


def _in_brackets(sizes: SizeList) -> str:
    """The sizes as the pattern prints them, "S (M, L) (XL)"."""
    called = [sizes.called(index) for index in range(len(sizes.names))]
    text, start = called[0], 1
    for length in bracket_lengths(sizes):
        text += f" ({', '.join(called[start : start + length])})"
        start += length
    return text


def _report(vector: TypedVector, headline: str, label: str) -> Diagnostic:
    line = vector.line
    return Diagnostic(
        PAGE,
        headline,
        excerpt(line, vector.start, vector.end, label),
        piece=line.piece,
        row=line.row,
        related=calls_to(line, vector.start),
        help=("give it a name in pattern.yaml, one value per size, and print that name",),
    )


CHECKS = (sizes_of_typed_numbers,)
