"""Recognises where YAML's own signs get in the way of what a designer meant to type."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Protocol

from stitchproof.late_pattern import LatePattern
from stitchproof.reading.faults.yaml_trap import Trap
from stitchproof.source import SourceFile, Span

_VALUE = LatePattern(r"^(?P<lead>[ \t]*(?:- +)*(?:[^\s:\"'{\[#][^:\"'{\[]*:[ \t]+)?)(?P<value>\S.*)$")
_CURLY = {"“": "”", "„": "“”", "‘": "’", "”": "”", "’": "’"}
"""Each opening quote of typesetters, and what closes it."""


class _Located(Protocol):
    @property
    def span(self) -> Span: ...


def trap_at(file: SourceFile, offset: int) -> tuple[Trap, Span] | None:
    """The trap on the line where the parser stopped, or on the one before it, if it looks like one of the known ones."""
    line = file.line_column(offset)[0]
    for number in (line, line - 1):
        if number >= 1 and (trap := _on_line(file, number)):
            return trap
    return None


def _on_line(file: SourceFile, number: int) -> tuple[Trap, Span] | None:
    match = _VALUE.match(file.line_text(number))
    if not match:
        return None
    start = file.line_starts[number - 1]
    value = match["value"]
    span = Span(file, start + match.start("value"), start + match.end("value"))
    has_key = ":" in match["lead"]
    if value.startswith("*"):
        return Trap.STAR, span
    if re.match(r"[>|](?![-+\d]*\s*(#.*)?$)", value):
        return Trap.GREATER, span
    if has_key and re.match(r"-\s", value):
        return Trap.DASH, span
    if re.match(r"[@`%&!]", value):
        return Trap.SIGN, span
    closing = re.match(r"\[[^\]]*\](?P<rest>[^\]\s,#:}][^#]*|\s+[^\s#,\]}][^#]*)$", value)
    if closing:
        return Trap.AFTER_BRACKET, Span(file, span.start + closing.start("rest"), span.end)
    if has_key and in_curly_quotes(value.rstrip()):
        return Trap.CURLY, span
    colon = re.search(r":\s", value) if has_key and value[0] not in "{[\"'" else None
    if colon:
        return Trap.COLON, Span(file, span.start + colon.start(), span.start + colon.start() + 1)
    return None


def cut_by_number_sign(file: SourceFile, end: int) -> bool:
    """Whether a plain value was cut off by ` #` that does not look like a comment: `Rnd #2`."""
    after = file.text[end : end + 40]
    return after.startswith((" ", "\t")) and re.match(r"[ \t]+#[^\s#]", after) is not None


def in_curly_quotes(text: str) -> bool:
    """Whether a plain value as a whole stands in “ ”, „ “ or ‘ ’, which were meant as quotes of YAML. One that goes on behind
    them, or has others inside, is a text."""
    return len(text) > 2 and _CURLY.get(text[0], "").find(text[-1]) >= 0 and not set(text[1:-1]) & set("“”„")


def split_at_comma(nodes: Sequence[_Located]) -> Span | None:
    """The stretch of a `{ }` or `[ ]` where a comma split a value: one part opens a bracket, a later one closes it.

    nodes: its plain values, without those in quotes or in brackets of their own.
    """
    closings = [node.span for node in nodes if ")" in node.span.text]
    for node in nodes:
        text = node.span.text
        if closings and node.span.start < closings[-1].start and text.count("(") > text.count(")"):
            closing = next(span for span in closings if span.start > node.span.start)
            return node.span.to(closing)
    return None
