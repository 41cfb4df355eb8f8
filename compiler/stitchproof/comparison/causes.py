"""Why a number changed: the chain of values from it back to each input whose writing changed.

A value is to blame only where it came to something else in the same size; what stayed the same carries no change on.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator

from stitchproof.comparison.comparison import Chain, InputChanged
from stitchproof.record.record import Record, RecordedSlot, SizeValue

MOST_STEPS = 5_000_000
"""From a value to one that it hangs on, in all: after that no more causes are looked for. A large pattern of which every number
changed takes some thousands."""
ROWS = "the rows"
"""What the amounts of yarn hang on besides weights: the stitches that were worked."""


class Causes:
    """Answers for one pair of records."""

    def __init__(self, old: Record, new: Record, inputs: Iterable[InputChanged]) -> None:
        self.old, self.new = old, new
        self.written: dict[str, frozenset[str] | None] = {}
        for each in inputs:
            sizes = frozenset(size for size, _ in each.by_size) if each.all is None else None
            held = self.written.get(each.name, frozenset())
            self.written[each.name] = None if sizes is None or held is None else held | sizes
        self.inputs: dict[str, tuple[str, ...]] = {}
        for record in (new, old):  # what a formula used before may be what changed it
            self._add_inputs(record)
        self.late = {each.name for each in new.quantities if each.late}
        self.gauges = [each.name for each in new.quantities if each.section == "gauges"]
        self.in_rows = _printed_in_rows((new, old))
        self.not_values = {each.name for record in (new, old) for each in (*record.plans, *record.rates)}
        self.of_k = {each.name for each in new.quantities if each.parameter}
        self.known: dict[tuple[str, str], tuple[Chain, ...]] = {}
        self.handed_on: dict[tuple[str, str], bool] = {}
        self.steps = 0

    def _add_inputs(self, record: Record) -> None:
        pairs = [(each.name, each.inputs) for each in record.quantities]
        for name, inputs in [*pairs, *((plan.name, plan.inputs) for plan in record.plans)]:
            self.inputs[name] = tuple(dict.fromkeys((*self.inputs.get(name, ()), *inputs)))

    def of(self, name: str, size: str) -> tuple[Chain, ...]:
        """The chains from a value that changed in a size, one for each input; the shortest, and in a fixed order."""
        if (name, size) not in self.known:
            self.known[name, size] = tuple(self._search(name, size))
        return self.known[name, size]

    def of_names(self, names: Iterable[str], size: str) -> tuple[Chain, ...]:
        """The chains of numbers that hang on several names; each chain begins with the name itself."""
        found: dict[str, Chain] = {}
        for name in names:
            if self.changed(name, size):
                for chain in self._from(name, size):
                    found.setdefault(chain.root, chain)
        return tuple(found.values())

    def _from(self, name: str, size: str) -> Iterator[Chain]:
        if self.is_written_otherwise(name, size):
            yield Chain((name,))
        for chain in self.of(name, size):
            if chain.names != (name,):
                yield Chain((name, *chain.names))

    def is_written_otherwise(self, name: str, size: str) -> bool:
        """Whether the name itself was changed by the designer, for this size."""
        sizes = self.written.get(name, frozenset())
        return sizes is None or size in sizes

    def changed(self, name: str, size: str) -> bool:
        """Whether a value, a rate or a plan is another one than before, in a size of both."""
        return self._hands_on(name, size) if self._has_no_value(name, size) else self._came_to_another(name, size)

    def _has_no_value(self, name: str, size: str) -> bool:
        """Of a rate, a plan, or a value asked for at no k of its own: it hands on what it is made of."""
        if name in self.not_values:
            return True
        before, after = (record.by_size[size].quantities.get(name) for record in (self.old, self.new))
        return before is not None and after is not None and name in self.of_k and not (before.at and after.at)

    def _came_to_another(self, name: str, size: str) -> bool:
        before, after = (record.by_size[size].quantities.get(name) for record in (self.old, self.new))
        if before is None or after is None:
            return before is not after
        return before.value != after.value or bool(ks_changed(before, after))

    def _hands_on(self, name: str, size: str) -> bool:
        """Whether something without a value of its own is written otherwise, or made of what changed."""
        if (name, size) not in self.handed_on:
            self.handed_on[name, size] = self._made_of_what_changed(name, size)
        return self.handed_on[name, size]

    def _made_of_what_changed(self, name: str, size: str) -> bool:
        seen, waiting = {name}, [name]
        while waiting and self.steps < MOST_STEPS:
            here = waiting.pop()
            if self.is_written_otherwise(here, size):
                return True
            for each in self.inputs.get(here, ()):
                self.steps += 1
                if each in seen:
                    continue
                seen.add(each)
                if self._has_no_value(each, size):
                    waiting.append(each)
                elif self._came_to_another(each, size):
                    return True
        return False

    def _search(self, name: str, size: str) -> Iterator[Chain]:
        """Breadth first, so that the first chain to an input is a shortest one."""
        if self.is_written_otherwise(name, size):
            yield Chain((name,))
        seen = {(name, size)}
        waiting: deque[tuple[str, str, tuple[str, ...]]] = deque([(name, size, ())])
        while waiting and self.steps < MOST_STEPS:
            here, where, path = waiting.popleft()
            for each, there in self._behind(here, where):
                self.steps += 1
                if (each, there) in seen or (each != ROWS and not self.changed(each, there)):
                    continue
                seen.add((each, there))
                way = (*path, each)
                if each != ROWS and self.is_written_otherwise(each, there):
                    yield Chain(way)
                waiting.append((each, there, way))

    def _behind(self, name: str, size: str) -> tuple[tuple[str, str], ...]:
        """What a value hangs on, each with the size in which it does."""
        if name == ROWS:
            return tuple((each, other) for other in self._sizes_reworked(size) for each in self.in_rows)
        used = tuple((each, size) for each in self.inputs.get(name, ()))
        return (*used, (ROWS, size)) if name in self.late and self._sizes_reworked(size) else used

    def _sizes_reworked(self, size: str) -> tuple[str, ...]:
        """The sizes whose stitches changed, this one first: those of the sample scale the yarn of every other size."""
        both = dict.fromkeys((size, *(each for each in self.new.sizes if each in self.old.by_size)))
        return tuple(each for each in both if self.old.by_size[each].stitches != self.new.by_size[each].stitches)


def ks_changed(before: SizeValue, after: SizeValue) -> tuple[str, ...]:
    """The k at which a value came to something else. One that only one of the two asks for is no change of the value."""
    return tuple(k for k in after.at if k in before.at and before.at[k] != after.at[k])


def _printed_in_rows(records: Iterable[Record]) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(
            name
            for record in records
            for block in record.blocks
            if block.kind == "row"
            for part in block.parts
            for token in part
            if isinstance(token, RecordedSlot)
            for name in token.uses
        )
    )
