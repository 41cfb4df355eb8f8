"""The parts before and after the pieces that pattern.yaml gives the facts for: sizes, materials, gauge, cautions, care."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.body_note import body_note
from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Inline,
    Prose,
    Section,
    SizeLine,
    SizeTable,
    Table,
    Tag,
    TitleBlock,
)
from stitchproof.expansion.faults.caution_not_known import caution_not_known
from stitchproof.expansion.inlines import header_inlines, plain_inlines
from stitchproof.expansion.size_words import sizes_named
from stitchproof.expansion.slots import SlotReader
from stitchproof.formulas.faults.size_not_known import size_not_known
from stitchproof.formulas.tree import Amount
from stitchproof.measures.print_grid import CM_GRID
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.measures.values import exact_text
from stitchproof.reading.pattern_source import CautionEntry, Gauge, Header, Revision, Words
from stitchproof.standards.cautions import shipped_cautions

HANDS = "hand_strain"
"""The caution about the maker's own hands; printed once, after everything else."""


def title_block(header: Header, reader: SlotReader) -> TitleBlock:
    """Title, names and dates."""
    identity = header.identity

    def text(words: Words | None) -> str:
        return " ".join(words.text.split()) if words else ""

    return TitleBlock(
        text(identity.title),
        text(identity.designer),
        text(identity.revision),
        text(identity.date),
        text(identity.contact),
        text(identity.licence),
        identity.terms,
        header_inlines(identity.summary, reader, reader.all) if identity.summary else (),
    )


def front_sections(header: Header, reader: SlotReader, report: Report) -> tuple[Section, ...]:
    """Sizes, materials, gauge and cautions, each if there is anything to say."""
    materials = tuple(_materials(header, reader))
    sections = (
        Section("at_a_glance", "At a glance", tuple(_at_a_glance(header, reader))),
        # Last of all that is evaluated: the note on the body table speaks of the rows that have been used.
        Section("sizes", "Sizes and finished measurements", tuple(_sizes(header, reader))),
        Section("materials", "Materials", materials),
        Section("gauge", "Gauge" if header.identity.terms == "US" else "Tension", tuple(_gauges(header, reader))),
        Section("cautions", "Cautions", tuple(_cautions(header, reader, report))),
    )
    return tuple(section for section in sections if section.blocks)


def back_sections(header: Header) -> tuple[Section, ...]:
    """What stands at the end of every pattern: a word about the maker's hands, whom to ask, and what has changed."""
    hands = shipped_cautions()[HANDS]
    blocks: list[Block] = [Prose(plain_inlines(hands.text, header.sizes.span))]
    sections = [Section("hands", "Your hands", tuple(blocks))]
    licence = header.identity.licence
    if licence:
        sections.append(Section("licence", "Use of this pattern", (_prose(licence),)))
    questions = tuple(_questions(header))
    if questions:
        sections.append(Section("help", "Questions and corrections", questions))
    if header.thanks:
        sections.append(Section("thanks", "Thanks", (_prose(header.thanks),)))
    if header.revisions:
        rows = tuple(_revision_row(each) for each in header.revisions)
        sections.append(Section("revisions", "Revisions", (Table(_revision_head(header), rows),)))
    return tuple(sections)


def _prose(words: Words) -> Prose:
    return Prose(plain_inlines(_one_line(words), words.span))


def _one_line(words: Words | None) -> str:
    return " ".join(words.text.split()) if words else ""


def _questions(header: Header) -> Iterator[Block]:
    contact, errata = header.identity.contact, header.errata
    if contact:
        yield Prose(plain_inlines(f"Questions about this pattern: {_one_line(contact)}", contact.span))
    if errata:
        yield Prose(plain_inlines(f"Corrections, as they are found: {_one_line(errata)}", errata.span))


def _revision_head(header: Header) -> tuple[tuple[Inline, ...], ...]:
    span = header.revisions[0].revision.span
    return tuple(plain_inlines(word, span) for word in ("Revision", "Date", "What has changed"))


def _revision_row(revision: Revision) -> tuple[tuple[Inline, ...], ...]:
    words = (revision.revision, revision.date, revision.changes)
    return tuple(plain_inlines(_one_line(each), each.span) if each else () for each in words)


def _at_a_glance(header: Header, reader: SlotReader) -> Iterator[Block]:
    """A line for each thing that a maker wants to know before she begins."""
    glance = header.at_a_glance
    if glance is None:
        return

    def line(name: str, *words: Words) -> tuple[tuple[Inline, ...], tuple[Inline, ...]]:
        told: list[Inline] = []
        for number, each in enumerate(words):
            between = plain_inlines(", ", each.span)
            told += [*(between if number else ()), *header_inlines(each, reader, reader.all)]
        return plain_inlines(name, words[0].span), tuple(told)

    rows = []
    if glance.difficulty:
        name, told = line("Difficulty", glance.difficulty)
        if glance.because:
            reasons = header_inlines(glance.because, reader, reader.all)
            brackets = (plain_inlines(sign, glance.because.span) for sign in (" (", ")"))
            opening, closing = brackets
            told = (*told, *opening, *reasons, *closing)
        rows.append((name, told))
    if glance.techniques:
        rows.append(line("Techniques", *glance.techniques))
    rows.append(line("Terms", Words(f"{header.identity.terms} terms", header.sizes.span)))
    if glance.languages:
        rows.append(line("Language" if len(glance.languages) == 1 else "Languages", *glance.languages))
    yield Table((), tuple(rows))


def _sizes(header: Header, reader: SlotReader) -> Iterator[Block]:
    if header.finished:
        lines = [
            SizeLine(header_inlines(line.label, reader, reader.all), reader.header_number(line.show, reader.all))
            for line in header.finished
        ]
        yield SizeTable(tuple(lines))
    if header.sizes.how_to_choose:
        yield Prose(header_inlines(header.sizes.how_to_choose, reader, reader.all))
    for text in body_note(reader.sized):
        yield Prose(plain_inlines(text, header.sizes.span))


def _materials(header: Header, reader: SlotReader) -> Iterator[Block]:
    if header.materials:
        yield Bullets(tuple(header_inlines(words, reader, reader.all) for words in header.materials), False)


def _gauges(header: Header, reader: SlotReader) -> Iterator[Block]:
    items = tuple(_gauge_inlines(gauge, reader) for gauge in header.gauges)
    if items:
        yield Bullets(items, False)


def _gauge_inlines(gauge: Gauge, reader: SlotReader) -> tuple[Inline, ...]:
    """ "16 sts and 12 rnds = 10 cm / 4 in: hdc worked in spiral rounds, with a 4.5 mm hook, blocked." """
    over = reader.sized.scope
    counts = []
    for word, noun in (("stitches", "sts"), ("rows", "rows"), ("rounds", "rnds")):
        per_cm = over.value(f"gauges.{gauge.name}.{word}", 0, None)
        length = _over(gauge)
        if isinstance(per_cm, Fraction) and length:
            counts.append(f"{exact_text(per_cm * length)} {noun}")
    fabric = [gauge.stitch.text.strip()] if gauge.stitch else []
    if gauge.worked:
        fabric.append(f"worked in {gauge.worked.text.strip()}")
    parts = [" ".join(fabric)] if fabric else []
    if gauge.hook:
        parts.append(f"with a {gauge.hook.text.strip()} hook")
    if gauge.state:
        parts.append(gauge.state.text.strip())
    measured = f"{' and '.join(counts)} = {_length_words(_over(gauge))}"
    return plain_inlines(": ".join([measured, *([", ".join(parts)] if parts else [])]) + ".", gauge.span)


def _over(gauge: Gauge) -> Fraction | None:
    """The length that a gauge is counted over, in cm."""
    node = gauge.over.node if gauge.over else None
    return node.value if isinstance(node, Amount) else None


def _length_words(cm: Fraction | None) -> str:
    """The customary pair of lengths: 10 cm / 4 in. The counts belong to the one that was measured."""
    if cm is None:
        return ""
    if (cm / CM_PER_INCH).denominator == 1:
        return f"{exact_text(cm / CM_PER_INCH)} in"
    return f"{exact_text(cm)} cm" + (" / 4 in" if cm == 10 else "") if CM_GRID.fits(cm) else f"{exact_text(cm)} cm"


def _cautions(header: Header, reader: SlotReader, report: Report) -> Iterator[Block]:
    """The cautions in front, those for the same sizes together."""
    together: dict[tuple[int, ...], list[Block]] = {}
    for entry in header.cautions:
        served = _sizes_of(entry, header, reader, report)
        shipped = shipped_cautions().get(entry.rule.text.strip())
        if shipped is None:
            report.add(caution_not_known(entry.rule.span, tuple(shipped_cautions())))
            continue
        together.setdefault(served, []).append(Prose(plain_inlines(shipped.text, entry.span)))
    for served, blocks in together.items():
        yield Caution(served, Tag.NONE if served == reader.all else Tag.ONLY, tuple(blocks))


def _sizes_of(entry: CautionEntry, header: Header, reader: SlotReader, report: Report) -> tuple[int, ...]:
    served: set[int] = set()
    for words in entry.sizes:
        named = sizes_named(words.text, header.sizes.names, header.sizes.called_by_number)
        if named is None:
            report.add(size_not_known(words.span, words.text.strip(), header.sizes.names))
        served.update(named or ())
    return tuple(sorted(served)) or reader.all
