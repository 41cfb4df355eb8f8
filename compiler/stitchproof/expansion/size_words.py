"""Reads which sizes a passage names: `S`, `S and M`, `S, M and XL`, `S to L`, or their numbers."""

from __future__ import annotations

import re

from stitchproof.expansion.document import Served
from stitchproof.formulas.size_names import size_index


def sizes_named(words: str, names: tuple[str, ...], by_number: bool) -> Served | None:
    """The indexes of the sizes named, in the pattern's order; None where a word names no size."""
    found: set[int] = set()
    for item in re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", words.strip()):
        run = _run(item, names, by_number)
        if not run:
            return None
        found.update(run)
    return tuple(sorted(found))


def _run(item: str, names: tuple[str, ...], by_number: bool) -> range:
    """One size, or a run of them; a name may itself hold a dash or a "to": `0–3 months to 6–9 months`."""
    ends = [(item, item)]
    ends += [(item[: sign.start()], item[sign.end() :]) for sign in re.finditer(r"\s+to\s+|\s*–\s*", item)]
    for first, last in ends:
        low, high = size_index(first.strip(), names, by_number), size_index(last.strip(), names, by_number)
        if low is not None and high is not None and low <= high:
            return range(low, high + 1)
    return range(0)
