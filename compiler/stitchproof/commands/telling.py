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
from stitchproof.workspace import workspace_at

if TYPE_CHECKING:
    from stitchproof.diagnostics.facts import Facts
    from stitchproof.many_patterns import Checked
    from stitchproof.stages import CheckOutcome

CLEAN, FOUND, COULD_NOT_RUN, OUR_FAULT = 0, 1, 2, 3
ENDED = {
    CLEAN: ("passes", "pass"),
    FOUND: ("fails", "fail"),
    COULD_NOT_RUN: ("could not run", "could not run"),
    OUR_FAULT: ("met a mistake of ours", "met a mistake of ours"),
}
"""How one of many patterns ended, and several; by its exit code."""


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


def patterns_asked(asked: argparse.Namespace) -> list[str]:
    """Those that are named, each once; or all that there are."""
    if asked.all == bool(asked.patterns):
        raise Refused("name each PATTERN, or all of them by --all")
    patterns: list[str] = list(dict.fromkeys(asked.patterns)) or list(workspace_at(Path.cwd()).pattern_names())
    if not patterns:
        raise Refused("there is no pattern under pattern_sources/")
    return patterns


def exit_code(outcome: CheckOutcome | Checked, strict: bool) -> int:
    """What a pattern comes to."""
    if outcome.failed_inside:
        return OUR_FAULT
    if not outcome.could_run:
        return COULD_NOT_RUN
    notes = Severity.NOTE
    open_findings = [found for found in outcome.findings if not found.accepted and found.severity is not notes]
    return FOUND if outcome.errors or (strict and open_findings) else CLEAN


def told_one_by_one(asked: argparse.Namespace) -> bool:
    """Whether each of many patterns is told of as soon as it is done; a file, or a machine form, is one for all of them."""
    return asked.format == "text" and not asked.output


def write_findings(outcomes: Sequence[CheckOutcome | Checked], asked: argparse.Namespace, **more: object) -> None:
    """Text to standard error; a machine form, or anything asked for in a file, in its place."""
    findings = tuple(found for outcome in outcomes for found in outcome.findings)
    proofs = [outcome.proof for outcome in outcomes if outcome.proof]
    facts: dict[str, object] = {
        "patterns": [outcome.name for outcome in outcomes],
        "proof": [summary_facts(each) for each in proofs],
        **more,
    }
    of_each: list[str] = []
    if len(outcomes) > 1:
        facts["outcomes"] = [_outcome_facts(each, asked.strict) for each in outcomes]
        of_each = [outcome.name for outcome in outcomes for _ in outcome.findings]
    could_run = all(exit_code(outcome, False) <= FOUND for outcome in outcomes)
    text = findings_text(findings, asked, could_run, facts, of_each)
    if asked.format == "text":
        ended = (each for each in outcomes if not getattr(each, "not_done", ""))
        text += "".join(f"{count_words(each.findings, _shown(each))}\n" for each in ended)
        text += sum_line(outcomes, asked.strict) if len(outcomes) > 1 else ""
    put(text, asked)
    for proof in proofs if asked.format == "text" else ():
        print("\n".join(printable(line) for line in summary_text(proof).splitlines()))


def sum_line(outcomes: Sequence[CheckOutcome | Checked], strict: bool) -> str:
    """The last line of many: "1 error in 4 patterns: 2 pass, 1 fails (beech), 1 could not run (elm)"."""
    ended = []
    for code, (one, several) in ENDED.items():
        names = [_shown(each) for each in outcomes if exit_code(each, strict) == code]
        which = f" ({', '.join(names)})" if code != CLEAN else ""
        ended += [f"{len(names)} {several if len(names) > 1 else one}{which}"] if names else []
    findings = (found for outcome in outcomes for found in outcome.findings)
    return f"{count_words(findings, f'{len(outcomes)} patterns')}: {', '.join(ended)}\n"


def _outcome_facts(outcome: CheckOutcome | Checked, strict: bool) -> Facts:
    """One of many patterns: `exit` is the code that it would end with alone. why: it came to no end, or ""."""
    return {"pattern": outcome.name, "exit": exit_code(outcome, strict), "why": getattr(outcome, "not_done", "")}


def _shown(outcome: CheckOutcome | Checked) -> str:
    return printable(outcome.name)[:80]


def findings_text(
    findings: tuple[Diagnostic, ...],
    asked: argparse.Namespace,
    executed: bool,
    more: dict[str, object],
    of_each: Sequence[str] = (),
) -> str:
    """Findings in the form that was asked for. of_each: the pattern of each, where there are several."""
    if asked.format == "text":
        body = as_text(facts_of(found) for found in findings if not found.accepted)
        return f"{body}\n" if body else ""
    told = [facts_of(found) for found in findings]
    for facts, pattern in zip(told, of_each, strict=False):
        facts["pattern"] = pattern
    if asked.format == "json":
        return as_json(told, **more)
    from stitchproof import __version__
    from stitchproof.diagnostics.sarif import as_sarif  # the other forms do without

    return as_sarif(told, [found.page for found in findings], __version__, executed, **more)


def put(text: str, asked: argparse.Namespace, stream: TextIO | None = None) -> None:
    """Write to the file that was asked for; else findings as text to standard error, and a machine form to standard output."""
    if asked.output:
        write_named(asked.output, text.encode("utf-8", "replace"))
    else:
        print(text, end="", file=stream or (sys.stderr if asked.format == "text" else sys.stdout))


def printable_lines(text: str) -> str:
    """A text that may hold a tester's own words, safe for a terminal."""
    return "".join(f"{printable(line)}\n" for line in text.splitlines())
