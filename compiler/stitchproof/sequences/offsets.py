"""Counts that are one off by the starting chain: a convention where every row shows it, a mistake in a single one."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.row_tree import Chain, Reach, RowTree, Skip, Work
from stitchproof.sequences.agreement import OFFSETS
from stitchproof.sequences.conventions import flat_items, starting_chain
from stitchproof.sequences.outcomes import RowOutcome, Verdict
from stitchproof.sequences.read_rows import ReadRow
from stitchproof.sequences.trial import Habits, Trial
from stitchproof.simulation.counts import Basis
from stitchproof.simulation.targets import value


def single_offsets(outcomes: list[RowOutcome]) -> list[RowOutcome]:
    """A count that is one off in a single row is a mistake; one that is off in every row is a convention.

    A row that starts in the first stitch after the chain may differ: print has it both ways in one piece.
    """
    held = list(outcomes)
    for index, outcome in enumerate(held):
        if outcome.start is None or not outcome.otherwise or _starts_in_first(outcome.row):
            continue
        chains, stitch_, counts = outcome.start
        others = [each.start for each in outcomes if each.start and each is not outcome]
        alike = [start[2] for start in others if start[:2] == (chains, stitch_)]
        agreeing = sum(each == counts for each in alike)
        by_chain = any("starting chain" in name or f"ch {chains} before" in name for name in outcome.conventions)
        if by_chain and agreeing < len(alike) - agreeing:
            held[index] = replace(outcome, verdict=Verdict.FAULTY, conventions=(), faults=outcome.otherwise)
    return held


def _starts_in_first(row: ReadRow) -> bool:
    """Whether the first stitch of a row goes into its first place, which a chain that counts would make an increase."""
    tree = row.reading
    for item in flat_items(tree.items) if isinstance(tree, RowTree) else ():
        if isinstance(item, Work):
            return item.target is not None and item.target.reach is Reach.FIRST
        if isinstance(item, Skip):
            return True
    return False


def start_of_count(row: ReadRow, tree: RowTree, trial: Trial, basis: Basis) -> tuple[int, str, bool] | None:
    """The chain a row starts with, the stitch behind it, and whether the stated count was taken to include the chain."""
    found = starting_chain(tree)
    if found is None or not row.stated or found[0] < 2:
        return None
    chains, first = found
    counts = bool(trial.habits.ways.counts_as(chains, first))
    if basis in OFFSETS:
        counts = not counts
    return chains, trial.habits.ways.facts(first).base, counts


def may_be_offset(row: ReadRow, habits: Habits) -> bool:
    """Whether a row begins with a chain that could count as a stitch, and nothing says whether it does; one chain never does."""
    chains = 0
    for item in flat_items(row.reading.items) if isinstance(row.reading, RowTree) else ():
        if isinstance(item, Work):
            break
        if isinstance(item, Chain):
            chains += value(item.number, row.served[0] if row.served else 0) or 0
            if item.counts is not None:
                return False
    return chains > 1 and not any(key[0] == chains for key in habits.told)
