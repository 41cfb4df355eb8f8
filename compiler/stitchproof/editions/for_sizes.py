"""One page for every choice of a size: what differs between them stands side by side, what is alike stands once.

Each choice reads exactly the words of its own document, in their order; how well the documents are laid over each other
decides only how much of the page they share.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from difflib import SequenceMatcher
from itertools import groupby

from msgspec.structs import replace

from stitchproof.editions.print_document import (
    EmphasisText,
    Entry,
    LinkText,
    PlainText,
    PrintBlock,
    PrintCaution,
    PrintDocument,
    PrintFigure,
    PrintForSizes,
    PrintInline,
    PrintNote,
    PrintPassage,
    PrintProse,
    PrintSection,
    PrintStep,
    StrongText,
    TextForSizes,
    Vector,
)
from stitchproof.editions.print_walk import PrintWalk

Choice = int | None
"""A size, or None for all sizes together."""
FRAMES = (PrintPassage, PrintCaution, PrintNote)
Line = tuple[PrintInline, ...]
Blocks = tuple[PrintBlock, ...]
Laid = dict[Choice, PrintBlock]
"""Blocks of several documents at one place: alike, but for what is inside."""


def for_every_choice(whole: PrintDocument, alone: Mapping[int, PrintDocument]) -> PrintDocument:
    """The document of all sizes with what each single size reads otherwise laid into it.

    alone: the document of each size, as its own edition prints it. Numbers no longer know their sizes.
    """
    documents: dict[Choice, PrintDocument] = {None: _plain(whole)}
    documents.update((size, _plain(document)) for size, document in alone.items())
    summary = _line({choice: document.title.summary for choice, document in documents.items()})
    return replace(
        documents[None],
        title=replace(whole.title, summary=summary),
        how_to_read="",
        sections=tuple(_section(section, documents) for section in documents[None].sections),
        choices=tuple((document.sizes[0], document.chosen) for document in alone.values()),
    )


def with_key(document: PrintDocument) -> PrintDocument:
    """The document with a key that no other pattern has, nor another revision of this one."""
    title = document.title
    rows = [step.identity for section in document.sections for step in _steps(section.blocks)]
    facts = json.dumps([title.title, title.designer, title.revision, title.date, rows])
    return replace(document, key=hashlib.sha256(facts.encode()).hexdigest()[:32])


def _steps(blocks: Blocks) -> Iterator[PrintStep]:
    for block in blocks:
        if isinstance(block, PrintStep):
            yield block
        elif isinstance(block, PrintPassage | PrintNote | PrintCaution | PrintForSizes):
            yield from _steps(block.blocks)


def _plain(document: PrintDocument) -> PrintDocument:
    """Numbers without their sizes, and how the numbers are read as a paragraph: so that what reads alike is alike."""
    document = PrintWalk(_without_sizes).document(document)
    if not document.how_to_read:
        return document
    told = PrintProse((PlainText(document.how_to_read),))
    sections = (
        replace(each, blocks=(*each.blocks, told)) if each.key == "sizes" else each for each in document.sections
    )
    return replace(document, sections=tuple(sections))


def _without_sizes(line: Line) -> Line:
    return tuple(_without_size(inline) for inline in line)


def _without_size(inline: PrintInline) -> PrintInline:
    match inline:
        case Vector():
            groups = tuple(tuple(Entry(None, entry.text) for entry in group) for group in inline.groups)
            return replace(inline, groups=groups)
        case StrongText() | EmphasisText() | LinkText():
            return replace(inline, inlines=_without_sizes(inline.inlines))
        case _:
            return inline


def _section(section: PrintSection, documents: Mapping[Choice, PrintDocument]) -> PrintSection:
    """One section as all choices that have it read it."""
    having = {
        choice: each
        for choice, document in documents.items()
        for each in document.sections
        if (each.kind, each.key) == (section.kind, section.key)
    }
    blocks = {choice: _tagged(each) for choice, each in having.items()}
    sizes = tuple(choice for choice in having if choice is not None)
    return replace(
        section,
        title=_line({choice: each.title for choice, each in having.items()}),
        tag="",
        blocks=_merged(blocks),
        sizes=None if len(having) == len(documents) else sizes,
    )


def _tagged(section: PrintSection) -> Blocks:
    """The blocks of a section, its tag among them."""
    tag = (PrintProse((StrongText((PlainText(section.tag),)),)),) if section.tag else ()
    return (*tag, *section.blocks)


def _line(lines: Mapping[Choice, Line]) -> Line:
    """A line once where all read it alike, else once for those that do."""
    if len(set(lines.values())) == 1:
        return next(iter(lines.values()))
    found: list[PrintInline] = []
    for line in dict.fromkeys(lines.values()):
        whole, sizes = _choices([choice for choice, own in lines.items() if own == line])
        found.append(TextForSizes(sizes, whole, line))
    return tuple(found)


def _merged(documents: Mapping[Choice, Blocks]) -> Blocks:
    laid: list[Laid] = []
    for choice, blocks in documents.items():
        laid = _laid_over(laid, choice, blocks)
    merged: list[PrintBlock] = []
    for choices, group in groupby(laid, key=_choosers):
        blocks = tuple(_one(each) for each in group)
        if len(choices) == len(documents):
            merged.extend(blocks)
        else:
            whole, sizes = _choices(choices)
            merged.append(PrintForSizes(sizes, whole, blocks))
    return tuple(merged)


def _choosers(laid: Laid) -> tuple[Choice, ...]:
    return tuple(laid)


def _choices(choices: tuple[Choice, ...] | list[Choice]) -> tuple[bool, tuple[int, ...]]:
    return None in choices, tuple(sorted(choice for choice in choices if choice is not None))


def _laid_over(laid: list[Laid], choice: Choice, blocks: Blocks) -> list[Laid]:
    """The blocks of one more choice over those that lie there already; each list keeps its order."""
    there = [_likeness(next(iter(each.values()))) for each in laid]
    match = SequenceMatcher(None, there, [_likeness(block) for block in blocks], autojunk=False)
    result: list[Laid] = []
    for kind, start, end, own_start, own_end in match.get_opcodes():
        if kind == "equal":
            both = zip(laid[start:end], blocks[own_start:own_end], strict=True)
            result.extend({**each, choice: block} for each, block in both)
        else:
            result.extend(laid[start:end])
            result.extend({choice: block} for block in blocks[own_start:own_end])
    return result


def _likeness(block: PrintBlock) -> object:
    """What blocks must agree in to lie at one place: a frame goes by its heading, a photo by its name."""
    match block:
        case PrintPassage() | PrintCaution():
            return type(block).__name__, block.tag
        case PrintNote():
            return "note"
        case PrintFigure():
            return "photo", block.name, block.alt
        case _:
            return block


def _one(laid: Laid) -> PrintBlock:
    """The blocks at one place as one."""
    first = next(iter(laid.values()))
    match first:
        case PrintFigure():
            captions = {choice: each.caption for choice, each in laid.items() if isinstance(each, PrintFigure)}
            return replace(first, caption=_line(captions))
        case PrintPassage() | PrintCaution() | PrintNote():
            inside = {choice: each.blocks for choice, each in laid.items() if isinstance(each, FRAMES)}
            return replace(first, blocks=_merged(inside))
        case _:
            return first
