"""Whether the parts of a record go together: who compares it goes by names from one part to the other."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.record.record import Record, RecordedBlock, SizeRecord

MOST_BLOCKS = 40_000
MOST_QUANTITIES = 10_000
MOST_SIZES = 100


def what_does_not_fit(record: Record) -> str:
    """What does not go together, as a sentence without a capital or a full stop; "" where all does."""
    return next(_faults(record), "")


def _faults(record: Record) -> Iterator[str]:
    names = [each.name for each in record.quantities]
    identities = [each.identity for each in record.blocks]
    if len(names) > MOST_QUANTITIES or len(identities) > MOST_BLOCKS or len(record.sizes) > MOST_SIZES:
        yield "it has more sizes, names or lines than a pattern can have"
    for what, listed in (("size", record.sizes), ("name", names), ("line", identities)):
        if len(set(listed)) != len(listed):
            yield f"a {what} stands in it twice"
    if set(record.by_size) != set(record.sizes):
        yield "its list of sizes and its parts for each size do not go together"
        return
    blocks = dict(zip(identities, record.blocks, strict=True))
    if any(block.read_by and len(block.read_by) != len(block.parts) for block in record.blocks):
        yield "a line in it is not read part by part"
        return
    for size, held in record.by_size.items():
        if set(held.quantities) != set(names):
            yield f"its list of names and those of size {size[:40]} do not go together"
        elif not all(identity in blocks and _fits(blocks[identity], size, held) for identity in held.blocks):
            yield f"its lines and the numbers of size {size[:40]} do not go together"


def _fits(block: RecordedBlock, size: str, held: SizeRecord) -> bool:
    """Whether a size has a number for each slot of a line that it reads."""
    readers = block.read_by or (None,) * len(block.parts)
    slots = [
        sum(not isinstance(token, str) for token in part)
        for part, sizes in zip(block.parts, readers, strict=True)
        if sizes is None or size in sizes
    ]
    numbers = held.blocks[block.identity]
    return [len(each) for each in numbers] == slots if numbers else not any(slots)
