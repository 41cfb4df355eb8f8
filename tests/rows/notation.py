"""Trees of rows as short texts that a test can compare.

sc>next 3 st        one in each of the next 3      2 dc>next st      two in one
6 sc                six, no place said             ch 3 (dc)         chains and what they count as
[sc; inc]x6         a bracket, six times           *…*+3?            three further times, read in two ways
sc>each st..-2 st   to the last 2                  = 24 sc           a stated count
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.rows.line import line_of_text
from stitchproof.rows.read_row import read_row
from stitchproof.rows.row_tree import (
    Amount,
    Chain,
    EndOf,
    EndsWith,
    Even,
    Evenly,
    Extent,
    FastenOff,
    InLoops,
    Item,
    Join,
    JoinAs,
    JoinYarn,
    Leave,
    Loops,
    Mark,
    MarkedStitch,
    NamedSpan,
    NotRead,
    OnRows,
    OnTrust,
    Reach,
    Reading,
    Remark,
    Repeat,
    Rework,
    RowNumbers,
    SeamSide,
    Segment,
    Sewn,
    Shaping,
    Skip,
    StartAfter,
    Stated,
    Stop,
    Target,
    Thing,
    Turn,
    Until,
    Work,
)
from stitchproof.rows.row_words import RowWords
from stitchproof.source import SourceFile, Span

ONE_SIZE = ("M",)
WORDS = {terms: RowWords(terms) for terms in ("US", "UK")}
_LOOPS = {Loops.BOTH: "", Loops.BACK: ".blo", Loops.FRONT: ".flo", Loops.THIRD: ".third"}


def read(text: str, terms: str = "US", sizes: tuple[str, ...] = ONE_SIZE) -> Reading:
    """The reading of a text."""
    return read_row(line_of_text(text, sizes, Span(SourceFile("row", text), 0, len(text))), WORDS[terms])


def notation(text: str, terms: str = "US", sizes: tuple[str, ...] = ONE_SIZE) -> str:
    """The reading of a text in short notation."""
    return shown(read(text, terms, sizes))


def shown(reading: Reading) -> str:
    """A reading in short notation."""
    match reading:
        case NotRead():
            return f"not read: {reading.words}"
        case OnTrust():
            return "on trust"
    only = "" if reading.only is None else f"only {','.join(map(str, reading.only))}: "
    items = "; ".join(item(each) for each in reading.items)
    counts = "".join(f" = {stated(each)}" for each in reading.stated)
    return (only + items + counts).strip()


def item(each: Item) -> str:
    """An item."""
    match each:
        case Work():
            return _work(each)
        case Chain():
            counts = (
                "" if each.counts is None else f" ({'+'.join(each.counts) or 'nothing'}{'!' if each.for_good else ''})"
            )
            return f"ch {amount(each.number)}{counts}"
        case Skip():
            return f"sk {target(each.target)}"
        case Repeat():
            return _repeat(each)
        case Turn():
            return "not turned" if each.not_turned else "turn"
        case Join():
            how = "" if each.stitch == "slst" else f" {each.stitch}"
            return "not joined" if each.not_joined else f"join{how}{_into(each.target)}"
        case Leave():
            return f"leave{_into(each.target)}"
        case FastenOff():
            return "fasten off"
        case JoinYarn():
            return f"join yarn{_into(each.target)}"
        case Mark():
            return f"{each.what}{' ' + each.name if each.name else ''}{_into(each.target)}"
        case InLoops():
            return f"from here{_LOOPS[each.loops] or '.both'}{'!' if each.throughout else ''}"
        case Segment():
            return f"{{{each.words}}}"
        case Remark():
            return f'"{each.words}"'
        case _:
            return _of_rows(each)


def _of_rows(each: Item) -> str:
    match each:
        case Rework():
            what = rows(each.rows) if each.rows else f"last {amount(each.last)}" if each.last else each.named
            return f"again <{what}>{extent(each.extent)}{_until(each.until)}"
        case Even():
            number = f" {amount(each.rows)}" if each.rows else ""
            return f"even{number}{' as ' + rows(each.as_row) if each.as_row else ''}{_until(each.until)}"
        case Shaping():
            what = each.row or ", ".join(item(inner) for inner in each.items)
            between = f" between {rows(each.even_row)}" if each.even_row else ""
            when = "".join(f" {on_rows(on)}" for on in each.when)
            return f"shape <{what}{' at ' + each.edge if each.edge else ''}>{when}{between}{_until(each.until)}"
        case Evenly():
            sign = {1: "inc", -1: "dec", 0: each.stitch}[each.sign]
            to = f" to {amount(each.to)}" if each.to else ""
            number = f" {amount(each.number)}" if each.number else ""
            return f"evenly {sign}{number}{to}{' <' + each.target.words + '>' if each.target else ''}"
        case Until():
            return f"so far{_until(each)}"
        case EndOf():
            return f"at end of {rows(each.rows)}"
        case _:
            return _meeting(each)


def _meeting(each: Item) -> str:
    match each:
        case MarkedStitch():
            start = (
                f" from {each.counted_from}={'?' if each.marked_is is None else each.marked_is}"
                if each.counted_from
                else ""
            )
            return f"marker {each.name} in {amount(each.nth)}{' of <' + each.row + '>' if each.row else ''}{start}"
        case NamedSpan():
            before, after = (amount(number) if number else "0" for number in (each.before, each.after))
            return f"span <{each.name}> {before}+{each.marker if each.with_marked else '|' + each.marker}+{after}"
        case EndsWith():
            return f"<{each.row}> ends with <{each.span}>"
        case StartAfter():
            return f"start after <{each.span}>"
        case JoinAs():
            return f"join as <{each.piece}>"
        case Sewn():
            return f"sew {_side(each.one)} to {_side(each.other)}"
    raise AssertionError(each)


def _side(side: SeamSide) -> str:
    number = f"{amount(side.number)} " if side.number else ""
    of = f" of {'each ' if side.each else ''}{side.piece}" if side.piece else ""
    return f"{number}<{'+'.join(side.spans)}>{of}"


def on_rows(on: OnRows) -> str:
    """On which rows."""
    start = f"next {amount(on.run)}" if on.run else f"{on.word} {amount(on.on)}".strip() if on.on else "next"
    return start + "".join(f" +{amount(every)}x{amount(times)}" for every, times in on.then)


def _until(until: Until | None) -> str:
    if until is None:
        return ""
    number = amount(until.amount) if until.amount else "?"
    ends = f" ends {until.side or until.ends}" if until.side or until.ends else ""
    return f" until {until.what} {number} <{until.noun}>{ends}"


def rows(numbers: RowNumbers) -> str:
    """Numbers of rows."""
    if numbers.listed:
        return f"{numbers.word} {','.join(amount(each) for each in numbers.listed)}"
    first = amount(numbers.first) if numbers.first else "?"
    last = amount(numbers.last) if numbers.last else "?"
    return f"{numbers.word} {first}" + ("" if first == last else f"-{last}")


def _work(work: Work) -> str:
    name = (work.stitch or "pattern") + _LOOPS[work.loops]
    each = f"{amount(work.each)} " if work.each else ""
    number = f"{amount(work.number)} " if work.number else ""
    return f"{each}{number}{name}{_into(work.target)}"


def _into(place: Target | None) -> str:
    return "" if place is None else f">{target(place)}"


def target(place: Target) -> str:
    """A place."""
    things = "/".join(thing(each) for each in place.things)
    number = f"{amount(place.count)} " if place.count else ""
    marks = (" post" if place.around_post else "") + (" over" if place.over else "")
    counts = "" if place.counts is None else f" ({'+'.join(place.counts) or 'nothing'})"
    match place.reach:
        case Reach.ELSEWHERE:
            return f"<{place.words}>"
        case Reach.FROM_HOOK:
            return f"{amount(place.count) if place.count else '?'} from hook{counts}"
        case Reach.TOP_OF_CHAIN:
            return f"top{' ' + number.strip() if number else ''}"
        case Reach.AROUND_RING:
            return "ring"
        case Reach.SAME:
            return f"same {things}".strip()
        case Reach.EACH:
            every = f"{place.every}. " if place.every > 1 else ""
            return f"each {every}{things}{stop(place.stop)}{marks}"
        case _:
            piece = f" of <{place.piece}>" if place.piece else ""
            return f"{place.reach.value} {number}{things}{marks}{counts}{piece}"


def stop(at: Stop | None) -> str:
    """Where "each" stops."""
    if at is None:
        return "..?"
    before = f"-{amount(at.before)} {thing(at.of) if at.of else ''}".rstrip() if at.before else ""
    if at.marker is not None:
        nth = "" if at.nth is None else f" {at.nth}" if at.nth else " last"
        return f"..marker{at.marker}{nth}{before}"
    if at.at_end:
        return f"..{before}" if before else ""
    return f"..{thing(at.of) if at.of else '?'}" + (f"-{amount(at.before)}" if at.before else "")


def thing(each: Thing) -> str:
    """A thing."""
    chains = amount(each.chains) if each.chains else ""
    nth = f"{amount(each.nth)}. " if each.nth else ""
    within = f" of {each.within}" if each.within else ""
    return f"{nth}{each.of + ' ' if each.of else ''}{each.name}{chains}{within}"


def _repeat(repeat: Repeat) -> str:
    marked = [item(each) for each in repeat.items]
    if repeat.last_stops_at is not None:
        marked.insert(repeat.last_stops_at, "**")
    inside = "; ".join(marked)
    body = f"*{inside}*" if repeat.starred else f"[{inside}]"
    ending = "" if repeat.ending is None else f" ending [{'; '.join(item(each) for each in repeat.ending)}]"
    return f"{body}{_into(repeat.target)}{extent(repeat.extent)}{ending}"


def extent(often: Extent | None) -> str:
    """How often."""
    if often is None:
        return ""
    doubt = "?" if often.doubtful else ""
    if often.times is not None:
        return f"{'+' if often.more else 'x'}{amount(often.times)}{doubt}"
    return f" around{stop(often.stop) if often.stop else ''}{doubt}"


def stated(counts: Stated) -> str:
    """Counts that a row states."""
    group = " each" if counts.per_group else ""
    return (
        ", ".join(
            f"{'+' if each.change > 0 else '-' if each.change < 0 else ''}{amount(each.amount)}"
            f"{' ' + thing(each.thing) if each.thing else ''}"
            for each in counts.counts
        )
        + group
    )


def amount(number: Amount) -> str:
    """One number, or one for each size where they differ; – where a size does not work it."""
    values = [str(value) if isinstance(value, Fraction) else "–" for value in number.values]
    return values[0] if len(set(values)) == 1 else f"({','.join(values)})"
