"""The sums of a finding as they are told: those that say the same of several sizes or rows together."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.diagnostics.facts import Facts


class SumTold(Struct, frozen=True):
    """sizes: those of which it is told; all: whether these are all that the finding's sums are about, and more than one."""

    sizes: tuple[str, ...]
    all: bool
    expression: str
    note: str


def sums_told(sums: list[Facts]) -> tuple[SumTold, ...]:
    """In the order in which they come up. Sizes are put together where all that is told of them is the same, as lines of one
    size may belong together; and rows of a size of which the same is told."""
    by_size: dict[str, list[tuple[str, str, str]]] = {}
    for line in sums:
        row = line.get("row", "")
        by_size.setdefault(line["size"], []).append((row, line["expression"].removeprefix(f"{row}: "), line["note"]))
    alike: dict[tuple[tuple[str, str, str], ...], list[str]] = {}
    for size, lines in by_size.items():
        alike.setdefault(tuple(lines), []).append(size)
    told = []
    for block, sizes in alike.items():
        rows: dict[tuple[str, str], list[str]] = {}
        for row, body, note in block:
            rows.setdefault((body, note), []).append(row)
        for (body, note), names in rows.items():
            words = f"{_rows(names)}: {body}" if any(names) else body
            told.append(SumTold(tuple(sizes), len(sizes) == len(by_size) > 1, words, note))
    return tuple(told)


def _rows(rows: list[str]) -> str:
    """ "Row 2", "Rows 2, 3 and 4", and where they are called in several ways "Row 2, Dec Row 1 and Row 5"."""
    names = [row.rpartition(" ") for row in rows]
    alike = (
        len(rows) > 1 and len({name for name, _, _ in names}) == 1 and all(number.isdigit() for _, _, number in names)
    )
    listed = [number for _, _, number in names] if alike else rows
    said = ", ".join(listed[:-1]) + " and " + listed[-1] if len(listed) > 1 else listed[0]
    return f"{names[0][0]}s {said}" if alike else said
