"""Puts each fault alone into a copy of its demo, checks the copy as a designer would, and says what became of it."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path
from random import Random

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.source import Span
from tests.machine_made_faults import formula_slips, value_slips, word_slips
from tests.machine_made_faults.clean_pattern import CleanPattern
from tests.machine_made_faults.planted_fault import PlantedFault
from tests.machine_made_faults.printed_page import changed_parts, printed_page

MAKERS: tuple[Callable[[CleanPattern], Iterator[PlantedFault]], ...] = (
    value_slips.one_value,
    value_slips.short_list,
    value_slips.size_names,
    word_slips.units,
    word_slips.multiples,
    word_slips.left_out,
    word_slips.roundings,
    word_slips.gauges_and_rates,
    word_slips.typed_numbers,
    formula_slips.signs,
    formula_slips.numbers,
    formula_slips.names,
    formula_slips.functions,
    formula_slips.comparisons,
)
_NEXT_ENTRY = re.compile(r"\n(?:  - |\S)")
_NAME = re.compile(r"[^\W\d][\w.]*")
ROW_RULES = frozenset(f"SP{number}" for number in range(135, 165))
"""The rules about worked rows: such a report speaks of all the numbers that are printed up to its row."""


class Fate(Enum):
    """What became of a fault."""

    FOUND = "found"
    ELSEWHERE = "elsewhere"
    """Something was reported, but neither at its place nor of a value that it reaches, or of sizes that it does not."""
    SAME_PAGE = "same page"
    """Nothing was reported, and nothing else is printed in any size: no maker meets it."""
    MISSED = "missed"


@dataclass(frozen=True)
class Trial:
    """A fault and what was said of it. changed: the parts of the page that print something else."""

    fault: PlantedFault
    fate: Fate
    findings: tuple[Diagnostic, ...]
    changed: frozenset[str] = field(default_factory=frozenset)

    @property
    def errors(self) -> tuple[Diagnostic, ...]:
        """The reports that stop a build."""
        return tuple(found for found in self.findings if found.severity is Severity.ERROR)


def faults_of(pattern: CleanPattern, most_of_a_kind: int) -> list[PlantedFault]:
    """The same faults each time: of every kind so many, drawn without looking; fewer are the first of more."""
    by_kind: dict[str, list[PlantedFault]] = {}
    for maker in MAKERS:
        for fault in maker(pattern):
            by_kind.setdefault(fault.kind, []).append(fault)
    chosen = []
    for kind, faults in by_kind.items():
        Random(f"{pattern.name}/{kind}").shuffle(faults)  # noqa: S311  # the same order each time
        chosen += faults[:most_of_a_kind]
    return chosen


def share_found(fates: Iterable[Fate]) -> float:
    """Of the faults that change the page or are reported, those that are reported where they are."""
    counted = Counter(fates)
    return counted[Fate.FOUND] / ((counted.total() - counted[Fate.SAME_PAGE]) or 1)


class Bench:
    """A workspace with a copy of one demo, into which one fault after the other is put."""

    def __init__(self, pattern: CleanPattern, workspace: Path) -> None:
        self.pattern = pattern
        self.workspace = workspace
        self.folder = workspace / "pattern_sources" / pattern.name
        shutil.copytree(pattern.outcome.folder, self.folder)

    def try_out(self, fault: PlantedFault) -> Trial:
        """Check the copy with one fault in it."""
        (self.folder / "pattern.yaml").write_text(fault.text, encoding="utf-8")
        outcome = check_pattern(self.folder, within=self.workspace)
        if outcome.findings:
            sensible = any(_is_sensible(found, fault, self.pattern) for found in outcome.findings)
            return Trial(fault, Fate.FOUND if sensible else Fate.ELSEWHERE, outcome.findings)
        changed = _changed(self.pattern, outcome)
        return Trial(fault, Fate.MISSED if changed else Fate.SAME_PAGE, (), changed)


def _changed(pattern: CleanPattern, outcome: CheckOutcome) -> frozenset[str]:
    page = printed_page(outcome)
    assert page is not None, "nothing is reported, and nothing can be printed"
    return changed_parts(pattern.page, page)


def _is_sensible(found: Diagnostic, fault: PlantedFault, pattern: CleanPattern) -> bool:
    """Whether a report tells of the fault: of its size (or one beside it), and at its line or of something it reaches."""
    if fault.size is not None and found.sizes:
        told = {pattern.sized.sizes.index(size) for size in found.sizes}
        if not told & set(range(fault.size - 1, fault.size + 3)):
            return False
    return fault.line in _lines(found) or _tells_of(found, fault, pattern)


def _lines(found: Diagnostic) -> set[int]:
    """The lines of pattern.yaml that a report shows."""
    spans = [each.span for each in (found.primary, *found.related) if each.span.file.path.endswith("pattern.yaml")]
    ends = [(span.file.line_column(span.start)[0], span.file.line_column(span.end)[0]) for span in spans]
    return {line for first, last in ends for line in range(first, last + 1)}


def _tells_of(found: Diagnostic, fault: PlantedFault, pattern: CleanPattern) -> bool:
    """Whether a report speaks of the piece or list at fault, or shows a value that the fault reaches."""
    group, _, entry = fault.name.partition(".")
    if (group == "pieces" and found.piece == entry) or (group == "materials" and "`materials`" in found.headline):
        return True
    if group == "cautions" and "without the caution" in found.headline:
        return True
    told = [found.headline, *(line.expression for line in found.sums)]
    for excerpt in (found.primary, *found.related):
        line, _ = excerpt.span.file.line_column(excerpt.span.start)
        told += [excerpt.span.text, excerpt.span.file.line_text(line)]
        if found.page.code in ROW_RULES:
            told.append(_up_to_the_end_of_its_row(excerpt.span))
        elif excerpt.span.file.path.endswith("pattern.yaml"):
            told.append(_entry_around(excerpt.span))
    words = {word for text in told for word in _NAME.findall(text)}
    return not words.isdisjoint(pattern.reached_from(fault.name)) or _names_the_gauge(fault, words)


def _up_to_the_end_of_its_row(span: Span) -> str:
    text = span.file.text
    return text[: max(text.find("\n\n", span.end), span.end)]


def _entry_around(span: Span) -> str:
    """The sentence of must_hold that a report shows a word of; "" of any other place."""
    text = span.file.text
    start = text.find("must_hold:")
    if not 0 <= start < span.start:
        return ""
    after = _NEXT_ENTRY.search(text, span.end)
    return text[max(start, text.rfind("\n  - ", 0, span.start)) : after.start() if after else len(text)]


def _names_the_gauge(fault: PlantedFault, words: set[str]) -> bool:
    """A piece at another gauge: the report names that gauge."""
    return fault.kind == "another gauge" and not words.isdisjoint(put for _, put in fault.edits)
