"""Small patterns for the tests of sizing: written to a folder, read, and worked out for every size."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from textwrap import dedent

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Example
from stitchproof.diagnostics.report import Report
from stitchproof.measures.values import PerSize
from stitchproof.reading.folder import read_pattern
from stitchproof.sizing.changes import Changes
from stitchproof.sizing.derivation import NONE_IN_USE, derivation
from stitchproof.sizing.derivation_sums import KsBySize
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source import SourceFile, Span
from tests.checks.smallest_pattern import write_example


@dataclass(frozen=True, slots=True)
class Sized:
    """A pattern worked out, and what was reported on the way."""

    pattern: SizedPattern
    findings: tuple[Diagnostic, ...]

    def quantity(self, name: str) -> Quantity:
        return self.pattern.scope.quantities[self.pattern.scope.full_name(name)]

    def values(self, name: str) -> PerSize:
        return self.quantity(name).values

    @property
    def faults(self) -> list[tuple[str, str, tuple[str, ...]]]:
        """Each finding as its name, the text it points at, and its sizes."""
        return [(found.page.name, found.primary.span.text, found.sizes) for found in self.findings]


def sized(yaml: str, changes: Changes | None = None) -> Sized:
    """A fragment of pattern.yaml, worked out; what it leaves out comes from the smallest pattern (sizes S and M)."""
    report = Report()
    with TemporaryDirectory() as folder:
        written = write_example(Example(dedent(yaml).lstrip("\n"), "", None), Path(folder))
        source = read_pattern(written, "pattern_sources/example", report)
    assert source is not None, report.findings()
    report.names = source.header.sizes.names
    pattern = size_pattern(source, report, changes)
    return Sized(pattern, report.findings())


def faultless(yaml: str, changes: Changes | None = None) -> Sized:
    """The same of a pattern that has no fault."""
    found = sized(yaml, changes)
    assert not found.findings, found.faults
    return found


def told(pattern: Sized, name: str, in_use: Mapping[str, KsBySize] = NONE_IN_USE) -> str | Diagnostic:
    """What `explain` tells of a name, or the report of why it cannot. in_use: the k that a text would work with."""
    return derivation(pattern.pattern, Span(SourceFile("asked", name), 0, len(name)), in_use)


def derivation_text(pattern: Sized, name: str, in_use: Mapping[str, KsBySize] = NONE_IN_USE) -> str:
    """What `explain` tells of a name that there is."""
    text = told(pattern, name, in_use)
    assert isinstance(text, str), text
    return text
