"""What a catalogue costs: so many patterns in one command, on one processor and on two, against one pattern on one.

Usage: python -m tests.bench.many [MOST] [EDITION]. The patterns are the demos under other names, each built with one edition
(all_sizes, unless another is named), up to MOST of them (16). Figures are ratios within one run: seconds by the clock and of
processors for each pattern, and how many times as many patterns two processors build in the same time.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from tests.bench.pages import ROOT, Run, run

STEPS = (1, 4, 16, 40, 100)
LEAST_TURNS, ENOUGH = 1, 8
"""How often each number is built: a few patterns more often, as they are over soon."""


def main() -> None:
    """Print the table."""
    most = int(sys.argv[1]) if len(sys.argv) > 1 else 16
    edition = sys.argv[2] if len(sys.argv) > 2 else "all_sizes"
    demos = sorted(path for path in (ROOT / "pattern_sources").iterdir() if (path / "pattern.yaml").is_file())
    with tempfile.TemporaryDirectory() as held:
        sources = Path(held) / "pattern_sources"
        folders = [sources / f"{demos[number % len(demos)].name}_{number}" for number in range(most)]
        for number, folder in enumerate(folders):
            shutil.copytree(demos[number % len(demos)], folder)
        count = iter(range(10_000))

        def built(number: int, processors: int) -> Run:
            to = Path(held) / f"build_{next(count)}"
            names = [str(folder) for folder in folders[:number]]
            made = run(
                "-m", "stitchproof", "build", *names, "--edition", edition, "--to", str(to), processors=processors
            )
            shutil.rmtree(to)
            return made

        first = 0.0
        print(f"patterns with the edition {edition}, the first alone on one processor = 1 for each")
        for number in (step for step in STEPS if step <= most):
            turns = max(LEAST_TURNS, ENOUGH // number)
            pairs = [(built(number, 1), built(number, 2)) for _ in range(turns)]
            one, two = (min(pair[way].clock for pair in pairs) for way in (0, 1))
            used = [min(pair[way].used for pair in pairs) / number for way in (0, 1)]
            first = first or one
            print(
                f"  {number:>3} patterns   by the clock on one {one / number / first:5.2f}   on two {two / number / first:5.2f}"
                f"   two build {one / two:4.2f} × as many   in processor seconds {used[1] / used[0]:4.2f} × as on one"
            )


if __name__ == "__main__":
    main()
