"""The same text and tables, without drawings, set by the renderer as it is by default, by our press, by Typst and by Chromium.

Usage: python -m tests.bench.peers [PATTERN]. Every program starts anew; the figures are ratios of medians of runs that take
turns, the renderer alone = 1. Pages and words tell how alike they are. What is not installed is said to be left out.
"""

from __future__ import annotations

import re
import shutil
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from pypdf import PdfReader

from stitchproof.editions.fonts import font_folders
from tests.bench.as_typst import as_typst
from tests.bench.pages import RENDERER_ALONE, ROOT, RUNS, Run, in_turns, print_html_of, run

PRESS = """
import sys
from pathlib import Path
from stitchproof.editions.pdf import write_pdf
Path(sys.argv[2]).write_bytes(write_pdf(Path(sys.argv[1]).read_text("utf-8")).content)
"""
TYPST = "import sys, typst; typst.compile(sys.argv[1], output=sys.argv[2], font_paths=sys.argv[3:], ignore_system_fonts=True)"
CHROMIUM = [
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--no-pdf-header-footer"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
]
STARTED = "import subprocess, sys; sys.exit(subprocess.run(sys.argv[1:]).returncode)"
DRAWINGS = re.compile(r"<svg.*?</svg>", re.DOTALL)


def main() -> None:
    """Print the table."""
    pattern = ROOT / "pattern_sources" / (sys.argv[1] if len(sys.argv) > 1 else "cobblewick_hat")
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        page = print_html_of(pattern, folder / "page")
        page.write_text(DRAWINGS.sub("", page.read_text("utf-8")), encoding="utf-8")
        markup = folder / "page.typ"
        markup.write_text(as_typst(page.read_text("utf-8")), encoding="utf-8")
        fonts = [str(each) for each in font_folders()]
        pdfs = {name: folder / f"{name}.pdf" for name in ("renderer", "press", "typst", "chromium")}
        ways: dict[str, Callable[[], Run]] = {
            "renderer": lambda: run("-c", RENDERER_ALONE, str(page), str(pdfs["renderer"])),
            "press": lambda: run("-c", PRESS, str(page), str(pdfs["press"])),
            "typst": lambda: run("-c", TYPST, str(markup), str(pdfs["typst"]), *fonts),
        }
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        if chromium:
            profile = f"--user-data-dir={folder / 'profile'}"
            printed = f"--print-to-pdf={pdfs['chromium']}"
            ways["chromium"] = lambda: run("-c", STARTED, chromium, *CHROMIUM, profile, printed, page.as_uri())
        measured = dict(zip(ways, in_turns(RUNS, *ways.values()), strict=True))
        alone = measured["renderer"]
        print(f"text and tables of {pattern.name}, the renderer alone, by default = 1")
        for name, each in measured.items():
            pages, words = _counted(pdfs[name])
            print(
                f"  {name:<9} by the clock {each.clock / alone.clock:5.2f}   in processor seconds "
                f"{each.used / alone.used:5.2f}   {pages} pages, {words} words"
            )
        if not chromium:
            print("  chromium  left out: it is not installed here")


def _counted(pdf: Path) -> tuple[int, int]:
    pages = PdfReader(pdf).pages
    return len(pages), sum(len(page.extract_text().split()) for page in pages)


if __name__ == "__main__":
    main()
