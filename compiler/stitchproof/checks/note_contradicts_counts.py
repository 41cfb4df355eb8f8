"""SP235 note-contradicts-counts

Severity  error
Checks    what the notes say of the chain at the start of a row ("ch 3 counts as a st", "ch 1 does not count as a st") is true
          of the rows: of each that begins with it, by its own words, or by the count that it states and comes to.
Matters   the maker who has read the notes works one stitch more or fewer in every row, and finds the counts of the pattern wrong.
Mend      say in the note what the rows do, or write the rows as the note says.
Source    common practice, no source.

Fires in S, M:
    ---
    ::: note
    Ch 3 does not count as a st.
    :::

    Ch 22.
    Row 1: Dc in 4th ch from hook (the first 3 ch count as dc) and in each ch across, turn. — 20 dc
    Row 2: Ch 3, sk first st, dc in each st across, turn. — 20 dc

Fires in S, M:
    ---
    ::: note
    Ch 1 counts as a st.
    :::

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in first st, sc in each of next 19 sts, turn. — 20 sc

Fires in S, M:
    ---
    ::: note
    Ch 2 at the start of a row does not count as a st.
    :::

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 2 (counts as hdc), sk first st, hdc in each st across, turn. — 20 hdc

Quiet:
    ---
    ::: note
    Ch 3 counts as a st. Ch 1 at the start of a row does not count as a st.
    :::

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 3, sk first st, dc in each st across, turn. — 20 dc
    Row 3: Ch 1, sc in each st across, turn. — 20 sc
"""

from __future__ import annotations

from stitchproof.checks.line_places import found_below
from stitchproof.checks.row_findings import end_sum, place_of, row_words
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.slips import CannotWork, CountWrong, LeftOver, PastEnd, Slip
from stitchproof.simulation.worked_pattern import NoteDenied, RowFinding, WorkedPattern

PAGE = read_page(__doc__)


def denied(worked: WorkedPattern, report: Report) -> None:
    """Notes that a row denies."""
    for each in worked.denied:
        report.add(_report(each, worked))


def _report(denied: NoteDenied, worked: WorkedPattern) -> Diagnostic:
    note, names = denied.note, worked.written.document.sizes.names
    sizes = tuple(dict.fromkeys(each.size for each in denied.findings)) or denied.step.served
    here = RowFinding(CannotWork("", denied.at), denied.step, denied.part, sizes[0])
    does, denies = ("counts", "does not count") if note.counts else ("does not count", "counts")
    place, row = note.place, place_of(here, denied.at, worked)
    return Diagnostic(
        PAGE,
        f"the notes say that ch {note.chains} {does} as a stitch, and in {row_words(here)} it {denies}",
        Excerpt(found_below(place.span, note.words) or place.span, f"in {denied.step.piece} it {denies}"),
        sizes=tuple(names[size] for size in sizes),
        in_all_sizes=len(sizes) == len(names),
        piece=denied.step.piece,
        row=denied.step.identity,
        related=(Excerpt(row.span, f"{denies} here"), *used_from(place), *used_from(row)),
        sums=tuple(
            SumLine(names[each.size], f"worked as the note says, {_sum(each.slip)}") for each in denied.findings
        ),
        help=("say in the note what the rows do, or write the row as the note says",),
    )


def _sum(slip: Slip) -> str:
    match slip:
        case CountWrong():
            return f"the row comes to {slip.worked} {slip.noun or 'sts'}, stated {slip.stated}"
        case LeftOver() | PastEnd():
            return f"the row {end_sum(slip)}"
        case _:
            return "the row does not come out"


CHECKS = (denied,)
