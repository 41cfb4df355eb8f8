"""The words that say for which sizes a line is: "Sizes 1, 2 and 4 only", "sizes 2 to 5 only", "all sizes"."""

from __future__ import annotations

from stitchproof.expansion.document import Served, SizeList

SHORTEST_RUN = 3
"""Three or more sizes that follow each other print as "2 to 5" (common practice, no source)."""
ALL_SIZES = "all sizes"


def only_sizes(served: Served, sizes: SizeList) -> str:
    """For a place that serves some sizes, in lower case and without a colon: "sizes 1, 2 and 4 only"."""
    return f"{'size' if len(served) == 1 else 'sizes'} {in_words(served, sizes)} only"


def in_words(served: Served, sizes: SizeList) -> str:
    """The sizes by number or name, runs drawn together: "1, 3 to 5 and 7". No size at all reads "none"."""
    if not served:
        return "none"
    names: list[str] = []
    for run in _runs(served):
        if len(run) >= SHORTEST_RUN:
            names.append(f"{sizes.called(run[0])} to {sizes.called(run[-1])}")
        else:
            names.extend(sizes.called(size) for size in run)
    *earlier, last = names
    return f"{', '.join(earlier)} and {last}" if earlier else last


def chosen_sizes(sizes: SizeList) -> str:
    """The sizes of an edition that has not all of them, with their names: "Sizes 1 Baby and 2 Toddler". Else ""."""
    if sizes.by_piece:
        return _sizes_of_pieces(sizes)
    if len(sizes.chosen) == len(sizes.names):
        return ""
    *earlier, last = [_with_name(sizes.called(size), sizes.names[size]) for size in sizes.chosen]
    return f"Sizes {', '.join(earlier)} and {last}" if earlier else f"Size {last}"


def _sizes_of_pieces(sizes: SizeList) -> str:
    """ "Size 4, sleeve in size 6": the first size named is that of all other pieces."""
    main = sizes.by_piece[0][1]
    pieces: dict[int, list[str]] = {}
    for piece, size in sizes.by_piece:
        pieces.setdefault(size, []).append(piece.replace("_", " "))
    others = [f"{_listed(names)} in size {sizes.called(size)}" for size, names in pieces.items() if size != main]
    return ", ".join([f"Size {_with_name(sizes.called(main), sizes.names[main])}", *others])


def _listed(names: list[str]) -> str:
    *earlier, last = names
    return f"{', '.join(earlier)} and {last}" if earlier else last


def _with_name(called: str, name: str) -> str:
    return name if called == name else f"{called} {name}"


def as_line(tag: str) -> str:
    """A tag that opens a line of its own: "Sizes 1, 2 and 4 only:"."""
    return f"{tag[0].upper()}{tag[1:]}:" if tag else ""


def _runs(served: Served) -> list[list[int]]:
    runs: list[list[int]] = []
    for size in served:
        if runs and size == runs[-1][-1] + 1:
            runs[-1].append(size)
        else:
            runs.append([size])
    return runs
