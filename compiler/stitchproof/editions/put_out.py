"""Puts out the editions of a pattern: sizes chosen, faults marked beside their rows in a draft, printing faults reported."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import make_editions
from stitchproof.editions.faults.page_not_printed import page_not_printed, style_not_usable
from stitchproof.editions.html import Draft
from stitchproof.editions.photos import photos_of
from stitchproof.editions.style_fault import StyleFault
from stitchproof.expansion.document import Document, Number, Served, Step, blocks_of, inlines_of, steps_of
from stitchproof.formulas.tree import names_in
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import Span


class PutOut(Struct, frozen=True):
    """Files by name, and what the printer of pages found wrong."""

    files: dict[str, bytes]
    findings: tuple[Diagnostic, ...]


def put_out(
    document: Document,
    sized: SizedPattern,
    findings: tuple[Diagnostic, ...],
    editions: Sequence[str],
    styles: Sequence[Path],
    chosen: Served,
) -> PutOut:
    """The files of the editions, for the chosen sizes. With errors among the findings it is a draft and says so."""
    errors = [found for found in findings if found.severity is Severity.ERROR]
    draft = Draft(len(errors), _marks(document, sized, errors)) if errors else None
    document = choose_sizes(document, chosen)
    photos = photos_of(document)
    if photos.findings:
        return PutOut({}, photos.findings)
    try:
        made = make_editions(document, editions, styles, draft, photos.by_name)
    except StyleFault as fault:
        return PutOut({}, (style_not_usable(fault.path, fault.message),))
    messages = dict.fromkeys((edition.name, message) for edition in made for message in edition.messages)
    files = {file.name: file.content for edition in made for file in edition.files}
    return PutOut(files, tuple(page_not_printed(name, message) for name, message in messages))


def _marks(document: Document, sized: SizedPattern, errors: list[Diagnostic]) -> dict[str, tuple[str, ...]]:
    """By identity of a step: the headlines of the faults that stand in it, or in a number that it prints."""
    steps = list(steps_of(tuple(blocks_of(document))))
    marks: dict[str, tuple[str, ...]] = {}
    for found in errors:
        names = _names_touched(found, sized)
        for step in steps:
            if (
                found.row == step.identity
                or _stands_in(found.primary.span, step)
                or names & set(_names_printed(step, sized))
            ):
                marks[step.identity] = (*marks.get(step.identity, ()), found.full_headline)
    return marks


def _stands_in(span: Span, step: Step) -> bool:
    return any(_overlap(span, inline.place.span) for inline in inlines_of(step) if hasattr(inline, "place"))


def _overlap(one: Span, other: Span) -> bool:
    return one.file is other.file and one.start < other.end and other.start < one.end


def _names_touched(found: Diagnostic, sized: SizedPattern) -> set[str]:
    """The named values that a fault of pattern.yaml makes wrong: its own, and all that are worked out from it."""
    span = found.primary.span
    names = {each.name for each in sized.quantities if _overlap(span, each.value_span) or _overlap(span, each.span)}
    uses: dict[str, set[str]] = {each.name: set(each.inputs) for each in sized.quantities}
    # A value whose formula is at fault is no quantity; what it would have used stands in its definition.
    for definition in sized.source.header.definitions:
        name = sized.scope.full_name(definition.name)
        formulas = [formula for formula in definition.formulas if formula]
        used = {node.name for formula in formulas for node in names_in(formula.node)}
        uses.setdefault(name, {sized.scope.full_name(each) for each in used})
        if _overlap(span, definition.value_span) or _overlap(span, definition.span):
            names.add(name)
    while more := {name for name, used in uses.items() if names & used} - names:
        names |= more
    return names


def _names_printed(step: Step, sized: SizedPattern) -> Iterator[str]:
    for inline in inlines_of(step):
        if isinstance(inline, Number):
            for name in re.findall(r"[^\W\d][\w.]*", inline.written):
                yield sized.scope.full_name(name)
