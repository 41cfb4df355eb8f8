"""Works stretches of rows told in one line: a row again until so many are complete, rows even, shaping on certain rows."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.rows.row_tree import (
    Even,
    Loops,
    OnRows,
    Reach,
    Rework,
    RowNumbers,
    RowTree,
    Shaping,
    Stretch,
    Target,
    Thing,
    Until,
    Work,
)
from stitchproof.simulation.counts import OF_ROWS
from stitchproof.simulation.fabric import Fabric
from stitchproof.simulation.row_work import RowWork, without_counts
from stitchproof.simulation.slips import CannotWork, NoSuchRow, RowsRunOut
from stitchproof.simulation.targets import value

MOST_ROWS = 10_000
"""Rows that one line may ask for; a piece of clothing has some hundreds."""
STEADY = 2
"""Rows alike after which the others of a stretch are not worked one by one, where a row may come out otherwise on the same
edge."""

Parts = tuple[RowTree, ...]


def rework(item: Rework, work: RowWork, part: int, labelled: int | None = None) -> bool:
    """Rows again, so often or until, or for as many rows as the label names. False: it cannot be worked."""
    rows = _rows_meant(item, work)
    if rows is None or not all(rows):
        _no_such_row(None if rows else item.named or _numbers(item.rows, work.size), item.at, work, part)
        return False
    fabric, size = work.fabric, work.size
    changes = _changes(rows, fabric)
    if changes:
        rows = [_without_totals(each) for each in rows]
    if item.until is not None:
        wanted = _rows_until(item.until, work, part, 0 if changes else len(rows))
        return wanted is not None and _again(rows, wanted, work)
    if item.extent is None and labelled and labelled > 1:
        return _again(rows, labelled, work)
    times = value(item.extent.times, size) if item.extent else 1
    if times is None:
        return True  # not worked in this size
    if times * len(rows) + len(fabric.rows) > MOST_ROWS:
        work.report(CannotWork(f"{times * len(rows)} rows", item.at), part)
        return False
    return _again(rows, times * len(rows), work)


def _no_such_row(name: str | None, at: Stretch, work: RowWork, part: int) -> None:
    """A row that is called for is not there; nothing is said where rows before could not be worked, or none is told."""
    known = name is not None and work.fabric.rows and work.fabric.rows_known
    work.report(NoSuchRow(name or "", at) if known else CannotWork("rows that are not known", at, follows=True), part)


def _changes(rows: list[Parts], fabric: Fabric) -> bool:
    """Whether rows change the number of stitches, so that the totals that they state hold the first time only."""
    for parts in rows:
        if any(count.change for tree in parts for stated in tree.stated for count in stated.counts):
            return True
        at = next((index for index, each in enumerate(fabric.worked) if each is parts), 0)
        if 0 < at < len(fabric.rows) and fabric.rows[at].count != fabric.rows[at - 1].count:
            return True
    return False


def _without_totals(parts: Parts) -> Parts:
    """Rows with what they say of their change only."""
    found = []
    for tree in parts:
        changes = [replace(each, counts=tuple(c for c in each.counts if c.change)) for each in tree.stated]
        found.append(RowTree(tree.items, tuple(each for each in changes if each.counts), tree.only))
    return tuple(found)


def _rows_meant(item: Rework, work: RowWork) -> list[Parts] | None:
    fabric, size = work.fabric, work.size
    if item.last is not None:
        number = value(item.last, size) or 0
        return fabric.worked[-number:] if 0 < number <= len(fabric.worked) else None
    if item.named:
        named = fabric.named.get(item.named.lower())
        return [named] if named else None
    return rows_by_number(item.rows, work)


def rows_by_number(rows: RowNumbers | None, work: RowWork) -> list[Parts] | None:
    """The rows of some numbers, as written; None where one of them is not there."""
    if rows is None:
        return None
    numbers = [value(each, work.size) for each in rows.listed]
    if rows.first is not None:
        first, last = value(rows.first, work.size), value(rows.last or rows.first, work.size)
        if first is None or last is None:
            return None
        numbers = list(range(first, min(last, first + MOST_ROWS) + 1))
    found = [work.fabric.by_label.get((key_of(rows.word), number)) for number in numbers if number is not None]
    return [each for each in found if each is not None] if found and None not in found else None


def key_of(word: str) -> str:
    """The word of a label, however it is spelled."""
    return " ".join(word.lower().replace("round", "rnd").split()).removesuffix("s")


def _numbers(rows: RowNumbers | None, size: int) -> str:
    """Rows as they are called: "Row 2", "Rows 3 and 4"."""
    if rows is None:
        return ""
    ends = dict.fromkeys(value(each, size) for each in (rows.first, rows.last, *rows.listed) if each)
    return " ".join((rows.word, " and ".join(str(each) for each in ends if each is not None))).strip()


def _rows_until(until: Until, work: RowWork, part: int, sample: int = 1) -> int | None:
    """How many rows are still to be worked; None where it cannot be told.

    sample: rows that leave the fabric as it is. Of a text that is not ours no length can be told; after so many of them it is
    what it is after all of them.
    """
    wanted = value(until.amount, work.size)
    if until.what == "length" and work.ways.lenient and sample:
        return sample
    if until.what != "rows" or wanted is None:
        work.report(CannotWork(f"until {until.noun or until.what}", until.at), part)
        return None
    done = work.fabric.done(until.noun)
    further = next((wanted - done - shift for shift in work.fabric.shifts if wanted - done - shift >= 0), -1)
    if not 0 <= further <= MOST_ROWS:
        work.tell(RowsRunOut(done, wanted, until.noun, until.at), part)
        work.fabric.shaken = True
        return None
    return further


def _again(rows: list[Parts], number: int, work: RowWork) -> bool:
    """So many rows, going through `rows` again and again; once they leave the fabric as it was, the rest are only counted."""
    done, alike = 0, 0
    while done < number:
        parts, before = rows[done % len(rows)], work.goes_on_from
        if not work.row(parts, "", None):
            return False
        done += 1
        alike = alike + 1 if before == work.goes_on_from else 0
        if len(rows) == 1 and alike >= _enough(parts, work):
            work.fabric.repeat_last(number - done)
            return True
    return True


def _enough(parts: Parts, work: RowWork) -> int:
    """Rows alike after which the next one is sure to be so too. One that states how many rows or ribs there are states something
    else each time, and after a fault a row may close on another reading."""
    counts = [count for tree in parts for stated in tree.stated for count in stated.counts]
    open_yet = (
        work.fabric.shaken or work.candidates or any(count.thing and count.thing.name in OF_ROWS for count in counts)
    )
    return STEADY if open_yet else 1


def even(item: Even, work: RowWork, part: int, labelled: int | None = None) -> bool:
    """Rows without shaping: as many as are told, or as the label names."""
    rows = rows_by_number(item.as_row, work) if item.as_row else [work.fabric.plain or (plain_row(item.at),)]
    if rows is None:
        _no_such_row(_numbers(item.as_row, work.size), item.at, work, part)
        return False
    number = value(item.rows, work.size) if item.rows else None
    if item.rows is not None and number is None:
        return True
    if number is None:
        if item.until is None and labelled:
            number = labelled
        elif item.until is None:
            work.report(CannotWork("work even", item.at), part)
            return False
        else:
            number = _rows_until(item.until, work, part)
        if number is None:
            return False
    if number > MOST_ROWS:
        work.report(CannotWork(f"{number} rows", item.at), part)
        return False
    return _again([without_counts(rows[0])], number, work)


def plain_row(at: Stretch) -> RowTree:
    """A row of the row's own stitch in each stitch."""
    each = Target(Reach.EACH, (Thing("st", at),), None, at)
    return RowTree((Work("", Loops.BOTH, None, None, each, at),), ())


def shaping(item: Shaping, work: RowWork, part: int) -> bool:
    """A named row on certain rows, other rows between."""
    fabric = work.fabric
    named = fabric.named.get(item.row.lower())
    if named is None:
        _no_such_row(item.row, item.at, work, part)
        return False
    others = rows_by_number(item.even_row, work) if item.even_row else [fabric.plain or (plain_row(item.at),)]
    if others is None:
        _no_such_row(_numbers(item.even_row, work.size), item.at, work, part)
        return False
    shaped = shaped_rows(item.when, work)
    if shaped is None:
        work.report(CannotWork("these rows", item.at), part)
        return False
    word = next((each.word for each in item.when if each.word), "")
    done = fabric.done(word)
    last = max(shaped, default=done)
    if item.until is not None:
        further = _rows_until(item.until, work, part)
        if further is None:
            return False
        if last > done + further:
            work.tell(RowsRunOut(last, done + further, item.until.noun, item.until.at), part)
            work.fabric.shaken = True
            return False
        last = done + further
    if any(number <= done for number in shaped) or last - done > MOST_ROWS:
        work.tell(RowsRunOut(done, min(shaped), word, item.at), part)
        work.fabric.shaken = True
        return False
    return _shaped(named, without_counts(others[0]), shaped, range(done + 1, last + 1), work)


def _shaped(named: Parts, between: Parts, shaped: set[int], numbers: range, work: RowWork) -> bool:
    """The rows of these numbers: a named one where it is shaped, others between, which are only counted once they are steady."""
    fabric, number = work.fabric, numbers.start
    turning = sorted(shaped)
    while number < numbers.stop:
        is_shaped = number in shaped
        before = work.goes_on_from
        if not work.row(named if is_shaped else between, "", None):
            return False
        number += 1
        if not (is_shaped or fabric.shaken or work.candidates) and before == work.goes_on_from:
            further = min(next((each for each in turning if each >= number), numbers.stop), numbers.stop) - number
            fabric.repeat_last(further)
            number += further
    return True


def shaped_rows(when: tuple[OnRows, ...], work: RowWork) -> set[int] | None:
    """The numbers of the rows on which something is worked; None where one of the numbers is not known."""
    shaped: set[int] = set()
    done = work.fabric.done(next((each.word for each in when if each.word), ""))
    last = done
    for on in when:
        if on.run is not None:
            run = value(on.run, work.size) or 0
            shaped |= set(range(last + 1, last + min(run, MOST_ROWS) + 1))
            last += run
        elif on.on is not None:
            first = value(on.on, work.size)
            if first is None:
                return None
            shaped.add(first)
            last = first
        else:
            last += 1
            shaped.add(last)
        for every, times in on.then:
            step, more = value(every, work.size), value(times, work.size)
            if step is None or more is None:
                continue  # not worked in this size
            if step < 1 or step * more > MOST_ROWS:
                return None
            shaped |= {last + step * each for each in range(1, more + 1)}
            last += step * more
    return shaped


def as_piece(item: Rework, other: Fabric, work: RowWork) -> bool:
    """ "Work as right front until …": the rows of another piece again, from its beginning. False: it cannot be told."""
    fabric = work.fabric
    wanted = value(item.until.amount, work.size) if item.until and item.until.what == "rows" else None
    if not other.rows_known or (item.until and wanted is None):
        return False
    fabric.row = fabric.foundation = other.foundation if other.own_foundation else fabric.row
    fabric.own_foundation, fabric.side = other.own_foundation, other.first_side
    fabric.named, fabric.by_label = dict(other.named), dict(other.by_label)
    fabric.shaken = fabric.has_fault = other.has_fault
    noun = item.until.noun if item.until else ""
    for done, parts in enumerate(other.worked):
        if wanted is not None and fabric.done(noun) >= wanted:
            return True
        if not work.row(parts, other.rows[done].word, other.rows[done].number):
            return False
    if wanted is not None and fabric.done(noun) < wanted and item.until:
        work.tell(RowsRunOut(fabric.done(noun), wanted, noun, item.until.at), 0)
    return True
