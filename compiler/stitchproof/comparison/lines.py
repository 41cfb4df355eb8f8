"""The lines that read otherwise: changed, added, removed, moved, and for whom."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.comparison.causes import Causes
from stitchproof.comparison.comparison import AT_FAULT, COUNT_OUT, Chain, How, LineChanged, Pair, Stretch
from stitchproof.comparison.line_words import (
    numbers_in,
    plain_words,
    shown_parts,
    shown_words,
    stretches,
    template_words,
)
from stitchproof.comparison.matching import Matched, matched, part_of
from stitchproof.record.line_labels import beginning, shortened
from stitchproof.record.reading import reads
from stitchproof.record.record import Record, RecordedBlock, RecordedSlot, Token

GAUGE_PART = "gauge/"
"""The part of a pattern whose words are made of the gauges themselves."""

COUNT_FAULTS = {"stated-count-wrong", "stitches-left-over", "row-runs-past-the-end", "repeat-does-not-divide"}
"""Errors that say of a row that its count does not come out."""


def lines_changed(old: Record, new: Record, causes: Causes) -> tuple[tuple[LineChanged, ...], int]:
    """The lines that differ, in the order of the new pattern, those that are gone at the end of their part; and how many are
    the same to every size of both."""
    found = matched(old, new)
    lines = _Lines(old, new, causes, found)
    changed = {
        id(new_block): line for old_block, new_block in found.pairs if (line := lines.pair(old_block, new_block))
    }
    added = {id(block): lines.added(block) for block in found.added}
    ordered = [line for block in new.blocks if (line := changed.get(id(block)) or added.get(id(block)))]
    return tuple(_with_removed(ordered, [lines.removed(block) for block in found.removed])), len(found.pairs) - len(
        changed
    )


def _with_removed(lines: list[LineChanged], removed: list[LineChanged]) -> Iterator[LineChanged]:
    """What is gone after what changed in the same part."""
    waiting = list(removed)
    for number, line in enumerate(lines):
        yield line
        if number + 1 == len(lines) or lines[number + 1].under != line.under:
            yield from (each for each in waiting if each.under == line.under)
            waiting = [each for each in waiting if each.under != line.under]
    yield from waiting


class _Lines:
    def __init__(self, old: Record, new: Record, causes: Causes, found: Matched) -> None:
        self.old, self.new, self.causes, self.found = old, new, causes, found
        self.both = tuple(size for size in new.sizes if size in old.by_size)

    def pair(self, before: RecordedBlock, after: RecordedBlock) -> LineChanged | None:
        """None where every size of both reads the same words in the same place."""
        sizes = tuple(
            size for size in self.both if self.reading(self.old, before, size) != self.reading(self.new, after, size)
        )
        moved = after.identity in self.found.moved
        if not sizes and not moved:
            return None
        return LineChanged(
            How.CHANGED if sizes else How.MOVED,
            after.under,
            self.label(after, self.new),
            after.kind,
            sizes or self.both,
            self.words(before, after) if sizes else (),
            self.numbers(before, after, sizes),
            self.chains(before, after, sizes),
            piece=after.piece,
            identity=Pair(before.identity, after.identity),
            part=part_of(after),
            only_numbers=bool(sizes) and template_words(before) == template_words(after),
            proof=Pair(_proof(self.old, before, sizes), _proof(self.new, after, sizes)),
            counts_held=bool(before.counts and after.counts) and plain_words(before) == plain_words(after),
            roles=self.roles(before, after, sizes),
        )

    def words(self, before: RecordedBlock, after: RecordedBlock) -> tuple[Stretch, ...]:
        """Word by word."""
        return stretches(shown_words(shown_parts(before, self.old)), shown_words(shown_parts(after, self.new)))

    def label(self, block: RecordedBlock, record: Record) -> str:
        """A row as it is called on the page, or by how it begins there; anything else by how it is written."""
        if block.kind != "row":
            return beginning(block)
        parts = ["".join(part).strip() for part in shown_parts(block, record)]
        return shortened(parts[0].rstrip(":") or next((part for part in parts if part), ""))

    def added(self, block: RecordedBlock) -> LineChanged:
        return LineChanged(
            How.ADDED,
            block.under,
            self.label(block, self.new),
            block.kind,
            self.readers(self.new, block),
            stretches((), shown_words(shown_parts(block, self.new))),
            causes=self.of_choice(block),
            piece=block.piece,
            identity=Pair("", block.identity),
            part=part_of(block),
        )

    def removed(self, block: RecordedBlock) -> LineChanged:
        return LineChanged(
            How.REMOVED,
            block.under,
            self.label(block, self.old),
            block.kind,
            self.readers(self.old, block),
            stretches(shown_words(shown_parts(block, self.old)), ()),
            causes=self.of_choice(block),
            piece=block.piece,
            identity=Pair(block.identity, ""),
            part=part_of(block),
        )

    def of_choice(self, block: RecordedBlock) -> tuple[Chain, ...]:
        """Why a line is there for some size, or no longer, where that is decided by a number."""
        found: dict[str, Chain] = {}
        for size in self.both:
            for chain in self.causes.of_names(block.chosen_by, size):
                found.setdefault(chain.root, chain)
        return tuple(found.values())

    def readers(self, record: Record, block: RecordedBlock) -> tuple[str, ...]:
        return tuple(size for size in record.sizes if block.identity in record.by_size[size].blocks)

    @staticmethod
    def reading(record: Record, block: RecordedBlock, size: str) -> str | None:
        words = reads(record, block, size)
        return None if words is None else " ".join(words.split())

    def numbers(
        self, before: RecordedBlock, after: RecordedBlock, sizes: tuple[str, ...]
    ) -> tuple[tuple[str, tuple[Pair, ...]], ...]:
        """Size by size the numbers that changed, where a size reads the same slots before and after."""
        found = []
        for size in sizes:
            one, other = numbers_in(before, self.old, size), numbers_in(after, self.new, size)
            if one is not None and other is not None and len(one) == len(other):
                pairs = tuple(Pair(x, y) for (_, x), (_, y) in zip(one, other, strict=True) if x != y)
                if pairs:
                    found.append((size, pairs))
        return tuple(found)

    def roles(self, before: RecordedBlock, after: RecordedBlock, sizes: tuple[str, ...]) -> tuple[str, ...]:
        """What the numbers that print otherwise do, each role once; as `numbers` finds them."""
        found: dict[str, None] = {}
        for size in sizes:
            one, other = numbers_in(before, self.old, size), numbers_in(after, self.new, size)
            if one is not None and other is not None and len(one) == len(other):
                for (token, x), (_, y) in zip(one, other, strict=True):
                    if x != y and isinstance(token, RecordedSlot):
                        found[token.role] = None
        return tuple(found)

    def chains(self, before: RecordedBlock, after: RecordedBlock, sizes: tuple[str, ...]) -> tuple[Chain, ...]:
        """What the numbers that print otherwise go back to, each input once."""
        found: dict[str, Chain] = {}
        for size in sizes:
            one = numbers_in(before, self.old, size) or []
            other = numbers_in(after, self.new, size) or []
            names = [*_names_only_in(other, one), *_names_only_in(one, other)]
            if not one or not other:  # it is for another choice of sizes now
                names += (*before.chosen_by, *after.chosen_by)
            names += self.causes.gauges if after.identity.startswith(GAUGE_PART) else ()
            for chain in self.causes.of_names(names, size):
                found.setdefault(chain.root, chain)
        return tuple(found.values())


def _proof(record: Record, block: RecordedBlock, sizes: tuple[str, ...]) -> str:
    """How far a row is proved. An error that is told of it in one of the sizes comes before what its other sizes come to."""
    told = {
        each.name
        for each in record.findings
        if each.row == block.identity
        and each.severity == "error"
        and (not each.sizes or not set(each.sizes).isdisjoint(sizes))
    }
    if block.kind == "row" and told:
        return AT_FAULT if told.isdisjoint(COUNT_FAULTS) else COUNT_OUT
    return block.proof


def _names_only_in(one: list[tuple[Token, str]], other: list[tuple[Token, str]]) -> list[str]:
    """The names behind the numbers that the other reading does not print there."""
    held = {(token.written, value) for token, value in other if isinstance(token, RecordedSlot)}
    return [
        name
        for token, value in one
        if isinstance(token, RecordedSlot) and (token.written, value) not in held
        for name in token.uses
    ]
