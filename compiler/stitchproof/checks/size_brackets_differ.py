"""SP116 size-brackets-differ

Severity  warning
Checks    a number typed into the text for all sizes groups them as every other number of the pattern does: in round
          brackets, with as many sizes in each.
Matters   makers learn where in the brackets their number stands; where one number is grouped otherwise, they take a neighbour's.
Mend      give the number a name in pattern.yaml and print it by a slot: the brackets are then right by themselves.
Source    common practice, no source.

Fires:
    sizes: {names: [S, M, L, XL], groups: [2, 1]}
    ---
    Row 1: Sc in each of next 12 (14, 16, 18) sts, turn.

Fires:
    sizes: {names: [S, M, L]}
    ---
    Row 1: Sc in each of next 12 [14, 16] sts, turn.

Quiet:
    sizes: {names: [S, M, L, XL], groups: [2, 1]}
    counts:
      band_sts: {by_hand: [12, 14, 16, 18], unit: sts}
    ---
    Row 1 (RS): [Sc in next st, ch 1] 2 times, sc in each of next <band_sts> sts, turn.
"""

from __future__ import annotations

from stitchproof.checks.stretches import calls_to, excerpt
from stitchproof.checks.typed_vectors import bracket_lengths, typed_vectors
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import SizeList
from stitchproof.expansion.expanded_pattern import ExpandedPattern

PAGE = read_page(__doc__)


def brackets_of_typed_numbers(expanded: ExpandedPattern, report: Report) -> None:
    """Typed sized numbers, complete, in brackets of their own."""
    sizes = expanded.document.sizes
    for vector in typed_vectors(expanded):
        if len(vector.entries) != len(sizes.names):  # a report of its own
            continue
        if vector.square or vector.groups != bracket_lengths(sizes):
            line = vector.line
            report.add(
                Diagnostic(
                    PAGE,
                    f"`{vector.text}` has other brackets than the pattern",
                    excerpt(line, vector.start, vector.end, f"elsewhere {_in_brackets(sizes)}"),
                    piece=line.piece,
                    row=line.row,
                    related=calls_to(line, vector.start),
                    help=("give it a name in pattern.yaml, one value per size, and print that name",),
                )
            )


def _in_brackets(sizes: SizeList) -> str:
    """The sizes as the pattern prints them, "S (M, L) (XL)"."""
    called = [sizes.called(index) for index in range(len(sizes.names))]
    text, start = called[0], 1
    for length in bracket_lengths(sizes):
        text += f" ({', '.join(called[start : start + length])})"
        start += length
    return text


CHECKS = (brackets_of_typed_numbers,)
