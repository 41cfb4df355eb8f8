"""The whole campaign, printed: what became of every slip, by kind; what was told twice, or in the wrong sizes.

Usage: python -m tests.row_faults [DEMO] [EVERY]. EVERY 5 tries each fifth slip. Takes minutes.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from tests.row_faults.campaign import DEMOS, Bench, Fate, Trial
from tests.row_faults.explanations import explanation_of

AT_A_TIME = 2
Row = tuple[str, str, bool, str, str, tuple[str, ...], bool, bool, str]
"""Demo, kind, whether a stated count, fate, words, headlines, doubled, wrong sizes, why it is missed."""


def rows_of(demo: str, every: int) -> list[Row]:
    """Every slip of one demo, tried out."""
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(demo, Path(folder))
        return [_row(bench.try_out(slip), bench) for slip in bench.slips()[::every]]


def _row(trial: Trial, bench: Bench) -> Row:
    slip = trial.slip
    heads = tuple(f"{found.page.code} {found.full_headline}" for found in trial.findings)
    wrong = trial.wrong_sizes(bench.sizes)
    why = (explanation_of(slip) or "NOT EXPLAINED") if trial.fate is Fate.MISSED else ""
    return (slip.demo, slip.kind, slip.states, trial.fate.value, slip.in_words, heads, trial.doubled, wrong, why)


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
    for name, held in (
        ("stated counts", [row for row in rows if row[2]]),
        ("others", [row for row in rows if not row[2]]),
    ):
        changed = [row for row in held if row[3] != Fate.RIGHT.value]
        found = sum(row[3] == Fate.FOUND.value for row in changed)
        print(f"{name}: {found} of {len(changed)} found within two rows, {found / max(len(changed), 1):.1%}")


def main() -> int:
    """Print the campaign."""
    demos = [demo for demo in DEMOS if len(sys.argv) < 2 or sys.argv[1] in (demo, "all")]
    every = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    with ProcessPoolExecutor(AT_A_TIME) as processes:
        rows = [row for done in processes.map(rows_of, demos, [every] * len(demos)) for row in done]
    _table(rows)
    for title, held in (
        ("failures of our own", [row for row in rows if row[3] == Fate.FAILED.value]),
        ("missed", [row for row in rows if row[3] == Fate.MISSED.value]),
        ("found later", [row for row in rows if row[3] == Fate.LATER.value]),
        ("told twice", [row for row in rows if row[6]]),
        ("in the wrong sizes", [row for row in rows if row[7]]),
    ):
        print(f"\n{len(held)} {title}")
        for row in held:
            print(
                f"  [{row[1]}] {row[4]}"
                + (f"\n      because {row[8]}" if row[8] else "")
                + "".join(f"\n      {head}" for head in row[5])
            )
    _shares(rows)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
