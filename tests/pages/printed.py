"""The HTML files of the shipped patterns, written once into a folder. Paper is left out: it takes a second for each page."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from stitchproof import build_pattern
from stitchproof.comparison.forms import as_page
from stitchproof.editions.edition import Wanted, make_editions
from stitchproof.editions.put_out import gauges_asked
from stitchproof.revisions.errata import errata_of
from stitchproof.revisions.print_errata import print_errata
from tests.architecture.code_reader import CLONE
from tests.comparison.changed import with_texts
from tests.editions.demos import document_of, written

NO_PAPER = "print:\n"
"""In an edition.yaml of the nearest folder: nothing stands in place of what the shipped one says of paper."""
LOOKED_AT = [
    *(
        (edition, "cobblewick_hat")
        for edition in ("all_sizes", "one_size", "large_print", "testers_copy", "makers_page")
    ),
    ("editors_sheet", "cobblewick_hat"),
    ("comparison", "pebblewold_cowl"),
    ("errata", "pebblewold_cowl"),
    *((edition, "pebblewold_cowl") for edition in ("all_sizes", "makers_page")),
    *((edition, "saltmarrow_yoke_top") for edition in ("all_sizes", "makers_page")),
    *((edition, "thornhollow_waistcoat") for edition in ("all_sizes", "makers_page")),
]
"""Editions and patterns whose pages are audited: every edition once, and what differs most for each pattern."""
FOR_EACH_SIZE = ("one_size", "large_print", "testers_copy")


def screen_pages(folder: Path, edition: str, pattern: str, sizes: tuple[int, ...] | None = None) -> list[Path]:
    """The HTML files of an edition. sizes: of which each is to have a file; None for the edition's own way."""
    styles = folder / "styles"
    (styles / edition).mkdir(parents=True, exist_ok=True)
    (styles / edition / "edition.yaml").write_text(NO_PAPER)
    gauges = tuple(gauges_asked(written(pattern).expanded.sized))
    (made,) = make_editions(document_of(pattern), [Wanted(edition, sizes)], [styles], gauges=gauges)
    pages = []
    for file in made.files:
        if file.name.endswith(".html"):
            pages.append(folder / file.name)
            pages[-1].write_bytes(file.content)
    return pages


@cache
def page_of(folder: Path, edition: str, pattern: str) -> Path:
    """One page of an edition: where each size has a file of its own, that of the third."""
    if edition == "editors_sheet":  # made of what a check knows besides the document
        built = build_pattern(pattern, editions=(edition,), to=folder / "built", within=CLONE)
        return next(file for file in built.files if file.suffix == ".html")
    if edition in ("comparison", "errata"):
        page = folder / f"{pattern}_{edition}.html"
        changed = with_texts(pattern, folder / f"for_{edition}", {"pattern.yaml": {"stitches: 18": "stitches: 19"}})
        sheet = errata_of(changed, "A designer", "patterns@example.org", "2026-12-01", "")
        html = print_errata(sheet, ())[0]["errata.html"] if edition == "errata" else as_page(changed, ()).encode()
        page.write_bytes(html)
        return page
    sizes = (2,) if edition in FOR_EACH_SIZE else None
    (page,) = screen_pages(folder, edition, pattern, sizes)
    return page
