"""What pages cost: one PDF against the renderer by itself, all editions on two processors, a build that changes nothing.

Usage: python -m tests.bench.pages [PATTERN]. Every figure is a ratio of medians of runs that take turns, each in a fresh process:
of processor seconds, and of the clock where processors share the work.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest
from msgspec import Struct

from stitchproof import build_pattern
from stitchproof.editions import presses
from stitchproof.editions.assets import Assets
from stitchproof.editions.pdf import Pdf

ROOT = Path(__file__).parents[2]
RUNS = 7
RENDERER_ALONE = "import sys; from weasyprint import HTML; HTML(filename=sys.argv[1]).write_pdf(sys.argv[2])"
IN_PARTS = """
import gc, sys
from resource import RUSAGE_CHILDREN, RUSAGE_SELF, getrusage
def used():
    return sum(getrusage(who).ru_utime + getrusage(who).ru_stime for who in (RUSAGE_SELF, RUSAGE_CHILDREN))
from pathlib import Path
start = used()
gc.set_threshold(20_000, 20, 20)
import jinja2, jinja2.sandbox, markdown_it, msgspec, yaml
others = used() - start
from stitchproof.editions import presses
from stitchproof.editions.renderer import load_renderer
from stitchproof.pipeline import build_pattern
before = used()
load_renderer()
others += used() - before
write_pdf, pdf = presses.write_pdf, 0.0
def measured(*arguments):
    global pdf
    before = used()
    made = write_pdf(*arguments)
    pdf += used() - before
    return made
presses.write_pdf, presses.processors = measured, lambda: 1
build_pattern(sys.argv[1], editions=("all_sizes",), to=Path(sys.argv[2]))
print(others, pdf, used() - start)
"""


class Run(Struct, frozen=True):
    """Seconds of a process: of processors, its children's too, and by the clock."""

    used: float
    clock: float


def run(*arguments: str, processors: int = 2) -> Run:
    """A fresh Python on so many processors."""
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    these = sorted(os.sched_getaffinity(0))[:processors]
    start = perf_counter()
    process = subprocess.Popen(
        [sys.executable, *arguments],
        cwd=ROOT,
        env=environment,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        preexec_fn=lambda: os.sched_setaffinity(0, these),
    )
    _, status, usage = os.wait4(process.pid, 0)
    if status:
        raise SystemExit(f"{' '.join(arguments)[:80]} failed")
    return Run(usage.ru_utime + usage.ru_stime, perf_counter() - start)


def in_turns(runs: int, *ways: Callable[[], Run]) -> list[Run]:
    """The median of each way."""
    measured = [[way() for way in ways] for _ in range(runs)]
    return [
        Run(median(each.used for each in column), median(each.clock for each in column))
        for column in zip(*measured, strict=True)
    ]


def print_html_of(pattern: Path, folder: Path) -> Path:
    """The HTML that the edition with all sizes gives to the renderer."""
    pages: list[str] = []

    def kept(html: str, assets: Assets, record: bytes) -> Pdf:
        pages.append(html)
        return Pdf(b"", ())

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(presses, "write_pdf", kept)
        patched.setattr(presses, "processors", lambda: 1)
        build_pattern(pattern, editions=("all_sizes",), to=folder, within=ROOT)
    path = folder / "page.html"
    path.write_text(pages[0], encoding="utf-8")
    return path


def shares(pattern: Path, folder: Path) -> tuple[float, float, float]:
    """Of a build of one PDF: what libraries take to be imported, the PDF itself, and all the rest, in percent."""
    rows = []
    for number in range(RUNS):
        said = subprocess.run(
            [sys.executable, "-c", IN_PARTS, str(pattern), str(folder / f"parts_{number}")],
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=True,
        )
        others, pdf, whole = map(float, said.stdout.split()[-3:])
        rows.append((others / whole, pdf / whole, (whole - others - pdf) / whole))
    libraries, pdfs, rest = zip(*rows, strict=True)
    return median(libraries), median(pdfs), median(rest)


def main() -> None:
    """Print the table."""
    pattern = ROOT / "pattern_sources" / (sys.argv[1] if len(sys.argv) > 1 else "cobblewick_hat")
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        page = print_html_of(pattern, folder / "page")
        count = iter(range(1_000))

        def build(*more: str, processors: int = 2) -> Run:
            to = str(folder / f"build_{next(count)}")
            return run("-m", "stitchproof", "build", str(pattern), "--to", to, *more, processors=processors)

        alone, one = in_turns(
            RUNS,
            lambda: run("-c", RENDERER_ALONE, str(page), str(folder / "page.pdf")),
            lambda: build("--edition", "all_sizes"),
        )
        print(f"pages of {pattern.name}")
        print(
            "  one PDF with its HTML, from the command on, against the renderer alone, by default, with the same HTML"
        )
        print(f"    by the clock {one.clock / alone.clock:.2f}; in processor seconds {one.used / alone.used:.2f}")
        libraries, pdf, ours = shares(pattern, folder)
        print(f"    of these: libraries imported {libraries:.0%}, the PDF {pdf:.0%}, all the rest {ours:.0%}")
        serial, beside = in_turns(3, lambda: build(processors=1), build)
        print(
            f"  all editions on two processors against one, by the clock                {beside.clock / serial.clock:.2f}"
        )
        standing = str(folder / "standing")
        run("-m", "stitchproof", "build", str(pattern), "--to", standing)
        check, again = in_turns(
            RUNS,
            lambda: run("-m", "stitchproof", "check", str(pattern)),
            lambda: run("-m", "stitchproof", "build", str(pattern), "--to", standing),
        )
        print(
            f"  a build that changes nothing against a check                            {again.used / check.used:.2f}"
        )


if __name__ == "__main__":
    main()
