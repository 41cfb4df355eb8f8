"""What a check and a build hold at most, as ratios: against a bare Python and the renderer alone, with more sizes and rows.

Usage: python -m tests.bench.memory [PATTERN]. Each figure is the peak of a fresh process on one processor, as Linux tells it, the
smallest of three runs.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.bench.pages import RENDERER_ALONE, ROOT, print_html_of
from tests.bench.stages import pattern_with, rows_pattern

RUNS = 3


TOLD = """
import sys
try:
    {0}
except SystemExit as ended:
    assert ended.code in (None, 0, 1), ended.code
held = next(line for line in open("/proc/self/status") if line.startswith("VmHWM"))
print("held", held.split()[1], file=sys.__stderr__)
"""
COMMAND = "from stitchproof.command_line import run; run()"


def peak(work: str, *arguments: str, to: Path | None = None) -> float:
    """Megabytes that a fresh Python holds at most while it does some work. to: where each run builds into a folder of its own."""
    these = sorted(os.sched_getaffinity(0))[:1]
    held = []
    for turn in range(RUNS):
        into = ("--to", str(to / str(turn))) if to else ()
        done = subprocess.run(
            [sys.executable, "-c", TOLD.format(work), *arguments, *into],
            cwd=ROOT,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            check=True,
            preexec_fn=lambda: os.sched_setaffinity(0, these),
        )
        held.append(int(done.stderr.split()[-1]) / 1024)
    return min(held)


def main() -> None:
    """Print the table."""
    pattern = ROOT / "pattern_sources" / (sys.argv[1] if len(sys.argv) > 1 else "cobblewick_hat")
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        page = print_html_of(pattern, folder / "page")
        bare = peak("pass")
        loaded = peak("import stitchproof.command_line, stitchproof.commands.check")
        check = peak(COMMAND, "check", str(pattern))
        alone = peak(RENDERER_ALONE, str(page), str(folder / "page.pdf"))
        build = (COMMAND, "build", str(pattern))
        one = peak(*build, "--edition", "all_sizes", to=folder / "one")
        all_of_them = peak(*build, to=folder / "all")
        print(f"peak memory for {pattern.name}, a bare Python = 1 ({bare:.0f} MB)")
        print(
            f"  the compiler loaded {loaded / bare:.2f}   check {check / bare:.2f}   the renderer alone {alone / bare:.2f}"
        )
        print(
            f"  build of one PDF, against the renderer alone {one / alone:.2f}; of all editions {all_of_them / alone:.2f}"
        )
        print("  check beyond the compiler as it is loaded, 5 sizes = 1")
        sizes = [(number, peak(COMMAND, "check", str(pattern_with(number, folder)))) for number in (5, 10, 20, 40)]
        for number, held in sizes:
            print(f"    {number:>5} sizes {(held - loaded) / (sizes[0][1] - loaded):5.2f}")
        print("  the same, 125 rows = 1")
        numbers = (125, 250, 500, 1000, 2000)
        rows = [(number, peak(COMMAND, "check", str(rows_pattern(number, 64, folder)))) for number in numbers]
        for number, held in rows:
            print(f"    {number:>5} rows  {(held - loaded) / (rows[0][1] - loaded):5.2f}")


if __name__ == "__main__":
    main()
