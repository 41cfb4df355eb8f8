"""The technical editor's checklist: what each check catches, and which rule finds it. Read only when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from textwrap import wrap
from typing import Any

from msgspec import Struct

from stitchproof.diagnostics.page import Severity
from stitchproof.shipped_data import read_shipped

WIDTH = 118
HOW_BAD = "1 cannot be made or wrong size, 2 the maker must ask, 3 slows or misleads, 4 cosmetic"


class Check(Struct, frozen=True):
    """One check. severity: 1 (worst) to 4. mode: M a machine decides, P it points and a person decides, H a person alone.

    codes: the rules that find it. left_for: who or what sees the rest, or "".
    """

    id: str
    group: str
    catches: str
    severity: int
    mode: str
    codes: tuple[str, ...]
    left_for: str
    because: str

    @property
    def reported_as(self) -> Severity:
        """1 and 2 that a machine decides are errors; what slows, or a person decides, is a warning; 4 is a note."""
        if self.severity == 4:
            return Severity.NOTE
        return Severity.ERROR if self.mode == "M" and self.severity < 3 else Severity.WARNING


class Beyond(Struct, frozen=True):
    """A rule that is on no editor's list, and why it is there."""

    code: str
    because: str


def checklist() -> tuple[Check, ...]:
    """Every check, in the order of the list."""
    return tuple(_check(group["title"], row) for group in _data()["groups"] for row in group["checks"])


def rules_beyond() -> tuple[Beyond, ...]:
    """The rules that the list does not ask for."""
    return tuple(Beyond(row["code"], row["because"]) for row in _data()["beyond"])


def checklist_text() -> str:
    """The table for a terminal."""
    return "\n".join(_lines()) + "\n"


def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("checklist.yaml"))


def _check(group: str, row: dict[str, Any]) -> Check:
    codes, left_for, because = tuple(row.get("codes", ())), row.get("left_for", ""), row.get("because", "")
    return Check(row["id"], group, row["catches"], row["severity"], row["mode"], codes, left_for, because)


def _lines() -> Iterator[str]:
    yield "The technical editor's checklist, and the rule that finds each fault. `stitchproof explain CODE` tells more."
    yield f"Severity: {HOW_BAD}."
    group = ""
    for check in checklist():
        if check.group != group:
            group = check.group
            yield from ("", group)
        yield from _row(check.id, f"{check.severity} {_said_as(check)}", _found_by(check), _words(check))
    yield from ("", "Rules beyond the checklist")
    for rule in rules_beyond():
        yield from _row("", "", rule.code, rule.because)


def _said_as(check: Check) -> str:
    return "a person" if check.mode == "H" else check.reported_as.value


def _found_by(check: Check) -> str:
    return ", ".join(check.codes) or f"left for {_whom(check)}"


def _whom(check: Check) -> str:
    return "a person" if check.left_for == "person" else check.left_for


def _words(check: Check) -> str:
    rest = f"the rest is left for {_whom(check)}: " if check.left_for and check.codes else ""
    return f"{check.catches} ({rest}{check.because})" if check.because else check.catches


def _row(name: str, severity: str, found_by: str, words: str) -> list[str]:
    start = f"  {name:<5} {severity:<10} {found_by:<26} "
    return wrap(words, WIDTH, initial_indent=start, subsequent_indent=" " * len(start))
