"""The commands that change a designer's files, or show what a change would do: `regauge` and `grade`."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.stages import CheckOutcome, where

if TYPE_CHECKING:
    from stitchproof.what_if import Revised

CLEAN, FOUND, COULD_NOT_RUN, OUR_FAULT = 0, 1, 2, 3


class Told(Struct, frozen=True):
    """What a command has to say. findings: told as those of a check; text: for people; facts: the same for machines.

    refused: why it cannot run at all, or "". pattern: its name, where findings are counted.
    """

    code: int
    findings: tuple[Diagnostic, ...] = ()
    text: str = ""
    facts: dict[str, Any] = field(default_factory=dict)
    refused: str = ""
    pattern: str = ""


def add_edit_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Put the two among the commands; each has its function under `tell`."""
    regauge = commands.add_parser("regauge", help="show what a new gauge, ease, size or number would do, or write it")
    regauge.add_argument("pattern", metavar="PATTERN", help="a folder, or a name under pattern_sources/")
    regauge.add_argument(
        "changes",
        metavar="NAME=VALUE",
        nargs="*",
        help="such as gauges.crown.stitches=17, hat_sts[Child]=72, or a sweep: ease='2 to 4 cm in halves'",
    )
    regauge.add_argument(
        "--add-size", metavar="NAME", action=_NewSize, help="a size more, at the end; may be given again"
    )
    regauge.add_argument(
        "--after", metavar="NAME", action=_Beside, help="the size that the one just added stands behind"
    )
    regauge.add_argument(
        "--before", metavar="NAME", action=_Beside, help="the size that the one just added stands before"
    )
    regauge.add_argument("--remove-size", metavar="NAME", action="append", default=[], help="may be given again")
    regauge.add_argument(
        "--draw-on", action="store_true", help="for a new size, draw the lists on in a line that get no value"
    )
    _add_options(regauge, "write the change into the pattern's files")
    regauge.set_defaults(tell=lambda asked: _guarded(_regauge, asked, "working a change out"), sizes=[])
    grade = commands.add_parser("grade", help="write the named numbers as a spreadsheet, or read one back")
    grade.add_argument("pattern", metavar="PATTERN", help="a folder, or a name under pattern_sources/")
    grade.add_argument("sheet", metavar="FILE", nargs="?", type=Path, help="a sheet that comes back (.xlsx or .csv)")
    grade.add_argument("--out", metavar="FILE", type=Path, help="write the sheet here (.xlsx or .csv)")
    _add_options(grade, "write what was changed in the sheet into the pattern's files")
    grade.set_defaults(tell=lambda asked: _guarded(_grade, asked, "reading or writing a grading sheet"))


def _add_options(parser: argparse.ArgumentParser, writes: str) -> None:
    parser.add_argument("--write", action="store_true", help=writes)
    parser.add_argument("--format", choices=("text", "json"), default="text", help="how the effect is told")
    parser.add_argument("--output", metavar="FILE", type=Path, help="write the findings, or the JSON, here")


def _guarded(tell: Callable[[argparse.Namespace], Told], asked: argparse.Namespace, work: str) -> Told:
    """What a command has to say; an exception of ours is told as our own fault, and what it writes is whole or not there."""
    try:
        return tell(asked)
    except OSError:
        raise
    except Exception as error:  # the last resort: never shown as a traceback
        return Told(OUR_FAULT, (internal_fault(asked.pattern, work, where(error)),), pattern=asked.pattern)


class _NewSize(argparse.Action):
    """`--add-size NAME`: kept in order."""

    def __call__(self, parser: object, namespace: argparse.Namespace, values: object, option: object = None) -> None:
        namespace.sizes = [*namespace.sizes, [str(values), "", ""]]


class _Beside(argparse.Action):
    """`--after NAME`, `--before NAME`: said of the size that was added last."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace, values: object, option: object = None
    ) -> None:
        if not namespace.sizes:
            parser.error(f"{option} follows an --add-size")
        *others, (name, after, before) = namespace.sizes
        beside = (str(values), before) if self.dest == "after" else (after, str(values))
        namespace.sizes = [*others, [name, *beside]]


def _regauge(asked: argparse.Namespace) -> Told:
    # Only these commands need the rooms behind them.
    from stitchproof.effects.size_requests import NewSize
    from stitchproof.what_if import Sweeped, regauge

    found = regauge(
        asked.pattern,
        asked.changes,
        [NewSize(*size) for size in asked.sizes],
        asked.remove_size,
        asked.draw_on,
        asked.write,
    )
    if not isinstance(found, Sweeped):
        return _revised(found)
    from stitchproof.effects.sweep_text import sweep_facts, sweep_text

    steps = [(value, step.effect, step.findings) for value, step in found.steps]
    findings = tuple(dict.fromkeys(each for _, _, step in steps for each in step))
    worst = max((_code(step) for _, step in found.steps), default=CLEAN)
    effects = [(value, effect) for value, effect, _ in steps if effect]
    name = found.steps[0][1].before.name if found.steps else asked.pattern
    return Told(worst, findings, sweep_text(found.name, effects), sweep_facts(found.name, effects), pattern=name)


def _grade(asked: argparse.Namespace) -> Told:
    from stitchproof.what_if import grade, grading_sheet_of

    if (asked.sheet is None) == (asked.out is None):
        return Told(COULD_NOT_RUN, refused="grade takes --out FILE to write a sheet, or a FILE to read one back")
    if asked.out is not None:
        if asked.write:
            return Told(COULD_NOT_RUN, refused="--write belongs to a sheet that comes back")
        try:
            outcome = grading_sheet_of(asked.pattern, asked.out)
        except ValueError as error:
            return Told(COULD_NOT_RUN, refused=str(error))
        code = _code_of_check(outcome)
        written = f"{asked.out}\n" if outcome.sized is not None and code < OUR_FAULT else ""
        return Told(
            code, outcome.findings, written, {"files": [str(asked.out)] if written else []}, pattern=outcome.name
        )
    try:
        found = grade(asked.pattern, asked.sheet, asked.write)
    except OSError as error:
        return Told(COULD_NOT_RUN, refused=f"cannot read {error.filename or ''}: {error.strerror or error}")
    told = _revised(found.revised)
    if found.read is None or found.revised.refused:
        return told
    from stitchproof.grading.read_text import read_facts, read_text

    text = read_text(found.read) + (told.text if found.read.changed else "")
    return Told(told.code, told.findings, text, {**told.facts, "sheet": read_facts(found.read)}, pattern=told.pattern)


def _revised(found: Revised) -> Told:
    """A change tried, or made: the findings that came with it, its effect, the files that were written."""
    code = _code(found)
    if found.after is None or found.effect is None:
        last = found.after or found.before
        findings = (*found.findings, *(last.findings if found.after or not found.before.could_run else ()))
        return Told(code, findings, pattern=found.before.name)
    from stitchproof.effects.effect_text import effect_text
    from stitchproof.effects.facts import effect_facts

    text = effect_text(found.effect)
    text += "".join(f"written: {file}\n" for file in found.files)
    held = [each for each in found.before.findings if each in found.after.findings]
    new = tuple(each for each in found.after.findings if each not in held)
    facts = {"effect": effect_facts(found.effect), "files": list(found.files)}
    return Told(code, (*found.findings, *new), text, facts, pattern=found.before.name)


def _code(found: Revised) -> int:
    """0 nothing would fail, 1 checks would, 2 it could not be tried or written, 3 our own fault."""
    if not found.before.could_run or found.before.failed_inside:
        return _code_of_check(found.before)
    if found.after is not None and found.after.failed_inside:
        return OUR_FAULT
    if found.after is None or (found.refused and not found.tried):
        return COULD_NOT_RUN if found.refused else CLEAN
    return FOUND if found.after.errors else CLEAN


def _code_of_check(outcome: CheckOutcome) -> int:
    if outcome.failed_inside:
        return OUR_FAULT
    return CLEAN if outcome.sized is not None else COULD_NOT_RUN
