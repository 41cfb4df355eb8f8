"""What was made of the same before is used again, so that a small change to a pattern costs little.

Only a pattern that is followed while it is written keeps anything; a single check makes all of it.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import TypeVar, cast

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report

Made = TypeVar("Made")

RUNS_KEPT = 20
"""How many checks long something is kept that nobody asks for: a text that is away for a moment costs nothing."""


class _Held(Struct, eq=False):
    """What was made, from what, what there was to tell of it, and in which run it was last asked for."""

    inputs: tuple[object, ...]
    made: object
    findings: tuple[Diagnostic, ...]
    run: int


class Kept:
    """Values by what they are, each with the inputs that it was made from. Values are frozen, or used by one run at a time."""

    def __init__(self) -> None:
        self._held: dict[Hashable, _Held] = {}
        self._run = 0

    def begin(self) -> None:
        """A new run begins; what was long not asked for is let go."""
        self._run += 1
        for what in [what for what, held in self._held.items() if held.run < self._run - RUNS_KEPT]:
            del self._held[what]

    def forget(self) -> None:
        """Begin with nothing, as after a fault of our own, when nobody knows what is sound."""
        self._held.clear()

    def held(self, what: Hashable, inputs: tuple[object, ...], report: Report) -> _Held | None:
        """What is held of a thing where its inputs are the same; its findings are told again."""
        held = self._held.get(what)
        if held is None or held.inputs != inputs:
            return None
        held.run = self._run
        report.extend(held.findings)
        return held

    def last(self, what: Hashable) -> _Held | None:
        """What is held of a thing, whatever it was made from."""
        return self._held.get(what)

    def hold(self, what: Hashable, inputs: tuple[object, ...], made: object, findings: tuple[Diagnostic, ...]) -> None:
        """Keep what was made, in place of what was kept of the same thing."""
        self._held[what] = _Held(inputs, made, findings, self._run)


def made_once(
    kept: Kept | None, what: Hashable, inputs: tuple[object, ...], report: Report, make: Callable[[Report], Made]
) -> Made:
    """What `make` makes of the inputs, or made of the same ones before. Without `kept`, it is made.

    what: the name of the thing, of which one value is kept. inputs: all that `make` goes by; they are compared.
    """
    if kept is None:
        return make(report)
    held = kept.held(what, inputs, report)
    if held is not None:
        return cast(Made, held.made)
    apart = Report(report.names)
    made = make(apart)
    kept.hold(what, inputs, made, apart.findings())
    report.extend(apart.findings())
    return made
