"""SP142 row-not-proved

Severity  note
Checks    stitchproof can read every row and work it, stitch by stitch; a row that it cannot is named, with the words
          that stopped it.
Matters   nothing is wrong with such a row. But its count is not proved, and what follows is proved only from the next count that
          is stated.
Mend      write it in the trade's usual words, define the stitch under `special_stitches:`, or put it on trust with a reason.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, wiggle across to taste, turn. — 20 sc

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: rows}
    ---
    Row 1: Sc in each of 20 sts, turn.
    Row 2: Ch 1, sc in each st across, turn.

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    ::: on trust: the maker chooses her own path
    Row 2: Ch 1, wiggle across to taste, turn. — 20 sc
    :::
"""

from __future__ import annotations

from stitchproof.checks.row_findings import row_report, row_words, slips_of, step_words
from stitchproof.checks.told_before import is_told_in
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.rows.row_tree import NotRead, RowTree, Stretch
from stitchproof.rows.written_pattern import ReadPart, ReadStep
from stitchproof.simulation.slips import CannotWork
from stitchproof.simulation.worked_pattern import Proof, WorkedPattern

PAGE = read_page(__doc__)


def not_read(worked: WorkedPattern, report: Report) -> None:
    """Rows whose words could not be read."""
    if report.has_errors:
        return  # they come first: a row is often not read because of them
    told = report.findings()
    for read in worked.written.readings:
        if any(is_told_in(each, read.step) for each in told):
            continue  # its words are spoken of already
        for part in read.parts:
            if isinstance(part.reading, NotRead):
                report.add(_not_read(read, part, part.reading, worked))


def not_worked(worked: WorkedPattern, report: Report) -> None:
    """Rows that are read, but in a form that simulation does not work."""
    for finding, slip in slips_of(CannotWork, worked, report):
        if slip.follows or report.has_errors:
            continue
        headline = f"{row_words(finding)} is not proved"
        sum_ = f"not worked: {slip.words}"
        report.add(row_report(PAGE, headline, finding, slip.at, "this is not worked", sum_, worked))


def on_nothing(worked: WorkedPattern, report: Report) -> None:
    """Rows that are read, with nothing told of what they are worked into: the first of them, as the others follow from it."""
    if report.has_errors:
        return
    told = {id(step) for finding in worked.findings for step in (finding.step, finding.worked_at)}
    reads = {id(read.step): read for read in worked.written.readings}
    open_before = False
    for piece in worked.pieces:
        for step in piece.steps:
            read = reads.get(id(step.step))
            first = step.proof is Proof.NOT_READ and not open_before and id(step.step) not in told
            if first and read and all(isinstance(part.reading, RowTree) for part in read.parts):
                report.add(_on_nothing(read, worked))
            if step.proof is not Proof.TOLD:
                open_before = step.proof in (Proof.NOT_READ, Proof.TRUSTED)


def _on_nothing(read: ReadStep, worked: WorkedPattern) -> Diagnostic:
    part = read.parts[0]
    why, caret = "nothing tells what it is worked into", "on which stitches?"
    help_text = (
        "say what the row is worked into: a starting chain, the edge of a piece, or how many stitches are picked up"
    )
    return _not_proved(read, part, Stretch(0, len(part.line.text)), why, caret, help_text, worked)


def _not_read(read: ReadStep, part: ReadPart, reading: NotRead, worked: WorkedPattern) -> Diagnostic:
    why, caret = "its words cannot be read", "not understood from here on"
    help_text = "say it in the trade's usual words, or put the row on trust with a reason"
    return _not_proved(read, part, reading.at, why, caret, help_text, worked)


def _not_proved(
    read: ReadStep, part: ReadPart, at: Stretch, why: str, caret: str, help_text: str, worked: WorkedPattern
) -> Diagnostic:
    """A report of a part of a step, in the sizes that it serves. at: the words that it is about."""
    names = worked.written.document.sizes.names
    place = part.line.place(at)
    return Diagnostic(
        PAGE,
        f"{step_words(read.step, part.served)} is not proved: {why}",
        Excerpt(place.span, caret),
        sizes=tuple(names[size] for size in part.served),
        in_all_sizes=len(part.served) == len(names),
        piece=read.step.piece,
        row=read.step.identity,
        related=used_from(place),
        help=(help_text,),
    )


CHECKS = (not_read, not_worked, on_nothing)
