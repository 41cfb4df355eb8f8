"""What a program can ask for about a change that is not made yet: a new gauge, ease, size or count, a grading sheet come back."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.effects.effect import Effect, effect_of
from stitchproof.effects.hand_set import hand_set
from stitchproof.effects.requests import COMMAND_LINE, nothing_asked, read_requests
from stitchproof.effects.size_requests import NewSize, size_requests
from stitchproof.formulas.tree import Name
from stitchproof.grading.put_out import sheet_file
from stitchproof.grading.read_back import ReadBack, read_back
from stitchproof.grading.requests import set_values_of
from stitchproof.pipeline import record_of
from stitchproof.plain_file import may_be_written, read_plain, write_named
from stitchproof.source import SourceFile, Span
from stitchproof.source_edits.asked import SetValue, read_set_value
from stitchproof.source_edits.edit_source import Asked, EditedSource, edited_source, known_names
from stitchproof.source_edits.write_files import write_files
from stitchproof.stages import CheckOutcome, checked, checked_folder
from stitchproof.workspace import Workspace, workspace_at


class Revised(Struct, frozen=True):
    """What a change comes to. before, after: the checks; after None where it could not be tried.

    effect: None where there is none to tell. findings: what stood in the way, or is to be looked at. files: those that were
    written, as shown. tried: the change has no place of its own in the files, and was tried all the same. edited: the files as
    they were and as they would be, where they can be written.
    """

    before: CheckOutcome
    after: CheckOutcome | None = None
    effect: Effect | None = None
    findings: tuple[Diagnostic, ...] = ()
    files: tuple[str, ...] = ()
    tried: bool = False
    edited: EditedSource | None = None

    @property
    def refused(self) -> bool:
        """Whether something stood in the way, so that nothing is written."""
        return any(found.severity is Severity.ERROR for found in self.findings)


class Sweeped(Struct, frozen=True):
    """A sweep: the name, and for each value what it comes to."""

    name: str
    steps: tuple[tuple[str, Revised], ...]


def regauge(
    pattern: str | os.PathLike[str],
    changes: Sequence[str],
    add: Sequence[NewSize] = (),
    remove: Sequence[str] = (),
    draw_on: bool = False,
    write: bool = False,
    within: Path | None = None,
) -> Revised | Sweeped:
    """What changes come to, worked out from the files as they would be.

    changes: `NAME=VALUE` as they are told on the command line; one of them may be a sweep, which is never written.
    draw_on: lists that get no value for a size that is added go on as their neighbours do. write: make it so.
    """
    workspace = workspace_at(within or Path.cwd())
    before = checked(workspace, pattern, {})
    if before.sized is None or not before.could_run or before.failed_inside:
        return Revised(before)
    asked = read_requests(changes, before.sized, known_names(before.sized), [size.name for size in add], write)
    sizes, faults = size_requests(add, remove, before.sized, asked.for_new, draw_on)
    faults = (*asked.faults, *faults)
    if not (asked.changes or sizes or asked.sweep or faults):
        faults = (nothing_asked(before.name),)
    if faults:
        return Revised(before, findings=faults)
    if asked.sweep is None:
        return _revised(workspace, before, (*sizes, *asked.changes), write)
    steps = []
    for text in asked.sweep.values:
        value = Span(SourceFile(COMMAND_LINE, text), 0, len(text))
        read = read_set_value(asked.sweep.name, value, before.sized, known_names(before.sized))
        if isinstance(read, Diagnostic):
            return Revised(before, findings=(read,))
        steps.append((text, _revised(workspace, before, (*sizes, *asked.changes, read), False, False)))
    return Sweeped(asked.sweep.name.text, tuple(steps))


def grading_sheet_of(pattern: str | os.PathLike[str], to: Path, within: Path | None = None) -> CheckOutcome:
    """Write the grading sheet of a pattern, by the ending of the file's name. Raises ValueError for another than .xlsx and .csv,
    and for a file that is there and says something else (it may hold changes); OSError where it cannot be written."""
    outcome = checked(workspace_at(within or Path.cwd()), pattern, {})
    if outcome.sized is not None and not outcome.failed_inside:
        content = sheet_file(outcome.sized, to.name)
        if content is None:
            raise ValueError(f"{to.name} is neither .xlsx nor .csv")
        may_be_written(to)
        if os.path.lexists(to) and read_plain(to, len(content)) != content:
            raise ValueError(f"{to.name} is there already and says something else; read it back, or name another file")
        write_named(to, content)
    return outcome


class Graded(Struct, frozen=True):
    """A grading sheet that came back: what it says, and what that comes to."""

    read: ReadBack | None
    revised: Revised


def grade(pattern: str | os.PathLike[str], sheet: Path, write: bool = False, within: Path | None = None) -> Graded:
    """Read a grading sheet back. Raises OSError where it cannot be opened."""
    workspace = workspace_at(within or Path.cwd())
    before = checked(workspace, pattern, {})
    if before.sized is None or not before.could_run or before.failed_inside:
        return Graded(None, Revised(before))
    read = read_back(_content(sheet), workspace.shown(sheet), before.sized)
    asked = set_values_of(read, before.sized, workspace.shown(sheet))
    stopped = any(found.severity is Severity.ERROR for found in read.findings)
    if stopped or not asked:
        return Graded(read, Revised(before, findings=read.findings))
    revised = _revised(workspace, before, asked, write)
    return Graded(read, replace(revised, findings=(*read.findings, *revised.findings)))


def _revised(
    workspace: Workspace, before: CheckOutcome, asked: Sequence[Asked], write: bool, offers: bool = True
) -> Revised:
    """The files edited in memory, checked, held against what they were; and written, if that is asked for."""
    if before.sized is None:
        return Revised(before)
    edited = edited_source(before.folder, before.sized, asked)
    if edited.faults:
        return _tried(workspace, before, asked, edited, write)
    texts = {name: edited.after[name].text for name in edited.changed}
    after = checked_folder(before.folder, workspace.shown(before.folder), {}, texts, offers) if texts else before
    can_write = after.sized is not None and not after.failed_inside
    revised = Revised(before, after, _effect(before, after, edited.drawn), edited=edited if can_write else None)
    return written(revised, workspace) if write else revised


def written(revised: Revised, workspace: Workspace) -> Revised:
    """A change that was tried, written as it was: not if a file has changed since. What stands in the way is told."""
    edited, folder = revised.edited, revised.before.folder
    if edited is None:
        return revised
    shown = {name: workspace.shown(folder / name) for name in edited.before}
    faults = write_files(folder, edited, shown)
    return replace(revised, findings=faults, files=() if faults else tuple(shown[name] for name in edited.changed))


def _tried(
    workspace: Workspace, before: CheckOutcome, asked: Sequence[Asked], edited: EditedSource, write: bool
) -> Revised:
    """What cannot be edited in place can be tried all the same, unless a size is added or taken away."""
    values = [each for each in asked if isinstance(each, SetValue)]
    known = known_names(before.sized) if before.sized else ()
    lists = any("[" in each.text or "," in each.text for each in values)
    if write or lists or len(values) < len(asked) or any(each.name not in known for each in values):
        return Revised(before, findings=edited.faults)
    changes: dict[str | tuple[str, int | None], str] = {}
    for each in values:
        changes[f"{each.name}({each.k})" if each.k is not None else each.name, each.size] = each.text
    after = checked(workspace, before.folder, changes)
    return Revised(before, after, _effect(before, after), edited.faults, tried=True)


def _effect(before: CheckOutcome, after: CheckOutcome, drawn: tuple[str, ...] = ()) -> Effect | None:
    old, new = record_of(before), record_of(after)
    if old is None or new is None or before.sized is None or after.sized is None:
        return None
    labels: dict[str, str] = {}
    for line in after.sized.source.header.finished:
        node = line.show.formula.node
        if isinstance(node, Name):
            labels[after.sized.scope.full_name(node.name)] = line.label.text.strip()
    return effect_of(old, new, hand_set(before.sized, after.sized), labels, drawn)


def _content(path: Path) -> bytes:
    from stitchproof.spreadsheets.table import MOST_BYTES

    return read_plain(path, MOST_BYTES)
