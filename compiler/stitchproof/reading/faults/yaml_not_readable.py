"""SP012 yaml-not-readable

Severity  error
Checks    pattern.yaml keeps to YAML's form: `key: value`, the keys of a group set in by spaces, lists with `- ` or in [
          ].
Matters   nothing of the pattern can be read before this file can.
Mend      look at the place shown and at the line above it; set keys of one group in by the same number of spaces, never
          by tabs.
Source    YAML 1.1 and 1.2 specifications, yaml.org.

Fires:
    dialect: 1
    title: "Hat
    sizes: {names: [S]}

Fires:
    sizes: {names: [S, M}

Quiet:
    sizes:
      names: [S, M]
"""

from __future__ import annotations

import re

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import SourceFile, Span

PAGE = read_page(__doc__)


def yaml_not_readable(file: SourceFile, offset: int, problem: str) -> Diagnostic:
    """offset: where the parser stopped. problem: its own words, put into ours where we know them."""
    line = file.line_text(file.line_column(offset)[0])
    help_text = "look at this line and the one above it: quotes closed, brackets closed, keys of one group set in alike"
    if "escape" in problem and "stands for" not in problem:
        problem, help_text = "an escape stands for a character that no text may hold", "take it out"
    elif "\t" in line[: len(line) - len(line.lstrip())] or "tab" in problem or "\\t" in problem:
        problem, help_text = "a tab stands where blanks should", "replace the tab by blanks"
    elif "quoted scalar" in problem or "end of stream" in problem:
        problem, help_text = "a quote is not closed", 'close the quote with `"`'
    elif "flow" in problem:
        problem, help_text = "a bracket or brace is not closed", "close it with `]` or `}`"
        if sized := re.search(r"[^\W\d][\w.]*\[[^\[\]]*\]", line):
            help_text = f"between braces a formula such as `{sized[0]}` stands in quotes, `is: '{sized[0]}'`"
    elif any(words in problem for words in ("expected", "could not find", "not allowed in this context")):
        problem = "the line does not follow on from the one before it"
    span = Span(file, min(offset, max(len(file.text) - 1, 0)), min(offset + 1, len(file.text)))
    return Diagnostic(PAGE, f"this file cannot be read as YAML: {problem}", Excerpt(span, problem), help=(help_text,))
