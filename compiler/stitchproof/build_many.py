"""Builds of many patterns, as many at the same time as there are processors; each whole or not there, whatever the others do."""

from __future__ import annotations

import gc
import os
from collections.abc import Generator, Sequence
from pathlib import Path

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.pipeline import SizesNotPossible, build_pattern
from stitchproof.processes import Workers, end_with_the_build, is_a_worker, own_context, processors
from stitchproof.simulation.proof_summary import ProofSummary

MOST = 8
"""Patterns at once. Each takes 200 MB."""
STOPPED = 130
"""Exit code of a command that was stopped from the keyboard."""


class BuildOrder(Struct, frozen=True):
    """What is asked for of every pattern, as `build_pattern` takes it."""

    sizes: tuple[str, ...] = ()
    editions: tuple[str, ...] = ()
    to: Path | None = None
    draft: bool = False
    terms: str = ""


class Built(Struct, frozen=True):
    """What came of one pattern. files: those that were written. not_written: why the place could not be written, or ""."""

    name: str
    findings: tuple[Diagnostic, ...]
    proof: ProofSummary | None
    could_run: bool
    files: tuple[Path, ...] = ()
    not_written: str = ""

    @property
    def errors(self) -> int:
        return sum(found.severity is Severity.ERROR for found in self.findings)

    @property
    def failed_inside(self) -> bool:
        return any(found.page.code == "SP000" for found in self.findings)


def build_patterns(patterns: Sequence[str], order: BuildOrder) -> Generator[Built, None, None]:
    """Build patterns of the workspace, and tell of each in the order in which they are asked for. To be closed by the caller:
    what is not built by then is given up."""
    at_once = 1 if is_a_worker() else max(1, min(len(patterns), processors(), MOST))
    if at_once == 1:
        yield from (_built(pattern, order) for pattern in patterns)
        return
    from concurrent.futures import BrokenExecutor

    workers = Workers(at_once, own_context(), _ready)
    try:
        for pattern, future in [(each, workers.submit(_built_or_stopped, each, order)) for each in patterns]:
            try:
                yield future.result()
            except BrokenExecutor:
                why = "a process of the build was ended from outside; build it again"
                yield Built(Path(pattern).name, (), None, False, not_written=why)
    finally:
        workers.stop()


def _built(pattern: str, order: BuildOrder) -> Built:
    try:
        made = build_pattern(pattern, order.sizes, order.editions, order.to, order.draft, terms=order.terms)
    except SizesNotPossible as refused:
        return Built(Path(pattern).name, refused.findings, None, False)
    except OSError as error:
        why = f"cannot write {error.filename or ''}: {error.strerror or error}"
        return Built(Path(pattern).name, (), None, False, not_written=why)
    check = made.check
    return Built(check.name, check.findings, check.proof, check.could_run, made.files)


_at_work = False
"""Whether this process is building; it is one of a pool."""


def _ready() -> None:
    end_with_the_build(_stop)


def _stop(*_: object) -> None:
    if _at_work:
        raise KeyboardInterrupt  # so that what is being written is taken away
    os._exit(STOPPED)


def _built_or_stopped(pattern: str, order: BuildOrder) -> Built:
    global _at_work
    try:
        _at_work = True
        built = _built(pattern, order)
        gc.collect()  # the pages of this pattern, before those of the next one
    except KeyboardInterrupt:
        os._exit(STOPPED)
    finally:
        _at_work = False
    return built
