"""SP155 published-row-does-not-close

Severity  error
Checks    a published row, worked stitch by stitch on the row below it, ends where that row ends, under one of the trade's usual
          conventions.
Matters   where the text takes more or fewer stitches than there are, the maker is stuck at the end of the row, whatever the
          printed count says.
Mend      compare the row with the one before it; the nearest totals that fit are told. A convention that the print follows may
          be told in `convention`.
Source    common practice, no source.

Fires:
    - id: scarf
      terms: us
      start: ch 21
      rows:
      - {label: Row 1, text: Sc in 2nd ch from hook and in each ch across, stated: 20}
      - {label: Row 2, text: "Ch 1, *sc in next 2 sts, 2 sc in next st; rep from * across"}

Quiet:
    - id: scarf
      terms: us
      start: ch 22
      rows:
      - {label: Row 1, text: Sc in 2nd ch from hook and in each ch across, stated: 21}
      - {label: Row 2, text: "Ch 1, *sc in next 2 sts, 2 sc in next st; rep from * across", stated: 28}
"""

from __future__ import annotations

from msgspec import Struct

from stitchproof.checks.row_findings import counted, words_for
from stitchproof.diagnostics.diagnostic import Alternative, Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.simulation.slips import (
    Absent,
    DoesNotDivide,
    Fit,
    LeftOver,
    NoMarker,
    NoSuchRow,
    PassesOver,
    PastEnd,
    RowsRunOut,
    Slip,
)
from stitchproof.source import Span

PAGE = read_page(__doc__)


class _Said(Struct, frozen=True):
    """A slip in words. fits: totals that would fit, the nearest first below and above."""

    headline: str
    caret: str
    sum_: str
    fits: tuple[int, ...] = ()


def row_does_not_close(slip: Slip, row: str, size: str, span: Span) -> Diagnostic:
    """row: the row by its name and sequence. size: "" where the sequence has none. span: the words where it shows."""
    said = _said(slip)
    return Diagnostic(
        PAGE,
        f"{row} {said.headline}",
        Excerpt(span, said.caret),
        sizes=(size,) if size else (),
        sums=(SumLine(size, said.sum_),) if said.sum_ else (),
        alternatives=tuple(Alternative(size, counted(total, "st"), None) for total in said.fits),
    )


def _said(slip: Slip) -> _Said:
    match slip:
        case LeftOver(available=available, taken=taken, repeat=fit):
            left = available - taken
            sum_ = f"it takes {taken} of {available}: {counted(left, 'st')} left over{_passes(fit)}"
            return _Said(
                "leaves stitches unworked and does not say so", "ends before the row does", sum_, _totals(taken, fit)
            )
        case PastEnd(available=available, needed=needed, repeat=fit):
            sum_ = f"it needs {counted(needed, 'st')}, there are {available}{_passes(fit)}"
            return _Said(
                "needs more stitches than there are", "goes past the end", sum_, _totals(needed, fit, available)
            )
        case DoesNotDivide(fit=fit):
            passes, rest = divmod(fit.room, fit.takes) if fit.takes else (0, fit.room)
            sum_ = f"{fit.room} = {passes} × {fit.takes} + {rest}: {counted(rest, 'st')} left over"
            fits = tuple(each for each in (passes * fit.takes, (passes + 1) * fit.takes) if each)
            return _Said(
                "has a repeat that does not go whole into its stitches", "this repeat", sum_, fits if rest else ()
            )
        case Absent(wanted=wanted, found=found):
            there = words_for(found) if found else "the end of the row"
            return _Said(
                "works into something that is not there", f"wants {words_for(wanted)}", f"the next place is {there}"
            )
        case PassesOver(places=places):
            return _Said(
                "passes stitches over and does not say so", "goes on from here", f"{counted(places, 'st')} passed over"
            )
        case NoMarker():
            return _Said("goes to a marker that is not there", "no marker is left", "")
        case NoSuchRow(name=name):
            return _Said(
                "calls for a row that is not there", "not among the rows above", name and f"“{name}” is not above"
            )
        case RowsRunOut(done=done, wanted=wanted):
            return _Said("needs more rows than there are", "rows", f"{counted(done, 'row')} done, {wanted} wanted")
        case _:
            return _Said("cannot be worked on the row before it", "here", "")


def _passes(fit: Fit | None) -> str:
    if fit is None or fit.takes < 1 or fit.passes < 1:
        return ""
    return f" after {counted(fit.passes, 'repeat')} of {counted(fit.takes, 'st')}"


def _totals(taken: int, fit: Fit | None, available: int | None = None) -> tuple[int, ...]:
    """Totals of the row below on which the repeat would end with the row."""
    if fit is None or fit.takes < 2:
        return (taken,)
    if available is None:
        return (taken, taken + fit.takes)
    down = -(-(taken - available) // fit.takes) * fit.takes
    return tuple(sorted(each for each in {taken - down, taken} if each > 0))
