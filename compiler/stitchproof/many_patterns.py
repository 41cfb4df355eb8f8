"""Checks and builds of many patterns, as many at the same time as there are processors; what one comes to touches no other."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable, Generator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.pipeline import SizesNotPossible, build_pattern, check_pattern
from stitchproof.processes import Workers, end_with_the_build, is_a_worker, own_context, processors
from stitchproof.simulation.proof_summary import ProofSummary
from stitchproof.stages import CheckOutcome

if TYPE_CHECKING:
    from concurrent.futures import Future

MOST = 8
"""Patterns at once. Each takes 200 MB where it is built."""
STOPPED = 130
"""Exit code of a command that was stopped from the keyboard."""
ENDED = "its process was ended from outside; ask for it again"


class BuildOrder(Struct, frozen=True):
    """What is asked for of every pattern, as `build_pattern` takes it."""

    sizes: tuple[str, ...] = ()
    editions: tuple[str, ...] = ()
    to: Path | None = None
    draft: bool = False
    terms: str = ""


class Checked(Struct, frozen=True):
    """What came of one pattern. not_done: why it came to no end, or ""."""

    name: str
    findings: tuple[Diagnostic, ...]
    proof: ProofSummary | None
    could_run: bool
    not_done: str = ""

    @property
    def errors(self) -> int:
        return sum(found.severity is Severity.ERROR for found in self.findings)

    @property
    def failed_inside(self) -> bool:
        return any(found.page.code == "SP000" for found in self.findings)


class Built(Checked, frozen=True):
    """The same of a build. files: those that were written. gone: those of the build before that are no longer there."""

    files: tuple[Path, ...] = ()
    gone: tuple[Path, ...] = ()


Outcome = TypeVar("Outcome", bound=Checked)


def check_patterns(patterns: Sequence[str]) -> Generator[Checked, None, None]:
    """Check patterns of the workspace, and tell of each in the order in which they are asked for. To be closed by the caller."""
    return _side_by_side(patterns, _checked, Checked)


def build_patterns(patterns: Sequence[str], order: BuildOrder) -> Generator[Built, None, None]:
    """The same for builds, each whole or not there. What is not built by the time it is closed is given up."""
    return _side_by_side(patterns, partial(_built, order=order), Built)


def checked(check: CheckOutcome) -> Checked:
    """What is told of a check."""
    return Checked(check.name, check.findings, check.proof, check.could_run)


def _checked(pattern: str) -> Checked:
    return checked(check_pattern(pattern))


def _built(pattern: str, order: BuildOrder) -> Built:
    try:
        made = build_pattern(pattern, order.sizes, order.editions, order.to, order.draft, terms=order.terms)
    except SizesNotPossible as refused:
        return Built(Path(pattern).name, refused.findings, None, False)
    except OSError as error:
        why = f"cannot write {error.filename or ''}: {error.strerror or error}"
        return Built(Path(pattern).name, (), None, False, why)
    check = made.check
    return Built(check.name, check.findings, check.proof, check.could_run, files=made.files, gone=made.gone)


def _side_by_side(
    patterns: Sequence[str], work: Callable[[str], Outcome], outcome: type[Outcome]
) -> Generator[Outcome, None, None]:
    at_once = 1 if is_a_worker() else max(1, min(len(patterns), processors(), MOST))
    if at_once == 1:
        yield from map(work, patterns)
        return
    workers = Workers(at_once, own_context(), _ready)
    try:
        for pattern, future in [(each, _handed_out(workers, work, each)) for each in patterns]:
            yield _result(future) or outcome(Path(pattern).name, (), None, False, ENDED)
    finally:
        workers.stop()


def _handed_out(workers: Workers, work: Callable[[str], Outcome], pattern: str) -> Future[Outcome] | None:
    """Let a process do it; None where one was ended from outside before, and with it all of them."""
    from concurrent.futures import BrokenExecutor

    try:
        return workers.submit(_done_or_stopped, work, pattern)
    except BrokenExecutor:
        return None


def _result(future: Future[Outcome] | None) -> Outcome | None:
    """What came of it; None where its process was ended from outside."""
    from concurrent.futures import BrokenExecutor

    try:
        return future.result() if future else None
    except BrokenExecutor:
        return None


_at_work = False
"""Whether this process is at a pattern; it is one of a pool."""


def _ready() -> None:
    end_with_the_build(_stop)


def _stop(*_: object) -> None:
    if _at_work:
        raise KeyboardInterrupt  # so that what is being written is taken away
    os._exit(STOPPED)


def _done_or_stopped(work: Callable[[str], Outcome], pattern: str) -> Outcome:
    global _at_work
    try:
        _at_work = True
        done = work(pattern)
        gc.collect()  # what was made of this pattern, before that of the next one
    except KeyboardInterrupt:
        os._exit(STOPPED)
    finally:
        _at_work = False
    return done
