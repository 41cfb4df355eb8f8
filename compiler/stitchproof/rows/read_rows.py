"""Reads the words of a Document: finds the trade's words in its text, and lists those that the maker has to look up."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Document, Inline, Section, Step, Table, Text, Token, Word, steps_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.reading.pattern_source import SpecialStitch
from stitchproof.rows.labels import read_label
from stitchproof.rows.line import Line, line_of_tokens
from stitchproof.rows.own_stitches import facts_for, words_for
from stitchproof.rows.read_row import read_row
from stitchproof.rows.roles import with_roles
from stitchproof.rows.row_tree import OnTrust
from stitchproof.rows.row_words import RowWords
from stitchproof.rows.words import WordFinder
from stitchproof.rows.written_pattern import ReadPart, ReadStep, WrittenPattern
from stitchproof.source import Place, Span
from stitchproof.stitches.lexicon import Entry, lexicon_for


def read_rows(expanded: ExpandedPattern, report: Report) -> WrittenPattern:
    """The Document with its words found, roles of numbers told, and the list of exactly the abbreviations it uses."""
    header = expanded.sized.source.header
    special = [(each.abbreviation, _meaning(each)) for each in header.special_stitches]
    lexicon = lexicon_for(header.identity.terms, special)
    finder = WordFinder(lexicon)
    document = finder.document(with_roles(expanded.document))
    defined = [each for each in header.special_stitches if each.how]
    # Before the list is made: how a stitch is worked has abbreviations of its own.
    sections = [_special_stitches(defined, finder)] if defined else []
    used = sorted(finder.used.values(), key=lambda entry: entry.abbreviation.lower())
    if used:
        sections.insert(0, _abbreviations(used, finder.plurals, header.identity.terms, header.sizes.span))
    words = words_for(header.identity.terms, header.special_stitches)
    readings = tuple(_readings(document, words))
    return WrittenPattern(expanded, _with_sections(document, tuple(sections)), readings, facts_for(readings, words))


def _readings(document: Document, words: RowWords) -> Iterator[ReadStep]:
    """Every step of the pieces, read."""
    for piece in document.pieces:
        for step in steps_of(piece.blocks):
            label_line = _line(step.label, document, step) if step.label else None
            label = read_label(label_line, words) if label_line else None
            parts = []
            for part in step.parts:
                line = _line(part.tokens, document, step)
                parts.append(ReadPart(part.served, line, OnTrust(step.trust) if step.trust else read_row(line, words)))
            yield ReadStep(step, label, tuple(parts), label_line)


def _line(tokens: tuple[Token, ...], document: Document, step: Step) -> Line:
    return line_of_tokens(tokens, document.sizes.names, step.place.span)


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
