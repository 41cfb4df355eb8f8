"""Arguments in, exit code out. Knows which commands there are, and loads the one that is asked for."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from stitchproof.commands.telling import COULD_NOT_RUN, Refused
from stitchproof.diagnostics.terminal import printable

NAME = "stitchproof"
COMMANDS = {
    "new": "start a pattern folder that builds at once",
    "check": "read, size and judge patterns, many at a time",
    "build": "check patterns and print their editions into build/, many at a time",
    "compare": "what a maker would notice between two revisions, and why",
    "explain": "what a fault means, or how a number of a pattern came about",
    "regauge": "show what a new gauge, ease, size or number would do, or write it",
    "grade": "write the named numbers as a spreadsheet, or read one back",
    "preview": "open the page of a pattern in a browser, and refresh it at each save",
}
"""Each is a module of `commands`, with `add_options` and `run`."""
SELDOM = (100_000, 20, 20)
"""How often garbage in circles is looked for: a command is over before much of it comes, and each look costs."""
STOPPED = 130


def main(arguments: list[str] | None = None) -> int:
    """Run one command. Returns the exit code."""
    return _carried_out(_read(sys.argv[1:] if arguments is None else arguments))


def run() -> None:
    """The `stitchproof` command."""
    try:
        for stream in (sys.stdout, sys.stderr):
            stream.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]  # both are text files
        asked = _read(sys.argv[1:])
        gc.freeze()  # what is loaded stays
        gc.set_threshold(*SELDOM)
        gc.enable()
        sys.exit(_carried_out(asked))
    except KeyboardInterrupt:
        sys.exit(STOPPED)
    except BrokenPipeError:
        sys.exit(COULD_NOT_RUN)


class _Help(argparse.HelpFormatter):
    """Python's own, which is made for each option that is added. Left to itself it asks shutil for the width of the screen,
    and that brings three compressors with it."""

    def __init__(self, prog: str) -> None:
        try:
            columns = int(os.environ.get("COLUMNS") or 0) or os.get_terminal_size().columns
        except (ValueError, OSError):
            columns = 80
        super().__init__(prog, width=columns - 2)


def _read(arguments: Sequence[str]) -> argparse.Namespace:
    """What is asked for, and the function of the command under `run`."""
    parser = argparse.ArgumentParser(
        prog=NAME, description="Writes, checks and prints crochet patterns in many sizes.", formatter_class=_Help
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND", prog=NAME)
    first = arguments[0] if arguments else ""
    for name in (first,) if first in COMMANDS else COMMANDS:  # where it is clear which, the others are not shown
        options = commands.add_parser(name, help=COMMANDS[name], formatter_class=_Help)
        if name == first:
            command = import_module(f"stitchproof.commands.{name}")
            command.add_options(options)
            options.set_defaults(run=command.run)
    asked, rest = parser.parse_known_args(arguments)
    # Python's reader of arguments takes words that stand behind an option as left over: `--add-size XS head[XS]=48`.
    if rest and (not hasattr(asked, "changes") or any(word.startswith("-") for word in rest)):
        parser.error(f"unrecognized arguments: {' '.join(rest)}")
    if rest:
        asked.changes = [*asked.changes, *rest]
    return asked


def _carried_out(asked: argparse.Namespace) -> int:
    try:
        code: int = asked.run(asked)
    except Refused as refused:
        print(printable(f"stitchproof: {refused}"), file=sys.stderr)
        return COULD_NOT_RUN
    except OSError as error:
        told = f"stitchproof: cannot write {error.filename or ''}: {error.strerror or error}"
        print(printable(told), file=sys.stderr)
        return COULD_NOT_RUN
    return code
