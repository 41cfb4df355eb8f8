"""Third step of an edition: a template prints the PrintDocument as one self-contained HTML file."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec
from jinja2 import BaseLoader, Environment, StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from msgspec import Struct

from stitchproof.editions.codes import code_of
from stitchproof.editions.drawing import drawn
from stitchproof.editions.fit_lines import fit_lines
from stitchproof.editions.print_document import Kind, PrintDocument, PrintSection, shows_address
from stitchproof.editions.style_fault import StyleFault
from stitchproof.editions.styles import EditionFolder, Leaf, read_style_file

TEMPLATE_FAULTS = (TemplateError, ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError)


NO_PHOTOS: Mapping[str, str] = {}


class Draft(Struct, frozen=True):
    """What a draft shows besides the pattern: how many errors it has, and by step identity what is wrong there."""

    errors: int
    marks: Mapping[str, tuple[str, ...]] = msgspec.field(default_factory=dict)


def print_html(
    document: PrintDocument,
    folder: EditionFolder,
    leaf: Leaf,
    draft: Draft | None = None,
    photos: Mapping[str, str] = NO_PHOTOS,
) -> str:
    """The HTML of a document in one of an edition's two forms, its style sheet inside.

    The template gets `document`, `sections` in the edition's order, `edition`, `style` (free of tags), `draft_errors`
    (None if it is no draft), `marks`, and `photos`: the address of each by its name. It runs sandboxed, escapes all text,
    and reaches only files of its folder and the shipped parts.
    Raises StyleFault if the template or the style sheet cannot be used.
    """
    document = fit_lines(document, leaf.line)
    style = read_style_file(folder.path, leaf.style)
    if "</" in style:
        raise StyleFault(str(folder.path / leaf.style), "a style sheet holds no HTML")
    try:
        return (
            _environment(folder)
            .get_template(leaf.template)
            .render(
                document=document,
                sections=in_order(document, folder.parts),
                edition=folder,
                style=style,
                draft_errors=draft.errors if draft else None,
                marks=draft.marks if draft else {},
                photos=photos,
            )
        )
    except TemplateSyntaxError as error:
        where = folder.path / (error.name or leaf.template)
        raise StyleFault(str(where), f"line {error.lineno}: {error.message}") from error
    except TEMPLATE_FAULTS as error:
        raise StyleFault(str(folder.path / leaf.template), f"the template stopped: {error}") from error


def in_order(document: PrintDocument, parts: tuple[str, ...]) -> tuple[PrintSection, ...]:
    """The sections in an edition's order.

    A part is a front section's key, or "pieces", "finishing", "back" for all of that kind. Front sections that are not
    named follow the last named one; kinds that are not named follow at the end. Nothing is left out.
    """
    front = {section.key for section in document.sections if section.kind is Kind.FRONT}
    named = [part for part in parts if part in front]
    last_named = max((parts.index(key) for key in named), default=-1)

    def rank(section: PrintSection) -> int:
        if section.kind is Kind.FRONT:
            return parts.index(section.key) if section.key in named else last_named
        return parts.index(section.kind.value) if section.kind.value in parts else len(parts)

    return tuple(sorted(document.sections, key=lambda section: (rank(section), _KINDS.index(section.kind))))


_KINDS = (Kind.FRONT, Kind.PIECE, Kind.FINISHING, Kind.BACK)


class _FolderLoader(BaseLoader):
    """Templates of one edition's folder, and after it of the shipped parts."""

    def __init__(self, folder: EditionFolder) -> None:
        self.folder = folder

    def get_source(self, environment: Environment, template: str) -> tuple[str, str | None, None]:
        return read_style_file(self.folder.path, template), None, None


def _environment(folder: EditionFolder) -> Environment:
    environment = ImmutableSandboxedEnvironment(
        autoescape=True,
        undefined=StrictUndefined,
        loader=_FolderLoader(folder),
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["kind"] = lambda value: type(value).__name__
    environment.filters["drawn"] = drawn
    environment.filters["code"] = code_of
    environment.tests["showing_address"] = shows_address
    return environment
