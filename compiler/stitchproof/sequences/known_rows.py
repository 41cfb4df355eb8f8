"""What is known of a row's place in its sequence: faults under the usual reading, its plain count, whether it begins anew."""

from __future__ import annotations

from stitchproof.rows.row_tree import Chain, RowTree, Work
from stitchproof.sequences.agreement import wrong_counts
from stitchproof.sequences.conventions import flat_items
from stitchproof.sequences.outcomes import Fault
from stitchproof.sequences.read_rows import ReadRow
from stitchproof.sequences.trial import Trial
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.hook import NOWHERE
from stitchproof.simulation.row_work import founds
from stitchproof.simulation.slips import DoesNotDivide
from stitchproof.simulation.stretches import key_of
from stitchproof.simulation.targets import value
from stitchproof.simulation.ways import Ways


def faults_of(row: ReadRow, trial: Trial) -> tuple[tuple[int, Fault], ...]:
    """What is wrong with a row under the usual reading, in each size: the first thing in the text, else the count."""
    faults: list[tuple[int, Fault]] = [(size, tried.slips[0]) for size, tried in trial.by_size.items() if tried.slips]
    faults = faults or list(wrong_counts(row.stated, row.per_group, trial, trial.habits.basis))
    if not faults:  # it closes only if a repeat is cut short, and no count says that it is
        faults = [(size, DoesNotDivide(tried.fit, NOWHERE)) for size, tried in trial.by_size.items() if tried.fit]
    return tuple(faults)


def plain_total(row: ReadRow, size: int) -> int | None:
    """The published total of stitches, if there is one plain one."""
    if len(row.stated) != 1 or row.per_group or row.stated[0].change:
        return None
    count = row.stated[0]
    name = count.thing.name if count.thing else "st"
    if name in ("chsp", "sp", "loop", "mesh", "repeat", "row", "rnd", "group", "shell", "rib"):
        return None
    return count.figures[size] if size < len(count.figures) else None


def unproved(row: ReadRow) -> bool | None:
    """A row that is read but not worked has no count to compare: that is not a right one."""
    return False if row.has_published else None


def remember(fabric: Fabric, row: ReadRow, tree: RowTree, size: int) -> None:
    """A row that was not worked can still be called for by its name or as one of the last."""
    label = row.label
    fabric.worked.append((tree,))
    if label and label.name:
        fabric.named[label.name.lower()] = (tree,)
    if label and label.rows:
        first, last = value(label.rows.first, size), value(label.rows.last or label.rows.first, size)
        for number in range(first or 0, min(last or -1, (first or 0) + 1000) + 1):
            fabric.by_label[key_of(label.rows.word), number] = (tree,)


def makes_its_own(tree: RowTree, ways: Ways, is_new: bool) -> bool:
    """Whether a row brings its own chains or ring, so that what was live before does not matter."""
    for item in flat_items(tree.items):
        if isinstance(item, Work):
            foundation = ways.facts(item.stitch).foundation
            return foundation or (is_new and founds((tree,), ways))
        if isinstance(item, Chain) and founds((tree,), ways):
            return is_new
    return False


def emptied(fabric: Fabric) -> Fabric:
    """A fabric with nothing on it that still knows its rows by name."""
    fresh = Fabric(fabric.piece, fabric.ways)
    fresh.named, fresh.by_label = dict(fabric.named), {}
    return fresh
