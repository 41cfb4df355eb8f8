"""Warnings accepted in a text: a line `::: accept CODE REASON` before the step or block that has them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.diagnostics.acceptance import Acceptance
from stitchproof.diagnostics.report import Report
from stitchproof.expressions import expression
from stitchproof.reading.faults.missing_key import missing_reason
from stitchproof.source import SourceFile, Span

_LINE = expression(r"^[ \t]*:::[ \t]*accept\b[ \t]*(?P<code>[^\s:]*):?[ \t]*(?P<reason>[^\n]*?)[ \t]*$", re.MULTILINE)
_BLANK_LINE = expression(r"\n[ \t]*(?:\n|\Z)")


def text_acceptances(file: SourceFile, report: Report) -> Iterator[Acceptance]:
    """The acceptances of a text. Each covers the lines that follow it, up to the next blank one."""
    for match in _LINE.finditer(file.text):
        span = Span(file, match.start(), match.end())
        if not match["code"] or not match["reason"]:
            report.add(missing_reason(span))
            continue
        blank = _BLANK_LINE.search(file.text, match.end() + 1)
        covers = Span(file, match.end(), blank.start() if blank else len(file.text))
        yield Acceptance(match["code"], "", "", match["reason"], span, covers)
