"""Finds the two records that a comparison is asked for: a source that is checked now, one of the past, a build, or a record."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.comparison.compare import compare
from stitchproof.comparison.comparison import Comparison, Pair
from stitchproof.comparison.forms import as_json, as_page
from stitchproof.comparison.terminal import comparison_text
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.pipeline import RECORD_FILE, record_of
from stitchproof.plain_file import leads_out, read_plain
from stitchproof.record.json_form import MOST_BYTES, NotARecord, from_bytes
from stitchproof.record.pages import MOST_BYTES as MOST_OF_PAGES
from stitchproof.record.pages import NO_PAGES, PAGES_FILE, Pages, pages_from_bytes
from stitchproof.record.record import Record
from stitchproof.revisions.faults.record_not_readable import record_not_readable
from stitchproof.revisions.faults.revision_not_there import revision_not_there
from stitchproof.revisions.git_tree import NotThere, files_at
from stitchproof.source import SourceFile, Span
from stitchproof.stages import checked, checked_folder, where
from stitchproof.workspace import HEADER, SOURCES, Workspace, workspace_at

SHARED = "shared_text"


class Found(Struct, frozen=True):
    """One side of a comparison. record: None where it could not be had; findings then say why. folder: of a build, else None."""

    record: Record | None
    findings: tuple[Diagnostic, ...] = ()
    folder: Path | None = None


def find_record(asked: str, workspace: Workspace, terms: str = "") -> Found:
    """The record of what was asked for: a pattern's folder or name, PATTERN@REF, the folder of a build, or a record file.

    terms: "US" or "UK" to read it in these, which takes its source.
    """
    path = Path(asked)
    pattern, at, ref = asked.rpartition("@")
    if at and pattern and not path.exists():
        return _past(asked, pattern, ref, workspace, terms)
    if _is(path, Path.is_file):
        return _from_file(path, workspace, terms)
    if _is(path, Path.is_dir) and not (path / HEADER).exists() and (path / RECORD_FILE).exists():
        if leads_out(path / RECORD_FILE, path):
            why = "it is a link that leads out of the folder"
            return Found(None, (record_not_readable(workspace.shown(path) + f"/{RECORD_FILE}", why),))
        return _from_file(path / RECORD_FILE, workspace, terms)
    check = checked(workspace, asked, {})
    return Found(record_of(check, terms), check.findings)


def _is(path: Path, what: Callable[[Path], bool]) -> bool:
    try:
        return what(path)
    except (OSError, ValueError):  # a name that no file system takes
        return False


def _from_file(path: Path, workspace: Workspace, terms: str) -> Found:
    shown = workspace.shown(path)
    if terms:
        why = f"a record has one wording; {terms} terms are made of a pattern's source"
        return Found(None, (record_not_readable(shown, why),))
    try:
        content = read_plain(path, MOST_BYTES)
    except OSError as error:
        return Found(None, (record_not_readable(shown, error.strerror or str(error)),))
    try:
        return Found(from_bytes(content), (), path.parent)
    except NotARecord as fault:
        return Found(None, (record_not_readable(shown, str(fault)),))


def _past(asked: str, pattern: str, ref: str, workspace: Workspace, terms: str) -> Found:
    """Checks the pattern as it was, in a folder of its own that is gone afterwards."""
    span = Span(SourceFile("the command line", f"compare {asked}"), len("compare "), len("compare ") + len(asked))
    folder = workspace.folder_of(pattern) or _where_it_was(pattern, workspace)
    with TemporaryDirectory() as held:
        past = Path(held) / SOURCES / folder.name
        try:
            _write(past, folder, ref)
            _write_shared(past.parent / SHARED, folder.parent / SHARED, ref)
        except NotThere as fault:
            return Found(None, (revision_not_there(span, str(fault), fault.mend),))
        if not (past / HEADER).exists():
            why = f"at `{ref}` there was no {HEADER} in {folder.name}"
            return Found(None, (revision_not_there(span, why, "name a commit in which the pattern was there"),))
        check = checked_folder(past, f"{folder.name}@{ref}", {})
        return Found(record_of(check, terms), check.findings)


def _where_it_was(pattern: str, workspace: Workspace) -> Path:
    """A pattern that is gone by now lay among the others, if only its name is given."""
    path = Path(pattern)
    return path.absolute() if os.sep in pattern else workspace.root / SOURCES / path.name


def _write(into: Path, folder: Path, ref: str) -> None:
    into.mkdir(parents=True)
    for file in files_at(folder, ref):
        place = into / file.path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(file.content)


def _write_shared(into: Path, folder: Path, ref: str) -> None:
    """The texts that patterns share, if there were any."""
    try:
        _write(into, folder, ref)
    except NotThere:
        return


class CompareOutcome(Struct, frozen=True):
    """What `stitchproof compare` came to. comparison: None where one side could not be had; findings then say why. new: the
    record of the new side."""

    comparison: Comparison | None
    findings: tuple[Diagnostic, ...]
    new: Record | None = None

    @property
    def failed_inside(self) -> bool:
        return any(found.page.code == "SP000" for found in self.findings)


def compare_patterns(old: str, new: str, within: Path | None = None, terms: str = "") -> CompareOutcome:
    """Find both sides and hold them against each other, the new one in "US" or "UK" terms where that is asked for.

    A source that no longer works is compared as far as it goes; its errors are among the findings of its side.
    """
    workspace = workspace_at(within or Path.cwd())
    one, other = find_record(old, workspace), find_record(new, workspace, terms)
    if one.record is None or other.record is None:
        missing = (*(one.findings if one.record is None else ()), *(other.findings if other.record is None else ()))
        return CompareOutcome(None, missing)
    try:
        return CompareOutcome(_with_pages(compare(one.record, other.record, old, new), one, other), (), other.record)
    except Exception as error:  # the last resort: our own bug, reported as such and never shown as a traceback
        return CompareOutcome(None, (internal_fault(f"{old} and {new}", "comparing", where(error)),))


def _with_pages(comparison: Comparison, old: Found, new: Found) -> Comparison:
    """Each line with its pages in the files that were built, where both or one of the sides is a build."""
    before, after = (_pages_of(side) for side in (old, new))
    if not before.files and not after.files:
        return comparison
    lines = []
    for line in comparison.lines:
        one, other = before.of(line.identity.old, line.sizes), after.of(line.identity.new, line.sizes)
        names = dict.fromkeys((*one, *other))
        pages = tuple((name, Pair(_page(one, name), _page(other, name))) for name in names)
        lines.append(replace(line, pages=pages))
    return replace(comparison, lines=tuple(lines))


def _page(pages: dict[str, int], name: str) -> str:
    return str(pages[name]) if name in pages else ""


def _pages_of(side: Found) -> Pages:
    path = side.folder / PAGES_FILE if side.folder else None
    if path is None or leads_out(path, path.parent):
        return NO_PAGES
    try:
        return pages_from_bytes(read_plain(path, MOST_OF_PAGES))
    except OSError:
        return NO_PAGES


def in_form(comparison: Comparison, form: str, within: Path | None = None) -> str:
    """A comparison as "text", "json" or "html". Raises StyleFault where the style of the page cannot be used."""
    if form == "json":
        return as_json(comparison)
    if form == "html":
        workspace = workspace_at(within or Path.cwd())
        folder = workspace.folder_of(comparison.pattern) or workspace.root
        return as_page(comparison, workspace.style_folders(folder))
    return comparison_text(comparison)
