"""SP072 revision-not-named

Severity  warning
Checks    pattern.yaml names the revision, its date, and whom to write to.
Matters   they stand at the foot of every page: without them a maker cannot tell an old print from a corrected one, nor ask.
Mend      add `revision`, `date` and `contact`.
Source    common practice, no source.

Fires:
    dialect: 1
    title: Smallest
    revision: 1
    designer: A Designer
    sizes: {names: [S, M]}
    gauges:
      fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm, state: blocked}
    pieces:
      piece: {gauge: fabric, worked: rows}

Quiet:
    revision: 2
    date: 2026-03-04
    contact: patterns@example.org
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.sizing.sized_pattern import SizedPattern

PAGE = read_page(__doc__)


def identity(sized: SizedPattern, report: Report) -> None:
    """What the foot of each page needs."""
    held = sized.source.header.identity
    named = (("revision", held.revision), ("date", held.date), ("contact", held.contact))
    missing = [name for name, words in named if not words]
    if missing:
        report.add(
            Diagnostic(
                PAGE,
                f"the pattern names no {_listed(missing, ' and no ')}",
                Excerpt(held.title.span, "the foot of each page lacks it"),
                help=(f"add {_listed([f'`{name}`' for name in missing], ' and ')} to pattern.yaml",),
            )
        )


def _listed(names: list[str], last: str) -> str:
    commas = last.replace(" and", ",")
    return last.join(filter(None, (commas.join(names[:-1]), names[-1])))


CHECKS = (identity,)
