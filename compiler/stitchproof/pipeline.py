"""The things a program can ask for: a check, a build, an explanation. `stages` knows the order that a pattern goes in."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import Report
from stitchproof.plain_file import read_plain
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.source import SourceFile, Span
from stitchproof.stages import CheckOutcome, checked, where
from stitchproof.workspace import Workspace, workspace_at

if TYPE_CHECKING:
    from stitchproof.editions.edition import EditionFile, EditorFiles
    from stitchproof.editions.edition_folder import EditionFolder
    from stitchproof.editions.presses import Presses
    from stitchproof.editions.put_out import Begun, Order, PutOut
    from stitchproof.editions.size_choice import SizeChoice
    from stitchproof.expansion.document import Document
    from stitchproof.record.record import Record
    from stitchproof.sizing.changes import Changes
    from stitchproof.sizing.sized_pattern import SizedPattern

RECORD_FILE = "record.json"
COMMAND_LINE = "the command line"
"""Where something stands that was asked for and is written in no file."""


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
    """A check, and the files that were written after it (none on an error, unless a draft was asked for). gone: what lay in the
    folder before and no longer does, as a build is the files of one command."""

    check: CheckOutcome
    folder: Path
    files: tuple[Path, ...]
    gone: tuple[Path, ...] = ()


def check_pattern(
    pattern: str | os.PathLike[str], changes: Changes | None = None, within: Path | None = None
) -> CheckOutcome:
    """Read, size, expand and judge a pattern.

    pattern: a folder, or a name under pattern_sources/. changes: values to try instead of the source's. within: where to
    start looking for the workspace (the current folder). A pattern that is not there is a finding, as any other.
    """
    return checked(workspace_at(within or Path.cwd()), pattern, changes or {})


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
        report.add(internal_fault(shown, "working published rows", where(error)))
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
    # What compares and delivers builds brings more of Python's own library than a check needs in all.
    from stitchproof.delivery import deliver, finish_interrupted, inside, left_out, may_be_replaced
    from stitchproof.earlier_build import MADE_FROM, kept, list_of, read_earlier, standing

    workspace = workspace_at(within or Path.cwd())
    asked = _Order(sizes, editions, terms, draft)
    made_from = _made_from(workspace, pattern, asked)  # before anything is read: a later change is seen next time
    products = (to or inside(workspace.products, workspace.root)) / made_from.name
    finish_interrupted(products)
    may_be_replaced(products)
    earlier = read_earlier(products)
    if files := standing(products, earlier, made_from.inputs):
        check = checked(workspace, pattern, {})
        return BuildOutcome(check, products, files if _can_print(check, draft) else ())
    with _presses(made_from, kept(products, earlier)) as presses:
        printing = _Printing(workspace, asked, presses)
        check = checked(workspace, pattern, {}, printing.begin if presses.can_wait and not draft else None)
        if not _can_print(check, draft):
            return BuildOutcome(check, products, ())
        record = record_of(check)
        attached = _as_file(record)
        presses.tell_record(attached)
        out = printing.put_out(check, attached)
    check = replace(check, findings=(*check.findings, *out.findings))
    if (check.errors and not draft) or not out.files:
        return BuildOutcome(check, products, ())
    made = {**out.files, RECORD_FILE: record_file(check) if out.findings else attached, **_pages_file(record, out)}
    by_key = {pdf.name: pdf.made_from for pdf in out.pdfs}
    places = {pdf.name: pdf.places for pdf in out.pdfs}
    # What the printers had to say is said again by printing again.
    listed = list_of(made, by_key, places, "" if out.findings else made_from.inputs)
    gone = left_out(products, made)
    deliver(products, {**made, MADE_FROM: listed})
    return BuildOutcome(check, products, tuple(products / name for name in made), gone)


def _pages_file(record: Record | None, out: PutOut) -> dict[str, bytes]:
    """Where each line is printed, beside the editions; nothing where there is no PDF."""
    if record is None or not out.pdfs:
        return {}
    from stitchproof.editions.html import anchor
    from stitchproof.record.pages import PAGES_FILE, PrintedFile, pages_as_bytes

    files = tuple(
        PrintedFile(pdf.name, tuple(record.sizes[size] for size in pdf.sizes), pdf.places) for pdf in out.pdfs
    )
    return {PAGES_FILE: pages_as_bytes(record, files, anchor)}


def _presses(made_from: _MadeFrom, pdfs: dict[str, tuple[bytes, dict[str, int]]]) -> Presses:
    """The presses of a build. Where no PDF can be kept, one of them makes ready while the pattern is being checked."""
    from stitchproof.early_press import take_early
    from stitchproof.editions.made_with import KeptPdfs
    from stitchproof.editions.presses import MOST, Presses, presses_for

    kept = KeptPdfs(made_from.tool, pdfs)
    presses = take_early(kept) or Presses(presses_for(MOST), kept)
    if made_from.tool and not pdfs and presses.pool is None:
        presses.warm_up()
    return presses


def _can_print(check: CheckOutcome, draft: bool) -> bool:
    """Whether there is something to print, and nothing wrong with it; in a draft there may be."""
    whole = check.sized is not None and check.written is not None and check.document is not None
    return whole and (draft or not check.errors) and not check.failed_inside


class _Order(Struct, frozen=True):
    """What is asked for, in the words of the command."""

    sizes: tuple[str, ...]
    editions: tuple[str, ...]
    terms: str
    draft: bool


class _Printing:
    """The editions of a pattern on their way through the presses. Printers of pages are loaded only here, so that a check starts
    without them."""

    def __init__(self, workspace: Workspace, asked: _Order, presses: Presses) -> None:
        self.workspace, self.asked, self.presses = workspace, asked, presses
        self.begun: Begun | None = None

    def begin(self, check: CheckOutcome) -> None:
        """Ask for the first page of a pattern that is not judged yet: most are without faults. What goes wrong here goes wrong
        again when it is printed, and is told then."""
        from stitchproof.editions.put_out import begin

        if _can_print(check, False):
            with suppress(Exception):
                self.begun = begin(*self.given(check), self.presses)

    def put_out(self, check: CheckOutcome, record: bytes) -> PutOut:
        """Print a pattern that was checked. A mistake of our own is a finding; then there are no files."""
        from stitchproof.editions.edition import Beside
        from stitchproof.editions.put_out import PutOut, put_out

        document, sized, order, styles = self.given(check)
        beside = Beside(_editor_files(check), record, self.presses)
        try:
            return put_out(document, sized, check.findings, order, styles, beside, self.begun)
        except OSError:  # a place that cannot be written, or libraries that are not there: the user's own to mend
            raise
        except Exception as error:  # the last resort: our own bug, reported as such and never shown as a traceback
            shown = self.workspace.shown(check.folder)
            return PutOut({}, (internal_fault(shown, "printing the pages", where(error)),))

    def given(self, check: CheckOutcome) -> tuple[Document, SizedPattern, Order, tuple[Path, ...]]:
        """What is printed, and how. Raises SizesNotPossible."""
        from stitchproof.editions.put_out import Order

        sized, written, document = check.sized, check.written, check.document
        assert sized is not None and written is not None and document is not None  # noqa: S101
        order = Order(_sizes_asked(written, self.asked.sizes), self.asked.editions, self.asked.terms)
        return document, sized, order, self.workspace.style_folders(check.folder)


class _MadeFrom(Struct, frozen=True):
    """Name of the pattern, and what a build is made from, each in one word. tool: what pages are made with. inputs: that and
    all that is read. Both are "" where there is no such pattern."""

    name: str
    tool: str
    inputs: str


def _made_from(workspace: Workspace, pattern: str | os.PathLike[str], asked: _Order) -> _MadeFrom:
    from stitchproof.earlier_build import inputs_of
    from stitchproof.editions.made_with import made_with
    from stitchproof.reading.folder import SHARED

    folder = workspace.folder_of(pattern)
    if folder is None:
        return _MadeFrom(Path(pattern).name, "", "")
    tool = made_with()
    read = (folder, folder.parent / SHARED, *workspace.style_folders(folder))
    return _MadeFrom(folder.name, tool, inputs_of(dict.fromkeys(read), tool, workspace.shown(folder), repr(asked)))


def _editor_files(check: CheckOutcome) -> EditorFiles:
    """Prints the editor's worksheet where an edition asks for it."""

    def print_files(folder: EditionFolder, stem: str) -> tuple[EditionFile, ...]:
        from stitchproof.editor_sheet.make_sheet import make_sheet  # the other editions do without
        from stitchproof.editor_sheet.print_sheet import print_sheet

        record = record_of(check)
        if record is None or check.sized is None or check.written is None:
            return ()
        return print_sheet(make_sheet(record, check.sized, check.written.expanded.in_use), folder, stem)

    return print_files


def record_file(check: CheckOutcome) -> bytes:
    """The record of a pattern as it stands in its file; empty where its text was not come to."""
    return _as_file(record_of(check))


def _as_file(record: Record | None) -> bytes:
    from stitchproof.record.json_form import as_bytes

    return as_bytes(record) if record else b""


def record_of(check: CheckOutcome, terms: str = "") -> Record | None:
    """What is known of a pattern after its check, as data; None where its text was not come to. terms: "US" or "UK" for its
    words in these, with a finding for what was left as it was."""
    if check.sized is None or check.written is None or check.document is None:
        return None
    from stitchproof import __version__
    from stitchproof.record.make_record import make_record  # a check does without

    document, findings = check.document, check.findings
    if terms:
        from stitchproof.editions.terms_told import in_terms_told

        document, left = in_terms_told(document, terms)
        findings = (*findings, *left)
    in_use = check.written.expanded.in_use
    return make_record(check.name, __version__, check.sized, document, check.worked, in_use, findings)


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
    check = checked(workspace, pattern, {})
    sized, document = check.sized, check.document
    if sized is None or document is None or check.failed_inside:
        return WorksheetOutcome(check, "")
    # Only this command needs the rooms behind it.
    from stitchproof.editions.choose_sizes import choose_sizes
    from stitchproof.editions.put_out import gauges_asked
    from stitchproof.worksheets.check_returned import check_returned
    from stitchproof.worksheets.checkpoints import Worksheet, worksheet_for
    from stitchproof.worksheets.returned import MOST_BYTES

    def asked(size: str) -> Worksheet | None:
        if size not in document.sizes.names:
            return None
        chosen = choose_sizes(document, (document.sizes.names.index(size),))
        return worksheet_for(chosen, tuple(gauges_asked(sized)))

    content = read_plain(Path(path), MOST_BYTES)
    returned = check_returned(content, workspace.shown(Path(path)), asked)
    return WorksheetOutcome(replace(check, findings=(*check.findings, *returned.findings)), returned.table)


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
