"""SP078 body-figure-not-decided

Severity  error
Checks    a row of a body table that the pattern uses has one figure for each size. Of a range, such as 36-38 in, `take` says
          which figure is meant; for a size that the table gives nothing for, the pattern has a row of its own.
Matters   the ends of a bust range lie up to 6 cm apart. A figure chosen in silence would decide the fit of the garment.
Mend      write `take: low`, `take: middle` or `take: high` under `body`, for all rows or row by row
          (`take: {bust: high, waist: middle}`); or give the row figures of your own.
Source    Craft Yarn Council, Standard Body Measurements, Woman and Man, which give ranges.

Fires in S, M:
    sizes: {names: [S, M]}
    body: {from: women}
    measures: {around: bust + 8 cm}

Fires in M:
    sizes: {names: [S, M]}
    body: {csv: body.csv}
    measures: {sleeve: upper_arm + 5 cm}
    --- body.csv
    size, bust cm, upper arm cm
    S, 86, 26
    M, 94, –

Quiet:
    sizes: {names: [S, M]}
    body: {from: women, take: high}
    measures: {around: bust + 8 cm}

Quiet:
    sizes: {names: [S, M]}
    body: {from: women}
    measures: {sleeve: upper_arm + 5 cm}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.sizing.sized_body import SizedBody, TableRow

PAGE = read_page(__doc__)


def body_figures(expanded: ExpandedPattern, report: Report) -> None:
    """The rows in use that leave a size without a figure; once for all of them, for `take` settles them together."""
    sized = expanded.sized
    if sized.body is None:
        return
    rows = [row for row in sized.body.rows if row.name in sized.scope.asked and row.open_sizes and not row.own]
    ranges = [row for row in rows if any(row.given[size] for size in row.open_sizes)]
    if ranges:
        report.add(_ranges(ranges, sized.body, sized.sizes))
    for row in rows:
        gaps = tuple(size for size in row.open_sizes if not row.given[size])
        if gaps:
            report.add(_gaps(row, gaps, sized.sizes))


def _ranges(rows: list[TableRow], body: SizedBody, names: tuple[str, ...]) -> Diagnostic:
    sizes = sorted({size for row in rows for size in row.open_sizes if row.given[size]})
    words = [row.words for row in rows]
    listed = " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))
    gives = "give" if len(rows) > 1 else "gives"
    memory = tuple(f"{row.words}: {row.memory}" for row in rows if row.memory)
    return Diagnostic(
        PAGE,
        f"{listed} {gives} a range, and nothing says which figure to take",
        Excerpt(body.named, "a table of ranges"),
        sizes=tuple(names[size] for size in sizes),
        sums=tuple(
            SumLine(names[size], f"{row.words} {row.given[size]}")
            for size in sizes
            for row in rows
            if size in row.open_sizes and row.given[size]
        ),
        help=("add under `body` `take: low`, `take: middle` or `take: high`, for all rows or row by row", *memory),
    )


def _gaps(row: TableRow, gaps: tuple[int, ...], names: tuple[str, ...]) -> Diagnostic:
    short = row.name.removeprefix("body.")
    missing = " and ".join(names[size] for size in gaps)
    return Diagnostic(
        PAGE,
        f"the body table has no {row.words} for this size"
        if len(gaps) == 1
        else f"the body table has no {row.words} here",
        Excerpt(row.places[gaps[0]], f"no figure for {missing}"),
        sizes=tuple(names[size] for size in gaps),
        help=(f"put a row of your own over it: `{short}:` under `body`, with a figure for each size",),
    )


CHECKS = (body_figures,)
