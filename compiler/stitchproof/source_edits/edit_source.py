"""A pattern's files with changes made in them, one after the other, in memory. Nothing is written here."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.faults.unknown_name import unknown_name
from stitchproof.reading.header import read_header
from stitchproof.reading.pattern_source import PatternSource
from stitchproof.reading.yaml_tree import read_yaml
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.source_edits.asked import SetValue
from stitchproof.source_edits.faults.not_edited_in_place import not_edited_in_place
from stitchproof.source_edits.faults.source_not_written import source_not_written
from stitchproof.source_edits.pattern_tree import PatternTree, named_entries, pattern_tree
from stitchproof.source_edits.raw_text import RawText, TextEdit
from stitchproof.source_edits.set_sizes import AddSize, RemoveSize, size_edits
from stitchproof.source_edits.set_values import value_edits
from stitchproof.source_edits.size_lists import size_lists
from stitchproof.source_edits.table_cells import cell_edits
from stitchproof.source_edits.value_forms import value_form

HEADER = "pattern.yaml"
Asked = SetValue | AddSize | RemoveSize


class EditedSource(Struct, frozen=True):
    """before, after: by name in the pattern's folder, the files that may change. faults: what could not be edited.

    drawn: values of new sizes that nobody gave, drawn on from their neighbours.
    """

    before: dict[str, RawText]
    after: dict[str, RawText]
    source: PatternSource
    faults: tuple[Diagnostic, ...]
    drawn: tuple[str, ...] = ()

    @property
    def changed(self) -> tuple[str, ...]:
        """The names of the files that are other than before."""
        return tuple(name for name, text in self.after.items() if text != self.before[name])


def edited_source(folder: Path, sized: SizedPattern, asked: Sequence[Asked]) -> EditedSource:
    """The files of a pattern that was worked out, with all that is asked for. Raises OSError where one cannot be read.

    Numbers and lists first; then what is set by hand beside a formula, each after the values that its formula hangs on, as one
    that comes to what its formula gives follows it again; sizes last, in the order asked for.
    """
    source = sized.source
    files = {HEADER: source.header_file}
    if source.header.body and source.header.body.file:
        files[source.header.body.named.text.strip()] = source.header.body.file
    before = {name: RawText.of((folder / name).read_bytes()) for name in files}
    other = [file for name, file in files.items() if before[name].text != file.text]
    if other:
        why = "it has changed since it was read"
        return EditedSource(before, before, source, (source_not_written(other[0].path, why, "run the command again"),))
    return edited_texts(before, sized, asked)


def edited_texts(before: dict[str, RawText], sized: SizedPattern, asked: Sequence[Asked]) -> EditedSource:
    """The same of files whose content is at hand. sized: the pattern that they give."""
    editing = _Editing(dict(before), sized)
    for value in editing.in_order([each for each in asked if isinstance(each, SetValue)]):
        editing.value(value)
    for each in asked:
        if not isinstance(each, SetValue):
            editing.size(each)
    return EditedSource(before, editing.texts, editing.source, tuple(editing.faults), tuple(editing.drawn))


def known_names(sized: SizedPattern) -> tuple[str, ...]:
    """The full names of all that can be set: what pattern.yaml gives a value, and the rows of its body table."""
    tree = pattern_tree(sized.source.header_file)
    table = tuple(row.name for row in sized.body.rows) if sized.body else ()
    return tuple(dict.fromkeys((*(named_entries(sized.source.header, tree) if tree else ()), *table)))


class _Editing:
    """The files as far as they are edited, and the pattern that they give."""

    def __init__(self, texts: dict[str, RawText], sized: SizedPattern) -> None:
        self.texts, self.source = texts, sized.source
        self.worked_out = sized
        self.faults: list[Diagnostic] = []
        self.drawn: list[str] = []

    @property
    def sized(self) -> SizedPattern:
        """The pattern as edited so far; worked out only where somebody asks."""
        if self.worked_out.source is not self.source:
            self.worked_out = size_pattern(self.source, Report(self.source.header.sizes.names))
        return self.worked_out

    def in_order(self, asked: list[SetValue]) -> list[SetValue]:
        """Those that only replace what stands there, then those that may be set by hand beside a formula, inputs first."""
        tree = pattern_tree(self.sized.source.header_file)
        entries = named_entries(self.sized.source.header, tree) if tree else {}
        forms = {each.name: value_form(entries[each.name], tree) for each in asked if tree and each.name in entries}
        depths: dict[str, int] = {}

        def place(each: SetValue) -> int:
            form = forms.get(each.name)
            return self.depth(each.name, depths) if form and form.takes_sizes else -1

        return sorted(asked, key=place)

    def depth(self, name: str, depths: dict[str, int]) -> int:
        """How many values lie under one, at most."""
        if name not in depths:
            depths[name] = 0  # a circle is a fault of its own
            quantity = self.sized.scope.quantities.get(name)
            inputs = quantity.inputs if quantity else ()
            depths[name] = 1 + max((self.depth(each, depths) for each in inputs), default=0)
        return depths[name]

    def size(self, asked: AddSize | RemoveSize) -> None:
        tree = pattern_tree(self.sized.source.header_file)
        edits, faults, drawn = size_edits(asked, tree, self.sized) if tree else ((), (), ())
        self.faults += faults
        self.drawn += drawn
        beside = _beside_the_lists(asked, self.source, tree) if isinstance(asked, AddSize) and tree and edits else {}
        self.make(HEADER, edits, asked.span)
        for name, text in beside.items():
            at = asked.at
            if name in known_names(self.sized):
                self.value(SetValue(name, None, at, text, asked.span))
            else:
                self.faults.append(unknown_name(asked.span, name, known_names(self.sized)))

    def value(self, asked: SetValue) -> None:
        tree = pattern_tree(self.source.header_file)
        header, body = self.source.header, self.sized.body
        entry = named_entries(header, tree).get(asked.name) if tree else None
        row = body.row(asked.name) if body else None
        if body and row and not row.own:
            found = cell_edits(asked, row, body, self.sized)
            file = header.body.named.text.strip() if header.body else HEADER
        elif tree and entry:
            found, file = value_edits(asked, entry, tree, self.sized), HEADER
        else:
            found, file = self.not_written(asked), HEADER
        if isinstance(found, Diagnostic):
            self.faults.append(found)
        else:
            self.make(file, found, asked.span)

    def not_written(self, asked: SetValue) -> Diagnostic:
        """A name that is worked out and stands nowhere: a part of a plan, or an amount of yarn."""
        quantity = self.sized.scope.quantities.get(asked.name)
        span = quantity.value_span if quantity else asked.span
        plan = asked.name.rpartition(".")[0]
        help_text = f"change a number that it is made of, such as `plans.{plan}.from`"
        if asked.name in self.sized.scope.late:
            help_text = "change what a stitch or the sample weighs, or the margin"
        why = "it is worked out and typed nowhere"
        return not_edited_in_place(span, asked.named(self.sized.sizes), why, help_text)

    def make(self, file: str, edits: tuple[TextEdit, ...], span: Span) -> None:
        """Make the edits and read the pattern again. A text that would no longer be readable is left as it was."""
        if not edits:
            return
        text = self.texts[file].with_edits(edits)
        source = _read_again(self.source, file, text.text)
        if source is None:
            why = "the file could no longer be read with it"
            self.faults.append(not_edited_in_place(span, span.text, why, "change it by hand"))
            return
        self.texts[file], self.source = text, source


def _beside_the_lists(asked: AddSize, source: PatternSource, tree: PatternTree) -> dict[str, str]:
    """The values of a new size that stand in no list: what a formula gives for the others, and is set by hand for it."""
    lists = {each.name for each in size_lists(source.header, tree)}
    named = {"body.sizes", *lists, *(f"{name}.{column}" for name in lists for column in ("cm", "in"))}
    return {name: text for name, text in asked.values.items() if name not in named}


def _read_again(source: PatternSource, file: str, text: str) -> PatternSource | None:
    """The source with one of its files edited; its texts and photos stay as read."""
    header, header_file = source.header, source.header_file
    if file != HEADER:
        body = header.body
        changed = SourceFile(body.file.path, text) if body and body.file else None
        return replace(source, header=replace(header, body=replace(body, file=changed) if body else None))
    report = Report()
    header_file = SourceFile(header_file.path, text)
    tree = read_yaml(header_file, report)
    read = read_header(tree, header_file, report) if tree else None
    if read is None:
        return None
    if read.body and header.body and header.body.file and read.body.named.text == header.body.named.text:
        read = replace(read, body=replace(read.body, file=header.body.file))
    return replace(source, header=replace(read, photos=header.photos), header_file=header_file)
