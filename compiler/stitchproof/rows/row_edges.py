"""Where a row begins and how it ends: in a ring, in a chain from the hook, its last stitch, what goes on to the end."""

from __future__ import annotations

from stitchproof.rows.reader import Reader
from stitchproof.rows.row_tree import Item, Loops, Reach, Remark, Target, Thing, Work
from stitchproof.rows.stops import no_stop, read_stop
from stitchproof.rows.where import at_target, read_target
from stitchproof.rows.works import at_work, read_works


def at_chain_from_hook(reader: Reader) -> bool:
    """Whether "in" goes on with a chain counted from the hook."""
    ahead = 2
    while reader.peek(ahead).word in ("the", "in"):
        ahead += 1
    return reader.peek(ahead).kind == "ordinal" and reader.peek(ahead + 1).word in ("ch", "st", "from")


def read_from_chain(reader: Reader) -> list[Item]:
    """ "Starting in 2nd ch from hook, sc across": the first stitch there, then one in each."""
    first = reader.position
    reader.take()
    reader.accept("with")
    reader.accept("the")
    target = read_target(reader)
    at = reader.stretch(first)
    reader.accept(",")
    reader.accept("work")
    works = read_works(reader) if at_work(reader) else []
    work = works[0] if works else None
    if target.reach is not Reach.FROM_HOOK or not isinstance(work, Work) or work.target is None:
        raise reader.stop()
    if work.target.reach is not Reach.EACH or (work.each is not None and set(work.each.values) != {1}):
        raise reader.stop()
    return [Work(work.stitch, work.loops, None, None, target, at), *works]


def read_into_ring(reader: Reader) -> list[Item]:
    """ "MR, 6 sc": a ring, and what goes into it."""
    first = reader.position
    reader.take()
    target = Target(Reach.AROUND_RING, (), None, reader.stretch(first))
    reader.skip_separators()
    reader.accept(":")
    work, *others = read_works(reader)
    if not isinstance(work, Work) or work.target is not None:
        raise reader.stop()
    return [Work(work.stitch, work.loops, work.number, None, target, reader.stretch(first)), *others]


def read_ring_of(reader: Reader) -> Item:
    """ "MR 6": so many of the piece's plain stitch in a ring."""
    first = reader.position
    reader.take()
    number = reader.number()
    if not (reader.at_break() or reader.opens):
        raise reader.stop()
    target = Target(Reach.AROUND_RING, (), None, reader.stretch(first))
    return Work("", Loops.BOTH, number, None, target, reader.stretch(first))


def read_last_stitch(reader: Reader) -> Item | None:
    """ "working last dc in top of tch", "placing the last sc in last st": where the row's last stitch goes."""
    first = reader.position
    if not (reader.at("working|work|place|placing|with") and reader.kind == "word"):
        return None
    reader.take()
    reader.accept("the")
    is_last = reader.accept("last")
    if is_last and (reader.kind == "stitch" or reader.word == "st"):
        stitch = reader.take()
        reader.accept("work") or reader.accept("worked") or reader.accept("being", "worked")
        if at_target(reader):
            target = read_target(reader)
            if target.reach in (Reach.TOP_OF_CHAIN, Reach.LAST, Reach.NEXT):
                word = stitch.word if stitch.kind == "stitch" else ""
                return Work(word, Loops.BOTH, None, None, target, reader.stretch(first))
    reader.position = first
    return None


def read_same_stitch(reader: Reader) -> Item:
    """ "…, and one in top of tch": so many of the stitch worked last."""
    first = reader.position
    number = reader.number()
    target = read_target(reader)
    return Work("", Loops.BOTH, number, None, target, reader.stretch(first))


def read_going_on(reader: Reader) -> Item:
    """ "continue in sc": a stitch in each place that remains."""
    first = reader.position
    reader.take()
    reader.take()
    stitch = reader.take().word
    stop = read_stop(reader) or no_stop(reader.peek().start)
    target = Target(Reach.EACH, (Thing("st", reader.stretch(reader.position)),), None, reader.stretch(first), stop)
    return Work(stitch, Loops.BOTH, None, None, target, reader.stretch(first))


def read_rotation(reader: Reader) -> Remark:
    """ "Rotate work and continue along other side": another edge is worked from here on."""
    first = reader.position
    while not (reader.kind == "end" or reader.word in (",", ";", ".", "--", ":")):
        if reader.kind == "stitch" or (reader.kind == "number" and reader.peek(1).kind == "stitch"):
            break
        reader.take()
    return Remark(reader.text(reader.stretch(first)), reader.stretch(first))
