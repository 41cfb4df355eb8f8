"""Why a slip in a row is not found: what kind of change it is, and what it would take."""

from __future__ import annotations

import re
from collections.abc import Callable

from msgspec import Struct

from tests.row_faults.row_slip import RowSlip


class Explanation(Struct, frozen=True):
    """because: a sentence without its full stop. holds: whether it is the reason for a slip."""

    because: str
    holds: Callable[[RowSlip], bool]


def _line(slip: RowSlip) -> str:
    text = slip.span.file.text
    start = text.rfind("\n", 0, slip.span.start) + 1
    end = text.find("\n", slip.span.end)
    return text[start : end if end >= 0 else len(text)]


def _is_length(slip: RowSlip) -> bool:
    plain = slip.kind == "row dropped" or slip.kind.startswith(("number", "repeat"))
    return plain and bool(re.search(r"\buntil\b|\beven\b|^Next Rnd|^Rep |^Rows? [\d<]|^Rnds? [\d<]", _line(slip)))


def _is_number(slip: RowSlip) -> bool:
    return slip.kind.startswith(("number", "repeat"))


EXPLANATIONS = (
    Explanation(
        "the rows between shapings may be any, as long as all of them fit: no count tells them",
        lambda slip: _is_number(slip) and "then every" in _line(slip).lower(),
    ),
    Explanation(
        "it changes only how many plain rows there are: no count shows it, and no length told beside them",
        lambda slip: _is_length(slip) and slip.span.text != "1",
    ),
    Explanation(
        "“each st to end” takes up whatever is left, so that only the place of what comes before it is wrong",
        lambda slip: _is_number(slip) and bool(re.search("buttonhole|sk next <hole_sts>", _line(slip))),
    ),
    Explanation(
        "it is the part of a seam that disappears, or stands in a sentence on rows in general, against which nothing is held",
        lambda slip: _is_number(slip) and bool(re.match(r"Sew |Work all|Read |With |Count ", _line(slip))),
    ),
    Explanation(
        "the edge, over parts of several pieces, is not known, and the row is taken from the count it states",
        lambda slip: "underarm sts" in _line(slip),
    ),
    Explanation(
        "too few rows of the pattern begin, or end, as this one does to show which is the odd one",
        lambda slip: (
            bool(re.match(r"\W*(?:turn|ch 1\b|sl st in next)", slip.span.text, re.IGNORECASE)) or slip.span.text == "1"
        ),
    ),
    Explanation(
        "rows may begin again at 1, as those of the second side of a neck do",
        lambda slip: slip.kind == "label" and slip.put in ("0", "1"),
    ),
    Explanation(
        "the last slip stitch of a spiral only levels its step: where it goes changes no stitch",
        lambda slip: "Last rnd" in _line(slip) and slip.put in ("same st", "next sc", ""),
    ),
    Explanation(
        "the yarn is cut at the end of a piece after which no other is worked with it",
        lambda slip: slip.kind == "item dropped" and "asten off" in slip.span.text,
    ),
    Explanation(
        "what a round of single places goes into is told by its kind, and the first one takes what is left",
        lambda slip: slip.kind == "where" and "Last rnd" in _line(slip),
    ),
    Explanation(
        "a turn is looked for in rows, and not in a line that tells many of them",
        lambda slip: slip.kind == "turn or join" and bool(re.search(r"\buntil\b|\bmore times\b", _line(slip))),
    ),
    Explanation(
        "it takes out a line that another line stands in for, or that makes no stitch",
        lambda slip: slip.kind in ("row dropped", "item dropped"),
    ),
)


def explanation_of(slip: RowSlip) -> Explanation | None:
    """The first that holds; None where none does."""
    return next((each for each in EXPLANATIONS if each.holds(slip)), None)
