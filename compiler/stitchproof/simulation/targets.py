"""Finds the places that a where-phrase means, from where the hook is."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.rows.row_tree import Amount, Reach, Stop, Target, Thing
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.live_row import Test
from stitchproof.simulation.position import Kind, Position
from stitchproof.simulation.slips import Absent, CannotWork, NoMarker, PassesOver, PastEnd, Stopped
from stitchproof.simulation.ways import Ways

ANY_STITCH = ("st", "place", "")
SPACES = ("chsp", "sp", "loop", "lp", "arch")
CHAINS = ("ch", "base ch")
GROUP_NAMES = ("shell", "fan", "vst", "group", "scallop", "corner", "cluster")


class Bite(Struct, frozen=True):
    """Places found: the hook goes on to `to`, and works `number` of those in between; the others are passed over.

    stays: the hook does not move on. past: how many of them lie beyond the end.
    """

    start: int
    to: int
    number: int
    stays: bool = False
    past: int = 0


def value(amount: Amount | None, size: int) -> int | None:
    """A number in a size; None where it is not worked or not known. One below zero is reported for itself and works nothing."""
    return None if amount is None else amount.wholes[size]


def test_for(things: tuple[Thing, ...], hook: Hook, ways: Ways, size: int) -> Test:
    """What a place must be. A stitch whose name the row below does not hold at all is any stitch, where names are loose."""
    if not things:
        return _any_stitch(ways)
    if len(things) == 1:
        return _test(things[0], hook, ways, size)
    tests = [_test(thing, hook, ways, size) for thing in things]
    return lambda position: any(test(position) for test in tests)


def _any_stitch(ways: Ways) -> Test:
    return _is_place if ways.st_is_any_place else _is_no_space


def _is_place(position: Position) -> bool:
    return True


def _is_no_space(position: Position) -> bool:
    return position.kind is not Kind.SPACE


def _test(thing: Thing, hook: Hook, ways: Ways, size: int) -> Test:
    if thing.within and thing.name in ANY_STITCH:
        middle = _part_test(thing, size)
        if not any(map(middle, hook.base.kinds)):
            raise Stopped(CannotWork(f"the {thing.of} {thing.name} of a {thing.within}", thing.at))
        return middle
    if thing.name in ANY_STITCH:
        return _any_stitch(ways)
    if thing.name in SPACES:
        chains = value(thing.chains, size)
        return lambda position: position.kind is Kind.SPACE and _is_of(position, chains, ways)
    if thing.name in CHAINS:
        kinds = (Kind.CHAIN, Kind.SPACE, Kind.STARTING_CHAIN) if ways.lenient else (Kind.CHAIN, Kind.SPACE)
        return lambda position: position.kind in kinds
    if thing.name == "row-end":
        return lambda position: position.kind is Kind.ROW_END
    if thing.within:
        part = _part_test(thing, size)
        if any(map(part, hook.base.kinds)):
            return part
    group = _group_test(thing.name, ways)
    if any(map(group, hook.base.kinds)):
        return group
    facts = ways.facts(thing.name)
    # A stitch around the post is told from its plain stitch and from the one on the other side; other kinds may be named loosely.
    base = thing.name if facts.post and not ways.lenient else facts.base

    def named(position: Position) -> bool:
        return position.is_stitch and (position.stitch == thing.name or position.base in (thing.name, base))

    if ways.lenient and (ways.any_name or not any(map(named, hook.base.kinds))):
        return _any_stitch(ways)
    return named


def _is_of(position: Position, chains: int | None, ways: Ways) -> bool:
    """Whether a space has so many chains. One beside a starting chain is also called by all the chains of the start."""
    return chains in (None, position.chains) or (ways.lenient and not position.group and position.of == chains)


def _group_test(name: str, ways: Ways) -> Test:
    """The middle of a group: its space if it has one there. In text that is not ours it may have been made without its name."""
    unnamed = ways.lenient and name in GROUP_NAMES
    return lambda position: (
        (position.group == name or (unnamed and position.group != "")) and position.index == position.of // 2
    )


def _part_test(thing: Thing, size: int) -> Test:
    """One stitch of a group: the nth, or the one in the middle."""
    nth = value(thing.nth, size)
    return lambda position: position.group != "" and position.index == (position.of // 2 if nth is None else nth - 1)


def is_for_spaces(things: tuple[Thing, ...]) -> bool:
    """Whether only chain spaces are meant."""
    return bool(things) and all(thing.name in SPACES for thing in things)


def find_places(target: Target, takes: int, hook: Hook, ways: Ways, size: int, reserve: int) -> Bite:
    """The places of a target; `takes` for each stitch. reserve: places at the end kept for what the row says after it.

    Raises Stopped where there is no such place.
    """
    for thing in target.things:
        if thing.name in CHAINS:
            hook.open_spaces()
            break
    match target.reach:
        case Reach.NEXT | Reach.LAST | Reach.FIRST:
            return _counted(target, takes, hook, ways, size)
        case Reach.SAME:
            return _same(target, hook, ways, size)
        case Reach.EACH:
            return _each(target, takes, hook, ways, size, reserve)
        case Reach.TOP_OF_CHAIN:
            return _top(target, hook, ways)
        case Reach.FROM_HOOK:
            return _from_hook(target, hook, ways, size)
        case Reach.AROUND_RING:
            if hook.base.count(lambda place: place.kind is Kind.CHAIN) == hook.end:
                hook.cursor = hook.end  # the chains are the ring
            return Bite(hook.cursor, hook.cursor, 1, stays=True)
        case Reach.ELSEWHERE if _is_skipped(target) and hook.started and hook.cursor:
            return Bite(hook.cursor - 1, hook.cursor, value(target.count, size) or 1, stays=True)
        case Reach.ELSEWHERE:
            raise Stopped(CannotWork(target.words or "a place out of the line of work", target.at))


def _is_skipped(target: Target) -> bool:
    """Whether it is a stitch that was just passed over: it was left out of the row's sum already."""
    said = target.words.lower().split()
    return any(word in said for word in ("skipped", "missed", "unworked")) and not any(
        word in ("row", "rnd") for word in said
    )


def _counted(target: Target, takes: int, hook: Hook, ways: Ways, size: int) -> Bite:
    if target.bare and ways.lenient and _is_just_come_to(target, hook, ways, size):
        return Bite(hook.worked or 0, hook.cursor, 1, stays=True)
    number = value(target.count, size)
    number = 1 if number is None else number
    wanted = takes if target.over or (target.count is None and takes > 1) else number * takes
    if target.over and number > takes:
        wanted = number
    start = _first_of(target, hook, number * takes)
    if target.reach is Reach.LAST and hook.end - start > wanted:
        last = max(start, _begin_of_last(wanted, test_for(target.things, hook, ways, size), hook))
        _pass_to(last, target, hook, ways)
        start = max(last, start)
    return take(target, start, wanted, takes, hook, ways, size)


def _begin_of_last(wanted: int, test: Test, hook: Hook) -> int:
    """Where the last so many places begin: of the kind that is named, where others lie behind them."""
    begin = hook.end - wanted
    if hook.base.part(begin, hook.end).count(test) == wanted:
        return begin
    backwards, index = hook.base.turned(), -1
    for _ in range(wanted):
        found = backwards.find(index + 1, test)
        if found is None:
            return begin  # there are not so many: the work itself will tell
        index = found
    return hook.end - 1 - index


def _is_just_come_to(target: Target, hook: Hook, ways: Ways, size: int) -> bool:
    """Whether a space named without "next" is the one that slip stitches have led to, with the chain of the start on it."""
    place = hook.place(hook.worked) if hook.worked is not None and hook.travelled and not hook.started else None
    return place is not None and is_for_spaces(target.things) and test_for(target.things, hook, ways, size)(place)


def _first_of(target: Target, hook: Hook, wanted: int) -> int:
    """Where "first" starts: the base of a starting chain that counts is an increase; "next" is where the hook is."""
    if target.reach is Reach.FIRST and not hook.started:
        return hook.start_place
    return hook.cursor


def take(target: Target, start: int, wanted: int, takes: int, hook: Hook, ways: Ways, size: int) -> Bite:
    """So many matching places from `start` on, those of other kinds passed over in silence."""
    test, end = test_for(target.things, hook, ways, size), hook.base.size
    index, found = start, 0
    while found < wanted:
        place, alike = hook.base.alike_from(index) if index < end else (hook.place(index), 1)
        if place is None:
            break
        if test(place):
            number = min(alike, wanted - found)
            found, index = found + number, index + number
            continue
        further = hook.find(index, test)
        if further is None:
            break
        _may_pass(index, further, target, hook, ways)
        hook.passed_over(index, further)
        index = further
    if found < wanted and index < end:
        raise Stopped(_absent(target, hook, index))
    past = wanted - found
    return Bite(start, index + past, wanted // takes, past=past + max(index - max(end, start), 0))


def _may_pass(index: int, to: int, target: Target, hook: Hook, ways: Ways) -> None:
    """Whether places may be passed over without a word: spaces before a stitch; stitches where spaces alternate."""
    if ways.lenient:
        return
    if is_for_spaces(target.things):
        if to - index > 1 and hook.base.spaces < 3:
            raise Stopped(PassesOver(to - index, target.at))
        return
    passed = [hook.place(each) for each in range(index, min(to, index + 4))]
    if any(place is None or place.kind is not Kind.SPACE for place in passed):
        raise Stopped(_absent(target, hook, index))


def _absent(target: Target, hook: Hook, index: int) -> Absent:
    place = hook.place(index)
    wanted = target.things[0].name if target.things else "st"
    chains = ""
    if place is None:
        found = ""
    elif place.kind is Kind.SPACE:
        found, chains = "chsp", str(place.chains)
    else:
        found = place.stitch
    return Absent(wanted, f"{found}{chains}", target.at)


def _same(target: Target, hook: Hook, ways: Ways, size: int) -> Bite:
    """The place worked last again; in our own text it is the kind of place that is named: "same ch-sp"."""
    bite = _place_again(hook)
    place = hook.place(bite.start)
    if place is not None and not ways.lenient and not test_for(target.things, hook, ways, size)(place):
        raise Stopped(_absent(target, hook, bite.start))
    return bite


def _place_again(hook: Hook) -> Bite:
    if hook.started or hook.worked is not None:
        place = hook.cursor if hook.worked is None else hook.worked
        return Bite(place, hook.cursor, 1, stays=True)
    # Nothing is worked yet: the place joined into, or travelled to, is the first one.
    return Bite(hook.start_place, max(hook.cursor, hook.start_place + 1), 1)


def _each(target: Target, takes: int, hook: Hook, ways: Ways, size: int, reserve: int) -> Bite:
    stop = real_stop(target.stop)
    end = stop_index(stop, hook, ways, size) if stop else max(hook.end - reserve, hook.cursor)
    test = test_for(target.things, hook, ways, size)
    if end < hook.cursor:
        raise Stopped(PastEnd(hook.end, hook.end + hook.cursor - end, None, target.at))
    if end > hook.end:
        return Bite(hook.cursor, end, max(end - hook.cursor, 0) // takes)
    room = hook.base.part(hook.cursor, end)
    matching = room.count(test)
    if target.every > 1:
        return Bite(hook.cursor, end, -(-matching // target.every))
    if matching % takes:
        raise Stopped(_uneven(takes, matching, target))
    if room and not matching:
        raise Stopped(_absent(target, hook, hook.cursor))
    if not ways.lenient and not stop and matching < len(room):
        _only_spaces_between(room, test, target, hook)
    return Bite(hook.cursor, end, matching // takes)


def _only_spaces_between(room: object, test: Test, target: Target, hook: Hook) -> None:
    """What "each" leaves out may be spaces, not stitches."""
    missed = hook.base.part(hook.cursor, hook.end).find(
        0, lambda place: not test(place) and place.kind is not Kind.SPACE
    )
    if missed is not None:
        raise Stopped(_absent(target, hook, hook.cursor + missed))


def _uneven(takes: int, room: int, target: Target) -> CannotWork:
    return CannotWork(f"{room} places do not go into stitches of {takes}", target.at)


def real_stop(stop: Stop | None) -> Stop | None:
    """A stop before the end; "across" and "to end" are none."""
    return None if stop is None or (stop.at_end and stop.before is None) else stop


def stop_index(stop: Stop, hook: Hook, ways: Ways, size: int) -> int:
    """The place before which work stops. Raises Stopped where there is no such marker or thing."""
    before = value(stop.before, size) or 0
    if stop.marker is not None:
        named = stop.marker.lower()
        meant = (mark for mark in hook.marks if (mark.name == named if named else mark.is_placed))
        placed = sorted(mark.before for mark in meant)
        if stop.nth is not None:
            nth = len(placed) if stop.nth == 0 else stop.nth - hook.marks_passed
            placed = placed[nth - 1 : nth] if nth > 0 else []
        ahead = [each for each in placed if each >= hook.cursor]
        if not ahead and ways.lenient:
            # Others mark the first stitch of a round to find its end; where else their markers sit is not known.
            if ways.course.in_rounds and not stop.marker:
                return hook.end - before
            raise Stopped(CannotWork("work to a marker", stop.at))
        if not ahead:
            raise Stopped(NoMarker(stop.at))
        return ahead[0] - before
    if stop.at_end and stop.of and before and _is_found_by_kind(stop.of, before, hook, ways, size):
        return _last_of(stop.of, before, hook, ways, size)
    if stop.at_end:
        return hook.end - before
    test = test_for((stop.of,) if stop.of else (), hook, ways, size)
    found = hook.find(hook.cursor, test)
    if found is None:
        raise Stopped(Absent(stop.of.name if stop.of else "st", "", stop.at))
    return found - before


def _pass_to(index: int, target: Target, hook: Hook, ways: Ways) -> None:
    """Go to a place at the end that the row names; what lies before it may not be passed over without a word."""
    passed = hook.open_before(index) if ways.lenient else index - hook.cursor
    if passed > 0:
        hook.slip(PassesOver(passed, target.at))


def _is_found_by_kind(thing: Thing, before: int, hook: Hook, ways: Ways, size: int) -> bool:
    """Whether "last" means the last of a kind: of groups and spaces, and of one stitch behind which others lie."""
    if thing.name in GROUP_NAMES or is_for_spaces((thing,)):
        return True
    if before > 1 or not hook.end or not ways.is_stitch(thing.name):
        return False
    test = test_for((thing,), hook, ways, size)
    return not test(hook.base.at(hook.end - 1)) and hook.find(hook.cursor, test) is not None


def _last_of(thing: Thing, before: int, hook: Hook, ways: Ways, size: int) -> int:
    """The place where the last so many groups or spaces begin."""
    backwards, test, index = hook.base.turned(), test_for((thing,), hook, ways, size), -1
    for _ in range(before):
        found = backwards.find(index + 1, test)
        if found is None:
            raise Stopped(Absent(thing.name, "", thing.at))
        index = found
    place = backwards.at(index)
    return hook.end - 1 - index - (place.index if place.group and place.kind is Kind.STITCH else 0)


def _top(target: Target, hook: Hook, ways: Ways) -> Bite:
    if hook.left >= 1 and hook.base.at(hook.end - 1).kind is Kind.STARTING_CHAIN:
        _pass_to(hook.end - 1, target, hook, ways)
        return Bite(hook.end - 1, hook.end, 1)
    if (
        hook.left == 2
        and hook.base.at(hook.end - 1).kind is Kind.SPACE
        and hook.base.at(hook.end - 2).kind is Kind.STARTING_CHAIN
    ):
        return Bite(hook.cursor, hook.end, 1)
    if hook.old_chain:
        hook.old_chain = False
        return Bite(hook.cursor, hook.cursor, 1, stays=True)
    if hook.left:
        return Bite(hook.cursor, hook.cursor + 1, 1)
    raise Stopped(Absent("tch", "", target.at))


def _from_hook(target: Target, hook: Hook, ways: Ways, size: int) -> Bite:
    if hook.pending_chain:
        hook.add_chain_before(hook.pending_chain)
        hook.pending_chain = 0
    nth = value(target.count, size) or 1
    if nth > hook.left or (hook.left and hook.base.at(hook.cursor).kind is not Kind.CHAIN):
        raise Stopped(Absent("ch", "", target.at))
    return Bite(hook.cursor + nth - 1, hook.cursor + nth, 1)


def described(position: Position | None) -> str:
    """A place by the name that the trade has for it."""
    if position is None:
        return ""
    return "chsp" if position.kind is Kind.SPACE else position.stitch
