"""How a command tells what it found: in the form that was asked for, in a file or on the screen, and by its exit code.

Exit codes: 0 no errors; 1 errors found, or warnings under --strict; 2 could not run; 3 our own fault.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.facts import as_json, facts_of
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import count_words
from stitchproof.diagnostics.terminal import as_text, printable
from stitchproof.plain_file import write_named
from stitchproof.simulation.proof_summary import summary_facts, summary_text

if TYPE_CHECKING:
    from stitchproof.build_many import Built
    from stitchproof.stages import CheckOutcome

CLEAN, FOUND, COULD_NOT_RUN, OUR_FAULT = 0, 1, 2, 3


class Refused(Exception):
    """The command cannot run; the message says why, and what would do."""


def add_report_options(parser: argparse.ArgumentParser) -> None:
    """The options of a command that judges patterns."""
    add_form_options(parser)
    parser.add_argument("--strict", action="store_true", help="fail on warnings too")


def add_form_options(parser: argparse.ArgumentParser) -> None:
    """In which form findings are told, and where."""
    parser.add_argument(
        "--format", choices=("text", "json", "sarif"), default="text", help="how the findings are written"
    )
    parser.add_argument("--output", metavar="FILE", type=Path, help="write the findings here")


def exit_code(outcome: CheckOutcome | Built, strict: bool) -> int:
    """What a pattern comes to."""
    if outcome.failed_inside:
        return OUR_FAULT
    if not outcome.could_run:
        return COULD_NOT_RUN
    notes = Severity.NOTE
    open_findings = [found for found in outcome.findings if not found.accepted and found.severity is not notes]
    return FOUND if outcome.errors or (strict and open_findings) else CLEAN


def write_findings(
    outcomes: Sequence[CheckOutcome | Built], asked: argparse.Namespace, more: dict[str, object]
) -> None:
    """Text to standard error; a machine form, or anything asked for in a file, in its place."""
    findings = tuple(found for outcome in outcomes for found in outcome.findings)
    proofs = [outcome.proof for outcome in outcomes if outcome.proof]
    more = {
        "patterns": [outcome.name for outcome in outcomes],
        "proof": [summary_facts(each) for each in proofs],
        **more,
    }
    text = findings_text(findings, asked, all(exit_code(outcome, False) <= FOUND for outcome in outcomes), more)
    if asked.format == "text":
        text += "\n".join(count_words(each.findings, printable(each.name)[:80]) for each in outcomes) + "\n"
    put(text, asked)
    for proof in proofs if asked.format == "text" else ():
        print("\n".join(printable(line) for line in summary_text(proof).splitlines()))


def findings_text(
    findings: tuple[Diagnostic, ...], asked: argparse.Namespace, executed: bool, more: dict[str, object]
) -> str:
    """Findings in the form that was asked for."""
    if asked.format == "json":
        return as_json(findings, **more)
    if asked.format == "sarif":
        return _sarif(findings, executed, more)
    body = as_text(facts_of(found) for found in findings if not found.accepted)
    return f"{body}\n" if body else ""


def put(text: str, asked: argparse.Namespace, stream: TextIO | None = None) -> None:
    """Write to the file that was asked for; else findings as text to standard error, and a machine form to standard output."""
    if asked.output:
        write_named(asked.output, text.encode("utf-8", "replace"))
    else:
        print(text, end="", file=stream or (sys.stderr if asked.format == "text" else sys.stdout))


def printable_lines(text: str) -> str:
    """A text that may hold a tester's own words, safe for a terminal."""
    return "".join(f"{printable(line)}\n" for line in text.splitlines())


def _sarif(findings: tuple[Diagnostic, ...], executed: bool, more: dict[str, object]) -> str:
    from stitchproof import __version__
    from stitchproof.diagnostics.sarif import as_sarif  # the other forms do without

    pages = [found.page for found in findings]
    return as_sarif([facts_of(found) for found in findings], pages, __version__, executed, **more)
