"""The order of the stages, on one screen, and the things a program can ask for."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
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
from stitchproof.reading.folder import no_such_pattern, read_pattern
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.rows.read_rows import read_rows
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.simulation.complete_pattern import CompletePattern
from stitchproof.simulation.proof_summary import ProofSummary, proof_summary
from stitchproof.simulation.work_pattern import work_pattern
from stitchproof.simulation.worked_pattern import WorkedPattern
from stitchproof.simulation.yarn_used import yarn_used
from stitchproof.sizing.changes import Changes
from stitchproof.sizing.late_values import late_part, with_late_values
from stitchproof.sizing.rates import length_of_one
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.workspace import Workspace, workspace_at

if TYPE_CHECKING:
    from stitchproof.editions.size_choice import SizeChoice

COMMAND_LINE = "the command line"
"""Where something stands that was asked for and is written in no file."""


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
    def failed_inside(self) -> bool:
        return any(found.page.code == "SP000" for found in self.findings)


class RowsOutcome(Struct, frozen=True):
    """What a check of published rows found. table: for people, its last line for machines; facts: the same as plain data."""

    name: str
    findings: tuple[Diagnostic, ...]
    table: str
    facts: dict[str, object]
    could_run: bool

    @property
    def errors(self) -> int:
        return sum(found.severity is Severity.ERROR for found in self.findings)

    @property
    def failed_inside(self) -> bool:
        return any(found.page.code == "SP000" for found in self.findings)


class SizesNotPossible(LookupError):
    """Sizes were asked for that the pattern does not have, or that do not go together; `findings` say so."""

    def __init__(self, *findings: Diagnostic) -> None:
        super().__init__(findings[0].headline)
        self.findings = findings


class BuildOutcome(Struct, frozen=True):
    """A check, and the files that were written after it (none on an error, unless a draft was asked for)."""

    check: CheckOutcome
    folder: Path
    files: tuple[Path, ...]


def check_pattern(
    pattern: str | os.PathLike[str], changes: Changes | None = None, within: Path | None = None
) -> CheckOutcome:
    """Read, size, expand and judge a pattern.

    pattern: a folder, or a name under pattern_sources/. changes: values to try instead of the source's. within: where to
    start looking for the workspace (the current folder). A pattern that is not there is a finding, as any other.
    """
    return _checked(workspace_at(within or Path.cwd()), pattern, changes or {})


def check_published_rows(path: str | os.PathLike[str], within: Path | None = None) -> RowsOutcome:
    """Read a file of published row sequences and work every row in every size. A file that is not there is a finding."""
    # Only this command needs the rooms that try the conventions of others.
    from stitchproof.reading.folder import read_alone
    from stitchproof.reading.sequence_file import read_sequences
    from stitchproof.sequences.check_rows import check_rows
    from stitchproof.sequences.table import table_facts, table_text

    shown = workspace_at(within or Path.cwd()).shown(Path(path))
    report = Report()
    file = read_alone(Path(path), shown, report)
    try:
        sequences = read_sequences(file, report) if file else ()
        outcomes, findings = check_rows(sequences)
        findings = (*report.findings(), *findings)
        return RowsOutcome(shown, findings, table_text(outcomes), table_facts(outcomes), bool(sequences))
    except Exception as error:  # the last resort: our own bug, reported as such and never shown as a traceback
        report.add(internal_fault(shown, "working published rows", _where(error)))
        return RowsOutcome(shown, report.findings(), "", {}, False)


def build_pattern(
    pattern: str | os.PathLike[str],
    sizes: tuple[str, ...] = (),
    editions: tuple[str, ...] = (),
    to: Path | None = None,
    draft: bool = False,
    within: Path | None = None,
    terms: str = "",
) -> BuildOutcome:
    """Check a pattern and write its editions under build/, whole or not at all.

    sizes: names of the sizes to print (all), or "sleeve=6" for a piece in a size of its own. editions: by name; () for those
    that the pattern names under `editions`, or the usual ones. draft: print in spite of errors, each marked. terms: "US" or
    "UK", "" for the pattern's own. Raises SizesNotPossible for a size or piece that the pattern does not have, and for pieces
    that do not meet.
    """
    workspace = workspace_at(within or Path.cwd())
    check = _checked(workspace, pattern, {})
    products = (to or workspace.products) / check.name
    written, document = check.written, check.document
    if (
        check.sized is None
        or written is None
        or document is None
        or (check.errors and not draft)
        or check.failed_inside
    ):
        return BuildOutcome(check, products, ())
    # The printers of pages are loaded only here, so that a check starts without them.
    from stitchproof.delivery import deliver
    from stitchproof.editions.put_out import Order, put_out

    order = Order(_sizes_asked(written, sizes), editions, terms)
    styles = workspace.style_folders(check.folder)
    out = put_out(document, check.sized, check.findings, order, styles)
    check = replace(check, findings=(*check.findings, *out.findings))
    if (check.errors and not draft) or not out.files:
        return BuildOutcome(check, products, ())
    return BuildOutcome(check, products, deliver(products, out.files))


class WorksheetOutcome(Struct, frozen=True):
    """A check of a pattern, and a tester's worksheet held against it. table: for people; "" where it could not be read."""

    check: CheckOutcome
    table: str


def check_worksheet(
    pattern: str | os.PathLike[str], path: str | os.PathLike[str], within: Path | None = None
) -> WorksheetOutcome:
    """Check a pattern and compare a returned worksheet, YAML or CSV, with what it was worked out to. What cannot be read, and
    what differs, are findings. Raises OSError where the file cannot be opened."""
    workspace = workspace_at(within or Path.cwd())
    check = _checked(workspace, pattern, {})
    sized, document = check.sized, check.document
    if sized is None or document is None or check.failed_inside:
        return WorksheetOutcome(check, "")
    # Only this command needs the rooms behind it.
    from stitchproof.editions.choose_sizes import choose_sizes
    from stitchproof.editions.put_out import gauges_asked
    from stitchproof.worksheets.check_returned import check_returned
    from stitchproof.worksheets.checkpoints import Worksheet, worksheet_for

    def asked(size: str) -> Worksheet | None:
        if size not in document.sizes.names:
            return None
        chosen = choose_sizes(document, (document.sizes.names.index(size),))
        return worksheet_for(chosen, tuple(gauges_asked(sized)))

    content = Path(path).read_bytes()
    checked = check_returned(content, workspace.shown(Path(path)), asked)
    return WorksheetOutcome(replace(check, findings=(*check.findings, *checked.findings)), checked.table)


class Explanation(Struct, frozen=True):
    """What there is to tell, and the findings that stood in its way: then the text is empty."""

    text: str
    findings: tuple[Diagnostic, ...] = ()


def explain(
    code_or_name: str, pattern: str | os.PathLike[str] | None = None, within: Path | None = None
) -> Explanation:
    """What a fault means, the checklist, or how a number came about: in every size, in one (`hat_sts[M]`), or at one k."""
    from stitchproof.checks.catalogue import all_pages, page_for, page_text
    from stitchproof.checks.checklist import checklist_text
    from stitchproof.diagnostics.faults.nothing_to_explain import nothing_to_explain
    from stitchproof.expansion.k_values import ks_asked_for
    from stitchproof.sizing.derivation import derivation

    command = " ".join(("explain", *((os.fspath(pattern),) if pattern is not None else ()), code_or_name))
    asked = Span(SourceFile(COMMAND_LINE, command), len(command) - len(code_or_name), len(command))
    if pattern is None:
        if code_or_name.strip().lower() == "checklist":
            return Explanation(checklist_text())
        page = page_for(code_or_name)
        known = ["checklist", *(word for each in all_pages() for word in (each.code, each.name))]
        return Explanation(page_text(page)) if page else Explanation("", (nothing_to_explain(asked, known),))
    outcome = check_pattern(pattern, within=within)
    if outcome.sized is None:
        return Explanation("", outcome.findings)
    in_use = ks_asked_for(outcome.sized, outcome.written.expanded.in_use if outcome.written else {})
    told = derivation(outcome.sized, asked, in_use)
    return Explanation(told) if isinstance(told, str) else Explanation("", (told,))


def _checked(workspace: Workspace, pattern: str | os.PathLike[str], changes: Changes) -> CheckOutcome:
    folder = workspace.folder_of(pattern)
    report = Report()
    if folder is None:
        no_such_pattern(os.fspath(pattern), workspace.pattern_names(), report)
        return CheckOutcome(Path(pattern).name, Path(pattern), report.findings(), None, None)
    run = _Run(folder, workspace.shown(folder), report)
    try:
        run.all_stages(changes)
        findings = with_acceptances(with_memory_notes(report.findings(), run.sized), run.acceptances)
        findings = with_one_root(findings, run.worked)
        if run.source and not changes and any(found.proposals for found in findings):
            run.stage = "trying other values"
            findings = _with_offers(_with_widths(findings, run), run.source)
    except Exception as error:  # the last resort: our own bug, reported as such and never shown as a traceback
        report.add(internal_fault(run.shown, run.stage, _where(error)))
        findings = report.findings()
    return CheckOutcome(folder.name, folder, findings, run.sized, run.written, run.worked, run.document)


@dataclass
class _Run:
    """One pattern on its way through the stages: how far it came, and what it is going through now."""

    folder: Path
    shown: str
    report: Report
    stage: str = "reading the files"
    source: PatternSource | None = None
    sized: SizedPattern | None = None
    written: WrittenPattern | None = None
    worked: WorkedPattern | None = None
    document: Document | None = None

    @property
    def acceptances(self) -> tuple[Acceptance, ...]:
        """The warnings accepted in pattern.yaml and in the text; none where the text was not reached."""
        if self.source is None or self.written is None:
            return ()
        texts = (*self.source.texts, *self.source.shared_texts)
        return (*self.source.header.acceptances, *(each for text in texts for each in text.acceptances))

    def all_stages(self, changes: Changes) -> None:
        self.source = read_pattern(self.folder, self.shown, self.report)
        if self.source:
            self.report.names = self.source.header.sizes.names
            self.later_stages(self.source, changes)

    def later_stages(self, source: PatternSource, changes: Changes, rows: bool = True) -> None:
        """All stages after reading; without the rows where only numbers are tried."""
        self.stage = "working the numbers out"
        self.sized = size_pattern(source, self.report, changes)
        self.judge(self.sized)
        self.stage = "unfolding the text"
        expanded = expand_pattern(self.sized, self.report)
        self.judge(expanded)
        self.stage = "reading the rows"
        self.written = read_rows(expanded, self.report)
        self.document = self.written.document
        self.judge(self.written)
        sizes = source.header.sizes
        if rows and sizes.values_listed in (0, len(sizes.names)):  # else no list has a value for any size
            self.rows(self.written)

    def rows(self, written: WrittenPattern) -> None:
        self.stage = "working the rows"
        self.worked = work_pattern(written, self.report)
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

    def judge(self, value: object) -> None:
        before, self.stage = self.stage, "judging"
        judge(value, self.report)
        self.stage = before


def _with_widths(findings: tuple[Diagnostic, ...], run: _Run) -> tuple[Diagnostic, ...]:
    """The proposals that no gauge is known for, each with the width or length of one at the gauge of the rows that print it."""
    if run.sized is None or run.written is None:
        return findings
    from stitchproof.expansion.gauges_in_text import gauges_in_text  # a clean pattern does without

    gauges, scope = gauges_in_text(run.written.document), run.sized.scope
    done = []
    for found in findings:
        proposals = []
        for each in found.proposals:
            gauge, quantity = gauges.get(each.name), scope.quantities.get(each.name)
            if each.cm_per_unit is None and gauge and quantity:
                each = replace(each, cm_per_unit=length_of_one(gauge, quantity.kind, scope))
            proposals.append(each)
        done.append(replace(found, proposals=tuple(proposals)) if found.proposals else found)
    return tuple(done)


def _with_offers(findings: tuple[Diagnostic, ...], source: PatternSource) -> tuple[Diagnostic, ...]:
    from stitchproof.alternatives import with_alternatives  # a clean pattern does without

    return with_alternatives(findings, source.header.sizes.names, lambda changes: _tried(source, changes))


def _tried(source: PatternSource, changes: Changes) -> tuple[Diagnostic, ...]:
    run = _Run(Path(), "", Report(source.header.sizes.names))
    run.later_stages(source, changes, rows=False)
    return run.report.findings()


def _sizes_asked(written: WrittenPattern, sizes: tuple[str, ...]) -> SizeChoice:
    """The sizes that are asked for. Raises SizesNotPossible."""
    from stitchproof.editions.size_choice import choose

    choice = choose(written.document, sizes)
    if isinstance(choice, Diagnostic):
        raise SizesNotPossible(choice)
    if choice.size_of:
        from stitchproof.simulation.apart import pieces_apart  # works the pieces once more, in the sizes asked for

        apart = pieces_apart(written, choice.size_of, choice.asked)
        if apart:
            raise SizesNotPossible(*apart)
    return choice


def _where(error: Exception) -> str:
    """Kind and place of our own mistake, without a traceback."""
    frame = error.__traceback__
    while frame and frame.tb_next:
        frame = frame.tb_next
    place = f"{Path(frame.tb_frame.f_code.co_filename).name}:{frame.tb_lineno}" if frame else ""
    return f"{type(error).__name__} at {place}: {str(error)[:120]}"
