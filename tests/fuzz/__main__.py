"""The campaign, printed: for each kind of source how many were tried, how many different outcomes, and what came apart.

Usage: python -m tests.fuzz [--kind KIND] [--executions N] [--seconds S] [--seed SEED] [--keep FOLDER]. The same seed tries the
same sources. Exit code 1 where anything came apart; each such source is printed, or written into the folder.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from tests.fuzz.campaign import KINDS, Outcome, run


def main() -> int:
    """Run what is asked for. 1 where a source was not answered by a report."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz")
    parser.add_argument("--kind", choices=KINDS, action="append", default=[])
    parser.add_argument("--executions", type=int, default=2000, help="of each kind")
    parser.add_argument("--seconds", type=float, default=60, help="at most, for each kind")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path, help="write what came apart here")
    asked = parser.parse_args()
    outcomes = []
    for kind in asked.kind or KINDS:
        outcome = run(kind, asked.executions, asked.seconds, asked.seed)
        outcomes.append(outcome)
        _tell(outcome, asked.keep)
    return 1 if any(outcome.finds for outcome in outcomes) else 0


def _tell(outcome: Outcome, keep: Path | None) -> None:
    per_second = outcome.tried / outcome.seconds if outcome.seconds else 0
    print(
        f"{outcome.kind:<10} {outcome.tried:>9,} tried  {len(outcome.outcomes):>6,} different outcomes  "
        f"{per_second:>8,.0f} a second  slowest {outcome.slowest[0] * 1000:,.0f} ms per 1,000 characters  "
        f"{len(outcome.finds)} came apart",
        flush=True,
    )
    for number, find in enumerate(outcome.finds):
        print(f"  {find.why}", file=sys.stderr)
        if keep:
            keep.mkdir(parents=True, exist_ok=True)
            (keep / f"{find.kind}_{number}.txt").write_text(find.source, encoding="utf-8", errors="backslashreplace")
        else:
            print(f"  {find.source[:2000]!r}", file=sys.stderr)


if __name__ == "__main__":
    sys.exit(main())
