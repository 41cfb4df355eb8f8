"""The report: findings of one cause become one; they are ordered by file, place and code; their number is told."""

from __future__ import annotations

from itertools import permutations

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Excerpt, SumLine
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import Report, count_words
from stitchproof.source import SourceFile, Span
from tests.diagnostics.findings import TEXT, YAML, finding, span_of

NAMES = ("S", "M", "L")


def test_one_cause_is_one_report_with_the_sizes_of_all() -> None:
    """In the pattern's order, whatever order they came in; sums likewise; "all sizes" when it is all."""
    for order in permutations(NAMES):
        report = Report(NAMES)
        for size in order:
            report.add(replace(finding(sizes=(size,)), sums=(SumLine(size, f"sum of {size}"),)))
        (found,) = report.findings()
        assert found.sizes == NAMES
        assert [line.size for line in found.sums] == list(NAMES)
        assert found.full_headline == "the count is wrong (all sizes)"


def test_some_sizes_are_named() -> None:
    report = Report(NAMES)
    report.add(finding(sizes=("L",)))
    assert report.findings()[0].full_headline == "the count is wrong (size L)"
    report.add(finding(sizes=("S",)))
    assert report.findings()[0].full_headline == "the count is wrong (sizes S, L)"


def test_the_same_finding_twice_is_the_same_finding() -> None:
    report = Report(NAMES)
    report.extend([finding(sizes=("S",)), finding(sizes=("S",))])
    assert report.findings() == (finding(sizes=("S",)),)


def test_all_the_calls_of_one_cause_are_kept() -> None:
    """A macro that is used in two places is at fault once, and both uses are shown."""
    first, second = Excerpt(span_of(TEXT, "Row 1"), "used from here"), Excerpt(span_of(TEXT, "Row 2"), "used from here")
    report = Report(NAMES)
    for call in (first, second, first):
        report.add(replace(finding(sizes=("S",)), related=(call,)))
    assert report.findings()[0].related == (first, second)


def test_another_code_or_place_is_another_report() -> None:
    report = Report()
    report.extend([finding(), finding(code="SP102"), finding(span_of(TEXT, "Row 1")), finding(span_of(YAML, "sts"))])
    assert len(report.findings()) == 4


def test_findings_stand_in_order() -> None:
    """By file, then place, then code, whatever order they were found in."""
    other = SourceFile("a.md", "xyz\n")
    held = [
        finding(Span(other, 0, 1)),
        finding(Span(other, 2, 3), code="SP101"),
        finding(Span(other, 2, 3), code="SP102"),
        finding(span_of(TEXT, "Row 1")),
        finding(span_of(YAML, "sts")),
    ]
    for order in permutations(held):
        report = Report()
        report.extend(order)
        assert list(report.findings()) == held


def test_only_errors_are_errors() -> None:
    report = Report()
    report.add(finding(severity=Severity.WARNING))
    report.add(finding(code="SP102", severity=Severity.NOTE))
    assert not report.has_errors
    report.add(finding(code="SP103"))
    assert report.has_errors


def test_the_closing_line() -> None:
    error, warning = finding(), finding(severity=Severity.WARNING)
    note = finding(severity=Severity.NOTE)
    assert count_words([error, warning, error, note], "hat") == "2 errors, 1 warning, 1 note in hat"
    assert count_words([warning], "hat") == "1 warning in hat"
    assert count_words([], "hat") == "nothing found in hat"
