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


EXPLANATIONS = (
    Explanation(
        "it changes only how many plain rows there are, which no count shows: the length that the text states would",
        _is_length,
    ),
    Explanation(
        "“in next st around” and “in next st across” cannot be read, and nothing is said about lines that are not read",
        lambda slip: slip.put == "in next st" and slip.span.text == "in each st",
    ),
    Explanation(
        "the rows between shapings may be any, as long as all of them fit: no count tells them",
        lambda slip: ", then every" in _line(slip) or "then every" in _line(slip).lower(),
    ),
    Explanation(
        "“each st to end” takes up whatever is left, so that only the place of what comes before it is wrong",
        lambda slip: (
            slip.kind.startswith(("number", "repeat")) and bool(re.search("buttonhole|sk next <hole_sts>", _line(slip)))
        ),
    ),
    Explanation(
        "it stands in a sentence about the work that no row follows: seams that are sewn, chains that lie ahead, rows in general",
        lambda slip: (
            slip.kind.startswith(("number", "repeat"))
            and bool(re.match(r"Sew |Work all|Read |With |Count |Fasten|.*lie ahead", _line(slip)))
        ),
    ),
    Explanation(
        "the edge, over parts of several pieces, is not known, and the row is taken from the count it states",
        lambda slip: "underarm sts" in _line(slip),
    ),
    Explanation(
        "the chains that lift the hook at the start of a row may be one more or fewer; no count shows it",
        lambda slip: slip.kind.startswith("number") and slip.span.text == "1",
    ),
    Explanation(
        "another row is worked again, and makes the same stitches",
        lambda slip: slip.kind == "label" and "Rep " in _line(slip),
    ),
    Explanation(
        "rows may begin again at 1, as those of the second side of a neck do",
        lambda slip: slip.kind == "label" and slip.put in ("0", "1"),
    ),
    Explanation(
        "the line cannot be read any more, and nothing is said about lines that are not read",
        lambda slip: slip.kind in ("stitch", "item dropped", "item doubled", "where", "number +1", "number -1"),
    ),
    Explanation(
        "it takes out a line that another line stands in for, or that makes no stitch",
        lambda slip: slip.kind in ("row dropped", "item dropped"),
    ),
    Explanation(
        "the words that join or turn are taken for granted by the way the piece is worked",
        lambda slip: slip.kind == "turn or join",
    ),
)


def explanation_of(slip: RowSlip) -> str:
    """The first that holds; "" where none does."""
    return next((each.because for each in EXPLANATIONS if each.holds(slip)), "")
