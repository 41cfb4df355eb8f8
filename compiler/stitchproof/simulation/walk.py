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
from stitchproof.simulation.hook import Hook, Marker
from stitchproof.simulation.live_row import LiveRow
from stitchproof.simulation.position import Kind, Position, space, stitch
from stitchproof.simulation.repeats import work_repeat
from stitchproof.simulation.slips import Absent, CannotWork, CountWrong, Fit, LeftOver, PastEnd, Slip, Stopped
from stitchproof.simulation.targets import Bite, find_places, is_for_spaces, real_stop, take, value
from stitchproof.simulation.ways import Course, Ways

NEXT_ST = "next st"


class Walked(Struct, frozen=True):
    """A row worked in one size.

    made: its places in the order made. taken, available: places of the row below. left: those not worked, in their order.
    next_chain: chains at its end, which start the next row. old_chain: whether it began with chains that don't count.
    over: places of its own that a spiral has gone on into.
    held: stitches that chains bridge, with the number of chains. slips: what went wrong, the first one first.
    end_part: the part of the row that comes to its end, or goes beyond it.
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
        bool(old_chain or hook.travelled or _starts_with_chain(tree)) and not starts_counted,
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
    elif is_last and hook.left > 0 and not hook.left_declared and not _only_the_old_chain(hook, ways):
        hook.slip(LeftOver(hook.end, hook.cursor, hook.fit, at))


def _only_the_old_chain(hook: Hook, ways: Ways) -> bool:
    return ways.old_top_left and hook.left == 1 and hook.base.at(hook.end - 1).kind is Kind.STARTING_CHAIN


def work_items(items: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool = False) -> None:
    """Work items one after the other. outermost: they are the row itself, so that what follows them is its end."""
    done = 0
    for number, item in enumerate(items):
        if number < done:
            continue
        after = items[number + 1 :]
        by_kind = _by_kind(items[number:])
        if len(by_kind) > 1:
            _start_chain(by_kind[0].stitch, by_kind[0], hook, ways)
            each_by_kind(by_kind, hook, ways, size)
            done = number + len(by_kind)
            continue
        if outermost and isinstance(item, Work | Repeat | Skip | Chain):
            hook.come_to(item.at)
        if isinstance(item, Repeat) and work_repeat(item, after, hook, ways, size, outermost, work_items):
            return  # what comes after was worked with it
        if not isinstance(item, Repeat):
            _work_item(item, after, hook, ways, size, outermost)
        hook.worked_words()


def _by_kind(items: tuple[Item, ...]) -> list[Work]:
    """ "Sc in each sc and 2 sc in each ch-sp across" is one going over the row, each kind of place in its own way."""
    found: list[Work] = []
    for item in items:
        to_end = isinstance(item, Work) and item.target is not None and item.target.reach is Reach.EACH
        if not isinstance(item, Work) or not to_end or not item.target or real_stop(item.target.stop) is not None:
            break
        found.append(item)
    names = [each.target.things[0].name if each.target and each.target.things else "st" for each in found]
    return found if len(set(names)) == len(names) else []


def _work_item(item: Item, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool) -> None:
    was_skip, hook.last_was_skip = hook.last_was_skip, False
    match item:
        case Work():
            _work(item, after, hook, ways, size)
        case Chain():
            _chain(item, after, hook, ways, size, outermost)
        case Skip():
            _skip(item, hook, ways, size)
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
        case InLoops() | Remark() | Segment() | Until():
            hook.last_was_skip = was_skip
        case Rework() | Even() | Shaping() | Evenly() | Repeat():
            raise Stopped(CannotWork(type(item).__name__.lower(), item.at))


def _mark(item: Mark, hook: Hook) -> None:
    if item.what == "placed":
        first = item.target is not None and item.target.reach is Reach.FIRST
        hook.new_marks = (*hook.new_marks, Marker(0 if first else hook.made.size))


def _may_stop_early(after: tuple[Item, ...], hook: Hook, ways: Ways) -> None:
    """In a row, a turn before the end may leave the rest: the row must say so, or the text is not ours."""
    if ways.lenient and ways.course is Course.ROWS and hook.left and not hook.to_end:
        hook.left_declared = True


def _work(item: Work, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int) -> None:
    if item.stitch == "slst" and _slip_stitch(item, after, hook, ways, size):
        return
    name, each, takes = _stitch(item, hook, ways, size)
    facts = ways.facts(name)
    _start_chain(name, item, hook, ways)
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
        bite = find_places(item.target, takes, hook, ways, size, _kept_for(after, hook, ways, size))
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
        if isinstance(item, Work | Skip) and item.target and item.target.reach in (Reach.LAST, Reach.NEXT):
            takes = ways.facts(item.stitch).takes if isinstance(item, Work) else 1
            number = value(item.target.count, size)
            kept += takes if item.target.over else (1 if number is None else number) * takes
        elif isinstance(item, Work) and item.target and item.target.reach is Reach.TOP_OF_CHAIN:
            top = hook.end and hook.base.at(hook.end - 1).kind is Kind.STARTING_CHAIN
            kept += 1 if top else 0
        elif isinstance(item, Work) and item.target is None and item.stitch != "slst":
            takes = 2 if item.stitch == "dec" else ways.facts(item.stitch).takes
            kept += (value(item.number, size) or 1) * takes
        elif isinstance(item, Repeat) or (isinstance(item, Work) and item.target and item.target.reach is Reach.EACH):
            return 0
    return kept


def _start_chain(name: str, item: Work, hook: Hook, ways: Ways) -> None:
    """The first stitch of a row settles what the chain before it is."""
    chains, hook.pending_chain = hook.pending_chain, 0
    if not chains:
        return
    from_hook = item.target is not None and item.target.reach is Reach.FROM_HOOK
    if from_hook:
        hook.pending_chain = chains
        return
    counts = ways.counts_as(chains, name)
    if hook.spiral and not counts and chains > 1 and ways.lenient:
        hook.make(space(chains), 1)
        return
    _count_chain(counts, chains, name, hook, ways)


def _count_chain(counts: tuple[str, ...], chains: int, name: str, hook: Hook, ways: Ways) -> None:
    """A counted chain stands on the first place, or on the last one that was slipped into."""
    for part in counts:
        if part == "chsp":
            height = ways.facts(counts[0]).height
            hook.make(space(max(chains - height, 1)), 1)
        else:
            hook.made.add(Position(Kind.STARTING_CHAIN, part, ways.facts(part).base), 1)
            if (hook.end and not hook.travelled) or (hook.end and hook.ring):
                hook.worked = hook.cursor
                hook.cursor += 1
            hook.started = False


def _chain(item: Chain, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool) -> None:
    chains = value(item.number, size)
    if not chains:
        return
    if _is_picot(after):
        return
    at_start = outermost and not hook.started and not hook.made.size and hook.worked in (None, hook.cursor - 1)
    if at_start and not _skips_next(after, ways):
        hook.pending_chain += chains
        if item.counts is not None:
            _settle(item, chains, hook, ways)
        return
    if outermost and _ends_row(after) and not hook.ring:
        hook.next_chain = chains
        return
    hook.make(space(chains), 1)


def _settle(item: Chain, chains: int, hook: Hook, ways: Ways) -> None:
    """The row says what its chain counts as."""
    hook.pending_chain = 0
    if item.counts:
        _count_chain(item.counts, chains, item.counts[0], hook, ways)
    # "does not count": it is there, and that is all


def _skips_next(after: tuple[Item, ...], ways: Ways) -> bool:
    """Whether a chain at the start of a spiral bridges what is skipped next, and so is a space."""
    following = next((item for item in after if not isinstance(item, Remark)), None)
    return ways.course is Course.SPIRAL and isinstance(following, Skip)


def _is_picot(after: tuple[Item, ...]) -> bool:
    """Chains that a slip stitch closes into a knot make no place."""
    following = after[0] if after else None
    return (
        isinstance(following, Work)
        and following.stitch == "slst"
        and following.target is not None
        and following.target.reach in (Reach.FROM_HOOK, Reach.SAME)
    )


def _ends_row(after: tuple[Item, ...]) -> bool:
    return all(isinstance(item, Turn | Remark | FastenOff | Mark) for item in after)


def _skip(item: Skip, hook: Hook, ways: Ways, size: int) -> None:
    target = item.target
    number = value(target.count, size)
    if target.count is not None and number is None:
        return
    if target.reach is Reach.FIRST and not hook.started and hook.cursor > hook.start_place:
        return  # after a chain that counts it is a reminder: the chain stands there
    hook.last_was_skip = True
    if target.reach is Reach.EACH:
        hook.move(hook.end, 0, 0, 1)
        return
    if ways.lenient and not is_for_spaces(target.things) and _at_space(hook):
        hook.move(hook.cursor + (number or 1), 0, 0, 1)
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


def _at_space(hook: Hook) -> bool:
    place = hook.place(hook.cursor)
    return place is not None and place.kind is Kind.SPACE


def _strictly_next(item: Skip, hook: Hook, ways: Ways, size: int) -> Bite:
    """What is skipped must be what comes next."""
    bite = find_places(item.target, 1, hook, ways, size, 0)
    if bite.to - bite.start > bite.number:
        place = hook.place(bite.start)
        name = item.target.things[0].name if item.target.things else "st"
        found = "" if place is None else (f"chsp{place.chains}" if place.kind is Kind.SPACE else place.stitch)
        raise Stopped(Absent(name, found, item.at))
    return bite


def _slip_stitch(item: Work, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int) -> bool:
    """Slip stitches that travel, shape or close the round. False: they are fabric, worked as any stitch."""
    number = (value(item.target.count, size) if item.target else value(item.number, size)) or 1
    fabric = ways.plain == "slst" or (item.target is not None and item.target.reach is Reach.EACH)
    if fabric:
        hook.slip_stitches += max(hook.left, 0)
        return False
    hook.slip_stitches += number
    at_start = not hook.made.size and not hook.started
    if at_start:
        target = item.target or Target(Reach.NEXT, (), None, item.at)
        if target.reach is Reach.SAME:
            return True
        bite = find_places(target, 1, hook, ways, size, 0)
        if hook.ring:
            # The round begins where the last slip stitch goes, and comes back to it.
            first = bite.to - 1 + (1 if bite.start == hook.cursor and _means_after_join(target, hook) else 0)
            hook.rotate(first % max(hook.end, 1))
        else:
            hook.cursor = hook.start_place = bite.to
            hook.worked = bite.to - 1
        hook.travelled += number
        return True
    # At the end of a round it only levels the step.
    return hook.ring and hook.left <= 0


def _means_after_join(target: Target, hook: Hook) -> bool:
    """ "Next st" after a join is the one after the stitch joined into; "next ch-sp" is found by its kind."""
    return not is_for_spaces(target.things) and not hook.spiral and hook.travelled == 0 and target.reach is Reach.NEXT
