"""Sizes that a line names for itself: Size M only: …, Sizes M, L only: …, All sizes: …"""

from __future__ import annotations

from stitchproof.rows.reader import Reader


def read_guard(reader: Reader) -> tuple[int, ...] | None:
    """Take such words at the head of a line: the indexes of the sizes named, or None where the line is for all."""
    first = reader.position
    if reader.accept("all", "sizes"):
        reader.accept(":")
        return None
    reader.accept("for")
    if not reader.accept("size|sizes"):
        reader.position = first
        return None
    close = next(
        (index for index in range(first, min(first + 60, reader.end)) if reader.lexemes[index].word == ":"), None
    )
    if close is None:
        raise reader.stop()
    start, end = reader.lexemes[first].end, reader.lexemes[close].start
    named = reader.line.text[start:end].strip().removesuffix("only").strip()
    only = _sizes(named, reader.line.sizes)
    if only is None:
        raise reader.stop()
    reader.position = close + 1
    return only


def _sizes(named: str, names: tuple[str, ...]) -> tuple[int, ...] | None:
    """The sizes of a list of names; None where one of them is not a size."""
    index = {name.lower(): number for number, name in enumerate(names)}
    if named.lower() in index:
        return (index[named.lower()],)
    parts = [part.strip().lower() for part in named.replace(" and ", ",").replace("&", ",").split(",") if part.strip()]
    if not parts or any(part not in index for part in parts):
        return None
    return tuple(sorted(index[part] for part in parts))
