"""The campaign, printed: what became of every slip, by kind; what was told twice, or in the wrong sizes.

Usage: python -m tests.row_faults [--demo DEMO] [--sample SLIPS] [--seed SEED]. A sample is the same each time for a seed. All of
them take many minutes; progress goes to standard error.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from pathlib import Path
from random import Random

from tests.row_faults.campaign import DEMOS, Bench, Fate, Trial
from tests.row_faults.explanations import explanation_of

AT_A_TIME = 2
AT_ONCE = 12
"""Slips that a process tries before it takes others: few, so that both are busy to the end."""
SAME = "every piece has the same stitches in every size, and no word is left out that the other rows have"
Row = tuple[str, str, bool, str, str, tuple[str, ...], bool, bool, str]
"""Demo, kind, whether a stated count, fate, words, headlines, doubled, wrong sizes, why it is missed."""
Share = tuple[str, tuple[int, ...]]
"""A demo, and some of its slips by number."""


@cache
def bench_of(demo: str, process: int) -> Bench:
    """One copy of a demo for each process, by its number: a process that is forked must not write into its parent's."""
    folder = tempfile.TemporaryDirectory()
    bench = Bench(demo, Path(folder.name))
    bench.kept = folder
    return bench


def rows_of(share: Share) -> list[Row]:
    """Slips of one demo, tried out."""
    demo, numbers = share
    bench = bench_of(demo, os.getpid())
    slips = bench.slips()
    return [_row(bench.try_out(slips[number]), bench) for number in numbers]


def shares_of(demos: list[str], sample: int | None, seed: int) -> list[Share]:
    """What to try, in parts of a few slips of one demo."""
    slips = [(demo, number) for demo in demos for number in range(len(bench_of(demo, os.getpid()).slips()))]
    if sample is not None:
        slips = sorted(Random(seed).sample(slips, min(sample, len(slips))))  # noqa: S311, no secret
    shares = []
    for demo in demos:
        numbers = [number for other, number in slips if other == demo]
        shares += [(demo, tuple(numbers[at : at + AT_ONCE])) for at in range(0, len(numbers), AT_ONCE)]
    return shares


def _row(trial: Trial, bench: Bench) -> Row:
    slip = trial.slip
    heads = tuple(f"{found.page.code} {found.full_headline}" for found in trial.findings)
    wrong = trial.wrong_sizes(bench.sizes)
    why = _why(trial)
    return (slip.demo, slip.kind, slip.states, trial.fate.value, slip.in_words, heads, trial.doubled, wrong, why)


def _why(trial: Trial) -> str:
    """Why nothing was found: for a person to judge, for each miss and for each slip that is said to leave the pattern right."""
    if trial.fate is Fate.MISSED:
        found = explanation_of(trial.slip)
        return found.because if found else "NOT EXPLAINED"
    return SAME if trial.fate is Fate.RIGHT else ""


def _table(rows: list[Row]) -> None:
    print(f"{'':<24}{'kind':<32}{'made':>6}" + "".join(f"{fate.value:>13}" for fate in Fate))
    for kind in dict.fromkeys(sorted(row[1] for row in rows)):
        _line("all", kind, [row for row in rows if row[1] == kind])
    for demo in DEMOS:
        _line(demo, "all kinds", [row for row in rows if row[0] == demo])
    _line("all", "stated counts", [row for row in rows if row[2]])
    _line("all", "other slips", [row for row in rows if not row[2]])


def _line(demo: str, kind: str, rows: list[Row]) -> None:
    fates = Counter(row[3] for row in rows)
    print(f"{demo:<24}{kind:<32}{len(rows):>6}" + "".join(f"{fates[fate.value]:>13}" for fate in Fate))


def _shares(rows: list[Row]) -> None:
    for demo in (*DEMOS, ""):
        here = [row for row in rows if demo in ("", row[0])]
        for name, held in (
            ("stated counts", [row for row in here if row[2]]),
            ("others", [row for row in here if not row[2]]),
        ):
            changed = [row for row in held if row[3] != Fate.RIGHT.value]
            found = sum(row[3] == Fate.FOUND.value for row in changed)
            share = f"{found / max(len(changed), 1):.1%}"
            print(f"{demo or 'all':<24}{name}: {found} of {len(changed)} found within two rows, {share}")


def _asked() -> argparse.Namespace:
    asking = argparse.ArgumentParser(prog="python -m tests.row_faults")
    asking.add_argument("--demo", choices=DEMOS)
    asking.add_argument("--sample", type=int, help="so many of all slips")
    asking.add_argument("--seed", type=int, default=1)
    return asking.parse_args()


def main() -> int:
    """Print the campaign."""
    asked = _asked()
    shares = shares_of([asked.demo] if asked.demo else list(DEMOS), asked.sample, asked.seed)
    rows: list[Row] = []
    with ProcessPoolExecutor(AT_A_TIME) as processes:
        for number, done in enumerate(processes.map(rows_of, shares), 1):
            rows += done
            print(f"{number} of {len(shares)} parts, {len(rows)} slips", file=sys.stderr, flush=True)
    _table(rows)
    for title, held in (
        ("failures of our own", [row for row in rows if row[3] == Fate.FAILED.value]),
        ("missed", [row for row in rows if row[3] == Fate.MISSED.value]),
        ("found later", [row for row in rows if row[3] == Fate.LATER.value]),
        ("told twice", [row for row in rows if row[6]]),
        ("in the wrong sizes", [row for row in rows if row[7]]),
        ("still right", [row for row in rows if row[3] == Fate.RIGHT.value]),
    ):
        print(f"\n{len(held)} {title}")
        for row in held:
            print(
                f"  [{row[1]}] {row[4]}"
                + (f"\n      because {row[8]}" if row[8] else "")
                + "".join(f"\n      {head}" for head in row[5])
            )
    print()
    _shares(rows)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
