"""Holds what the notes say of starting chains against the rows: a row that comes out only if the note is wrong denies it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from stitchproof.rows.row_tree import Chain, InLoops, Item, Remark, Repeat, RowTree, Segment, Work
from stitchproof.rows.written_pattern import ChainNote, ReadStep
from stitchproof.simulation.bench import Bench
from stitchproof.simulation.targets import value
from stitchproof.simulation.ways import Ways
from stitchproof.simulation.worked_pattern import NoteDenied


class _Start(Struct, frozen=True):
    """A row that begins with a chain. stitch: the first after it; counts: what the chain is taken for."""

    read: ReadStep
    part: int
    chain: Chain
    stitch: str
    counts: tuple[str, ...]

    @property
    def said(self) -> bool:
        """Whether the row itself says what its chain counts as."""
        return self.chain.counts is not None


def denied_notes(bench: Bench) -> tuple[NoteDenied, ...]:
    """The notes that a row denies, each with the first such row. Nothing is said where a row has a fault of another kind."""
    if bench.findings or not bench.written.chain_notes:
        return ()
    starts = tuple(_starts(bench))
    denied = (_denied(note, tuple(_contrary(note, starts)), bench) for note in bench.written.chain_notes)
    return tuple(each for each in denied if each is not None)


def _contrary(note: ChainNote, starts: tuple[_Start, ...]) -> Iterator[_Start]:
    """The rows of which a note speaks and that are worked otherwise."""
    for start in starts:
        of_size = {value(start.chain.number, size) for size in start.read.step.served}
        spoken_of = note.piece in ("", start.read.step.piece) and note.stitch in ("", start.stitch)
        if spoken_of and of_size == {note.chains} and bool(start.counts) is not note.counts:
            yield start


def _denied(note: ChainNote, starts: tuple[_Start, ...], bench: Bench) -> NoteDenied | None:
    if not starts:
        return None
    said = next((start for start in starts if start.said), None)
    if said is not None:
        return NoteDenied(note, said.read.step, said.part, said.chain.at)
    apart = Bench(bench.written)
    for stitch in bench.stitches:  # chains that a foundation passes over are no start of a row
        apart.passed_counts[note.chains, stitch] = bench.ways_of(starts[0].read.step.piece).counts_as(
            note.chains, stitch
        )
    apart.chain_counts[note.chains, note.stitch] = ("st",) if note.counts else ()
    for piece in bench.written.document.pieces:
        apart.piece(piece)
        for start in starts:
            found = tuple(each for each in apart.findings if each.step is start.read.step)
            if found:
                return NoteDenied(note, start.read.step, start.part, start.chain.at, found)
        if apart.findings:
            return None
    return None


def _starts(bench: Bench) -> Iterator[_Start]:
    """The rows that begin with a chain, in the order of the pattern."""
    for read in bench.written.readings:
        if read.label is None:
            continue
        ways = bench.ways_of(read.step.piece)
        for number, part in enumerate(read.parts[:1]):
            start = _start(part.reading, ways) if isinstance(part.reading, RowTree) else None
            if start is not None:
                chain, stitch, counts = start
                yield _Start(read, number, chain, stitch, counts)


def _start(tree: RowTree, ways: Ways) -> tuple[Chain, str, tuple[str, ...]] | None:
    items = tuple(item for item in tree.items if not isinstance(item, Remark | Segment | InLoops))
    if not items or not isinstance(items[0], Chain):
        return None
    chain, first = items[0], next((each for each in _works(items[1:]) if each.stitch not in ("", "slst")), None)
    chains = next((int(each) for each in chain.number.values if isinstance(each, Fraction)), 0)
    if first is None or not chains:
        return None
    base = ways.facts(first.stitch).base
    return chain, base, ways.counts_as(chains, first.stitch) if chain.counts is None else chain.counts


def _works(items: tuple[Item, ...]) -> Iterator[Work]:
    for item in items:
        if isinstance(item, Work):
            yield item
        elif isinstance(item, Repeat):
            yield from _works(item.items)
