"""One of a thing, in one size or in all: "1 sts" becomes "1 st", "1 times" becomes "once"."""

from __future__ import annotations

import re

from stitchproof.measures.units import PLAIN_NOUNS

_FROM_UNITS = {noun: noun.removesuffix("s") for noun in PLAIN_NOUNS}
_FROM_ROWS = {
    "sts": "st",
    "stitches": "stitch",
    "rows": "row",
    "rnds": "rnd",
    "rounds": "round",
    "row-ends": "row-end",
    "loops": "loop",
    "lps": "lp",
    "sps": "sp",
    "ch-sps": "ch-sp",
    "chs": "ch",
    "chains": "chain",
    "incs": "inc",
    "decs": "dec",
}
SINGULARS = {**_FROM_UNITS, **_FROM_ROWS}
_NOUN = re.compile(
    r"(?P<before>\s+(?:sl\s+|more\s+)?)(?P<noun>" + "|".join(sorted(SINGULARS, key=len, reverse=True)) + r")\b(?!-)"
)
_TIMES = re.compile(r"\s+(?P<more>more\s+)?times\b")


def once(after: str) -> tuple[str, str] | None:
    """What replaces a 1 and the text after it where that text says "times": ("once", the rest). Else None."""
    match = _TIMES.match(after)
    if match is None:
        return None
    return "once more" if match["more"] else "once", after[match.end() :]


def singular(after: str) -> str:
    """The text that follows a 1, its noun mended: " sts, 2 sc" becomes " st, 2 sc"."""
    match = _NOUN.match(after)
    return match["before"] + SINGULARS[match["noun"]] + after[match.end() :] if match else after
