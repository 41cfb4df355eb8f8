"""Third step of an edition: a template prints the PrintDocument as one self-contained HTML file."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterable, Iterator, Mapping
from hashlib import sha256
from itertools import groupby
from types import CodeType

import msgspec
from jinja2 import BaseLoader, BytecodeCache, Environment, StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2.bccache import Bucket
from msgspec import Struct

from stitchproof.editions.codes import code_of
from stitchproof.editions.drawing import drawn
from stitchproof.editions.edition_folder import EditionFolder, Leaf
from stitchproof.editions.fit_lines import fit_lines
from stitchproof.editions.kept_parts import KeptParts
from stitchproof.editions.number_html import by_size, cells, first_cell
from stitchproof.editions.print_document import (
    Kind,
    PrintDocument,
    PrintSection,
    PrintStep,
    shows_address,
    visible_text,
)
from stitchproof.editions.style_fault import StyleFault
from stitchproof.editions.styles import read_style_file, shipped_styles
from stitchproof.editions.template_work import BoundedTemplates, KeepMacro, TooMuchWork

TEMPLATE_FAULTS = (
    TooMuchWork,
    TemplateError,
    ArithmeticError,
    AttributeError,
    LookupError,
    RecursionError,
    TypeError,
    ValueError,
)


PLACE = "at_"
"""How the id of a line on paper begins, by which its page is found."""
NO_PHOTOS: Mapping[str, str] = {}
PARTS_OF_TEMPLATES = ("blocks.html.j2", "schematics.html.j2", "figures.html.j2")
BLANK_LINES = re.compile(r"\n{3,}")


class Draft(Struct, frozen=True):
    """What a draft shows besides the pattern: how many errors it has, and by step identity what is wrong there."""

    errors: int
    marks: Mapping[str, tuple[str, ...]] = msgspec.field(default_factory=dict)


class Watched(Struct, frozen=True):
    """What a page shows that is looked at while it is being written. proofs: by step identity, how far a row is proved, where
    that is not all the way. kept: what was printed before; only where `prints_by_blocks`."""

    proofs: Mapping[str, str]
    kept: KeptParts | None = None


def print_html(
    document: PrintDocument,
    folder: EditionFolder,
    leaf: Leaf,
    draft: Draft | None = None,
    photos: Mapping[str, str] = NO_PHOTOS,
    watched: Watched | None = None,
) -> str:
    """The HTML of a document in one of an edition's two forms, its style sheet and its script inside.

    The template gets `document`, `sections` in the edition's order, `edition`, `words`, `style` (free of tags), `script` and
    `script_hash` (what a Content-Security-Policy allows it by), `draft_errors` (None if it is no draft), `marks`, and
    `photos`: the address of each by its name. It runs sandboxed, escapes all text, and reaches only files of its folders and
    the shared parts. watched: it gets `proofs` and `row_marks` as well, and rows are named.
    Raises StyleFault if the template, the style sheet or the script cannot be used.
    """
    style, script = folder.style_of(leaf), folder.script_of(leaf)
    if watched is None:
        return _printed(fit_lines(document, leaf.line), folder, leaf.template, draft, style, photos, script)
    kept = watched.kept
    if kept:
        kept.begin((folder, leaf, photos))
    document = fit_lines(document, leaf.line, kept)
    return _printed(document, folder, leaf.template, draft, style, photos, script, watched)


def prints_by_blocks(folder: EditionFolder, leaf: Leaf) -> bool:
    """Whether a block's HTML hangs on nothing but the block, its marks and what holds for the whole page. That is sure of the
    shipped templates alone: those of a designer may look wherever they like."""
    shipped = tuple(layer for layer in folder.layers if layer.parent == shipped_styles())
    return all(folder.read(name) == read_style_file(shipped, name) for name in (leaf.template, *PARTS_OF_TEMPLATES))


def print_text(document: PrintDocument, folder: EditionFolder, template: str) -> str:
    """A document as plain text or Markdown, by one of an edition's text templates. Raises StyleFault as print_html."""
    return BLANK_LINES.sub("\n\n", _printed(document, folder, template, None, None, NO_PHOTOS)).lstrip("\n")


def print_page(folder: EditionFolder, leaf: Leaf, **values: object) -> str:
    """A page that holds other values than a PrintDocument, by an edition's template. Raises StyleFault as print_html."""
    return _rendered(folder, leaf.template, folder.style_of(leaf), values)


def print_plain(folder: EditionFolder, template: str, **values: object) -> str:
    """The same as plain text or Markdown: nothing is escaped. Raises StyleFault."""
    return BLANK_LINES.sub("\n\n", _rendered(folder, template, None, values)).strip("\n") + "\n"


def _printed(
    document: PrintDocument,
    folder: EditionFolder,
    template: str,
    draft: Draft | None,
    style: str | None,
    photos: Mapping[str, str],
    script: str = "",
    watched: Watched | None = None,
) -> str:
    """style: None for a template of plain text, in which nothing is escaped."""
    values: dict[str, object] = {
        "document": document,
        "sections": in_order(document, folder.parts),
        "draft_errors": draft.errors if draft else None,
        "marks": draft.marks if draft else {},
        "photos": photos,
        "script": script,
        "script_hash": f"sha256-{b64encode(sha256(script.encode()).digest()).decode()}",
    }
    keep = None
    if watched:
        values |= {"proofs": watched.proofs, "row_marks": True}
        keep = _Blocks(watched, draft.marks if draft else {}) if watched.kept else None
    return _rendered(folder, template, style, values, keep)


def anchor(identity: str) -> str:
    """The id of a line on paper, by which its page is found: short, and of signs that every id may have."""
    return f"{PLACE}{sha256(identity.encode()).hexdigest()[:12]}"


class _Blocks:
    """The HTML of blocks, made by the macro `block` of the shipped templates, or as it was."""

    def __init__(self, watched: Watched, marks: Mapping[str, tuple[str, ...]]) -> None:
        self.kept, self.proofs, self.marks = watched.kept, watched.proofs, marks

    def __call__(self, name: str, given: tuple[object, ...], make: Callable[[], object]) -> object:
        if name != "block" or self.kept is None or len(given) != 1:
            return make()
        (block,) = given
        said = tuple((self.marks.get(each), self.proofs.get(each)) for each in _steps_in(block))
        return self.kept.get((block, said), make)


def _steps_in(block: object) -> Iterator[str]:
    if isinstance(block, PrintStep):
        yield block.identity
    for inner in getattr(block, "blocks", ()):
        yield from _steps_in(inner)


def _rendered(
    folder: EditionFolder,
    template: str,
    style: str | None,
    values: Mapping[str, object],
    keep: KeepMacro | None = None,
) -> str:
    try:
        return (
            _environment(folder, style is not None, keep)
            .get_template(template)
            .render(edition=folder, words=folder.words, style=style or "", **values)
        )
    except TemplateSyntaxError as error:
        where = folder.path / (error.name or template)
        raise StyleFault(str(where), f"line {error.lineno}: {error.message}") from error
    except TEMPLATE_FAULTS as error:
        raise StyleFault(str(folder.path / template), f"the template stopped: {error}") from error


def in_order(document: PrintDocument, parts: tuple[str, ...]) -> tuple[PrintSection, ...]:
    """The sections in an edition's order.

    A part is the key of a section that is no piece, or "pieces", "finishing", "back" for all others of that kind. Front
    sections that are not named follow the last named one; kinds that are not named follow at the end. Nothing is left out.
    """
    front = {section.key for section in document.sections if section.kind is Kind.FRONT}
    named = [part for part in parts if part in front]
    last_named = max((parts.index(key) for key in named), default=-1)

    def rank(section: PrintSection) -> int:
        if section.kind is Kind.FRONT:
            return parts.index(section.key) if section.key in named else last_named
        if section.kind is not Kind.PIECE and section.key in parts:
            return parts.index(section.key)
        return parts.index(section.kind.value) if section.kind.value in parts else len(parts)

    return tuple(sorted(document.sections, key=lambda section: (rank(section), _KINDS.index(section.kind))))


_KINDS = (Kind.FRONT, Kind.PIECE, Kind.FINISHING, Kind.BACK)


def _grouped(rows: Iterable[object], attribute: str) -> list[tuple[object, list[object]]]:
    """Neighbours with the same value of an attribute together: unlike Jinja's own filter, in the order they stand in."""
    return [(value, list(group)) for value, group in groupby(rows, key=lambda row: getattr(row, attribute))]


class _Compiled(BytecodeCache):
    """Templates that were compiled in this process, each by its name, its text, and whether it escapes: the editions of a
    pattern share most of theirs."""

    MOST = 64

    def __init__(self) -> None:
        self.held: dict[tuple[str, str, bool], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        bucket.code = self.held.get(self.key(bucket))

    def dump_bytecode(self, bucket: Bucket) -> None:
        if bucket.code:
            if len(self.held) >= self.MOST:  # a designer at work on her templates
                self.held.clear()
            self.held[self.key(bucket)] = bucket.code

    def key(self, bucket: Bucket) -> tuple[str, str, bool]:
        return bucket.key, bucket.checksum, bool(bucket.environment.autoescape)


_COMPILED = _Compiled()


class _FolderLoader(BaseLoader):
    """Templates of an edition's folders, the nearest first, and of the shared parts."""

    def __init__(self, folder: EditionFolder) -> None:
        self.folder = folder

    def get_source(self, environment: Environment, template: str) -> tuple[str, str | None, None]:
        return self.folder.read(template), None, None


def _environment(folder: EditionFolder, escaping: bool, keep: KeepMacro | None) -> Environment:
    environment = BoundedTemplates(
        keep,
        autoescape=escaping,
        undefined=StrictUndefined,
        loader=_FolderLoader(folder),
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        bytecode_cache=_COMPILED,
    )
    environment.filters["kind"] = lambda value: type(value).__name__
    environment.filters["drawn"] = drawn
    environment.filters["code"] = code_of
    environment.filters["visible"] = visible_text
    environment.filters["by_size"] = by_size
    environment.filters["cells"] = cells
    environment.filters["first_cell"] = first_cell
    environment.filters["anchor"] = anchor
    environment.filters["groupby_in_order"] = _grouped
    environment.tests["showing_address"] = shows_address
    return environment
