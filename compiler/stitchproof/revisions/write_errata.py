"""Makes the errata sheet of two revisions: prints it, tells who has the old one, and enters it in the history."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from stitchproof.comparison.comparison import Comparison
from stitchproof.delivery import deliver, inside
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.reading.folder import read_pattern
from stitchproof.reading.yaml_tree import Mapping, read_yaml
from stitchproof.record.record import Record
from stitchproof.revisions.errata import ErrataSheet, errata_of
from stitchproof.revisions.faults.revision_not_raised import revision_not_raised
from stitchproof.revisions.history import Entered, enter, history_line
from stitchproof.revisions.print_errata import folder_name, print_errata
from stitchproof.revisions.register import FILE, Copy, read_register
from stitchproof.source import Span
from stitchproof.workspace import HEADER, Workspace


class ErrataOutcome(Struct, frozen=True):
    """sheet: what it says. files: what was written. told: who has an affected revision, None where there is no register.
    entered: the line of the revision history. findings, messages: what stood in the way, or was wrong."""

    sheet: ErrataSheet
    files: tuple[Path, ...]
    told: tuple[Copy, ...] | None
    entered: Entered
    findings: tuple[Diagnostic, ...]
    messages: tuple[str, ...]


class Order(Struct, frozen=True):
    """date, affected: as errata_of takes them. enter: whether the history in pattern.yaml gets its line."""

    date: str = ""
    affected: str = ""
    enter: bool = False


def affected_by(asked: str) -> tuple[str, ...]:
    """The revisions in "1, 2"."""
    return tuple(each.strip() for each in asked.split(","))


def in_the_way(comparison: Comparison, order: Order, workspace: Workspace) -> tuple[Diagnostic, ...]:
    """Why no sheet can be made: what is corrected has the revision of what has the fault."""
    revision = comparison.new.revision
    if not comparison.differs or not revision or revision not in affected_by(order.affected or comparison.old.revision):
        return ()
    source = _source(comparison, workspace)
    return (revision_not_raised(comparison.new.where, revision, _written(source, workspace) if source else None),)


def _source(comparison: Comparison, workspace: Workspace) -> Path | None:
    """The folder of the pattern: as the new side names it, else by its name under pattern_sources/."""
    folders = (workspace.folder_of(each) for each in (comparison.new.where, comparison.pattern))
    return next((each for each in folders if each and (each / HEADER).is_file()), None)


def _written(source: Path, workspace: Workspace) -> Span | None:
    """Where its revision stands."""
    read = read_pattern(source, workspace.shown(source), Report())
    tree = read_yaml(read.header_file, Report()) if read else None
    held = tree.get("revision") if isinstance(tree, Mapping) else None
    return held.span if held else None


def write_errata(comparison: Comparison, new: Record, order: Order, workspace: Workspace) -> ErrataOutcome:
    """The sheet of a comparison. Raises OSError where the place cannot be written, StyleFault for a style of no use."""
    sheet = errata_of(
        comparison, new.title.get("designer", ""), new.title.get("contact", ""), order.date, order.affected
    )
    source = _source(comparison, workspace)
    files, messages = print_errata(sheet, workspace.style_folders(source or workspace.root))
    products = inside(workspace.products, workspace.root) / folder_name(comparison.pattern, sheet)
    written = deliver(products, files)
    findings: tuple[Diagnostic, ...] = ()
    told = None
    entered = Entered(history_line(sheet), False)
    if source:
        register = read_register(source, workspace.shown(source))
        told = register.with_revision(affected_by(sheet.affected)) if register.there else None
        findings = register.findings
        if order.enter:
            entered = enter(source, workspace.shown(source), sheet)
            findings = (*findings, *entered.findings)
    return ErrataOutcome(sheet, written, told, entered, findings, messages)


def told_text(outcome: ErrataOutcome) -> str:
    """For the terminal: whom to tell, and what stands in the history or should."""
    lines = []
    if outcome.told is None:
        lines.append(
            f"no {FILE} beside pattern.yaml: nobody can be looked up who has revision {outcome.sheet.affected}"
        )
    elif not outcome.told:
        lines.append(f"{FILE} names nobody who has revision {outcome.sheet.affected}")
    else:
        lines.append("to tell:")
        for copy in outcome.told:
            told = f", tell {copy.tell}" if copy.tell else ""
            since = f" since {copy.date}" if copy.date else ""
            lines.append(f"  revision {copy.revision}, {copy.where}{since}{told}")
    if outcome.entered.written:
        lines.append(f"entered under revisions: {outcome.entered.line}")
    elif not outcome.entered.findings:
        lines.append(f"for revisions in pattern.yaml: {outcome.entered.line}")
    return "\n".join(lines) + "\n"
