"""One pattern on its way through the stages, in their order, on one screen; and what a check of it found."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.checks.judge import judge
from stitchproof.checks.one_root import with_one_root
from stitchproof.checks.recalled_figures import with_memory_notes
from stitchproof.diagnostics.acceptance import Acceptance, with_acceptances
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Document
from stitchproof.expansion.expand_pattern import expand_pattern
from stitchproof.expansion.late_numbers import with_late_numbers
from stitchproof.kept import Kept, made_once
from stitchproof.reading.folder import no_such_pattern, read_pattern
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.rows.read_rows import read_rows
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.simulation.complete_pattern import CompletePattern
from stitchproof.simulation.proof_summary import ProofSummary, proof_summary
from stitchproof.simulation.work_pattern import work_pattern
from stitchproof.simulation.worked_pattern import WorkedPattern
from stitchproof.simulation.yarn_used import yarn_used
from stitchproof.sizing.late_values import late_part, with_late_values
from stitchproof.sizing.rates import length_of_one
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.workspace import Workspace

if TYPE_CHECKING:
    from stitchproof.sizing.changes import Changes


class CheckOutcome(Struct, frozen=True):
    """What a check found. sized, written, worked: as far as the pattern could be worked out.

    document: as it prints; sized: with what only the worked rows can tell, if they were worked.
    """

    name: str
    folder: Path
    findings: tuple[Diagnostic, ...]
    sized: SizedPattern | None
    written: WrittenPattern | None
    worked: WorkedPattern | None = None
    document: Document | None = None

    @property
    def errors(self) -> int:
        return sum(found.severity is Severity.ERROR for found in self.findings)

    @property
    def proof(self) -> ProofSummary | None:
        """How far its rows are proved; None where it was not come to."""
        return proof_summary(self.name, self.worked, self.sized.uses if self.sized else ()) if self.worked else None

    @property
    def could_run(self) -> bool:
        """Whether there was a pattern to check at all."""
        return self.sized is not None or any(found.page.code not in ("SP000", "SP011") for found in self.findings)

    @property
    def proposes(self) -> bool:
        """Whether there are values that nobody has tried yet."""
        return any(found.proposals for found in self.findings)

    @property
    def causes_open(self) -> bool:
        """Whether nobody has looked yet for what may be the cause of a fault in the rows."""
        return any(found.causes_open for found in self.findings)

    @property
    def failed_inside(self) -> bool:
        return any(found.page.code == "SP000" for found in self.findings)


Ready = Callable[[CheckOutcome], None]
"""What may begin with a pattern that is worked out and not judged yet. It raises nothing."""


def checked(
    workspace: Workspace, pattern: str | os.PathLike[str], changes: Changes, ready: Ready | None = None
) -> CheckOutcome:
    """A pattern, given as a folder or by its name, through all stages and judged. An exception is told as our own fault.

    ready: is told of the pattern before it is judged, if no stage has found an error.
    """
    folder = workspace.folder_of(pattern)
    if folder is None:
        report = Report()
        no_such_pattern(os.fspath(pattern), workspace.pattern_names(), report)
        return CheckOutcome(Path(pattern).name, Path(pattern), report.findings(), None, None)
    return checked_folder(folder, workspace.shown(folder), changes, ready=ready)


def checked_folder(
    folder: Path,
    shown: str,
    changes: Changes,
    instead: Mapping[str, str] = MappingProxyType({}),
    offers: bool = True,
    kept: Kept | None = None,
    ready: Ready | None = None,
    causes: bool = True,
) -> CheckOutcome:
    """The same for a folder that is there. shown: what its files are called in reports.

    instead: by name, the text of files of the folder to be read in place of what lies on the disk. offers: whether values
    that would work are looked for; causes: whether likely causes of faults in the rows are. kept: what earlier checks of this
    folder made, where it is checked again and again; stages make anew what their inputs call for, and the outcome is that of a
    first check, with causes that were found before. Nothing is kept where values are tried.
    """
    report = Report()
    kept = None if changes or ready else kept
    if kept:
        kept.begin()
    run = Run(folder, shown, report, kept=kept, judges_later=ready is not None, causes=causes)
    try:
        run.all_stages(changes, instead)
        if ready and not run.has_errors:
            ready(run.outcome())
        run.judge_what_waits()
        findings = with_acceptances(with_memory_notes(report.findings(), run.sized), run.acceptances)
        findings = with_one_root(findings, run.worked)
    except Exception as error:  # the last resort: our own bug, reported as such and never shown as a traceback
        report.add(internal_fault(run.shown, run.stage, where(error)))
        findings = report.findings()
        if kept:
            kept.forget()
    outcome = run.outcome(findings)
    return with_offers(outcome, shown) if offers and not changes else outcome


Tried = Callable[["PatternSource", "Changes"], tuple[Diagnostic, ...]]
"""Checks a pattern with some values changed, and gives the findings."""


class GivenUp(Exception):
    """Whoever asked for values that would work has something else to do now."""


def with_offers(outcome: CheckOutcome, shown: str, tried: Tried | None = None) -> CheckOutcome:
    """The same outcome, with the nearest values that work where a finding proposes some to try.

    tried: how a pattern is checked with some values changed, if not anew each time. It may raise GivenUp, which is passed on.
    """
    if outcome.sized is None or outcome.failed_inside or not outcome.proposes:
        return outcome
    from stitchproof.alternatives import borne_out_by_rows, with_alternatives  # a clean pattern does without

    source = outcome.sized.source
    try_out = tried or try_changes
    try:
        findings = with_alternatives(
            _with_widths(outcome), source.header.sizes.names, lambda changes: try_out(source, changes)
        )
        findings = borne_out_by_rows(
            findings, source.header.sizes.names, lambda changes: try_changes(source, changes, rows=True)
        )
    except GivenUp:
        raise
    except Exception as error:  # the last resort, as above
        fault = internal_fault(shown, "trying other values", where(error))
        findings = (*(replace(found, proposals=()) for found in outcome.findings), fault)
    return replace(outcome, findings=findings)


class Run(Struct):
    """One pattern on its way through the stages: how far it came, and what it is going through now."""

    folder: Path
    shown: str
    report: Report
    kept: Kept | None = None
    stage: str = "reading the files"
    source: PatternSource | None = None
    sized: SizedPattern | None = None
    written: WrittenPattern | None = None
    worked: WorkedPattern | None = None
    document: Document | None = None
    judges_later: bool = False
    causes: bool = True
    waiting: list[tuple[object, Report]] = field(default_factory=list)
    """Values to be judged, and what the stages had to say up to each; what they say since goes into `report`."""

    def outcome(self, findings: tuple[Diagnostic, ...] = ()) -> CheckOutcome:
        """How far it came."""
        folder = self.folder
        return CheckOutcome(folder.name, folder, findings, self.sized, self.written, self.worked, self.document)

    @property
    def has_errors(self) -> bool:
        """Whether a stage found one."""
        return any(said.has_errors for said in (self.report, *(said for _, said in self.waiting)))

    @property
    def acceptances(self) -> tuple[Acceptance, ...]:
        """The warnings accepted in pattern.yaml and in the text; none where the text was not reached."""
        if self.source is None or self.written is None:
            return ()
        texts = (*self.source.texts, *self.source.shared_texts)
        return (*self.source.header.acceptances, *(each for text in texts for each in text.acceptances))

    def all_stages(self, changes: Changes, instead: Mapping[str, str] = MappingProxyType({})) -> None:
        """Read the folder and go on."""
        self.source = read_pattern(self.folder, self.shown, self.report, instead, self.kept)
        if self.source:
            self.report.names = self.source.header.sizes.names
            self.later_stages(self.source, changes)

    def later_stages(self, source: PatternSource, changes: Changes, rows: bool = True) -> None:
        """All stages after reading; without the rows where only numbers are tried."""
        self.sized = self.numbers(source, changes)
        self.stage = "unfolding the text"
        expanded = expand_pattern(self.sized, self.report, self.kept)
        self.judge(expanded)
        self.stage = "reading the rows"
        self.written = read_rows(expanded, self.report, self.kept)
        self.document = self.written.document
        self.judge(self.written)
        sizes = source.header.sizes
        if rows and sizes.values_listed in (0, len(sizes.names)):  # else no list has a value for any size
            self.rows(self.written)

    def numbers(self, source: PatternSource, changes: Changes) -> SizedPattern:
        """Every number worked out and judged. They hang on pattern.yaml alone, so that they stand where only texts changed."""

        def make(report: Report) -> SizedPattern:
            self.stage = "working the numbers out"
            sized = size_pattern(source, report, changes)
            self.judge(sized, report)
            return sized

        sized = made_once(self.kept, "numbers", (source.header,), self.report, make)
        return replace(sized, source=source, scope=sized.scope.fresh()) if self.kept else sized

    def rows(self, written: WrittenPattern) -> None:
        """Work the rows, and fill in what only they can tell."""
        self.stage = "working the rows"
        self.worked = work_pattern(written, self.report, self.kept, self.causes)
        self.judge(self.worked)
        if written.expanded.sized.yarns:
            self.late_quantities(self.worked)

    def late_quantities(self, worked: WorkedPattern) -> None:
        """The one place where the worked rows come back to numbers and text: census → yarn → what is worked out from it."""
        self.stage = "counting the yarn"
        expanded = worked.written.expanded
        self.sized = with_late_values(expanded.sized, yarn_used(worked), self.report)
        self.document = with_late_numbers(worked.written.document, expanded.late, self.sized, self.report)
        late = late_part(self.sized)
        if late:
            # Values that are offered are tried without the rows, and so would all seem to do: none is offered here.
            apart = Report(self.report.names)
            judge(late, apart)
            self.report.extend(replace(found, proposals=()) for found in apart.findings())
        self.judge(CompletePattern(worked, self.sized, self.document))

    def judge(self, value: object, report: Report | None = None) -> None:
        """Ask the rules about a stage's value. report: where their findings go, if not into that of the run."""
        if self.judges_later:
            self.waiting.append((value, self.report))
            self.report = Report(self.report.names)
            return
        before, self.stage = self.stage, "judging"
        judge(value, report or self.report)
        self.stage = before

    def judge_what_waits(self) -> None:
        """Ask the rules about each value as if the stages after it had not been gone through: they look at what was said before.
        Stages do not, and so may go first."""
        if not self.waiting:
            return
        said_since, whole = self.report, self.waiting[0][1]
        self.judges_later, self.stage, self.report = False, "judging", whole
        for value, said in self.waiting:
            if said is not whole:
                whole.extend(said.findings())
            judge(value, whole)
        whole.extend(said_since.findings())


def _with_widths(outcome: CheckOutcome) -> tuple[Diagnostic, ...]:
    """The proposals that no gauge is known for, each with the width or length of one at the gauge of the rows that print it."""
    if outcome.sized is None or outcome.written is None:
        return outcome.findings
    from stitchproof.expansion.gauges_in_text import gauges_in_text  # a clean pattern does without

    gauges, scope = gauges_in_text(outcome.written.document), outcome.sized.scope
    done = []
    for found in outcome.findings:
        proposals = []
        for each in found.proposals:
            gauge, quantity = gauges.get(each.name), scope.quantities.get(each.name)
            if each.cm_per_unit is None and gauge and quantity:
                each = replace(each, cm_per_unit=length_of_one(gauge, quantity.kind, scope))
            proposals.append(each)
        done.append(replace(found, proposals=tuple(proposals)) if found.proposals else found)
    return tuple(done)


def try_changes(source: PatternSource, changes: Changes, rows: bool = False) -> tuple[Diagnostic, ...]:
    """What is found with some values changed; without `rows`, but for what only the rows can tell."""
    run = Run(Path(), "", Report(source.header.sizes.names), causes=False)
    run.later_stages(source, changes, rows=rows)
    return run.report.findings()


def where(error: Exception) -> str:
    """Kind and place of our own mistake, without a traceback."""
    frame = error.__traceback__
    while frame and frame.tb_next:
        frame = frame.tb_next
    place = f"{Path(frame.tb_frame.f_code.co_filename).name}:{frame.tb_lineno}" if frame else ""
    return f"{type(error).__name__} at {place}: {str(error)[:120]}"
