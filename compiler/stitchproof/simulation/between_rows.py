"""What stands between the rows of a piece: a foundation chain, yarn joined or cut, the side that faces, markers of underarms."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stitchproof.measures.values import Absent
from stitchproof.rows.row_tree import (
    Chain,
    FastenOff,
    Item,
    Join,
    JoinYarn,
    Mark,
    Reach,
    Remark,
    Segment,
    Skip,
    Target,
    Turn,
    Work,
)
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.hook import Marker, foundation
from stitchproof.simulation.row_work import RowWork
from stitchproof.simulation.side import Side
from stitchproof.simulation.slips import SidesDiffer
from stitchproof.simulation.targets import CHAINS, value

BETWEEN_ROWS = (Remark, Segment, Mark, JoinYarn, FastenOff, Turn, Chain, Skip)


def is_starting_chain(items: Sequence[Item], fabric: Fabric) -> bool:
    """Whether a line makes the chain that a piece begins with, or closes it into a ring, and does nothing else."""
    chain = any(isinstance(item, Chain) for item in items)
    closes = [item for item in items if not isinstance(item, BETWEEN_ROWS)]
    begun = fabric.own_foundation and fabric.row is fabric.foundation
    return not fabric.rows and all(map(_closes_ring, closes)) and (chain or (begun and bool(closes)))


def _closes_ring(item: Item) -> bool:
    """Whether it joins the last chain to the first: "join with sl st in first ch", "sl st in first ch"."""
    if isinstance(item, Join):
        return not item.not_joined
    target = item.target if isinstance(item, Work) and item.stitch == "slst" else None
    return target is not None and target.reach is Reach.FIRST and all(each.name in CHAINS for each in target.things)


def work_between(items: Iterable[Item], work: RowWork) -> None:
    """Do what a line between two rows says, on the fabric of the work."""
    fabric = work.fabric
    for item in items:
        match item:
            case Chain():
                _found(item, work)
            case Skip():
                _skip_left(item, work)
            case JoinYarn():
                _join_yarn(work)
            case FastenOff():
                fabric.cut_off = True
            case Remark() if "RS facing" in item.words:
                fabric.side = Side.RS
            case Remark() if "WS facing" in item.words:
                fabric.side = Side.WS
            case Mark() if item.what == "placed" and item.target:
                _mark_underarms(item.target, work)
            case _:
                pass


def _found(item: Chain, work: RowWork) -> None:
    """A chain that the next row is worked into."""
    fabric, chains = work.fabric, value(item.number, work.size)
    fabric.chain_unknown = item.number.values[work.size] is Absent.UNKNOWN
    if chains:
        fabric.row = fabric.foundation = foundation(chains)
        fabric.own_foundation = True
        fabric.cut_off, fabric.next_chain, fabric.side = False, 0, None
        fabric.shaken, work.candidates = False, []


def _mark_underarms(target: Target, work: RowWork) -> None:
    """A marker in each underarm, so many stitches from where it begins; in a line of words the number is what is counted."""
    fabric = work.fabric
    number = value(target.count, work.size)
    if "underarm" not in target.words or number is None:
        return
    begins = [mark for mark in fabric.marks if mark.name.endswith(" from")]
    ends = {mark.name.removesuffix(" to"): mark.before for mark in fabric.marks if mark.name.endswith(" to")}
    for mark in begins[:1]:
        whole = ends.get(mark.name.removesuffix(" from"), mark.before) - mark.before
        if whole > 0 and number != whole - number:
            work.tell(SidesDiffer("underarm", number, whole - number, target.at), 0)
    fabric.marks = (*fabric.marks, *(Marker(mark.before + number) for mark in begins))


def _skip_left(item: Skip, work: RowWork) -> None:
    """Stitches passed over on what an earlier row left unworked, before yarn is joined for the other side."""
    fabric, number = work.fabric, value(item.target.count, work.size) or 1
    if fabric.left is not None:
        fabric.skipped = fabric.left.part(0, number)
        fabric.divided = len(fabric.rows)
        fabric.left = fabric.left.part(number, len(fabric.left))


def _join_yarn(work: RowWork) -> None:
    fabric = work.fabric
    fabric.cut_off = False
    if fabric.left is not None and len(fabric.left):
        fabric.row = fabric.left.turned() if fabric.ways.course.turns else fabric.left
        fabric.left, fabric.next_chain = None, 0
        if fabric.divided_from is not None:
            fabric.aside += len(fabric.rows) - fabric.divided_from
        fabric.shaken = fabric.left_doubted
