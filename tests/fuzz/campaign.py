"""One kind of source tried over and over: which come apart, which take longest, which are worth changing further."""

from __future__ import annotations

import signal
import time
import traceback
from dataclasses import dataclass, field
from random import Random
from types import FrameType

from tests.fuzz.kinds import SOURCES_CHANGED
from tests.fuzz.mutation import mutated
from tests.fuzz.sent_back import SENT_BACK

KINDS = {**SOURCES_CHANGED, **SENT_BACK}

GIVES_UP_AFTER = 20
"""Seconds for one source: what takes longer is a find."""
MOST_KEPT = 4000
LONGEST = 40_000
"""Characters: what has grown longer is not changed further."""


class TakesTooLong(BaseException):
    """A source is still at work; not an Exception, so that no last resort swallows it."""


@dataclass
class Find:
    """A source that was not answered by a report, and how it ended."""

    kind: str
    source: str
    why: str


@dataclass
class Outcome:
    """What came of a kind. slowest: seconds for each thousand characters, and that source."""

    kind: str
    tried: int = 0
    seconds: float = 0.0
    outcomes: set[str] = field(default_factory=set)
    finds: list[Find] = field(default_factory=list)
    slowest: tuple[float, str] = (0.0, "")


def run(kind: str, executions: int, seconds: float, seed: int) -> Outcome:
    """Try a kind so many times, or for so many seconds. A source with an outcome that is new is kept and changed further."""
    make, seeds_of = KINDS[kind]
    attempt, corpus = make(), seeds_of()
    random, outcome = Random(f"{kind} {seed}"), Outcome(kind)  # noqa: S311  # the same sources each time
    begun = time.perf_counter()
    seen_ends: set[str] = set()
    before = signal.signal(signal.SIGALRM, _stop)
    try:
        while outcome.tried < executions and (outcome.seconds < seconds):
            source = mutated(random.choice(corpus), corpus, random)
            started = time.perf_counter()
            signal.alarm(GIVES_UP_AFTER)
            try:
                said = attempt(source)
            except (Exception, TakesTooLong) as error:  # whatever it is, it is what is looked for
                why = _why(error)
                if why not in seen_ends:
                    seen_ends.add(why)
                    outcome.finds.append(Find(kind, source, why))
            else:
                if said not in outcome.outcomes and len(source) < LONGEST:
                    outcome.outcomes.add(said)
                    if len(corpus) < MOST_KEPT:
                        corpus.append(source)
            finally:
                signal.alarm(0)
            now = time.perf_counter()
            outcome.slowest = max(outcome.slowest, ((now - started) / (1 + len(source) / 1000), source))
            outcome.tried, outcome.seconds = outcome.tried + 1, now - begun
    finally:
        signal.signal(signal.SIGALRM, before)
        if hasattr(attempt, "close"):
            attempt.close()
    return outcome


def _why(error: BaseException) -> str:
    frames = traceback.extract_tb(error.__traceback__)
    place = f"{frames[-1].filename.rpartition('/')[2]}:{frames[-1].lineno}" if frames else ""
    said = str(error).strip().split("\n")[0][:200]
    return f"{type(error).__name__} at {place}: {said}"


def _stop(_signal: int, _frame: FrameType | None) -> None:
    raise TakesTooLong(f"still at work after {GIVES_UP_AFTER} s")
