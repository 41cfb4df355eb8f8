"""The whole campaign, printed: for each demo and kind of slip what was found, and why the rest was not.

Usage: python -m tests.machine_made_faults [HOW MANY OF A KIND]. The same faults each time; two demos at a time.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from tests.machine_made_faults.campaign import Bench, Fate, Trial, faults_of, share_found
from tests.machine_made_faults.clean_pattern import DEMOS, CleanPattern, clean_pattern
from tests.machine_made_faults.explanations import explanations_of

OF_A_KIND = 12
AT_A_TIME = 2
UNEXPLAINED = "NOT EXPLAINED"


@dataclass(frozen=True)
class Outcome:
    """A trial as words and numbers. why: the explanation of a miss and what it would take, else ""."""

    demo: str
    kind: str
    in_words: str
    fate: Fate
    findings: int
    headlines: tuple[str, ...]
    why: str


def outcomes_of(demo: str, of_a_kind: int) -> list[Outcome]:
    """Every fault of one demo, tried out."""
    pattern = clean_pattern(demo)
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(pattern, Path(folder))
        return [_outcome(bench.try_out(fault), pattern) for fault in faults_of(pattern, of_a_kind)]


def _outcome(trial: Trial, pattern: CleanPattern) -> Outcome:
    fitting = explanations_of(trial, pattern) if trial.fate is Fate.MISSED else []
    why = f"{fitting[0].because}. It needs {fitting[0].needs.value}" if len(fitting) == 1 else UNEXPLAINED
    fault = trial.fault
    headlines = tuple(f"{found.page.code} {found.full_headline}" for found in trial.findings)
    reason = why if trial.fate is Fate.MISSED else ""
    return Outcome(fault.pattern, fault.kind, fault.in_words, trial.fate, len(trial.findings), headlines, reason)


def _print_table(outcomes: list[Outcome]) -> None:
    print(f"{'':<24}{'kind of slip':<36}{'made':>6}{'found':>7}{'same page':>11}{'missed':>8}")
    for demo in (*DEMOS, ""):
        held = [each for each in outcomes if each.demo == demo or not demo]
        for kind in dict.fromkeys(each.kind for each in held):
            _print_line(demo or "all", kind, [each for each in held if each.kind == kind])
        _print_line(demo or "all", "all kinds", held)
        print()


def _print_line(demo: str, kind: str, held: list[Outcome]) -> None:
    fates = Counter(each.fate for each in held)
    found = fates[Fate.FOUND] + fates[Fate.ELSEWHERE]
    print(f"{demo:<24}{kind:<36}{len(held):>6}{found:>7}{fates[Fate.SAME_PAGE]:>11}{fates[Fate.MISSED]:>8}")


def _print_misses(outcomes: list[Outcome]) -> None:
    by_reason: dict[str, list[Outcome]] = {}
    for each in outcomes:
        if each.why:
            by_reason.setdefault(each.why, []).append(each)
    for why, held in sorted(by_reason.items(), key=lambda each: -len(each[1])):
        print(f"{len(held):>4} missed: {why}.")
        for each in held if why == UNEXPLAINED else held[:3]:
            print(f"       [{each.kind}] {each.in_words}")


def _print_reports(outcomes: list[Outcome]) -> None:
    """How many reports a fault brings, and those told of in the wrong place."""
    numbers = Counter(each.findings for each in outcomes if each.findings)
    print("reports for one fault: " + ", ".join(f"{many} × {number}" for number, many in sorted(numbers.items())))
    for each in outcomes:
        if each.fate is Fate.ELSEWHERE:
            print(f"told of elsewhere: [{each.kind}] {each.in_words}: {'; '.join(each.headlines)}")


def main() -> int:
    """Print the campaign; 1 where a miss has no explanation."""
    of_a_kind = int(sys.argv[1]) if len(sys.argv) > 1 else OF_A_KIND
    with ProcessPoolExecutor(AT_A_TIME) as processes:
        done = processes.map(outcomes_of, DEMOS, [of_a_kind] * len(DEMOS))
        outcomes = [each for demo in done for each in demo]
    _print_table(outcomes)
    _print_misses(outcomes)
    print()
    _print_reports(outcomes)
    print(f"\n{share_found(each.fate for each in outcomes):.1%} of the faults that change the page are found")
    return int(any(each.why == UNEXPLAINED for each in outcomes))


if __name__ == "__main__":
    raise SystemExit(main())
