"""The order of the stages, on one screen, and the things a program can ask for."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from pathlib import Path

from stitchproof.alternatives import with_alternatives
from stitchproof.checks.catalogue import page_for, page_text
from stitchproof.checks.judge import judge
from stitchproof.delivery import deliver
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import Report
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import Edition, make_editions
from stitchproof.editions.faults.page_not_printed import page_not_printed, style_not_usable
from stitchproof.editions.html import Draft
from stitchproof.editions.style_fault import StyleFault
from stitchproof.expansion.document import Document
from stitchproof.expansion.expand_pattern import expand_pattern
from stitchproof.reading.folder import read_pattern
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.rows.read_rows import read_rows
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.sizing.derivation import derivation_text
from stitchproof.sizing.size_pattern import Changes, size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.workspace import Workspace, workspace_at

EDITIONS = ("all_sizes",)


@dataclass(frozen=True, slots=True)
class CheckOutcome:
    """What a check found. sized, written: as far as the pattern could be worked out."""

    name: str
    findings: tuple[Diagnostic, ...]
    sized: SizedPattern | None
    written: WrittenPattern | None

    @property
    def errors(self) -> int:
        return sum(found.severity is Severity.ERROR for found in self.findings)

    @property
    def could_run(self) -> bool:
        """Whether there was a pattern to check at all."""
        return self.sized is not None or any(found.page.code not in ("SP000", "SP011") for found in self.findings)

    @property
    def failed_inside(self) -> bool:
        return any(found.page.code == "SP000" for found in self.findings)


@dataclass(frozen=True, slots=True)
class BuildOutcome:
    """A check, and the files that were written after it (none on an error, unless a draft was asked for)."""

    check: CheckOutcome
    folder: Path
    files: tuple[Path, ...]


def check_pattern(
    pattern: str | os.PathLike[str], changes: Changes | None = None, within: Path | None = None
) -> CheckOutcome:
    """Read, size, expand and judge a pattern.

    pattern: a folder, or a name under pattern_sources/. changes: values to try instead of the source's. within: where to
    start looking for the workspace (the current folder). Raises FileNotFoundError if there is no such folder.
    """
    workspace, folder = _located(pattern, within)
    return _checked(workspace, folder, changes or {})


def build_pattern(
    pattern: str | os.PathLike[str],
    sizes: tuple[str, ...] = (),
    editions: tuple[str, ...] = EDITIONS,
    to: Path | None = None,
    draft: bool = False,
    within: Path | None = None,
) -> BuildOutcome:
    """Check a pattern and write its editions under build/, whole or not at all.

    sizes: names of the sizes to print (all). draft: print in spite of errors, each marked. Raises FileNotFoundError if there
    is no such folder, KeyError for a size that the pattern does not have.
    """
    workspace, folder = _located(pattern, within)
    check = _checked(workspace, folder, {})
    products = (to or workspace.products) / folder.name
    if check.written is None or (check.errors and not draft) or check.failed_inside:
        return BuildOutcome(check, products, ())
    document = _chosen(check.written.document, sizes)
    made, findings = _printed(check, document, editions, workspace.style_folders(folder))
    check = replace(check, findings=(*check.findings, *findings))
    if check.errors and not draft:
        return BuildOutcome(check, products, ())
    files = {file.name: file.content for edition in made for file in edition.files}
    return BuildOutcome(check, products, deliver(products, files) if files else ())


def explain(code_or_name: str, pattern: str | os.PathLike[str] | None = None, within: Path | None = None) -> str:
    """What a fault means, or how a number of a pattern came about in every size. Raises KeyError for an unknown one."""
    if pattern is None:
        page = page_for(code_or_name)
        if page is None:
            raise KeyError(code_or_name)
        return page_text(page)
    outcome = check_pattern(pattern, within=within)
    if outcome.sized is None:
        raise ValueError(outcome.name)
    return derivation_text(outcome.sized, code_or_name)


def _located(pattern: str | os.PathLike[str], within: Path | None) -> tuple[Workspace, Path]:
    workspace = workspace_at(within or Path.cwd())
    folder = workspace.folder_of(pattern)
    if folder is None:
        raise FileNotFoundError(os.fspath(pattern))
    return workspace, folder


def _checked(workspace: Workspace, folder: Path, changes: Changes) -> CheckOutcome:
    report = Report()
    shown = workspace.shown(folder)
    stage = "reading"
    source: PatternSource | None = None
    sized: SizedPattern | None = None
    written: WrittenPattern | None = None
    try:
        source = read_pattern(folder, shown, report)
        if source:
            report.names = source.header.sizes.names
            stage = "working the numbers out"
            sized, written = _stages(source, report, changes)
            stage = "trying other values"
            findings = report.findings()
            held = source
            if not changes:
                findings = with_alternatives(findings, held.header.sizes.names, lambda tried: _tried(held, tried))
            return CheckOutcome(folder.name, findings, sized, written)
    except Exception as error:  # the last resort: our own bug, reported as such and never shown as a traceback
        report.add(internal_fault(shown, stage, _where(error)))
    return CheckOutcome(folder.name, report.findings(), sized, written)


def _stages(source: PatternSource, report: Report, changes: Changes) -> tuple[SizedPattern, WrittenPattern]:
    sized = size_pattern(source, report, changes)
    judge(sized, report)
    expanded = expand_pattern(sized, report)
    judge(expanded, report)
    written = read_rows(expanded, report)
    judge(written, report)
    return sized, written


def _tried(source: PatternSource, changes: Changes) -> tuple[Diagnostic, ...]:
    report = Report(source.header.sizes.names)
    _stages(source, report, changes)
    return report.findings()


def _chosen(document: Document, sizes: tuple[str, ...]) -> Document:
    if not sizes:
        return document
    names = document.sizes.names
    unknown = [size for size in sizes if size not in names]
    if unknown:
        raise KeyError(unknown[0])
    return choose_sizes(document, tuple(index for index, name in enumerate(names) if name in sizes))


def _printed(
    check: CheckOutcome, document: Document, editions: tuple[str, ...], styles: tuple[Path, ...]
) -> tuple[tuple[Edition, ...], tuple[Diagnostic, ...]]:
    marks: dict[str, tuple[str, ...]] = {}
    for found in check.findings:
        if found.row:
            marks[found.row] = (*marks.get(found.row, ()), found.full_headline)
    draft = Draft(check.errors, marks) if check.errors else None
    try:
        made = make_editions(document, editions, styles, draft)
    except StyleFault as fault:
        return (), (style_not_usable(fault.path, fault.message),)
    messages = [(edition.name, message) for edition in made for message in edition.messages]
    return made, tuple(page_not_printed(name, message) for name, message in dict.fromkeys(messages))


def _where(error: Exception) -> str:
    """Kind and place of our own mistake, without a traceback."""
    frame = error.__traceback__
    while frame and frame.tb_next:
        frame = frame.tb_next
    place = f"{Path(frame.tb_frame.f_code.co_filename).name}:{frame.tb_lineno}" if frame else ""
    return f"{type(error).__name__} at {place}: {str(error)[:120]}"
