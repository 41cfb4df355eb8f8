"""Works repeats: so many times, or as often as they fit; alike passes on alike places are not worked one by one."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from stitchproof.rows.row_tree import Chain, Item, Reach, Repeat, Skip, Target, Work
from stitchproof.simulation.edge_chains import count_passed, first_stitch
from stitchproof.simulation.hook import Hook
from stitchproof.simulation.live_row import RowBuilder
from stitchproof.simulation.position import GROUP, Position, space, stitch
from stitchproof.simulation.slips import CannotWork, DoesNotDivide, Fit, PastEnd, Stopped
from stitchproof.simulation.targets import find_places, real_stop, stop_index, value
from stitchproof.simulation.ways import Ways

WorkItems = Callable[..., None]
KEPT_BACK = 3
"""Passes before the end that are worked singly, so that the last ones can be taken back."""


def work_repeat(
    item: Repeat, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool, work_items: WorkItems
) -> bool:
    """Work a repeat. True: the items after it were worked as well, because only they show how often it goes."""
    if item.target is not None:
        if ways.stacked and _is_stacked(item) and not hook.made.size:
            _stack(item.target, after, hook, ways, size)
        else:
            _into_one_place(item, hook, ways, size)
        return False
    extent = item.extent
    if extent is None:
        if ways.lenient and _is_one_group(item):
            _into_one_place(item, hook, ways, size, Target(Reach.NEXT, (), None, item.at))
        else:
            work_items(item.items, hook, ways, size)
        return False
    if extent.times is not None:
        times = value(extent.times, size)
        if times is not None:
            _so_often(item, passes_in_all(item, times, ways), hook, ways, size, work_items)
        return False
    return _as_often_as_fits(item, after, hook, ways, size, outermost, work_items)


def passes_in_all(item: Repeat, times: int, ways: Ways) -> int:
    """How often a repeat is worked in all, by the trade's rule: "rep from * 3 times" is three further times."""
    extent = item.extent
    if extent is None:
        return 1
    more = extent.more or (extent.doubtful and item.starred)
    if extent.doubtful and item.starred and not ways.further:
        more = False
    return times + 1 if more else times


def _is_one_group(item: Repeat) -> bool:
    """A bracket with a chain in it and no place named: all of it goes into one stitch, as a V does."""
    works = [each for each in item.items if isinstance(each, Work)]
    return any(isinstance(each, Chain) for each in item.items) and all(work.target is None for work in works)


def _is_stacked(item: Repeat) -> bool:
    """A stitch and chains on top of it: "(sc, ch 2) in first st"."""
    kinds = [type(inner) for inner in item.items]
    return kinds == [Work, Chain]


def _stack(target: Target, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int) -> None:
    """One taller stitch: that of the row."""
    bite = find_places(target, 1, hook, ways, size, 0)
    name = next((item.stitch for item in after if isinstance(item, Work) and _is_plain(item.stitch, ways)), ways.plain)
    hook.move(bite.to, 1, 1, 1)
    hook.worked = bite.to - 1
    hook.make(stitch(name, ways.facts(name).base), 1)


def _is_plain(name: str, ways: Ways) -> bool:
    return name not in ("inc", "dec", "") and ways.facts(name).takes == 1


def _into_one_place(item: Repeat, hook: Hook, ways: Ways, size: int, target: Target | None = None) -> None:
    goes_into = target or item.target or Target(Reach.NEXT, (), None, item.at)
    bite = find_places(goes_into, 1, hook, ways, size, 0)
    if goes_into.reach is Reach.FROM_HOOK:
        first, chains = first_stitch(item.items, ways), bite.start - hook.cursor
        said = hook.chain_said if goes_into.counts is None else goes_into.counts
        passed = ways.passed_count_as(chains, first) if said is None else said
        count_passed(chains, tuple(part for part in passed if said or part != "chsp"), first, hook, ways)
    made = RowBuilder()
    for inner in item.items:
        if isinstance(inner, Chain):
            made.add(space(value(inner.number, size) or 0), 1 if value(inner.number, size) else 0)
        elif isinstance(inner, Work):
            number = value(inner.number, size) or value(inner.each, size) or 1
            facts = ways.facts(inner.stitch)
            made.add(stitch(inner.stitch, facts.base), number)
        elif isinstance(inner, Repeat):
            raise Stopped(CannotWork("a group inside a group", inner.at))
    places = list(made.row())
    unit = tuple((_in_group(place, index, len(places), ways), 1) for index, place in enumerate(places))
    if bite.stays:
        hook.worked = bite.start
    else:
        hook.move(bite.to, bite.number, len(places), 1)
        hook.worked = bite.to - 1
    hook.started = True
    hook.made.add_unit(unit, bite.number)


def _in_group(place: Position, index: int, of: int, ways: Ways) -> Position:
    """In text that is not ours later rows call such a group by any name ("shell")."""
    return Position(place.kind, place.stitch, place.base, place.chains, GROUP, index, of) if ways.lenient else place


def _so_often(item: Repeat, times: int, hook: Hook, ways: Ways, size: int, work_items: WorkItems) -> None:
    begin, done = hook.cursor, 0
    kept_back = 0 if item.last_stops_at is None and _takes_what_comes_next(item.items) else 1
    while done < times:
        last = done + 1 == times
        done += _passes(item, times - done, hook, ways, size, work_items, last, kept_back)
    taken = hook.cursor - begin
    if times:
        hook.fit = Fit(taken // times, hook.end - begin, times)


def _passes(
    item: Repeat,
    wanted: int,
    hook: Hook,
    ways: Ways,
    size: int,
    work_items: WorkItems,
    last: bool = False,
    kept_back: int = KEPT_BACK,
) -> int:
    """Work one pass; then go on by as many more as are sure to be the same. How many were worked.

    kept_back: passes before the end that are worked singly in any case.
    """
    start, made, marks, begins = hook.cursor, hook.made.size, hook.marks, hook.pending_chain
    items = item.items[: item.last_stops_at] if last and item.last_stops_at is not None else item.items
    work_items(items, hook, ways, size)
    if last or begins or wanted <= 1 or hook.marks != marks:
        return 1
    takes = hook.cursor - start
    more = _alike_passes(start, takes, wanted - 1 - kept_back, hook, kept_back)
    if more > 0:
        hook.made.repeat_from(made, more)
        hook.cursor += takes * more
        hook.worked = None if hook.worked is None else hook.worked + takes * more
    return 1 + max(more, 0)


def _alike_passes(start: int, takes: int, wanted: int, hook: Hook, kept_back: int) -> int:
    """How many more passes lie on places that are like those of the pass just worked."""
    if takes <= 0 or wanted <= 0 or start >= hook.end:
        return 0
    run, first = hook.base.run_at(start)
    alike = start + hook.base.alike_from(start)[1]
    if alike >= hook.cursor:
        room = alike - hook.cursor
    elif takes % run.unit_size == 0:
        room = first + run.size - hook.cursor
    else:
        return 0
    # A marker is come to by a pass of its own.
    ahead = [(mark.before - hook.cursor - 1) // takes for mark in hook.marks if mark.before >= hook.cursor]
    return min([wanted, room // takes - kept_back, *ahead])


def _takes_what_comes_next(items: tuple[Item, ...]) -> bool:
    """Whether a pass goes by the next places alone, and not by how far the end or a marker is."""
    return all(
        isinstance(item, Chain)
        or (isinstance(item, Work | Skip) and (item.target is None or item.target.reach in (Reach.NEXT, Reach.SAME)))
        for item in items
    )


def _as_often_as_fits(
    item: Repeat, after: tuple[Item, ...], hook: Hook, ways: Ways, size: int, outermost: bool, work_items: WorkItems
) -> bool:
    extent = item.extent
    written = real_stop(extent.stop) if extent else None
    stop = stop_index(written, hook, ways, size) if written else hook.end
    begin = hook.cursor
    if stop < begin:
        raise Stopped(PastEnd(hook.end, hook.cursor + hook.end - stop, None, item.at))
    hook.passes = 0
    states = [hook.copy()]
    while hook.cursor < stop:
        before = hook.cursor
        try:
            hook.passes += _passes(item, max((stop - before), 1), hook, ways, size, work_items)
        except Stopped:
            if len(states) == 1:
                raise
            hook.become(states[-1].copy())
            break
        if hook.cursor <= before:
            raise Stopped(CannotWork("a repeat that takes nothing", item.at))
        states.append(hook.copy())
        del states[: -KEPT_BACK - 2]
    follows = (*(item.ending or ()), *after)
    if outermost and written is None:
        return _with_what_follows(item, states, follows, after, begin, hook, ways, size, work_items)
    return _up_to(stop, states, item, begin, hook, ways, size, work_items)


def _up_to(
    stop: int, states: list[Hook], item: Repeat, begin: int, hook: Hook, ways: Ways, size: int, work_items: WorkItems
) -> bool:
    """The passes must end at the stop itself."""
    fitting = [state for state in states if state.cursor <= stop]
    best = fitting[-1] if fitting else states[0]
    if item.last_stops_at is not None:
        for state in reversed(fitting):
            trial = state.copy()
            if _tried(item.items[: item.last_stops_at], trial, ways, size, work_items) and trial.cursor == stop:
                hook.become(trial)
                return False
    takes = _pass_size(states)
    hook.become(best.copy())
    if item.last_stops_at is not None and best.cursor == stop:
        # "to last 9 sts, ending at **": whole passes up to there, and then the one that is cut
        trial = best.copy()
        if _tried(item.items[: item.last_stops_at], trial, ways, size, work_items) and trial.cursor <= hook.end:
            hook.become(trial)
            return False
    hook.fit = Fit(takes, stop - begin, (best.cursor - begin) // takes if takes else 0)
    if best.cursor != stop and (not ways.lenient or best.open_before(stop)):
        hook.slip(DoesNotDivide(hook.fit, item.at))
        hook.cursor = stop
    return False


def _with_what_follows(
    item: Repeat,
    states: list[Hook],
    follows: tuple[Item, ...],
    after: tuple[Item, ...],
    begin: int,
    hook: Hook,
    ways: Ways,
    size: int,
    work_items: WorkItems,
) -> bool:
    """Try the last passes back from the end: the first number of them with which the row closes is the one meant."""
    takes = _pass_size(states)
    for attempt in _attempts(item, states, follows, after, ways, size, work_items):
        if attempt.open_left(ways.lenient) == 0 and not attempt.slips[len(states[0].slips) :]:
            attempt.fit = Fit(takes, attempt.end - begin, attempt.passes)
            hook.become(attempt)
            return True
    fitting = [state for state in states if state.cursor <= hook.end]
    best = (fitting[-1] if fitting else states[0]).copy()
    passes = (best.cursor - begin) // takes if takes else 0
    best.fit = Fit(takes, best.end - begin, passes)
    hook.become(best)
    if best.open_left(ways.lenient) and not _takes_places(follows):
        if _cut_short(item, hook, ways, size, work_items):
            return False
        hook.slip(DoesNotDivide(Fit(takes, hook.end - begin, passes), item.at))
        hook.cursor = hook.end
    return False


def _attempts(
    item: Repeat,
    states: list[Hook],
    follows: tuple[Item, ...],
    after: tuple[Item, ...],
    ways: Ways,
    size: int,
    work_items: WorkItems,
) -> Iterator[Hook]:
    """One after the other, as nearly always the first will do."""
    if ways.ending_replaces:
        yield from _attempts_cut(item, states, follows, ways, size, work_items)
    for state in reversed(states):
        trial = state.copy()
        if _tried(follows, trial, ways, size, work_items):
            yield trial
    for state in reversed(states) if item.last_stops_at is not None else ():
        trial = state.copy()
        if _tried((*item.items[: item.last_stops_at], *follows), trial, ways, size, work_items):
            yield trial
    if item.ending is not None:
        yield from _attempts_cut(item, states, follows, ways, size, work_items)
        for state in reversed(states):
            trial = state.copy()
            if trial.left == 0 and _tried(after, trial, ways, size, work_items):
                yield trial


def _attempts_cut(
    item: Repeat, states: list[Hook], follows: tuple[Item, ...], ways: Ways, size: int, work_items: WorkItems
) -> Iterator[Hook]:
    """The ending in place of the last items of the last pass."""
    for state in reversed(states) if item.ending is not None else ():
        for kept in range(len(item.items) - 1, 0, -1):
            trial = state.copy()
            if _tried((*item.items[:kept], *follows), trial, ways, size, work_items):
                yield trial


def _tried(items: tuple[Item, ...], trial: Hook, ways: Ways, size: int, work_items: WorkItems) -> bool:
    try:
        work_items(items, trial, ways, size, outermost=True)
    except Stopped:
        return False
    return True


def _takes_places(items: tuple[Item, ...]) -> bool:
    return any(isinstance(item, Repeat) or (isinstance(item, Work) and item.stitch != "slst") for item in items)


def _pass_size(states: list[Hook]) -> int:
    return states[-1].cursor - states[-2].cursor if len(states) > 1 else 0


def _is_the_first_again(item: Repeat, kept: int) -> bool:
    """What is left of the last pass is one stitch behind a chain: in a round it is the stitch that the round began with."""
    rest, before = item.items[kept:], item.items[:kept]
    return len(rest) == 1 and isinstance(rest[0], Work) and bool(before) and isinstance(before[-1], Skip | Chain)


def _cut_short(item: Repeat, hook: Hook, ways: Ways, size: int, work_items: WorkItems) -> bool:
    """A last pass that stops where the row ends, after a stitch: right only if the stated count says so too."""
    for kept in range(len(item.items) - 1, 0, -1):
        trial = hook.copy()
        closes_ring = hook.ring and _is_the_first_again(item, kept)
        if not isinstance(item.items[kept - 1], Work) and not closes_ring:
            continue
        if _tried(item.items[:kept], trial, ways, size, work_items) and trial.open_left(ways.lenient) == 0:
            hook.become(trial)
            hook.cut_short = not closes_ring
            return True
    return False
