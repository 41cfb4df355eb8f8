"""Places that a row skips, and those that it leaves under chains for later."""

from __future__ import annotations

from stitchproof.rows.row_tree import (
    Item,
    Reach,
    Skip,
)
from stitchproof.simulation.edge_chains import count_passed, first_stitch, is_reminder
from stitchproof.simulation.hook import Hook, Marker
from stitchproof.simulation.position import Kind
from stitchproof.simulation.slips import Absent, PastEnd, Stopped
from stitchproof.simulation.starting_chains import resolve_chain
from stitchproof.simulation.targets import Bite, find_places, real_stop, stop_index, value
from stitchproof.simulation.ways import Ways


def work_skip(item: Skip, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int) -> None:
    """Pass over what a row says to skip; after a chain that counts, the first stitch is passed already."""
    target = item.target
    number = value(target.count, size)
    if target.count is not None and number is None:
        return
    if not hook.started and not hook.made.size and hook.left > 0 and hook.base.at(hook.cursor).kind is Kind.CHAIN:
        count_passed(number or 1, target.counts, first_stitch(after, ways), hook, ways)
    if hook.pending_chain:
        resolve_chain(first_stitch(after, ways), hook, ways)
    if is_reminder(target, hook):
        # After a chain that counts the first one is a reminder: the chain stands there.
        hook.move(max(hook.cursor, hook.start_place + (number or 1)), 0, 0, 1)
        return
    hook.last_was_skip = True
    if target.reach is Reach.EACH:
        stop = real_stop(target.stop)
        to = stop_index(stop, hook, ways, size) if stop else hook.end
        if not hook.cursor <= to <= hook.end:
            raise Stopped(PastEnd(hook.end, hook.end + abs(hook.cursor - to), None, target.at))
        if stop:
            _hold(to - hook.cursor, hook)
        hook.move(to, 0, 0, 1)
        return
    _hold(number or 1, hook)
    bite = find_places(target, 1, hook, ways, size, 0) if ways.lenient else _strictly_next(item, hook, ways, size)
    hook.move(bite.to, 0, 0, 1)


def _hold(number: int, hook: Hook) -> None:
    """Stitches that chains bridge may be worked later, with the chains."""
    last = hook.made.last
    if number > 1 and last is not None and last.kind is Kind.SPACE and last.chains > 1:
        span = f"underarm {len(hook.held)}"
        hook.held = (*hook.held, (hook.cursor, hook.cursor + number, last.chains))
        size = hook.made.size
        hook.new_marks = (*hook.new_marks, Marker(size - 1, f"{span} from"), Marker(size, f"{span} to"))


def _strictly_next(item: Skip, hook: Hook, ways: Ways, size: int) -> Bite:
    """What is skipped must be what comes next."""
    bite = find_places(item.target, 1, hook, ways, size, 0)
    if bite.to - bite.start > bite.number:
        place = hook.place(bite.start)
        name = item.target.things[0].name if item.target.things else "st"
        found = "" if place is None else (f"chsp{place.chains}" if place.kind is Kind.SPACE else place.stitch)
        raise Stopped(Absent(name, found, item.at))
    return bite
