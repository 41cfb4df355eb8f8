"""SP054 typed-sized-number

Severity  warning
Checks    every number that differs by size is printed by a slot, a name in < > in the text; none is typed by hand.
Matters   no formula makes a typed number, so no sum can prove it, and it stays as it is when a gauge or a size changes.
Mend      give it a name in pattern.yaml (`by_hand` keeps the very same numbers) and print that name.
Source    common practice, no source.

Fires:
    sizes: {names: [S, M, L]}
    ---
    Row 1: Sc in each of next 12 (14, 16) sts, turn.

Fires:
    sizes: {names: [S, M, L, XL]}
    counts:
      band_sts: {by_hand: [12, 14, 16, 18], unit: sts}
    ---
    Row 1: Sc in each st across, turn. — 12 (14, 19, 18) sc

Fires:
    sizes: {names: [S, M, L, XL], groups: [2, 1]}
    ---
    Rep Row 2 [sc in next st, ch 1] 3 (4, 5) (–) times.

Quiet:
    sizes: {names: [S, M, L], called_by: number, choose: "Choose size 1 (2, 3) by the bust."}
    counts:
      band_sts: {by_hand: [12, 14, 16], unit: sts}
    ---
    Row 1 (RS): Sc in each of next <band_sts> sts, turn. Rows 2 and 3 (WS): as before.
"""

from __future__ import annotations

import re
from fractions import Fraction

from stitchproof.checks.counts_alike import count_like
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.stretches import before, calls_to, excerpt
from stitchproof.checks.things_counted import Where, things_said, where
from stitchproof.checks.typed_lengths import typed_pairs
from stitchproof.checks.typed_vectors import TypedVector, amount, bracket_lengths, typed_vectors
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.measures.values import exact_text

PAGE = read_page(__doc__)


def typed_numbers(expanded: ExpandedPattern, report: Report) -> None:
    """Sized numbers in the text that fit the sizes, but that nothing works out."""
    sizes = expanded.document.sizes
    line: Line | None = None
    reported: list[range] = []
    wrong: set[Where] | None = None
    for vector in typed_vectors(expanded):
        if len(vector.entries) != len(sizes.names) or vector.square or vector.groups != bracket_lengths(sizes):
            continue
        if vector.line is not line:
            line, reported = vector.line, _untrue_pairs(vector.line)
            wrong = wrong if wrong is not None else _wrong_lists(expanded)
        if _is_half_of_a_pair(vector) or any(vector.start in pair for pair in reported):
            continue
        if wrong and where(vector.line, vector.start) in wrong:
            continue
        values = ", ".join(_in_yaml(entry) for entry in vector.entries)
        report.add(
            Diagnostic(
                PAGE,
                f"`{vector.text}` is a sized number that no formula makes",
                excerpt(vector.line, vector.start, vector.end, "typed by hand"),
                piece=vector.line.piece,
                row=vector.line.row,
                related=calls_to(vector.line, vector.start),
                help=_help(vector, expanded)
                or (f"give it a name in pattern.yaml, `by_hand: [{values}]`, and print that name",),
            )
        )


def _help(vector: TypedVector, expanded: ExpandedPattern) -> tuple[str, ...]:
    """What to write where a count of the pattern is the same, or nearly so; () where none is."""
    found = count_like(vector, expanded)
    if found is None:
        return ()
    name, off = found
    if not off:
        return (f"write `<{name}>`, which is the same in every size",)
    sizes = " and ".join(expanded.sized.sizes[size] for size in off)
    return (f"if `<{name}>` is meant, write that: it differs only in size{'s' if len(off) > 1 else ''} {sizes}",)


def _wrong_lists(expanded: ExpandedPattern) -> set[Where]:
    """Where typed numbers stand that are reported already, because a count of that name has others."""
    return {where(said.line, said.start) for said in things_said(expanded) if said.is_list and said.wrong_in()}


def _in_yaml(entry: str) -> str:
    """A typed number as pattern.yaml takes it."""
    number = {"once": Fraction(1), "twice": Fraction(2)}.get(entry) or amount(entry)
    return "not worked" if number is None else exact_text(number)


def _is_half_of_a_pair(vector: TypedVector) -> bool:
    """Whether the same lengths stand just before it in the other unit; one slot makes both."""
    return re.search(r"\)\s?(?:cm|in|inches)\s*[/(]\s*$", before(vector.line.text, vector.start)) is not None


def _untrue_pairs(line: Line) -> list[range]:
    """Where lengths stand that are reported already, because their other unit says something else."""
    return [range(pair.start, pair.end) for pair in typed_pairs(line) if pair.untrue()]


CHECKS = (typed_numbers,)
