"""Small patterns unfolded: their findings, and their Documents as short texts that a test can compare."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from importlib.resources import files
from pathlib import Path

from stitchproof import check_pattern
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.page import Example
from stitchproof.diagnostics.terminal import as_text
from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Document,
    Emphasis,
    Heading,
    Inline,
    Link,
    Note,
    Number,
    Passage,
    Prose,
    Step,
    Strong,
    Table,
    Text,
    Times,
    Word,
    steps_of,
)
from tests.checks.smallest_pattern import write_example

SIZES = "sizes: {names: [S, M, L]}\n"
COUNTS = SIZES + (
    "counts:\n"
    "  rows_in_all: [3 rows, 5 rows, 5 rows]\n"
    "  sts_around: [8 sts, 12 sts, 16 sts]\n"
    "  after(k): sts_around - 2 * k\n"
    "  edge: {by_hand: [2 sts, not worked, 4 sts]}\n"
)

RULES = frozenset(
    match[1]
    for file in Path(str(files("stitchproof.checks"))).glob("*.py")
    if (match := re.match(r'"""(SP\d{3}) ', file.read_text("utf-8")))
)
"""Codes of the rules that judge a pattern, apart from the faults that the stages find."""


@dataclass(frozen=True)
class Unfolded:
    """What came of a pattern: `findings`, and `document` where there is one."""

    findings: tuple[Diagnostic, ...]
    document: Document | None

    @property
    def codes(self) -> list[str]:
        """The codes found, in order."""
        return [found.page.code for found in self.findings]

    @property
    def printed(self) -> str:
        """The findings as a terminal shows them."""
        return as_text(facts_of(found) for found in self.findings)

    @property
    def steps(self) -> list[Step]:
        """Every step, in order."""
        assert self.document is not None
        return [step for piece in self.document.pieces for step in steps_of(piece.blocks)]

    @property
    def piece(self) -> list[str]:
        """The blocks of the first piece as short texts."""
        assert self.document is not None
        return [shown(block) for block in self.document.pieces[0].blocks]


def unfolded(
    text: str, yaml: str = COUNTS, shared: Mapping[str, str] | None = None, as_it_stands: bool = False
) -> Unfolded:
    """A pattern of one text (in a piece, unless it begins with a heading or stands as it is) and, beside it, shared texts."""
    with tempfile.TemporaryDirectory() as folder:
        pattern = write_example(Example(yaml, text, None), Path(folder))
        if as_it_stands:
            (pattern / "text.md").write_text(text, encoding="utf-8")
        for name, content in (shared or {}).items():
            (pattern.parent / "shared_text").mkdir(exist_ok=True)
            (pattern.parent / "shared_text" / name).write_text(content, encoding="utf-8")
        outcome = check_pattern(pattern, within=Path(folder))
    return Unfolded(outcome.findings, outcome.written.document if outcome.written else None)


def clean(
    text: str, yaml: str = COUNTS, shared: Mapping[str, str] | None = None, as_it_stands: bool = False
) -> Unfolded:
    """The same, where no stage finds a fault. What the rules think of an invented text does not matter here."""
    outcome = unfolded(text, yaml, shared, as_it_stands)
    assert [found for found in outcome.findings if found.page.code not in RULES] == [], outcome.printed
    return outcome


def shown(block: Block) -> str:
    """A block as a short text: sizes in front as [SM], numbers as their values, <8,12,16>; sizes not served print as ·."""
    match block:
        case Step():
            parts = [f"{sizes(part.served)}{part.tag.value}: {words(part.tokens)}" for part in block.parts]
            return f"{words(block.label)}|" + "|".join(parts)
        case Heading():
            return "#" * block.level + " " + words(block.inlines)
        case Prose():
            return words(block.inlines)
        case Bullets():
            return "\n".join(f"{'1.' if block.numbered else '-'} {words(item)}" for item in block.items)
        case Table():
            return "\n".join(" | ".join(words(cell) for cell in row) for row in (block.head, *block.rows))
        case Passage():
            return f"{sizes(block.served)}{block.tag.value} {{{within(block.blocks)}}}"
        case Times():
            return f"make {block.times} {{{within(block.blocks)}}}"
        case Note():
            return f"note {{{within(block.blocks)}}}"
        case Caution():
            return f"caution {sizes(block.served)}{block.tag.value} {{{within(block.blocks)}}}"
        case _:
            return type(block).__name__


def within(blocks: tuple[Block, ...]) -> str:
    """Blocks inside another."""
    return "; ".join(shown(block) for block in blocks)


def sizes(served: tuple[int, ...]) -> str:
    """Sizes by their first letters."""
    return "[" + "".join("SML"[size] for size in served) + "]"


def words(inlines: tuple[Inline, ...]) -> str:
    """Inlines as text."""
    return "".join(word(inline) for inline in inlines)


def word(inline: Inline) -> str:
    """One inline as text."""
    match inline:
        case Text():
            return inline.text
        case Word():
            return inline.as_written
        case Number():
            values = [
                (str(value) if isinstance(value, Fraction) else "–") if size in inline.served else "·"
                for size, value in enumerate(inline.values)
            ]
            return f"<{','.join(values)}>"
        case Strong():
            return f"**{words(inline.inlines)}**"
        case Emphasis():
            return f"_{words(inline.inlines)}_"
        case Link():
            return f"[{words(inline.inlines)}]({inline.address})"
