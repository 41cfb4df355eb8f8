"""A number of the page, told: its value in every size, how each name in it came about, and where else it is printed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from stitchproof.editions.number_text import settings_of, size_text
from stitchproof.editions.print_document import NO_BREAK
from stitchproof.expansion.document import Document, Number, blocks_of, blocks_within, inlines_of, steps_of
from stitchproof.expansion.k_values import ks_asked_for
from stitchproof.pipeline import record_of
from stitchproof.record.line_labels import label_of
from stitchproof.record.names_used import used_in_text
from stitchproof.record.record import RecordedBlock, RecordedSlot
from stitchproof.sizing.derivation import derivation
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.stages import CheckOutcome

MOST_PLACES = 60


class NamedValue(Struct, frozen=True):
    """A named value in a number. told: how it came about, line by line."""

    name: str
    told: str


class PrintedAt(Struct, frozen=True):
    """A line that prints a number. row, part: where it leads to; same: the number itself, and not one that is made of the same
    names."""

    label: str
    row: str
    part: str
    same: bool


class NumberTold(Struct, frozen=True):
    """written: as in the source; place: "20_yoke.md, line 12". values: by size, as printed, with its unit; "" where the line is
    not for that size."""

    written: str
    place: str
    values: tuple[tuple[str, str], ...]
    named: tuple[NamedValue, ...]
    places: tuple[PrintedAt, ...]
    more_places: int


def number_told(outcome: CheckOutcome, parts: Mapping[str, str], written: str, row: str) -> NumberTold | None:
    """What there is to tell of a number. written, row: its formula, and the identity of the row that it stands in, "" for none.
    parts: the id of each part of the page by its title. None where the page has no such number."""
    document, sized = outcome.document, outcome.sized
    if document is None or sized is None:
        return None
    number = _found(document, written, row)
    if number is None:
        return None
    names = used_in_text(written, sized.scope)
    places = list(_places(outcome, parts, written, set(names)))
    span = number.place.span
    return NumberTold(
        " ".join(written.split()),
        f"{span.file.path.rpartition('/')[2]}, line {span.file.line_column(span.start)[0]}",
        tuple(_values(number, document)),
        tuple(NamedValue(name, _derived(outcome, sized, name)) for name in names),
        tuple(places[:MOST_PLACES]),
        max(0, len(places) - MOST_PLACES),
    )


def _found(document: Document, written: str, row: str) -> Number | None:
    """The number in its row, or else the one that is written so for the most sizes."""
    blocks = tuple(blocks_of(document))
    steps = tuple(step for step in steps_of(blocks) if step.identity == row)
    for within in (steps, blocks):
        lines = (inline for block in within for each in blocks_within(block) for inline in inlines_of(each))
        found = [each for each in lines if isinstance(each, Number) and each.written == written]
        if found:
            return max(found, key=lambda each: len(each.served))
    return None


def _values(number: Number, document: Document) -> Iterator[tuple[str, str]]:
    sizes = document.sizes
    settings = settings_of(number, document.units)
    for size in sizes.chosen:
        texts = (f"{size_text(number, each, size)} {each.unit or number.noun}".rstrip() for each in settings)
        name, called = sizes.names[size], sizes.called(size)
        value = " / ".join(texts).replace(NO_BREAK, " ") if size in number.served else ""
        yield (called if called == name else f"{called} {name}"), value


def _derived(outcome: CheckOutcome, sized: SizedPattern, name: str) -> str:
    in_use = ks_asked_for(sized, outcome.written.expanded.in_use if outcome.written else {})
    told = derivation(sized, Span(SourceFile("the page", name), 0, len(name)), in_use)
    return told.rstrip() if isinstance(told, str) else told.headline


def _places(outcome: CheckOutcome, parts: Mapping[str, str], written: str, names: set[str]) -> Iterator[PrintedAt]:
    """Every line that prints the number, or another one made of the same names, in the order of the page."""
    record = record_of(outcome)
    for block in record.blocks if record else ():
        slots = [token for part in block.parts for token in part if isinstance(token, RecordedSlot)]
        same = any(slot.written == written for slot in slots)
        if same or any(names.intersection(slot.uses) for slot in slots):
            row, part = _leads_to(block, parts)
            yield PrintedAt(label_of(block), row, part, same)


def _leads_to(block: RecordedBlock, parts: Mapping[str, str]) -> tuple[str, str]:
    return (block.identity, "") if block.kind == "row" else ("", parts.get(block.under, ""))
