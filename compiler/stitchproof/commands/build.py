"""`build`: patterns checked and their editions printed, many at a time."""

from __future__ import annotations

import argparse
import sys
from contextlib import closing
from pathlib import Path

from stitchproof.build_many import BuildOrder, Built, build_patterns
from stitchproof.commands.telling import Refused, add_report_options, exit_code, write_findings
from stitchproof.diagnostics.terminal import printable
from stitchproof.workspace import Workspace, workspace_at


def add_options(parser: argparse.ArgumentParser) -> None:
    """Which patterns, and what of them is printed where."""
    parser.add_argument("patterns", metavar="PATTERN", nargs="*", help="a folder, or a name under pattern_sources/")
    parser.add_argument("--all", action="store_true", help="every pattern under pattern_sources/")
    parser.add_argument("--draft", action="store_true", help="print in spite of errors, each marked on the page")
    parser.add_argument(
        "--edition", metavar="NAME", action="append", default=[], help="make this edition; may be given again"
    )
    parser.add_argument(
        "--size",
        metavar="NAME | PIECE=NAME",
        action="append",
        default=[],
        help="print this size only, or this piece in this size; may be given again",
    )
    parser.add_argument("--terms", choices=("us", "uk"), default="", help="print in these terms")
    parser.add_argument("--to", metavar="FOLDER", type=Path, help="write here instead of build/")
    add_report_options(parser)


def run(asked: argparse.Namespace) -> int:
    """Each pattern is told of as soon as it is built, in the order asked for; a machine form is one for all of them."""
    patterns = _patterns_asked(asked)
    workspace, at_once = workspace_at(Path.cwd()), asked.format == "text" and not asked.output
    order = BuildOrder(tuple(asked.size), tuple(asked.edition), asked.to, asked.draft, asked.terms.upper())
    told = []
    with closing(build_patterns(patterns, order)) as all_built:
        for built in all_built:
            told.append(built)
            if at_once:
                write_findings([built], asked, {})
                _tell_files(built, workspace)
    if not at_once:
        files = [workspace.shown(file) for built in told for file in built.files]
        write_findings(told, asked, {"files": files})
        for built in told if asked.output else ():
            _tell_files(built, workspace)
    return max(exit_code(built, asked.strict) for built in told)


def _patterns_asked(asked: argparse.Namespace) -> list[str]:
    """Those that are named, each once; or all that there are."""
    if asked.all == bool(asked.patterns):
        raise Refused("name each PATTERN, or all of them by --all")
    patterns: list[str] = list(dict.fromkeys(asked.patterns)) or list(workspace_at(Path.cwd()).pattern_names())
    if not patterns:
        raise Refused("there is no pattern under pattern_sources/")
    names = [Path(pattern).name for pattern in patterns]
    if twice := next((name for name in names if names.count(name) > 1), None):
        raise Refused(f"two patterns are called {twice}: each would be written over the other; build them one by one")
    return patterns


def _tell_files(built: Built, workspace: Workspace) -> None:
    for file in built.files:
        print(printable(workspace.shown(file)), flush=True)
    if built.not_written:
        print(printable(f"stitchproof: {built.not_written}"), file=sys.stderr)
    if not built.files:
        print(f"nothing was written for {printable(built.name)}; an earlier build is as it was", file=sys.stderr)
