"""Which rows are shaped, as a phrase: "on next row, then every 2nd row 3 more times, then every 4th row once more"."""

from __future__ import annotations

from itertools import pairwise

from stitchproof.plans.two_groups import Run, runs
from stitchproof.plans.two_rates import Worked


def schedule(on: tuple[int, ...], rows: int, worked: Worked, section: str = "") -> str:
    """The shaping rows `on`, counted from 1, of a section of `rows`; "work 5 rows even" where there are none.

    section: what the rows are numbered by ("V Row"); without it row 1 is "next row".
    """
    one = worked.value.removesuffix("s")
    if not on:
        return f"work {rows} {one if rows == 1 else worked.value} even"
    gaps = runs(later - earlier for earlier, later in pairwise(on))
    if section or on[0] > 1:
        first = f"on {section or one} {on[0]}"
    elif gaps and gaps[0].size == 1:
        first, gaps = f"on next {gaps[0].times + 1} {worked.value}", gaps[1:]
    else:
        first = f"on next {one}"
    return ", then ".join((first, *(_rate(gap, one, worked) for gap in gaps)))


def _rate(gap: Run, one: str, worked: Worked) -> str:
    if gap.size == 1:
        return f"on next {one}" if gap.times == 1 else f"on next {gap.times} {worked.value}"
    pace = f"every {ordinal(gap.size)} row" if worked is Worked.IN_ROWS else f"every {gap.size} rnds"
    return f"{pace} {'once more' if gap.times == 1 else f'{gap.times} more times'}"


def times_words(number: int) -> str:
    """How often: "once", "2 times"."""
    return "once" if number == 1 else f"{number} times"


def ordinal(number: int) -> str:
    """ "1st", "2nd", "11th", "22nd"."""
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th") if number % 100 not in (11, 12, 13) else "th"
    return f"{number}{ending}"
