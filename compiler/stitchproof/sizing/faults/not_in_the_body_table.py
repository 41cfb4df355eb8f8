"""SP075 not-in-the-body-table

Severity  error
Checks    `from` of `body` names a shipped table, and `sizes`, `rows` and `take` name sizes and rows that the table has.
Matters   a table or a size that is only guessed would give the garment another body.
Mend      write one of the names in the help line. For a body of your own, add its row under `body`, or name a CSV file
          with `csv`.
Source    the source dialect of this compiler.

Fires:
    sizes: {names: [S, M]}
    body: {from: woman}

Fires:
    sizes: {names: [S, M]}
    body: {from: women, rows: [bust, uper_arm], take: high}

Fires:
    sizes: {names: [S, M]}
    body: {from: women, sizes: [S, Medum], take: high}

Quiet:
    sizes: {names: [S, M]}
    body: {from: women, rows: [bust, upper_arm], take: high}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)
SHOWN = 12
"""How many names a help line lists."""


def table_not_known(span: Span, key: str, known: tuple[str, ...]) -> Diagnostic:
    """known: the keys of the shipped tables."""
    near = nearest(key.lower(), known)
    nearest_first = f"the nearest is `{near}`; " if near else ""
    help_text = f"{nearest_first}the tables are: {', '.join(known)}; a table of your own is named by `csv:`"
    return Diagnostic(PAGE, f"`{key}` is not a shipped body table", Excerpt(span, "not known"), help=(help_text,))


def row_not_known(span: Span, row: str, known: tuple[str, ...]) -> Diagnostic:
    """known: the rows of the table."""
    near = nearest(row, known)
    if not near:  # `arm` for upper_arm
        near = next((each for each in known if row.lower() in each.split("_")), "")
    help_text = f"write `{near}`" if near else f"its rows are: {_listed(known)}"
    return Diagnostic(PAGE, f"`{row}` is not a row of the body table", Excerpt(span, "not in it"), help=(help_text,))


def size_not_in_table(
    span: Span, size: str, labels: tuple[str, ...], names: tuple[str, ...], is_number: bool
) -> Diagnostic:
    """labels, names: of the sizes of the table. is_number: it may be a measure without its unit."""
    near = nearest(size.upper(), labels) or nearest(size, labels) or nearest(size.title(), names)
    helped = [f"write `{near}`" if near else f"its sizes are: {_listed(labels)}"]
    if is_number:
        helped.append(f"a measure takes its unit: `{size} cm`")
    return Diagnostic(PAGE, f"`{size}` is not a size of the body table", Excerpt(span, "not in it"), help=tuple(helped))


def measure_without_a_row(span: Span, measure: str, known: tuple[str, ...]) -> Diagnostic:
    """A figure in the place of a size that does not say what it measures."""
    help_text = f"put the row before it: `{known[0]} {measure}`; the rows are: {_listed(known)}"
    return Diagnostic(PAGE, f"{measure} of which row?", Excerpt(span, "no row is named"), help=(help_text,))


def _listed(names: tuple[str, ...]) -> str:
    return ", ".join(names[:SHOWN]) + (" and so on" if len(names) > SHOWN else "")
