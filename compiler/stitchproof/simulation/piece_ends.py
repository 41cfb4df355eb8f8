"""How pieces end and begin: stitches that are still on the hook after the last row, and pieces that go on with them."""

from __future__ import annotations

from stitchproof.rows.row_tree import Chain, JoinYarn, RowTree
from stitchproof.rows.written_pattern import ReadStep
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.row_work import founds
from stitchproof.simulation.ways import Ways


def left_live(fabric: Fabric) -> int | None:
    """Stitches of the last row of a piece while the yarn is still on them; None after it is cut, or where they are not known."""
    return None if fabric.cut_off else next(iter(fabric.ends), None)


def begins_anew(steps: tuple[ReadStep, ...], ways: Ways) -> bool:
    """Whether a piece is begun with chains or a ring of its own, or with yarn that is joined, in its first row or before it."""
    for step in steps:
        trees = tuple(part.reading for part in step.parts if isinstance(part.reading, RowTree))
        items = [item for tree in trees for item in tree.items]
        if any(isinstance(item, JoinYarn) for item in items):
            return True
        if step.label is not None:
            return founds(trees, ways)
        if any(isinstance(item, Chain) for item in items):
            return True
    return False
