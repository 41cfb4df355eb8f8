"""`compare`: what a maker would notice between two revisions, and the errata sheet for those who have the old one."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from stitchproof.commands.telling import CLEAN, COULD_NOT_RUN, FOUND, OUR_FAULT, Refused, printable_lines
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text, printable
from stitchproof.plain_file import write_named
from stitchproof.revisions.compare_patterns import compare_patterns, in_form
from stitchproof.workspace import workspace_at

if TYPE_CHECKING:
    from stitchproof.comparison.comparison import Comparison
    from stitchproof.record.record import Record


def add_options(parser: argparse.ArgumentParser) -> None:
    """The two sides, the form of the comparison, and the errata sheet."""
    for side in ("old", "new"):
        parser.add_argument(
            side,
            metavar=side.upper(),
            help="a pattern, the folder of a build, a record.json, or PATTERN@REF for a commit or tag of git",
        )
    parser.add_argument(
        "--format", choices=("text", "json", "html"), default="text", help="how the comparison is written"
    )
    parser.add_argument("--output", metavar="FILE", type=Path, help="write the comparison here")
    parser.add_argument("--terms", choices=("us", "uk"), default="", help="read the new one in these terms")
    parser.add_argument("--errata", action="store_true", help="print the corrections for those who have the old one")
    parser.add_argument("--date", metavar="DATE", default="", help="the date of the errata sheet")
    parser.add_argument("--affects", metavar="REVISIONS", default="", help='the revisions with the fault: "1, 2"')
    parser.add_argument("--enter", action="store_true", help="enter the corrections under `revisions` in pattern.yaml")


def run(asked: argparse.Namespace) -> int:
    """The comparison; exit 0 the same, 1 different."""
    outcome = compare_patterns(asked.old, asked.new, terms=asked.terms.upper())
    if outcome.comparison is None:
        print(f"{as_text(facts_of(found) for found in outcome.findings)}\n", end="", file=sys.stderr)
        return OUR_FAULT if outcome.failed_inside else COULD_NOT_RUN
    text = in_form(outcome.comparison, asked.format)
    if asked.output:
        write_named(asked.output, text.encode("utf-8", "replace"))
    else:
        print(printable_lines(text) if asked.format == "text" else text, end="")
    if asked.errata and outcome.new:
        return _errata(outcome.comparison, outcome.new, asked)
    return FOUND if outcome.comparison.differs else CLEAN


def _errata(comparison: Comparison, new: Record, asked: argparse.Namespace) -> int:
    """Print the sheet, and say on standard error who has to be told and what became of the history."""
    from stitchproof.editions.style_fault import StyleFault  # a comparison prints no pages
    from stitchproof.revisions.write_errata import Order, in_the_way, told_text, write_errata

    workspace, order = workspace_at(Path.cwd()), Order(asked.date, asked.affects, asked.enter)
    if refused := in_the_way(comparison, order, workspace):
        print(as_text(facts_of(found) for found in refused), file=sys.stderr)
        return COULD_NOT_RUN
    try:
        outcome = write_errata(comparison, new, order, workspace)
    except StyleFault as fault:
        raise Refused(f"{fault.path}: {fault.message}") from None
    for file in outcome.files:
        print(printable(workspace.shown(file)), file=sys.stderr)
    for message in outcome.messages:
        print(f"the PDF renderer says: {printable(message)}", file=sys.stderr)
    if outcome.findings:
        print(as_text(facts_of(found) for found in outcome.findings), file=sys.stderr)
    print(printable_lines(told_text(outcome)), end="", file=sys.stderr)
    return COULD_NOT_RUN if outcome.findings else FOUND if comparison.differs else CLEAN
