"""Findings made by hand, to print."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Alternative, Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import Page, Severity, read_page
from stitchproof.source import SourceFile, Span

TEXT = SourceFile("pattern_sources/hat/10_brim.md", "## Brim {brim}\n\nRow 1: é🧶 sc in <sts> sts.\n\tRow 2: sc.\n")
YAML = SourceFile("pattern_sources/hat/pattern.yaml", "counts:\n  sts: [8, 9, 10]\n")


def page(code: str = "SP101", severity: Severity = Severity.ERROR) -> Page:
    """A rule's page, as far as printing needs it."""
    headings = "Checks    Checks.\nMatters   Matters.\nMend      Mend.\nSource    none"
    return read_page(f"{code} made-up-fault\n\nSeverity  {severity.value}\n{headings}\n")


def span_of(file: SourceFile, text: str) -> Span:
    """Where a text stands in a file."""
    start = file.text.index(text)
    return Span(file, start, start + len(text))


def finding(
    span: Span | None = None,
    code: str = "SP101",
    severity: Severity = Severity.ERROR,
    headline: str = "the count is wrong",
    sizes: tuple[str, ...] = (),
    label: str = "",
    help_text: str = "mend it",
) -> Diagnostic:
    """A finding with little in it."""
    place = span or span_of(TEXT, "<sts>")
    return Diagnostic(page(code, severity), headline, Excerpt(place, label), sizes, help=(help_text,))


def full_finding() -> Diagnostic:
    """A finding with everything in it that a finding can have."""
    return Diagnostic(
        page(),
        "row 1 does not come out",
        Excerpt(span_of(TEXT, "<sts>"), "used here"),
        sizes=("S", "L"),
        piece="brim",
        row="brim/Row 1",
        related=(Excerpt(span_of(YAML, "[8, 9, 10]"), "given here"), Excerpt(span_of(TEXT, "Row 2: sc.\n"))),
        sums=(
            SumLine("S", "8 / 3", Fraction(8, 3), Fraction(3), "left over"),
            SumLine("L", "10 / 3", Fraction(10, 3), Fraction(4)),
        ),
        alternatives=(
            Alternative("S", "9", Fraction(5, 8)),
            Alternative("S", "6", Fraction(-5, 4)),
            Alternative("L", "12", None),
        ),
        left_out=("15 breaks SP003",),
        help=("take one of these", "or another repeat"),
    )
