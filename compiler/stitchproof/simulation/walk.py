"""Works one written row, in one size, on the row below it: a cursor walk over its places."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.rows.row_tree import (
    Chain,
    Even,
    Evenly,
    FastenOff,
    InLoops,
    Item,
    Join,
    JoinYarn,
    Leave,
    Mark,
    Reach,
    Remark,
    Repeat,
    Rework,
    RowTree,
    Segment,
    Shaping,
    Skip,
    Target,
    Turn,
    Until,
    Work,
)
from stitchproof.simulation.by_kind import each_by_kind
from stitchproof.simulation.edge_chains import bridged, count_passed, first_stitch, go_along_other_side, is_other_side
from stitchproof.simulation.evenly import work_evenly
from stitchproof.simulation.hook import Hook, Marker
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.position import GROUP, Kind, Position, stitch
from stitchproof.simulation.repeats import work_repeat
from stitchproof.simulation.skips import work_skip
from stitchproof.simulation.slip_stitches import is_slip_work
from stitchproof.simulation.slips import CannotWork, CountWrong, Fit, LeftOver, PastEnd, Slip, Stopped
from stitchproof.simulation.starting_chains import resolve_chain, start_chain, work_chain
from stitchproof.simulation.targets import Bite, find_places, real_stop, take, value
from stitchproof.simulation.ways import Course, Ways

PLACED = (Work, Repeat, Skip, Chain)
"""Items that take places, or make them."""
FEWEST_OF_A_GROUP = 3
"""Stitches in one place that later rows may call a shell or a group, in text that is not ours."""


class Walked(Struct, frozen=True):
    """A row worked in one size.

    made: its places in the order made. taken, available: places of the row below. left: those not worked, in their order.
    next_chain: chains at its end, which start the next row. old_chain: whether it began with chains that don't count.
    over: places of its own that a spiral has gone on into.
    held: stitches that chains bridge, with the number of chains. slips: what went wrong, the first one first.
    end_part: the part of the row that comes to its end, or goes beyond it. marks_left: markers that it has not come to, by
    the row below.
    """

    made: LiveRow
    taken: int
    available: int
    left: LiveRow
    marks: tuple[Marker, ...]
    slips: tuple[Slip, ...]
    next_chain: int
    old_chain: bool
    over: int
    slip_stitches: int
    chains: int
    turned: bool
    joined: bool
    cut_off: bool
    cut_short: bool
    fit: Fit | None
    held: tuple[tuple[LiveRow, int], ...]
    end_part: int
    marks_left: tuple[Marker, ...]


def walk(tree: RowTree, hook: Hook, ways: Ways, size: int, is_last: bool = True) -> Walked:
    """Work a row from where the hook is, or a part of one; only its last part must come to the end.

    What goes wrong is in `slips`; after a stop the rest of the row is not worked.
    """
    old_chain = hook.pending_chain
    try:
        work_items(tree.items, hook, ways, size, outermost=True)
        _judge_end(hook, tree, ways, is_last)
    except Stopped as stopped:
        hook.slip(stopped.slip)
    return walked_by(hook, bool(old_chain or _starts_with_chain(tree)))


def walked_by(hook: Hook, with_chain: bool) -> Walked:
    """What a hook has worked. with_chain: the row began with chains."""
    made = hook.made.row()
    over = max(hook.cursor - hook.end, 0)
    starts_counted = bool(made) and made.at(0).kind is Kind.STARTING_CHAIN
    return Walked(
        made,
        hook.cursor,
        hook.end,
        hook.base.part(hook.cursor, hook.end),
        hook.marks_kept(),
        tuple(hook.slips),
        hook.next_chain,
        bool(with_chain or hook.travelled) and not starts_counted,
        over,
        hook.slip_stitches,
        made.total(lambda place: place.chains if place.kind in (Kind.SPACE, Kind.CHAIN) else 0),
        hook.turned,
        hook.joined,
        hook.cut_off,
        hook.cut_short,
        hook.fit,
        tuple((hook.base.part(start, end), chains) for start, end, chains in hook.held),
        (hook.past or hook.last)[0],
        hook.marks,
    )


def _starts_with_chain(tree: RowTree) -> bool:
    return any(isinstance(item, Chain) for item in tree.items[:3])


def _judge_end(hook: Hook, tree: RowTree, ways: Ways, is_last: bool) -> None:
    """Whether the row ends where the row below ends, or at a stop that it declares."""
    if hook.slips:
        return
    at = hook.last[1]
    if hook.cursor > hook.end > 0:
        over = hook.cursor - hook.end
        if hook.spiral and over == 1 and hook.last_was_skip and hook.has_spaces:
            return  # the round goes on over its own first stitch: the ring is one place less than the written round
        hook.slip(PastEnd(hook.end, hook.cursor, hook.fit, (hook.past or hook.last)[1]))
    elif is_last and hook.left_said and hook.left_said[0] != hook.left:
        hook.slip(CountWrong(hook.left_said[0], hook.left, "sts unworked", 0, hook.left_said[1]))
    elif (
        is_last
        and hook.open_left(ways.lenient) > 0
        and not (hook.left_declared or _only_the_old_chain(hook, ways) or bridged(hook, ways))
    ):
        hook.slip(LeftOver(hook.end, hook.cursor, hook.fit, at))


def _only_the_old_chain(hook: Hook, ways: Ways) -> bool:
    return ways.old_top_left and hook.left == 1 and hook.base.at(hook.end - 1).kind is Kind.STARTING_CHAIN


def work_items(items: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool = False) -> None:
    """Work items one after the other. outermost: they are the row itself, so that what follows them is its end."""
    done = 0
    for number, item in enumerate(items):
        if number < done:
            continue
        after, kind = items[number + 1 :], type(item)
        going_over = kind is Work and after and type(after[0]) is Work and _is_to_end(item)
        by_kind = _by_kind(items[number:]) if going_over else []
        if len(by_kind) > 1:
            start_chain(by_kind[0].stitch, by_kind[0], hook, ways)
            each_by_kind(by_kind, hook, ways, size)
            done = number + len(by_kind)
            continue
        if outermost and kind in PLACED:
            hook.come_to(item.at)
        if isinstance(item, Repeat):
            if hook.pending_chain and item.target is not None:
                resolve_chain(first_stitch(item.items, ways), hook, ways)
            if work_repeat(item, after, hook, ways, size, outermost, work_items):
                return  # what comes after was worked with it
        else:
            _work_item(item, after, hook, ways, size, outermost)
        if hook.past is None and hook.cursor > hook.base.size:
            hook.past = hook.last  # the words that first went beyond the end


def _by_kind(items: tuple[Item, ...]) -> list[Work]:
    """ "Sc in each sc and 2 sc in each ch-sp across" is one going over the row, each kind of place in its own way."""
    found: list[Work] = []
    for item in items:
        if not isinstance(item, Work) or not _is_to_end(item):
            break
        found.append(item)
    things = [each.target.things[0] if each.target and each.target.things else None for each in found]
    names = [(thing.name, thing.within) if thing else ("st", "") for thing in things]
    return found if len(set(names)) == len(names) else []


def _is_to_end(item: Item) -> bool:
    """Whether it goes over all that is left."""
    if not isinstance(item, Work) or item.target is None or item.target.reach is not Reach.EACH:
        return False
    return real_stop(item.target.stop) is None


def _work_item(item: Item, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool) -> None:
    was_skip, hook.last_was_skip = hook.last_was_skip, False
    match item:
        case Work():
            _work(item, after, hook, ways, size)
        case Chain():
            work_chain(item, after, hook, ways, size, outermost)
        case Skip():
            work_skip(item, after, hook, ways, size)
        case Turn():
            hook.turned = hook.turned or not item.not_turned
            _may_stop_early(after, hook, ways)
        case Join():
            hook.joined = hook.joined or not item.not_joined
        case Leave():
            hook.left_declared = True
            number = value(item.target.count, size) if item.target else None
            if number is not None and not ways.lenient:
                hook.left_said = (number, item.at)
        case FastenOff():
            hook.cut_off = True
        case JoinYarn():
            if item.target:
                bite = find_places(item.target, 1, hook, ways, size, 0)
                hook.cursor = hook.start_place = bite.start
        case Mark():
            _mark(item, hook)
            hook.last_was_skip = was_skip
        case Segment() | Remark() if is_other_side(item.words, hook):
            go_along_other_side(hook)
        case InLoops() | Remark() | Segment() | Until():
            hook.last_was_skip = was_skip
        case Evenly():
            work_evenly(item, hook, ways, size)
        case Rework() | Even() | Shaping() | Repeat():
            raise Stopped(CannotWork(type(item).__name__.lower(), item.at))


def _mark(item: Mark, hook: Hook) -> None:
    if item.what == "placed":
        first = item.target is not None and item.target.reach is Reach.FIRST
        hook.new_marks = (*hook.new_marks, Marker(0 if first else hook.made.size, item.name.lower()))
    elif item.what == "removed" and item.target is None:
        # The one that was just come to; where none was, it hangs elsewhere.
        here = [mark for mark in hook.new_marks if mark.before == hook.made.size and mark.is_placed]
        hook.new_marks = tuple(mark for mark in hook.new_marks if mark not in here[-1:])


def _may_stop_early(after: tuple[Item, ...], hook: Hook, ways: Ways) -> None:
    """In a row, a turn before the end may leave the rest: the row must say so, or the text is not ours."""
    if ways.lenient and ways.course is Course.ROWS and hook.left and not hook.to_end:
        hook.left_declared = True


def _work(item: Work, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int) -> None:
    if item.stitch == "slst" and is_slip_work(item, after, hook, ways, size):
        return
    name, each, takes = _stitch(item, hook, ways, size)
    facts = ways.facts(name)
    start_chain(name, item, hook, ways)
    if facts.foundation:
        number = value(item.number, size) or (value(item.target.count, size) if item.target else None) or 1
        hook.make(stitch(name, facts.base), number)
        return
    if item.target is None:
        said = value(item.number, size)
        if item.number is not None and said is None:
            return  # not worked in this size
        number = 1 if said is None else said
        if ways.bare_in_one and number > 1 and each == 1:
            number, each = 1, number
        test_target = Target(Reach.NEXT, (), None, item.at)
        bite = take(test_target, hook.cursor, number * takes, takes, hook, ways, size)
    else:
        if item.target.count is not None and value(item.target.count, size) is None:
            return
        kept = _kept_for(after, hook, ways, size) if item.target.reach is Reach.EACH else 0
        bite = find_places(item.target, takes, hook, ways, size, kept)
        if item.target.reach is Reach.FROM_HOOK:
            passed = hook.chain_said if item.target.counts is None else item.target.counts
            count_passed(bite.start - hook.cursor, passed, name, hook, ways)
            hook.start_place = bite.start
        hook.to_end = item.target.reach is Reach.EACH and real_stop(item.target.stop) is None
    _put(name, each, takes, bite, hook, ways)


def _stitch(item: Work, hook: Hook, ways: Ways, size: int) -> tuple[str, int, int]:
    """The stitch, how many go into each place, and how many places one takes."""
    each = value(item.each, size)
    each = 1 if each is None else each
    plain = hook.last_stitch or hook.main_stitch or ways.plain
    if not item.stitch:
        return plain, each, 1
    if item.stitch == "inc":
        return plain, each * 2, 1
    if item.stitch == "dec":
        over = value(item.target.count, size) if item.target and item.target.over else None
        return f"{plain}{over or 2}tog", each, over or 2
    takes = ways.facts(item.stitch).takes
    return item.stitch, each, takes


def _put(name: str, each: int, takes: int, bite: Bite, hook: Hook, ways: Ways) -> None:
    """Leave the stitches of a bite in the new row."""
    facts = ways.facts(name)
    if bite.stays:
        hook.worked = bite.start if bite.start < hook.end else hook.worked
        hook.started = True
    else:
        hook.move(bite.to, bite.number * takes, each * facts.makes, takes)
        hook.worked = bite.to - 1
    if facts.parts:
        hook.made.add_unit(tuple((place, 1) for place in _parts(facts.id, facts.parts)) * each, bite.number)
        hook.started = True
        return
    if ways.lenient and each >= FEWEST_OF_A_GROUP and facts.makes == 1:
        group = [(Position(Kind.STITCH, name, facts.base, 0, GROUP, index, each), 1) for index in range(each)]
        hook.made.add_unit(tuple(group), bite.number)
        hook.last_stitch, hook.started = facts.base, True
        return
    hook.make(stitch(name, facts.base), bite.number * each * facts.makes)


def _parts(name: str, parts: tuple[str, ...]) -> list[Position]:
    """What a group stitch leaves, in order."""
    of = len(parts)
    made = []
    for index, part in enumerate(parts):
        if part.startswith("chsp"):
            made.append(Position(Kind.SPACE, "", "", int(part[4:] or 1), name, index, of))
        else:
            made.append(Position(Kind.STITCH, part, part, 0, name, index, of))
    return made


def _kept_for(after: tuple[Item, ...], hook: Hook, ways: Ways, size: int) -> int:
    """Places at the end that the row still names after "each": the last ones, or the top of the old chain."""
    kept = 0
    for item in after:
        if hook.ring and isinstance(item, Work) and item.stitch == "slst":
            continue  # it levels the round, or closes it
        if isinstance(item, (Work, Skip)) and item.target and item.target.reach in (Reach.LAST, Reach.NEXT):
            takes = ways.facts(item.stitch).takes if isinstance(item, Work) else 1
            number = value(item.target.count, size)
            kept += takes if item.target.over else (1 if number is None else number) * takes
        elif isinstance(item, Work) and item.target and item.target.reach is Reach.TOP_OF_CHAIN:
            top = hook.end and hook.base.at(hook.end - 1).kind is Kind.STARTING_CHAIN
            is_said = ways.lenient and hook.end > 0 and not hook.old_chain  # what is below is not known so exactly
            kept += 1 if top or is_said else 0
        elif isinstance(item, Work) and item.target is None and item.stitch != "slst":
            takes = 2 if item.stitch == "dec" else ways.facts(item.stitch).takes
            kept += (value(item.number, size) or 1) * takes
        elif isinstance(item, Repeat) or (isinstance(item, Work) and item.target and item.target.reach is Reach.EACH):
            return 0
    return kept
