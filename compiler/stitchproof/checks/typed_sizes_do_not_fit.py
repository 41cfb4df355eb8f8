"""SP053 typed-sizes-do-not-fit

Severity  error
Checks    a sized number typed into the text has one number for each size of the pattern.
Matters   makers count along the bracket to the number of their size; where one is missing, they take a wrong one.
Mend      give the number a name in pattern.yaml, one value per size, and print it by a slot.
Source    common practice, no source.

Fires:
    sizes: {names: [S, M, L, XL]}
    ---
    Row 1: Sc in each of next 12 (14, 16) sts, turn.

Fires:
    sizes: {names: [S, M, L]}
    ---
    Row 1: Sc in each of next 12 [14, 16, 18, 20] sts, turn.

Quiet:
    sizes: {names: [S, M, L]}
    counts:
      band_sts: {by_hand: [12, 14, 16], unit: sts}
    ---
    Row 1 (RS): (Sc, ch 1, sc) in next ch-1 sp, sc in each of next <band_sts> sts, turn.
"""

from __future__ import annotations

from stitchproof.checks.stretches import calls_to, excerpt
from stitchproof.checks.typed_vectors import typed_vectors
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern

PAGE = read_page(__doc__)


def sizes_of_typed_numbers(expanded: ExpandedPattern, report: Report) -> None:
    """Typed sized numbers with too few or too many numbers."""
    names = len(expanded.document.sizes.names)
    for vector in typed_vectors(expanded):
        if len(vector.entries) != names:
            label = f"{len(vector.entries)} numbers for {names} size{'s' if names > 1 else ''}"
            line = vector.line
            report.add(
                Diagnostic(
                    PAGE,
                    f"`{vector.text}` has {label}",
                    excerpt(line, vector.start, vector.end, label),
                    piece=line.piece,
                    row=line.row,
                    related=calls_to(line, vector.start),
                    help=("give it a name in pattern.yaml, one value per size, and print that name",),
                )
            )


CHECKS = (sizes_of_typed_numbers,)
