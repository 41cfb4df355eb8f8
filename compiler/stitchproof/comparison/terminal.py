"""A comparison as text for the terminal."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from stitchproof.comparison.comparison import Comparison, FindingSeen, How, LineChanged, NumberChanged
from stitchproof.comparison.words import (
    causes_text,
    input_lines,
    line_head,
    new_text,
    number_lines,
    old_text,
    pair_text,
    side_text,
    size_number_lines,
    sizes_text,
    unchanged_text,
)

WIDTH = 118
FEW_SIZES = 3
"""Up to so many sizes the numbers that changed are shown by themselves; beyond, the whole line before and after."""


def comparison_text(comparison: Comparison) -> str:
    """What a maker would notice and an editor has to look at again, and what did not change."""
    return "\n".join(_lines(comparison)) + "\n"


def _lines(comparison: Comparison) -> Iterator[str]:
    yield comparison.new.title or comparison.pattern
    yield f"  old  {side_text(comparison.old)}"
    yield f"  new  {side_text(comparison.new)}"
    if not comparison.differs:
        yield ""
        yield "Nothing that a maker would notice has changed."
    for title, lines in _parts(comparison):
        if lines:
            yield from ("", title)
            yield from (f"  {line}" if line else "" for line in lines)
    yield ""
    yield "What did not change"
    yield from (f"  {line}" for line in unchanged_text(comparison))


def _parts(comparison: Comparison) -> Iterator[tuple[str, list[str]]]:
    sizes = [f"added    {', '.join(comparison.sizes_added)}"] if comparison.sizes_added else []
    sizes += [f"removed  {', '.join(comparison.sizes_removed)}"] if comparison.sizes_removed else []
    yield "Sizes", sizes
    yield "Title page", [f"{each.what}  {pair_text(each.words)}" for each in comparison.words]
    yield "Inputs", [line for each in comparison.inputs for line in input_lines(each)]
    numbers = [line for each in comparison.numbers for line in _number(each)]
    yield f"Numbers ({len(comparison.numbers)} changed, {comparison.same_numbers} the same)", numbers
    lines = [text for each in comparison.lines for text in _line(each, comparison)]
    yield f"Lines ({len(comparison.lines)} changed, {comparison.same_lines} the same)", lines
    findings = [_finding("new ", each, comparison) for each in comparison.findings_new]
    findings += [_finding("gone", each, comparison) for each in comparison.findings_gone]
    yield "Findings", findings


def _number(change: NumberChanged) -> list[str]:
    because = causes_text(chain for chain in change.causes if chain.names != (change.name,))
    lines = [f"{change.name}" + (f"  ← {because}" if because else "")]
    told = number_lines(change)
    if len({line[1:] for line in told}) == 1 and len(told) > 1:
        told = [("all" if len(told) > 1 else told[0][0], *told[0][1:])]
    wide = max((len(size) for size, _, _ in told), default=0)
    values = max((len(text) for _, text, _ in told), default=0)
    lines += [f"  {size:<{wide}}  {text:<{values}}  {more}".rstrip() for size, text, more in told]
    return lines


def _line(line: LineChanged, comparison: Comparison) -> list[str]:
    every = comparison.old.sizes if line.how is How.REMOVED else comparison.new.sizes
    word = {How.CHANGED: "", How.ADDED: "added  ", How.REMOVED: "removed  ", How.MOVED: "moved  "}[line.how]
    lines = [word + line_head(line, every)]
    lines += [f"  page in {edition}: {pair_text(pair)}" for edition, pair in line.pages]
    if line.only_numbers and 0 < len(line.numbers) == len(line.sizes) <= FEW_SIZES:
        wide = max(len(size) for size, _ in line.numbers)
        for size, text in size_number_lines(line):
            lines += _wrapped(f"  {size:<{wide}}  ", text)
    else:
        lines += _wrapped("  − ", old_text(line)) if line.how in (How.CHANGED, How.REMOVED) else []
        lines += _wrapped("  + ", new_text(line)) if line.how in (How.CHANGED, How.ADDED) else []
    because = causes_text(line.causes)
    return [*lines, *([f"  ← {because}"] if because else [])]


def _wrapped(mark: str, text: str) -> list[str]:
    return wrap(text, WIDTH, initial_indent=mark, subsequent_indent=" " * len(mark)) or [mark.rstrip()]


def _finding(word: str, found: FindingSeen, comparison: Comparison) -> str:
    every = comparison.new.sizes if word == "new " else comparison.old.sizes
    sizes = f" ({sizes_text(found.sizes, every)})" if found.sizes else ""
    accepted = f", accepted: {found.accepted}" if found.accepted else ""
    return f"{word}  {found.severity} {found.code}: {found.headline}{sizes}{accepted}"
