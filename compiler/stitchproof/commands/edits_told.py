"""What `regauge` and `grade` have to say: findings, what a change would do, and the files that were written."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from msgspec import Struct, field

from stitchproof.commands.telling import (
    CLEAN,
    COULD_NOT_RUN,
    FOUND,
    OUR_FAULT,
    Refused,
    findings_text,
    printable_lines,
    put,
)
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.diagnostics.report import count_words
from stitchproof.diagnostics.terminal import printable
from stitchproof.stages import CheckOutcome, where
from stitchproof.what_if import Revised


class Told(Struct, frozen=True):
    """What a command has to say. findings: told as those of a check; text: for people; facts: the same for machines.

    pattern: its name, where findings are counted.
    """

    code: int
    findings: tuple[Diagnostic, ...] = ()
    text: str = ""
    facts: dict[str, Any] = field(default_factory=dict)
    pattern: str = ""


def add_edit_options(parser: argparse.ArgumentParser, writes: str) -> None:
    """The options of a command that may change the source."""
    parser.add_argument("--write", action="store_true", help=writes)
    parser.add_argument("--format", choices=("text", "json"), default="text", help="how the effect is told")
    parser.add_argument("--output", metavar="FILE", type=Path, help="write the findings, or the JSON, here")


def tell(asked: argparse.Namespace, tells: Callable[[argparse.Namespace], Told], work: str) -> int:
    """Findings as those of a check, the rest to standard output. work: what is being done, should we fail at it."""
    told = _guarded(tells, asked, work)
    facts = {"patterns": [told.pattern], **told.facts}
    text = findings_text(told.findings, asked, told.code <= FOUND, facts)
    if asked.format == "text" and told.findings:
        text += count_words(told.findings, printable(told.pattern)[:80]) + "\n"
    put(text, asked)
    if asked.format == "text":
        print(printable_lines(told.text), end="")
    return told.code


def _guarded(tells: Callable[[argparse.Namespace], Told], asked: argparse.Namespace, work: str) -> Told:
    """What a command has to say; an exception of ours is told as our own fault, and what it writes is whole or not there."""
    try:
        return tells(asked)
    except (OSError, Refused):
        raise
    except Exception as error:  # the last resort: never shown as a traceback
        return Told(OUR_FAULT, (internal_fault(asked.pattern, work, where(error)),), pattern=asked.pattern)


def revised(found: Revised) -> Told:
    """A change tried, or made: the findings that came with it, its effect, the files that were written."""
    code = code_of(found)
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


def code_of(found: Revised) -> int:
    """0 nothing would fail, 1 checks would, 2 it could not be tried or written, 3 our own fault."""
    if not found.before.could_run or found.before.failed_inside:
        return code_of_check(found.before)
    if found.after is not None and found.after.failed_inside:
        return OUR_FAULT
    if found.after is None or (found.refused and not found.tried):
        return COULD_NOT_RUN if found.refused else CLEAN
    return FOUND if found.after.errors else CLEAN


def code_of_check(outcome: CheckOutcome) -> int:
    """The same of a pattern as it stands, whatever was found in it."""
    if outcome.failed_inside:
        return OUR_FAULT
    return CLEAN if outcome.sized is not None else COULD_NOT_RUN
