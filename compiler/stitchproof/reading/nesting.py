"""Bounds how deep a text is nested, before anything follows it down: Jinja reads, and Python runs, only so many levels."""

from __future__ import annotations

import re
from collections.abc import Iterable

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.source_too_large import source_too_large
from stitchproof.expressions import expression
from stitchproof.source import Span

DEEPEST = 12
"""Loops, choices and ::: blocks inside one another, counted together. Python has room for 20 loops."""
DEEPEST_BRACKETS = 40
MOST_SIGNS = 60
"""Signs and joining words inside one {{ }} or {% %}: each may lie one deeper than the one before it."""
FENCE = expression(r"^[ \t]*:::(?![ \t]*accept\b)[ \t]*(?P<words>[^\n]*?)[ \t]*$", re.MULTILINE)
"""A line that opens a block, or with no words closes one."""
_OPENING = frozenset({"for", "if", "macro", "call", "filter", "block", "with", "autoescape", "set"})
_JOINING = frozenset({"not", "and", "or", "if", "else", "is", "in"})
_LEVEL = frozenset({",", ":", "="})


class JinjaToken(Struct, frozen=True):
    """A piece of a text as Jinja's lexer cuts it: `kind` is its word for it."""

    kind: str
    span: Span


def nested_too_deeply(tokens: Iterable[JinjaToken]) -> Diagnostic | None:
    """The report of the first place of a text that lies deeper than a text may go."""
    walk = _Walk()
    for token in tokens:
        if found := walk.take(token):
            return found
    return None


class _Walk:
    """Goes through the tokens of a text without recursion and counts what is open."""

    def __init__(self) -> None:
        self.open = 0
        self.raw = False
        self.start_tag(False)

    def start_tag(self, is_block: bool) -> None:
        self.in_block = is_block
        self.word = ""
        self.has_value = False
        self.brackets = 0
        self.signs = 0
        self.closed_at = -1

    def take(self, token: JinjaToken) -> Diagnostic | None:
        """The next token; the report where it lies too deep."""
        match token.kind:
            case "data":
                return None if self.raw else self.literal(token.span)
            case "raw_begin" | "raw_end":
                self.raw = token.kind == "raw_begin"
            case "variable_begin" | "block_begin":
                self.start_tag(token.kind == "block_begin")
            case "block_end":
                return self.end_tag(token.span)
            case "name":
                return self.name(token.span)
            case "operator":
                return self.sign(token.span)
        return None

    def literal(self, span: Span) -> Diagnostic | None:
        for fence in FENCE.finditer(span.text):
            self.open = self.open + 1 if fence["words"] else max(self.open - 1, 0)
            if self.open > DEEPEST:
                return _too_deep(span.part(fence.start(), fence.end()))
        return None

    def end_tag(self, span: Span) -> Diagnostic | None:
        if self.word in _OPENING and not (self.word == "set" and self.has_value):
            self.open += 1
            return _too_deep(span) if self.open > DEEPEST else None
        if self.word.startswith("end"):
            self.open = max(self.open - 1, 0)
        return None

    def name(self, span: Span) -> Diagnostic | None:
        if self.in_block and not self.word:
            self.word = span.text
            return None
        return self.counted(span) if span.text in _JOINING else None

    def sign(self, span: Span) -> Diagnostic | None:
        if span.text in ("(", "[", "{"):
            self.brackets += 1
            if self.brackets > DEEPEST_BRACKETS:
                return source_too_large(
                    span, f"brackets are nested more than {DEEPEST_BRACKETS} deep", "take the inner brackets out"
                )
            # What is called, or taken an item of, again and again lies one deeper each time.
            return self.counted(span) if span.start == self.closed_at else None
        if span.text in (")", "]", "}"):
            self.brackets -= 1
            self.closed_at = span.end
        elif span.text not in _LEVEL:
            return self.counted(span)
        else:
            self.has_value = self.has_value or span.text == "="
        return None

    def counted(self, span: Span) -> Diagnostic | None:
        self.signs += 1
        if self.signs <= MOST_SIGNS:
            return None
        bound = f"more than {MOST_SIGNS} signs and joining words inside one {{{{ }}}} or {{% %}}"
        return source_too_large(span, bound, "write it shorter, or in several parts")


def _too_deep(span: Span) -> Diagnostic:
    bound = f"loops, choices and blocks are nested more than {DEEPEST} deep"
    return source_too_large(span, bound, "close what is finished (`:::`, `{% endfor %}`, `{% endif %}`), or nest less")
