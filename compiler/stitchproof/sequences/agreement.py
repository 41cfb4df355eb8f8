"""Whether a worked row has the counts that are published for it, and on what basis."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stitchproof.rows.row_tree import Thing
from stitchproof.sequences.outcomes import WrongCount
from stitchproof.sequences.read_rows import Count, ReadRow
from stitchproof.sequences.trial import Habits, Trial, Tried
from stitchproof.simulation.counts import Basis, counted, total
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.position import Kind
from stitchproof.simulation.targets import GROUP_NAMES

BASES = (Basis.STITCHES, Basis.AND_SPACES, Basis.AND_CHAINS, Basis.NOT_STARTING_CHAIN, Basis.WITH_STARTING_CHAIN)
OFFSETS = (Basis.NOT_STARTING_CHAIN, Basis.WITH_STARTING_CHAIN)
"""Bases that shift a count by one: a convention only where every row of the sequence shows it."""
_NAMED_BASES = {
    "sts+spaces": Basis.AND_SPACES,
    "sts+chains": Basis.AND_CHAINS,
    "sts+tch": Basis.WITH_STARTING_CHAIN,
    "sts-tch": Basis.NOT_STARTING_CHAIN,
}


def basis_that_agrees(row: ReadRow, trial: Trial) -> Basis | None:
    """The basis on which all published counts are right in all sizes: the one in force if it is, else the most usual."""
    bases = (trial.habits.basis, *(basis for basis in BASES if basis is not trial.habits.basis))
    return next((basis for basis in bases if agrees(row.stated, row.per_group, trial, basis)), None)


def agrees(counts: Iterable[Count], per_group: bool, trial: Trial, basis: Basis) -> bool:
    """Whether published counts are right in every size on a basis; what cannot be counted says nothing."""
    return not any(True for _ in wrong_counts(counts, per_group, trial, basis))


def wrong_counts(
    counts: Iterable[Count], per_group: bool, trial: Trial, basis: Basis
) -> Iterator[tuple[int, WrongCount]]:
    """The published counts that a row does not come to, each with its size."""
    held = tuple(counts)
    for size, tried in trial.by_size.items():
        for count in held:
            stated = count.figures[size] if size < len(count.figures) else None
            if stated is None or tried.tally is None:
                continue
            worked = worked_counts(count, tried, trial.habits, size, basis)
            if per_group and worked and stated and any(each % stated == 0 for each in worked):
                continue
            if worked and stated not in worked:
                yield size, WrongCount(stated, worked[0], _noun(count.thing))


def worked_counts(count: Count, tried: Tried, habits: Habits, size: int, basis: Basis) -> list[int]:
    """What a row has of a thing, the strictest way first; all stitches may pass for the one kind that is named.

    Empty where it cannot be told.
    """
    tally = tried.tally
    if tally is None:
        return []
    if count.change:
        return [abs(total(tally.row, basis) - total(tally.before, basis))]
    name = count.thing.name if count.thing else "st"
    if name == "repeat":
        return [tried.fit.passes] if tried.fit and tried.fit.passes else []
    if name == "mesh":
        return [tally.row.count(lambda place: place.kind is Kind.SPACE)]
    all_in = total(tally.row, basis, tally.old_chain)
    if count.thing is None or name in ("st", "place", "total"):
        return [all_in]
    found = counted(count.thing, tally, habits.ways, size, basis)
    if found is None:
        return []
    if name in GROUP_NAMES:
        # "6 shells": those of one make; what else goes into one place, at the edges, may be none
        return [found, *_groups_alike(tally.row)]
    is_stitch = habits.ways.is_stitch(name) and not tally.row.count(lambda place: place.group == name)
    return [found, all_in] if is_stitch and basis is not Basis.AND_CHAINS else [found]


def _groups_alike(row: LiveRow) -> list[int]:
    """How many groups a row has of each number of places."""
    sizes: dict[int, int] = {}
    for run in row.runs:
        for place, number in run.unit:
            if place.group and place.index == 0:
                sizes[place.of] = sizes.get(place.of, 0) + number * run.times
    return list(sizes.values()) if len(sizes) > 1 else []


def is_right(row: ReadRow, trial: Trial, basis: Basis) -> bool | None:
    """Whether the worked count is the file's own, on the file's basis; without such a count, the published one."""
    if not row.derived:
        return agrees(row.stated, row.per_group, trial, basis) and _counts_something(row.stated, trial, basis)
    named = _NAMED_BASES.get(row.written.derived_as)
    on = named or (Basis.STITCHES if not row.written.derived_as else basis)
    found = False
    for count in row.derived:
        for size, tried in trial.by_size.items():
            said = count.figures[size] if size < len(count.figures) else None
            if said is None or tried.tally is None:
                continue
            worked = worked_counts(count, tried, trial.habits, size, on)
            if row.per_group and worked and said and worked[0] % said == 0:
                found = True
                continue
            alike = count.thing is not None and count.thing.name in GROUP_NAMES
            if not worked or said not in (worked if alike else worked[:1]):
                return False
            found = True
    return found


def _counts_something(counts: Iterable[Count], trial: Trial, basis: Basis) -> bool:
    """Whether at least one count could be held against the row."""
    return any(
        bool(worked_counts(count, tried, trial.habits, size, basis))
        for count in counts
        for size, tried in trial.by_size.items()
        if tried.tally is not None and size < len(count.figures) and count.figures[size] is not None
    )


def _noun(thing: Thing | None) -> str:
    if thing is None or thing.name in ("st", "place", "total"):
        return ""
    return {"chsp": "ch-sps", "sp": "spaces", "loop": "loops", "mesh": "meshes"}.get(thing.name, thing.name)
