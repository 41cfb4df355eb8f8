"""`build`: patterns checked and their editions printed, many at a time."""

from __future__ import annotations

import argparse
import sys
from contextlib import closing
from pathlib import Path

from stitchproof.commands.telling import (
    Refused,
    add_report_options,
    exit_code,
    patterns_asked,
    sum_line,
    told_one_by_one,
    write_findings,
)
from stitchproof.diagnostics.terminal import printable
from stitchproof.many_patterns import BuildOrder, Built, build_patterns
from stitchproof.workspace import Workspace, workspace_at

ALL_SIZES, ONE_SIZE = "all_sizes", "one_size"


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
    patterns = patterns_asked(asked)
    names = [Path(pattern).name for pattern in patterns]
    if twice := next((name for name in names if names.count(name) > 1), None):
        raise Refused(f"two patterns are called {twice}: each would be written over the other; build them one by one")
    workspace, one_by_one = workspace_at(Path.cwd()), told_one_by_one(asked)
    order = BuildOrder(tuple(asked.size), tuple(asked.edition), asked.to, asked.draft, asked.terms.upper())
    if {ALL_SIZES, ONE_SIZE} <= set(asked.edition) and _is_one_file(asked.size):
        raise Refused(_would_be_one_file(asked.size))
    if asked.size and ALL_SIZES in asked.edition:
        print(printable(_in_those_sizes(asked.size)), file=sys.stderr)
    told = []
    with closing(build_patterns(patterns, order)) as all_built:
        for built in all_built:
            told.append(built)
            if one_by_one:
                write_findings([built], asked)
                _tell_files(built, workspace)
    if not one_by_one:
        write_findings(told, asked, files=[workspace.shown(file) for built in told for file in built.files])
        for built in told if asked.output else ():
            _tell_files(built, workspace)
    elif len(told) > 1:
        print(sum_line(told, asked.strict), end="", file=sys.stderr)
    return max(exit_code(built, asked.strict) for built in told)


def _in_those_sizes(sizes: list[str]) -> str:
    """That an edition of all sizes is not what its name says."""
    return (
        f"--size holds for every edition: {ALL_SIZES} is printed for {', '.join(sizes)} only. For all sizes as well, build "
        "once without --size and --to another folder"
    )


def _is_one_file(sizes: list[str]) -> bool:
    """Whether an edition of these sizes is a single file, so that editions without a name of their own in it fall together."""
    return len(set(sizes)) == 1 or any("=" in size for size in sizes)


def _would_be_one_file(sizes: list[str]) -> str:
    printed = (
        f"{ALL_SIZES} and {ONE_SIZE} are both printed for {', '.join(dict.fromkeys(sizes))} only, as files of one name"
    )
    return f"{printed}: ask for one of them. For all sizes as well, build once without --size and --to another folder"


def _tell_files(built: Built, workspace: Workspace) -> None:
    for file in built.files:
        print(printable(workspace.shown(file)), flush=True)
    if built.gone:
        gone = ", ".join(workspace.shown(file) for file in built.gone)
        print(f"no longer there, as a build is the files of one command: {printable(gone)}", file=sys.stderr)
    if built.not_done:
        print(printable(f"stitchproof: {built.not_done}"), file=sys.stderr)
    if not built.files:
        print(f"nothing was written for {printable(built.name)}; an earlier build is as it was", file=sys.stderr)
