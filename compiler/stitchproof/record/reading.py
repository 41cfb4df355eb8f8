"""A line of the record as a maker of one size reads it."""

from __future__ import annotations

from stitchproof.record.record import Record, RecordedBlock, Token


def reads(record: Record, block: RecordedBlock, size: str) -> str | None:
    """The words of a block with the numbers of one size; None where the size does not read it."""
    numbers = record.by_size[size].blocks.get(block.identity)
    if numbers is None:
        return None
    parts = parts_read(block, size)
    lines = [_filled(tokens, values) for tokens, values in zip(parts, numbers or ((),) * len(parts), strict=True)]
    return " ".join(line for line in lines if line)


def parts_read(block: RecordedBlock, size: str) -> tuple[tuple[Token, ...], ...]:
    """The parts of a block that a size reads."""
    if not block.read_by:
        return block.parts
    return tuple(part for part, sizes in zip(block.parts, block.read_by, strict=True) if size in sizes)


def _filled(tokens: tuple[Token, ...], values: tuple[str, ...]) -> str:
    left = iter(values)
    return "".join(each if isinstance(each, str) else next(left) for each in tokens).strip()
