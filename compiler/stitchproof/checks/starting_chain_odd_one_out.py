"""SP170 starting-chain-odd-one-out

Severity  warning
Checks    rows that begin with the same stitch begin with the same number of chains: one that has more or fewer than all the
          others, or none, is named. Where there are too few rows to tell, one that begins with more chains than its stitch is
          high is named.
Matters   the chain at the start lifts the hook to the height of the row: one too many leaves a gap at the edge, one too few
          pulls it in. Where the other rows have it, it is most often a slip.
Mend      give it as many chains as the other rows, or accept the difference with a reason.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Row 3: Ch 1, sc in each st across, turn. — 20 sc
    Row 4: Ch 2, sc in each st across, turn. — 20 sc
    Row 5: Ch 1, sc in each st across, turn. — 20 sc

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Row 3: Ch 1, sc in each st across, turn. — 20 sc
    Row 4: Sc in each st across, turn. — 20 sc
    Row 5: Ch 1, sc in each st across, turn. — 20 sc

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 2, sc in each st across, turn. — 20 sc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Row 3: Ch 1, sc in each st across, turn. — 20 sc
    Row 4: Ch 1, sc in each st across, turn. — 20 sc
    Row 5: Ch 2, hdc in each st across, turn. — 20 hdc
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from operator import itemgetter

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.rows.row_tree import Chain, InLoops, Item, Reach, Remark, Repeat, RowTree, Segment, Stretch, Work
from stitchproof.rows.written_pattern import ReadPart, ReadStep, WrittenPattern

PAGE = read_page(__doc__)
FEWEST_ALIKE = 3
"""Rows that must agree before another is the odd one."""
HIGHEST = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4}
"""Chains that lift the hook to the height of a stitch, as published tables of turning chains have them (from memory)."""
SHARE = 4
"""At most one row in so many is a slip; more are a habit."""


class _Start(Struct, frozen=True):
    """How a row begins: the stitch that its chain lifts the hook for, and its chains."""

    read: ReadStep
    part: ReadPart
    stitch: str
    chains: int
    at: Stretch


def odd_ones(written: WrittenPattern, report: Report) -> None:
    """Rows whose starting chain is not that of the other rows with their first stitch."""
    starts = list(_starts(written))
    for stitch in dict.fromkeys(each.stitch for each in starts):
        held = [each for each in starts if each.stitch == stitch]
        usual, number = max(Counter(each.chains for each in held).items(), key=itemgetter(1))
        if number >= FEWEST_ALIKE and (len(held) - number) * SHARE <= len(held):
            for start in held:
                if start.chains != usual:
                    report.add(_report(start, usual, written))
        elif number < FEWEST_ALIKE:
            for start in held:
                if start.chains > HIGHEST.get(stitch, start.chains):
                    report.add(_unusual(start, HIGHEST[stitch], written))


def _starts(written: WrittenPattern) -> Iterator[_Start]:
    """The starts of all rows but those that are worked into a chain, or that slip or join their way to their first stitch."""
    spirals = {
        each.entry.name
        for each in written.expanded.sized.pieces
        if each.entry.worked and "spiral" in each.entry.worked.text
    }
    first: set[str] = set()
    for read in written.readings:
        begins = read.step.piece not in first
        if read.label is None or read.step.piece in spirals:
            continue
        first.add(read.step.piece)
        for part in read.parts[:1]:
            start = _start(read, part, written) if isinstance(part.reading, RowTree) else None
            if start is not None and not (begins and start.chains == 0):
                yield start


def _start(read: ReadStep, part: ReadPart, written: WrittenPattern) -> _Start | None:
    items = part.reading.items if isinstance(part.reading, RowTree) else ()
    items = tuple(item for item in items if not isinstance(item, Remark | Segment | InLoops))
    chain = items[0] if items and isinstance(items[0], Chain) else None
    work = _first_work(items[1:] if chain else items)
    if work is None or not work.stitch or (work.target and work.target.reach is Reach.FROM_HOOK):
        return None
    facts = written.facts.get(work.stitch)
    if facts is None or facts.foundation or work.stitch == "slst" or (chain and chain.counts):
        return None
    chains = chain.number.values[part.served[0]] if chain else Fraction(0)
    if not isinstance(chains, Fraction):
        return None
    stitch = f"{facts.base} around the post" if facts.post else facts.base
    return _Start(read, part, stitch, int(chains), chain.at if chain else work.at)


def _first_work(items: tuple[Item, ...]) -> Work | None:
    """The stitch that a row goes on with at once; None where something else comes first."""
    first = items[0] if items else None
    if isinstance(first, Repeat):
        return _first_work(first.items)
    return first if isinstance(first, Work) else None


def _report(start: _Start, usual: int, written: WrittenPattern) -> Diagnostic:
    has = f"begins with ch {start.chains}" if start.chains else "has no chain at its start"
    others = f"begin with ch {usual}" if usual else "have no chain at their start"
    caret = f"the others: ch {usual}" if usual else "the others: none"
    help_ = f"write ch {usual}" if usual else "take the chain out"
    return _told(start, f"{has}, and the other rows of {start.stitch} {others}", caret, help_, written)


def _unusual(start: _Start, most: int, written: WrittenPattern) -> Diagnostic:
    words = f"begins with ch {start.chains}, more than the height of {start.stitch} needs"
    return _told(start, words, f"{start.stitch}: ch {most}", f"write ch {most}", written)


def _told(start: _Start, words: str, caret: str, help_: str, written: WrittenPattern) -> Diagnostic:
    names = written.document.sizes.names
    place = start.part.line.place(start.at)
    row = start.read.step.identity.rpartition("/")[2] or start.read.step.identity
    return Diagnostic(
        PAGE,
        f"{row} of {start.read.step.piece} {words}",
        Excerpt(place.span, caret),
        sizes=tuple(names[size] for size in start.part.served),
        in_all_sizes=len(start.part.served) == len(names),
        piece=start.read.step.piece,
        row=start.read.step.identity,
        related=used_from(place),
        help=(help_,),
    )


CHECKS = (odd_ones,)
