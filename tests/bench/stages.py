"""Time per stage for a demo, start-up, and growth with the number of sizes; all as ratios in one run.

Usage: python -m tests.bench.stages [PATTERN]. Each figure is the smallest of several interleaved runs.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from itertools import pairwise
from pathlib import Path
from time import perf_counter

from stitchproof.checks.judge import judge
from stitchproof.diagnostics.report import Report
from stitchproof.editions.put_out import Order, put_out
from stitchproof.editions.size_choice import SizeChoice
from stitchproof.expansion.expand_pattern import expand_pattern
from stitchproof.reading.folder import read_pattern
from stitchproof.rows.read_rows import read_rows
from stitchproof.simulation.work_pattern import work_pattern
from stitchproof.simulation.worked_pattern import Proof
from stitchproof.sizing.size_pattern import size_pattern

ROOT = Path(__file__).parents[2]
RUNS = 7
LIBRARIES = "import yaml, jinja2, jinja2.sandbox, markdown_it"
PARTS = """
import sys
from time import process_time
marks = [("Python itself", process_time())]
from stitchproof.own_modules import find_own_modules
find_own_modules()
from stitchproof.libraries import load_libraries
load_libraries()
marks.append(("PyYAML and msgspec", process_time()))
import stitchproof.command_line, stitchproof.commands.check
marks.append(("the compiler", process_time()))
from stitchproof.checks.judge import checks_of
checks_of("SizedPattern")
marks.append(("the rules", process_time()))
stitchproof.commands.check.check_pattern(sys.argv[1])
marks.append(("reading, working and judging", process_time()))
for (_, start), (name, end) in zip([("", 0.0), *marks], marks):
    print(name, end - start, sep="=")
"""
"""What a check is made of, in processor seconds of a fresh Python without garbage collection, as the command starts."""


def stage_times(folder: Path) -> dict[str, float]:
    """Seconds per stage, the smallest of several runs."""
    best: dict[str, float] = {}
    for _ in range(RUNS):
        for name, seconds in one_run(folder).items():
            best[name] = min(best.get(name, seconds), seconds)
    return best


def one_run(folder: Path) -> dict[str, float]:
    """Seconds per stage of one build in this process."""
    marks = [("start", perf_counter())]

    def passed(stage: str) -> None:
        marks.append((stage, perf_counter()))

    report = Report()
    source = read_pattern(folder, folder.name, report)
    passed("reading")
    if source is None:
        raise SystemExit(f"{folder} cannot be read")
    report.names = source.header.sizes.names
    sized = size_pattern(source, report)
    passed("sizing")
    expanded = expand_pattern(sized, report)
    passed("expansion")
    written = read_rows(expanded, report)
    passed("rows")
    worked = work_pattern(written, report)
    passed("simulation")
    for value in (sized, expanded, written, worked):
        judge(value, report)
    passed("checks")
    document = written.document
    put_out(document, sized, (), Order(SizeChoice(document.sizes.chosen), ("all_sizes",)), ())
    passed("pages")
    return {stage: end - start for (_, start), (stage, end) in pairwise(marks)}


def process_time(*arguments: str) -> float:
    """Processor seconds of a fresh Python, the smallest of several runs."""
    return process_cost(*arguments)[0]


def process_cost(*arguments: str) -> tuple[float, float]:
    """Processor seconds of a fresh Python, and seconds by the clock, the smallest of several runs each."""
    best, by_clock = 1e9, 1e9
    for _ in range(RUNS):
        begun = perf_counter()
        process = subprocess.Popen(
            [sys.executable, *arguments],
            cwd=ROOT,
            env=_environment(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        _, _, used = os.wait4(process.pid, 0)
        best = min(best, used.ru_utime + used.ru_stime)
        by_clock = min(by_clock, perf_counter() - begun)
    return best, by_clock


def cold_parts(pattern: Path) -> dict[str, float]:
    """Processor seconds of each part of a check in a fresh Python, the smallest of several runs."""
    best: dict[str, float] = {}
    for _ in range(RUNS):
        program = [sys.executable, "-c", f"import gc\ngc.disable(){PARTS}", str(pattern)]
        told = subprocess.run(program, cwd=ROOT, env=_environment(), capture_output=True, text=True, check=True).stdout
        for line in told.splitlines():
            name, _, seconds = line.partition("=")
            best[name] = min(best.get(name, 1e9), float(seconds))
    return best


def _environment() -> dict[str, str]:
    """Modules are kept compiled, as for everybody who checks twice."""
    return {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}


def pattern_with(sizes: int, folder: Path) -> Path:
    """The hat, cut down to what grows with its sizes, in so many sizes."""
    source = ROOT / "pattern_sources" / "cobblewick_hat"
    target = folder / f"hat_{sizes}"
    target.mkdir()
    names = ", ".join(f"S{number}" for number in range(1, sizes + 1))
    heads = ", ".join(str(42 + number * 5 % 40) for number in range(sizes))
    header = (source / "pattern.yaml").read_text("utf-8")
    header = header.replace("[Baby, Toddler, Child, Adult, Large]", f"[{names}]")
    header = header.replace("sizes: [Baby, Toddler]", "sizes: [S1, S2]").replace("[42, 47, 52, 57, 62]", f"[{heads}]")
    for by_hand in ("[8, 9, 10, 11, 11]", "[45, 50, 65, 75, 90]", "[6, 6, 7, 7, 8]"):
        header = header.replace(by_hand, f"[{', '.join(['8'] * sizes)}]")
    (target / "pattern.yaml").write_text(header, encoding="utf-8")
    for text in source.glob("*.md"):
        (target / text.name).write_text(text.read_text("utf-8"), encoding="utf-8")
    return target


def rows_pattern(rows: int, stitches: int, folder: Path) -> Path:
    """A tube of so many written rounds, each of them with repeats over so many stitches."""
    target = folder / f"tube_{rows}_{stitches}"
    target.mkdir()
    (target / "pattern.yaml").write_text(
        "dialect: 1\ntitle: Tube\nsizes: {names: [S, M]}\n"
        "pieces:\n  tube: {worked: joined rounds}\n"
        "special_stitches:\n  fsc: {name: foundation single crochet, how: Sc made with its own ch.}\n",
        encoding="utf-8",
    )
    lines = ["## Tube {tube}", "", f"Rnd 1: Work {stitches} fsc, join with sl st in first fsc. — {stitches} fsc"]
    for number in range(2, rows + 1, 2):
        fewer = stitches - stitches // 8
        lines.append(
            f"Rnd {number}: Ch 1, [sc in each of next 6 sts, sc2tog] {stitches // 8} times, join. — {fewer} sc"
        )
        into = f"[sc in each of next 6 sts, 2 sc in next st] {stitches // 8} times"
        lines.append(f"Rnd {number + 1}: Ch 1, {into}, join. — {stitches} sc")
    (target / "tube.md").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return target


def proof_time(folder: Path) -> float:
    """Seconds to read and work the rows of a pattern, the smallest of three runs."""
    report = Report()
    source = read_pattern(folder, folder.name, report)
    if source is None:
        raise SystemExit(f"{folder} cannot be read")
    report.names = source.header.sizes.names
    expanded = expand_pattern(size_pattern(source, report), report)
    best = 1e9
    for _ in range(3):
        start = perf_counter()
        worked = work_pattern(read_rows(expanded, report), report)
        best = min(best, perf_counter() - start)
    if worked.findings or any(step.proof is not Proof.PROVED for piece in worked.pieces for step in piece.steps):
        raise SystemExit(f"the rows of {folder} are not proved")
    return best


def main() -> None:
    """Print the table."""
    pattern = ROOT / "pattern_sources" / (sys.argv[1] if len(sys.argv) > 1 else "cobblewick_hat")
    times = stage_times(pattern)
    whole = sum(times.values())
    print(f"stages of {pattern.name}, as shares of a warm build")
    for name, seconds in times.items():
        print(f"  {name:<10} {seconds / whole:6.1%}   ({seconds * 1000:.1f} ms)")
    bare, bare_by_clock = process_cost("-c", LIBRARIES)
    start = process_time("-c", "import stitchproof.command_line, stitchproof.commands.check")
    check, by_clock = process_cost("-m", "stitchproof", "check", str(pattern))
    proof = times["rows"] + times["simulation"]
    print(f"  reading and working the rows, against the pages: {proof / times['pages']:.1%}")
    print("\ncold, against a bare Python that imports PyYAML, Jinja2 and markdown-it-py")
    print(f"  import of the compiler {start / bare:.2f}   ({(start - bare) * 1000:.0f} ms beyond)")
    print(f"  check                  {check / bare:.2f}   by the clock {by_clock / bare_by_clock:.2f}")
    parts = cold_parts(pattern)
    for name, seconds in parts.items():
        print(f"    {name:<29} {seconds / sum(parts.values()):6.1%}   ({seconds * 1000:.0f} ms)")
    print("\ncheck (without pages) against the number of sizes, 5 sizes = 1")
    with tempfile.TemporaryDirectory() as folder:
        first = 0.0
        for sizes in (5, 10, 20, 40):
            measured = stage_times(pattern_with(sizes, Path(folder)))
            checked = sum(seconds for name, seconds in measured.items() if name != "pages")
            first = first or checked
            print(f"  {sizes:>2} sizes   {checked / first:5.2f}")
        print("\nreading and working rows against their number, 50 rows = 1; and against the stitches in a round")
        first = 0.0
        for rows in (50, 125, 250, 500, 1000, 2000):
            proved = proof_time(rows_pattern(rows, 64, Path(folder)))
            first = first or proved
            print(f"  {rows:>5} rows  {proved / first:5.2f}")
        first = 0.0
        for stitches in (64, 640, 6400):
            proved = proof_time(rows_pattern(126, stitches, Path(folder)))
            first = first or proved
            print(f"  {stitches:>5} sts   {proved / first:5.2f}")


if __name__ == "__main__":
    main()
