"""Reads the words of a Document: finds the trade's words in its text, and lists those that the maker has to look up."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from typing import TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Document, Inline, Piece, Section, Step, Table, Text, Token, Word, steps_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.kept import Kept, made_once
from stitchproof.reading.pattern_source import SpecialStitch
from stitchproof.rows.chain_notes import chain_notes
from stitchproof.rows.labels import read_label
from stitchproof.rows.line import Line, LineNumber, line_of_tokens
from stitchproof.rows.own_stitches import facts_for, words_for
from stitchproof.rows.read_row import read_row
from stitchproof.rows.roles import with_roles
from stitchproof.rows.row_tree import Label, OnTrust, Reading
from stitchproof.rows.row_words import RowWords
from stitchproof.rows.words import WordFinder
from stitchproof.rows.written_pattern import ReadPart, ReadStep, WrittenPattern
from stitchproof.source import Place, Span
from stitchproof.stitches.lexicon import Entry, Lexicon, lexicon_for

Part = TypeVar("Part")
Tree = TypeVar("Tree")


def read_rows(expanded: ExpandedPattern, report: Report, kept: Kept | None = None) -> WrittenPattern:
    """The Document with its words found, roles of numbers told, and the list of exactly the abbreviations it uses.

    kept: what earlier readings of the same pattern made; a piece that is what it was is not read again.
    """
    header = expanded.sized.source.header
    terms, stitches = header.identity.terms, header.special_stitches
    special = tuple((each.abbreviation, _meaning(each)) for each in stitches)
    lexicon = made_once(kept, "lexicon", (terms, special), report, lambda _: lexicon_for(terms, special))
    words = made_once(kept, "row words", (terms, _own(stitches)), report, lambda _: words_for(terms, stitches))
    finding = _Finding(lexicon, kept, report)
    document = finding.document(expanded.document)
    readings = finding.readings(document, words)
    defined = [each for each in header.special_stitches if each.how]
    # Before the list is made: how a stitch is worked has abbreviations of its own.
    sections = [_special_stitches(defined, finding.finder)] if defined else []
    finding.take_in(finding.finder)
    used = sorted(finding.used.values(), key=lambda entry: entry.abbreviation.lower())
    if used:
        sections.insert(0, _abbreviations(used, finding.plurals, terms, header.sizes.span))
    facts = facts_for(readings, words)
    notes = chain_notes(document)
    return WrittenPattern(expanded, _with_sections(document, tuple(sections)), readings, facts, lexicon, notes)


def _own(stitches: Iterable[SpecialStitch]) -> tuple[object, ...]:
    """What the words of rows hang on, of the pattern's own stitches."""
    return tuple(
        (each.abbreviation, each.takes, each.makes, each.worked_as and each.worked_as.text) for each in stitches
    )


class _Finding:
    """Finds the words of a Document part by part, and reads its rows piece by piece; what is kept of the same is taken."""

    def __init__(self, lexicon: Lexicon, kept: Kept | None, report: Report) -> None:
        self.lexicon = lexicon
        self.finder = WordFinder(lexicon)
        self.kept = kept
        self.report = report
        self.used: dict[str, Entry] = {}
        self.plurals: set[str] = set()

    def document(self, document: Document) -> Document:
        """The same Document with its words found and its numbers told apart."""
        return replace(
            document,
            title_block=self.found("title", document.title_block, WordFinder.title_block),
            front=self.sections("front", document.front),
            pieces=tuple(
                self.found(("piece", number), piece, lambda finder, piece: finder.piece(with_roles(piece)))
                for number, piece in enumerate(document.pieces)
            ),
            finishing=self.sections("finishing", document.finishing),
            back=self.sections("back", document.back),
        )

    def sections(self, where: str, sections: tuple[Section, ...]) -> tuple[Section, ...]:
        return tuple(
            self.found((where, number), section, WordFinder.section) for number, section in enumerate(sections)
        )

    def found(self, what: Hashable, part: Part, find: Callable[[WordFinder, Part], Part]) -> Part:
        """A part with its words found."""

        def make(_: Report) -> tuple[Part, WordFinder]:
            finder = WordFinder(self.lexicon)
            return find(finder, part), finder

        with_words, finder = made_once(self.kept, ("words of", what), (part, self.lexicon), self.report, make)
        self.take_in(finder)
        return with_words

    def take_in(self, finder: WordFinder) -> None:
        """Remember what a finder came upon."""
        for key, entry in finder.used.items():
            self.used.setdefault(key, entry)
        self.plurals |= finder.plurals

    def readings(self, document: Document, words: RowWords) -> tuple[ReadStep, ...]:
        """Every step of the pieces, read."""
        return tuple(
            read
            for number, piece in enumerate(document.pieces)
            for read in self.rows(number, piece, document.sizes.names, words)
        )

    def rows(self, number: int, piece: Piece, names: tuple[str, ...], words: RowWords) -> tuple[ReadStep, ...]:
        """The steps of a piece, read."""
        lines = made_once(
            self.kept,
            ("lines of", number),
            (names, words),
            self.report,
            lambda _: _LinesRead(words, self.kept is not None),
        )
        return made_once(
            self.kept,
            ("rows of", number),
            (piece, names, words),
            self.report,
            lambda _: tuple(_readings(piece, names, lines)),
        )


class _LinesRead:
    """Reads lines; one with the same words and numbers as a line of an earlier run is the same tree, wherever it stands now.

    Two such lines in one run are two trees, as each is worked and told for itself. is_kept: whether there are later runs; else
    nothing is remembered.
    """

    def __init__(self, words: RowWords, is_kept: bool) -> None:
        self.words = words
        self.is_kept = is_kept
        self.run = 0
        self._labels: dict[str, list[_LineRead]] = {}
        self._rows: dict[str, list[_LineRead]] = {}
        self._held = 0

    def begin(self) -> None:
        """A run begins, in which no line was met yet."""
        self.run += 1
        if self._held > MOST_LINES:
            self._labels.clear()
            self._rows.clear()
            self._held = 0

    def label(self, line: Line) -> Label | None:
        """The label of a row, read."""
        return self._once(self._labels, line, read_label) if self.is_kept else read_label(line, self.words)

    def row(self, line: Line) -> Reading:
        """A row, or a part of it, read."""
        return self._once(self._rows, line, read_row) if self.is_kept else read_row(line, self.words)

    def _once(self, held: dict[str, list[_LineRead]], line: Line, read: Callable[[Line, RowWords], Tree]) -> Tree:
        alike = held.setdefault(line.text, [])
        for each in alike:  # numbers that were worked out before are the same objects, and so soon compared
            if each.run != self.run and each.numbers == line.numbers:
                each.run = self.run
                return cast(Tree, each.tree)
        tree = read(line, self.words)
        alike.append(_LineRead(line.numbers, tree, self.run))
        self._held += 1
        return tree


class _LineRead(Struct, eq=False):
    """A line as it was read, and in which run it was last met."""

    numbers: Mapping[int, LineNumber]
    tree: object
    run: int


MOST_LINES = 4096
"""Lines of a piece that are remembered while it is followed."""


def _readings(piece: Piece, names: tuple[str, ...], lines: _LinesRead) -> Iterator[ReadStep]:
    """Every step of a piece, read."""
    lines.begin()
    for step in steps_of(piece.blocks):
        label_line = _line(step.label, names, step) if step.label else None
        label = lines.label(label_line) if label_line else None
        parts = []
        for part in step.parts:
            line = _line(part.tokens, names, step)
            parts.append(ReadPart(part.served, line, OnTrust(step.trust) if step.trust else lines.row(line)))
        yield ReadStep(step, label, tuple(parts), label_line)


def _line(tokens: tuple[Token, ...], names: tuple[str, ...], step: Step) -> Line:
    return line_of_tokens(tokens, names, step.place.span)


def _meaning(stitch: SpecialStitch) -> str:
    return " ".join(stitch.name.text.split()) if stitch.name else stitch.abbreviation


def _abbreviations(used: list[Entry], plurals: set[str], terms: str, span: Span) -> Section:
    place = Place(span)

    def cell(text: str) -> tuple[Inline, ...]:
        return (Text(text, place),)

    rows = []
    for entry in used:
        plural = entry.key in plurals and entry.plural == f"{entry.abbreviation}s" and " " not in entry.abbreviation
        short: tuple[Inline, ...] = (Word(entry.key, entry.abbreviation, place),)
        rows.append(((*short, *cell("(s)")) if plural else short, cell(entry.meaning)))
    return Section(
        "abbreviations", f"Abbreviations ({terms} terms)", (Table((cell("Short"), cell("In full")), tuple(rows)),)
    )


def _special_stitches(defined: list[SpecialStitch], finder: WordFinder) -> Section:
    rows = []
    for stitch in defined:
        if stitch.how:
            place = Place(stitch.how.span)
            short = stitch.abbreviation
            name = (Word(short, short, place), Text(f" ({_meaning(stitch)})", place))
            how = finder.inlines((Text(" ".join(stitch.how.text.split()), place),))
            rows.append((name, how))
    head = ((Text("Stitch", rows[0][0][0].place),), (Text("How to work it", rows[0][0][0].place),))
    return Section("special_stitches", "Special stitches", (Table(head, tuple(rows)),))


def _with_sections(document: Document, sections: tuple[Section, ...]) -> Document:
    return replace(document, front=(*document.front, *sections))
