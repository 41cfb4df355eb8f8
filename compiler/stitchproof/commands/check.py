"""`check`: patterns read, sized and judged, many at a time; published rows worked; a tester's worksheet read."""

from __future__ import annotations

import argparse
import sys
from contextlib import closing
from typing import TYPE_CHECKING

from stitchproof.commands.telling import (
    CLEAN,
    COULD_NOT_RUN,
    FOUND,
    OUR_FAULT,
    Refused,
    add_report_options,
    exit_code,
    findings_text,
    patterns_asked,
    printable_lines,
    put,
    sum_line,
    told_one_by_one,
    write_findings,
)
from stitchproof.diagnostics.report import count_words
from stitchproof.diagnostics.terminal import printable
from stitchproof.pipeline import check_pattern, check_published_rows, check_worksheet
from stitchproof.stages import CheckOutcome

if TYPE_CHECKING:
    from stitchproof.many_patterns import Checked


def add_options(parser: argparse.ArgumentParser) -> None:
    """What is checked, and how its findings are told."""
    parser.add_argument("patterns", metavar="PATTERN", nargs="*", help="a folder, or a name under pattern_sources/")
    parser.add_argument("--all", action="store_true", help="every pattern under pattern_sources/")
    parser.add_argument("--rows", metavar="FILE", help="work published rows instead, and print how many are proved")
    parser.add_argument(
        "--worksheet",
        metavar="FILE",
        action="append",
        default=[],
        help="hold a tester's worksheet (YAML or CSV) against the one pattern that is named; may be given again",
    )
    add_report_options(parser)


def run(asked: argparse.Namespace) -> int:
    """Check what was asked for."""
    if asked.rows is not None:
        return _check_rows(asked)
    if asked.worksheet:
        return _check_worksheets(asked)
    if not asked.patterns and not asked.all:
        raise Refused("check takes each PATTERN, or --all, or --rows FILE")
    patterns = patterns_asked(asked)
    if len(patterns) > 1:
        return _check_many(patterns, asked)
    outcome = check_pattern(patterns[0])
    write_findings([outcome], asked)
    return exit_code(outcome, asked.strict)


def _check_many(patterns: list[str], asked: argparse.Namespace) -> int:
    """Each is told of as soon as it is checked, in the order asked for; a machine form is one for all of them."""
    from stitchproof.many_patterns import check_patterns  # one pattern does without other processes

    told, one_by_one = [], told_one_by_one(asked)
    with closing(check_patterns(patterns)) as all_checked:
        for checked in all_checked:
            told.append(checked)
            if one_by_one:
                write_findings([checked], asked)
                _tell_not_done(checked)
                sys.stdout.flush()
    if one_by_one:
        print(sum_line(told, asked.strict), end="", file=sys.stderr)
    else:
        write_findings(told, asked)
        for checked in told:
            _tell_not_done(checked)
    return max(exit_code(checked, asked.strict) for checked in told)


def _tell_not_done(checked: Checked) -> None:
    if checked.not_done:
        print(printable(f"stitchproof: {checked.name}: {checked.not_done}"), file=sys.stderr)


def _check_worksheets(asked: argparse.Namespace) -> int:
    """Findings as for the pattern alone, and those of the worksheets; the tables to standard output."""
    if len(asked.patterns) != 1 or asked.all:
        raise Refused("--worksheet takes one PATTERN")
    try:
        outcomes = [check_worksheet(asked.patterns[0], file) for file in asked.worksheet]
    except OSError as error:
        raise Refused(f"cannot read {error.filename or ''}: {error.strerror or error}") from None
    first = outcomes[0].check
    # The pattern's own findings are the same in every outcome: told once.
    new = [found for outcome in outcomes[1:] for found in outcome.check.findings if found not in first.findings]
    whole = CheckOutcome(first.name, first.folder, (*first.findings, *new), first.sized, first.written, first.worked)
    tables = [outcome.table for outcome in outcomes]
    write_findings([whole], asked, worksheets=tables)
    if asked.format == "text" or asked.output:
        print("\n".join(printable_lines(table) for table in tables if table), end="")
    return exit_code(whole, asked.strict)


def _check_rows(asked: argparse.Namespace) -> int:
    """Findings as for a pattern; the table to standard output, unless a machine form goes there."""
    if asked.patterns or asked.all:
        raise Refused("check takes a PATTERN or --rows FILE, not both")
    outcome = check_published_rows(asked.rows)
    findings = list(outcome.findings)
    more: dict[str, object] = {"patterns": [], "rows": outcome.facts}
    text = findings_text(outcome.findings, asked, outcome.could_run and not outcome.failed_inside, more)
    if asked.format == "text":
        text += count_words(findings, printable(outcome.name)[:80]) + "\n"
    put(text, asked)
    if asked.format == "text" or asked.output:
        print(printable_lines(outcome.table), end="")
    if outcome.failed_inside:
        return OUR_FAULT
    if not outcome.could_run:
        return COULD_NOT_RUN
    return FOUND if outcome.errors or (asked.strict and findings) else CLEAN
