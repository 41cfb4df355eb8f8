"""Arguments in, text and exit code out. Knows nothing about crochet.

Exit codes: 0 no errors; 1 errors found, or warnings under --strict; 2 could not run; 3 our own fault.
"""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.facts import as_json, facts_of
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import count_words
from stitchproof.diagnostics.terminal import as_text, printable
from stitchproof.edit_commands import add_edit_commands
from stitchproof.pipeline import (
    check_pattern,
    check_published_rows,
    check_worksheet,
    explain,
)
from stitchproof.plain_file import write_named
from stitchproof.preview.command import add_preview_command
from stitchproof.simulation.proof_summary import summary_facts, summary_text
from stitchproof.stages import CheckOutcome
from stitchproof.workspace import Workspace, workspace_at

if TYPE_CHECKING:
    from stitchproof.build_many import Built
    from stitchproof.comparison.comparison import Comparison
    from stitchproof.record.record import Record

SELDOM = (20_000, 20, 20)
"""How often garbage in circles is looked for: a command is over before much of it comes, and each look costs."""
CLEAN, FOUND, COULD_NOT_RUN, OUR_FAULT = 0, 1, 2, 3


class _Refused(Exception):
    """The command cannot run; the message says why, and what would do."""


def main(arguments: list[str] | None = None) -> int:
    """Run one command. Returns the exit code."""
    parser = _parser()
    asked, rest = parser.parse_known_args(arguments)
    # Python's reader of arguments takes words that stand behind an option as left over: `--add-size XS head[XS]=48`.
    if rest and (not hasattr(asked, "changes") or any(word.startswith("-") for word in rest)):
        parser.error(f"unrecognized arguments: {' '.join(rest)}")
    if rest:
        asked.changes = [*asked.changes, *rest]
    try:
        code: int = _told(asked) if hasattr(asked, "tell") else asked.run(asked)
    except _Refused as refused:
        print(printable(f"stitchproof: {refused}"), file=sys.stderr)
        return COULD_NOT_RUN
    except OSError as error:
        told = f"stitchproof: cannot write {error.filename or ''}: {error.strerror or error}"
        print(printable(told), file=sys.stderr)
        return COULD_NOT_RUN
    return code


def run() -> None:
    """The `stitchproof` command."""
    gc.freeze()  # what is loaded stays
    gc.set_threshold(*SELDOM)
    gc.enable()
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]  # both are text files
    try:
        sys.exit(main())
    except KeyboardInterrupt:
        sys.exit(130)
    except BrokenPipeError:
        sys.exit(COULD_NOT_RUN)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="stitchproof", description="Writes, checks and prints crochet patterns in many sizes."
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    new = commands.add_parser("new", help="start a pattern folder that builds at once")
    new.add_argument("folder", metavar="FOLDER")
    new.set_defaults(run=_new)
    check = commands.add_parser("check", help="read, size and judge patterns")
    check.add_argument("patterns", metavar="PATTERN", nargs="*", help="a folder, or a name under pattern_sources/")
    check.add_argument("--rows", metavar="FILE", help="work published rows instead, and print how many are proved")
    check.add_argument(
        "--worksheet",
        metavar="FILE",
        action="append",
        default=[],
        help="hold a tester's worksheet (YAML or CSV) against the one pattern that is named; may be given again",
    )
    _add_report_options(check)
    check.set_defaults(run=_check)
    build = commands.add_parser("build", help="check patterns and print their editions into build/, many at a time")
    build.add_argument("patterns", metavar="PATTERN", nargs="*", help="a folder, or a name under pattern_sources/")
    build.add_argument("--all", action="store_true", help="every pattern under pattern_sources/")
    build.add_argument("--draft", action="store_true", help="print in spite of errors, each marked on the page")
    build.add_argument(
        "--edition", metavar="NAME", action="append", default=[], help="make this edition; may be given again"
    )
    build.add_argument(
        "--size",
        metavar="NAME | PIECE=NAME",
        action="append",
        default=[],
        help="print this size only, or this piece in this size; may be given again",
    )
    build.add_argument("--terms", choices=("us", "uk"), default="", help="print in these terms")
    build.add_argument("--to", metavar="FOLDER", type=Path, help="write here instead of build/")
    _add_report_options(build)
    build.set_defaults(run=_build)
    _add_compare(commands)
    tell = commands.add_parser("explain", help="what a fault means, or how a number of a pattern came about")
    tell.add_argument(
        "what", metavar="CODE | checklist | PATTERN NAME", nargs="+", help="NAME may be of one size: `hat_sts[M]`"
    )
    _add_form_options(tell)
    tell.set_defaults(run=_explain)
    add_edit_commands(commands)
    add_preview_command(commands)
    return parser


def _add_compare(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    compare = commands.add_parser("compare", help="what a maker would notice between two revisions, and why")
    for side in ("old", "new"):
        compare.add_argument(
            side,
            metavar=side.upper(),
            help="a pattern, the folder of a build, a record.json, or PATTERN@REF for a commit or tag of git",
        )
    compare.add_argument(
        "--format", choices=("text", "json", "html"), default="text", help="how the comparison is written"
    )
    compare.add_argument("--output", metavar="FILE", type=Path, help="write the comparison here")
    compare.add_argument("--terms", choices=("us", "uk"), default="", help="read the new one in these terms")
    compare.add_argument("--errata", action="store_true", help="print the corrections for those who have the old one")
    compare.add_argument("--date", metavar="DATE", default="", help="the date of the errata sheet")
    compare.add_argument("--affects", metavar="REVISIONS", default="", help='the revisions with the fault: "1, 2"')
    compare.add_argument("--enter", action="store_true", help="enter the corrections under `revisions` in pattern.yaml")
    compare.set_defaults(run=_compare)


def _add_report_options(parser: argparse.ArgumentParser) -> None:
    _add_form_options(parser)
    parser.add_argument("--strict", action="store_true", help="fail on warnings too")


def _add_form_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--format", choices=("text", "json", "sarif"), default="text", help="how the findings are written"
    )
    parser.add_argument("--output", metavar="FILE", type=Path, help="write the findings here")


def _new(asked: argparse.Namespace) -> int:
    from stitchproof.starter import StarterRefused, start_pattern  # the other commands do without

    try:
        folder = start_pattern(Path(asked.folder))
    except StarterRefused as refused:
        raise _Refused(str(refused)) from None
    print(printable(f"{folder} is ready: try  stitchproof build {folder}"))
    return CLEAN


def _check(asked: argparse.Namespace) -> int:
    if asked.rows is not None:
        return _check_rows(asked)
    if not asked.patterns:
        raise _Refused("check takes a PATTERN, or --rows FILE")
    if asked.worksheet:
        return _check_worksheets(asked)
    outcomes = [check_pattern(pattern) for pattern in asked.patterns]
    _write_findings(outcomes, asked, {})
    return max(_exit_code(outcome, asked.strict) for outcome in outcomes)


def _check_worksheets(asked: argparse.Namespace) -> int:
    """Findings as for the pattern alone, and those of the worksheets; the tables to standard output."""
    if len(asked.patterns) != 1:
        raise _Refused("--worksheet takes one PATTERN")
    try:
        outcomes = [check_worksheet(asked.patterns[0], file) for file in asked.worksheet]
    except OSError as error:
        raise _Refused(f"cannot read {error.filename or ''}: {error.strerror or error}") from None
    first = outcomes[0].check
    # The pattern's own findings are the same in every outcome: told once.
    new = [found for outcome in outcomes[1:] for found in outcome.check.findings if found not in first.findings]
    whole = CheckOutcome(first.name, first.folder, (*first.findings, *new), first.sized, first.written, first.worked)
    tables = [outcome.table for outcome in outcomes]
    _write_findings([whole], asked, {"worksheets": tables})
    if asked.format == "text" or asked.output:
        print("\n".join(_printable_lines(table) for table in tables if table), end="")
    return _exit_code(whole, asked.strict)


def _printable_lines(text: str) -> str:
    """A text that may hold a tester's own words, safe for a terminal."""
    return "".join(f"{printable(line)}\n" for line in text.splitlines())


def _check_rows(asked: argparse.Namespace) -> int:
    """Findings as for a pattern; the table to standard output, unless a machine form goes there."""
    if asked.patterns:
        raise _Refused("check takes a PATTERN or --rows FILE, not both")
    outcome = check_published_rows(asked.rows)
    findings = list(outcome.findings)
    more: dict[str, object] = {"patterns": [], "rows": outcome.facts}
    text = _findings_text(outcome.findings, asked, outcome.could_run and not outcome.failed_inside, more)
    if asked.format == "text":
        text += count_words(findings, printable(outcome.name)[:80]) + "\n"
    _put(text, asked)
    if asked.format == "text" or asked.output:
        print(_printable_lines(outcome.table), end="")
    if outcome.failed_inside:
        return OUR_FAULT
    if not outcome.could_run:
        return COULD_NOT_RUN
    return FOUND if outcome.errors or (asked.strict and findings) else CLEAN


def _build(asked: argparse.Namespace) -> int:
    """Each pattern is told of as soon as it is built, in the order asked for; a machine form is one for all of them."""
    from stitchproof.build_many import BuildOrder, build_patterns  # the other commands do without

    patterns = _patterns_asked(asked)
    workspace, at_once = workspace_at(Path.cwd()), asked.format == "text" and not asked.output
    order = BuildOrder(tuple(asked.size), tuple(asked.edition), asked.to, asked.draft, asked.terms.upper())
    told = []
    with closing(build_patterns(patterns, order)) as all_built:
        for built in all_built:
            told.append(built)
            if at_once:
                _write_findings([built], asked, {})
                _tell_files(built, workspace)
    if not at_once:
        files = [workspace.shown(file) for built in told for file in built.files]
        _write_findings(told, asked, {"files": files})
        for built in told if asked.output else ():
            _tell_files(built, workspace)
    return max(_exit_code(built, asked.strict) for built in told)


def _patterns_asked(asked: argparse.Namespace) -> list[str]:
    """Those that are named, each once; or all that there are."""
    if asked.all == bool(asked.patterns):
        raise _Refused("name each PATTERN, or all of them by --all")
    patterns: list[str] = list(dict.fromkeys(asked.patterns)) or list(workspace_at(Path.cwd()).pattern_names())
    if not patterns:
        raise _Refused("there is no pattern under pattern_sources/")
    names = [Path(pattern).name for pattern in patterns]
    if twice := next((name for name in names if names.count(name) > 1), None):
        raise _Refused(f"two patterns are called {twice}: each would be written over the other; build them one by one")
    return patterns


def _tell_files(built: Built, workspace: Workspace) -> None:
    for file in built.files:
        print(printable(workspace.shown(file)), flush=True)
    if built.not_written:
        print(printable(f"stitchproof: {built.not_written}"), file=sys.stderr)
    if not built.files:
        print(f"nothing was written for {printable(built.name)}; an earlier build is as it was", file=sys.stderr)


def _explain(asked: argparse.Namespace) -> int:
    if len(asked.what) > 2:
        raise _Refused("explain takes a CODE, or a PATTERN and a NAME")
    told = explain(asked.what[-1], asked.what[0] if len(asked.what) == 2 else None)
    if asked.format == "text" and not told.findings:
        _put(told.text if asked.output else _printable_lines(told.text), asked, sys.stdout)
        return CLEAN
    pattern = {"patterns": asked.what[:1]} if len(asked.what) == 2 else {}
    _put(_findings_text(told.findings, asked, not told.findings, {**pattern, "text": told.text}), asked)
    return COULD_NOT_RUN if told.findings else CLEAN


def _compare(asked: argparse.Namespace) -> int:
    from stitchproof.revisions.compare_patterns import compare_patterns, in_form  # the other commands do without

    outcome = compare_patterns(asked.old, asked.new, terms=asked.terms.upper())
    if outcome.comparison is None:
        print(f"{as_text(facts_of(found) for found in outcome.findings)}\n", end="", file=sys.stderr)
        return OUR_FAULT if outcome.failed_inside else COULD_NOT_RUN
    text = in_form(outcome.comparison, asked.format)
    if asked.output:
        write_named(asked.output, text.encode("utf-8", "replace"))
    else:
        print(_printable_lines(text) if asked.format == "text" else text, end="")
    if asked.errata and outcome.new:
        return _errata(outcome.comparison, outcome.new, asked)
    return FOUND if outcome.comparison.differs else CLEAN


def _told(asked: argparse.Namespace) -> int:
    """A command that hands on what it has to say: findings as those of a check, the rest to standard output."""
    told = asked.tell(asked)
    if told.refused:
        raise _Refused(told.refused)
    facts = {"patterns": [told.pattern], **told.facts}
    text = _findings_text(told.findings, asked, told.code <= FOUND, facts)
    if asked.format == "text" and told.findings:
        text += count_words(told.findings, printable(told.pattern)[:80]) + "\n"
    _put(text, asked)
    if asked.format == "text":
        print(_printable_lines(told.text), end="")
    code: int = told.code
    return code


def _errata(comparison: Comparison, new: Record, asked: argparse.Namespace) -> int:
    """Print the sheet, and say on standard error who has to be told and what became of the history."""
    from stitchproof.editions.style_fault import StyleFault
    from stitchproof.revisions.write_errata import Order, told_text, write_errata

    workspace = workspace_at(Path.cwd())
    try:
        outcome = write_errata(comparison, new, Order(asked.date, asked.affects, asked.enter), workspace)
    except StyleFault as fault:
        raise _Refused(f"{fault.path}: {fault.message}") from None
    for file in outcome.files:
        print(printable(workspace.shown(file)), file=sys.stderr)
    for message in outcome.messages:
        print(f"the PDF renderer says: {printable(message)}", file=sys.stderr)
    if outcome.findings:
        print(as_text(facts_of(found) for found in outcome.findings), file=sys.stderr)
    print(_printable_lines(told_text(outcome)), end="", file=sys.stderr)
    return COULD_NOT_RUN if outcome.findings else FOUND if comparison.differs else CLEAN


def _exit_code(outcome: CheckOutcome | Built, strict: bool) -> int:
    if outcome.failed_inside:
        return OUR_FAULT
    if not outcome.could_run:
        return COULD_NOT_RUN
    notes = Severity.NOTE
    open_findings = [found for found in outcome.findings if not found.accepted and found.severity is not notes]
    return FOUND if outcome.errors or (strict and open_findings) else CLEAN


def _write_findings(
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
    text = _findings_text(findings, asked, all(_exit_code(outcome, False) <= FOUND for outcome in outcomes), more)
    if asked.format == "text":
        text += "\n".join(count_words(each.findings, printable(each.name)[:80]) for each in outcomes) + "\n"
    _put(text, asked)
    for proof in proofs if asked.format == "text" else ():
        print("\n".join(printable(line) for line in summary_text(proof).splitlines()))


def _findings_text(
    findings: tuple[Diagnostic, ...], asked: argparse.Namespace, executed: bool, more: dict[str, object]
) -> str:
    """Findings in the form that was asked for."""
    if asked.format == "json":
        return as_json(findings, **more)
    if asked.format == "sarif":
        return _sarif(findings, executed, more)
    body = as_text(facts_of(found) for found in findings if not found.accepted)
    return f"{body}\n" if body else ""


def _put(text: str, asked: argparse.Namespace, stream: TextIO | None = None) -> None:
    """Write to the file that was asked for; else findings as text to standard error, and a machine form to standard output."""
    if asked.output:
        write_named(asked.output, text.encode("utf-8", "replace"))
    else:
        print(text, end="", file=stream or (sys.stderr if asked.format == "text" else sys.stdout))


def _sarif(findings: tuple[Diagnostic, ...], executed: bool, more: dict[str, object]) -> str:
    from stitchproof import __version__
    from stitchproof.diagnostics.sarif import as_sarif  # the other forms do without

    pages = [found.page for found in findings]
    return as_sarif([facts_of(found) for found in findings], pages, __version__, executed, **more)
