"""A text as Jinja's own lexer cuts it, every piece with its place."""

from __future__ import annotations

from collections.abc import Iterator

from jinja2 import Environment
from jinja2.exceptions import TemplateSyntaxError

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.source_too_large import source_too_large
from stitchproof.reading.faults.template_not_readable import template_not_readable
from stitchproof.reading.nesting import JinjaToken, nested_too_deeply
from stitchproof.source import SourceFile, Span

SYNTAX = Environment(trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True)  # noqa: S701  # only its lexer is used


def jinja_tokens(file: SourceFile) -> list[JinjaToken] | Diagnostic:
    """The tokens of a text; blanks that Jinja leaves out stand between them. A report where Jinja cannot read it."""
    too_deep = nested_too_deeply(_located_tokens(file, to_first_fault=True))
    if too_deep:
        return too_deep
    try:
        SYNTAX.parse(file.text)
        return list(_located_tokens(file))
    except TemplateSyntaxError as error:
        return template_not_readable(file.line_span(min(error.lineno, len(file.line_starts))), error.message or "")
    except RecursionError:  # the last resort: what is nested was counted before
        return source_too_large(file.line_span(1), "what stands in {{ }} and {% %} is nested too deeply")


def _located_tokens(file: SourceFile, to_first_fault: bool = False) -> Iterator[JinjaToken]:
    """to_first_fault: end where the lexer stops, instead of raising TemplateSyntaxError."""
    position = 0
    try:
        for _, kind, value in SYNTAX.lexer.tokeniter(file.text, file.path):
            start = file.text.index(value, position)
            yield JinjaToken(kind, Span(file, start, start + len(value)))
            position = start + len(value)
    except TemplateSyntaxError:
        if not to_first_fault:
            raise
