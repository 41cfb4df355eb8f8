"""Where a figure of a body table comes from, per size, as text: table, source, what was taken of it and what is from memory."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.formulas.kind import amount_text
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.published import figure_text
from stitchproof.sizing.sized_body import SizedBody, TableRow
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source import Span

TAKEN = {
    "low": "the lower end of each range",
    "middle": "the middle of each range, which the table itself does not print",
    "high": "the higher end of each range",
}
CONFIRM = "confirm the figures before you rely on them"


def table_text(body: SizedBody) -> str:
    """The whole table: what it is, and each row with where its figures come from."""
    width = max(len(row.name) for row in body.rows)
    rows = [f"{row.name:<{width}}  {_row_state(row)}" for row in body.rows]
    remarks = [f"note      {remark}" for remark in body.remarks]
    return (
        "\n".join(
            line.rstrip()
            for line in [f"body  a table of {len(body.rows)} rows", *_source(body), "", *rows, "", *remarks]
        ).rstrip()
        + "\n"
    )


def _row_state(row: TableRow) -> str:
    state = "your own row stands in its place" if row.own else f"{row.take} of each range" if row.take else ""
    if row.open_sizes and not row.own:
        state = "no figure can be taken yet"
    return ", ".join(filter(None, (state, row.memory if not row.own else ""))) or "as published"


def row_text(row: TableRow, body: SizedBody, sized: SizedPattern, sizes: tuple[int, ...]) -> str:
    """A row of the table that is used as it is, in the sizes asked for."""
    quantity = sized.scope.quantities.get(row.name)
    facts = [f"written   {place_text(row.places[0])}", *_source(body)]
    if row.how:
        facts.append(f"measured  {row.how}")
    if row.take:
        facts.append(f"taken     {TAKEN[row.take]}")
    if row.memory:
        facts.append(f"memory    {row.memory}; {CONFIRM}")
    facts.append("own row   none, the figures are the table's")
    lines = [
        f"{row.name}  length",
        *facts,
        "",
        *_figures(row, quantity, body, sized.sizes, sizes),
        *used_by_lines(row.name, sized),
    ]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def replaced_lines(row: TableRow, body: SizedBody, names: tuple[str, ...], sizes: tuple[int, ...]) -> list[str]:
    """What the table gives the sizes asked for, where a row of the designer's own stands in its place."""
    width = max(len(names[size]) for size in sizes)
    given = [f"{names[size]:<{width}}  {row.given[size] or 'nothing'}" for size in sizes]
    memory = [f"memory    {row.memory}"] if row.memory else []
    return [f"own row   yours stands in place of the table's, {body.name}, which gives", *given, *memory]


def used_by_lines(name: str, sized: SizedPattern) -> list[str]:
    """The values that are worked out from a name; none where it is not used."""
    used_by = [other.name for other in sized.quantities if name in other.inputs and other.name != name]
    return ["", f"used by   {', '.join(used_by)}"] if used_by else []


def place_text(span: Span) -> str:
    """A place as path, line and column."""
    line, column = span.file.line_column(span.start)
    return f"{span.file.path}:{line}:{column}"


def _source(body: SizedBody) -> list[str]:
    return [f"table     {body.name}: {body.title}", *([f"source    {body.source}"] if body.source else [])]


def _figures(
    row: TableRow, quantity: Quantity | None, body: SizedBody, names: tuple[str, ...], sizes: tuple[int, ...]
) -> list[str]:
    """One line per size asked for: the table's size, what it gives, what is taken, and how that prints."""
    cells = []
    for size in sizes:
        asked = f" (for {body.asked[size]})" if body.asked and body.asked[size] else ""
        given = row.given[size] or "nothing"
        taken, prints = "", ""
        if size in row.open_sizes:
            taken = "no figure: `take` does not say which" if row.given[size] else "no figure"
        elif quantity:
            taken, prints = amount_text(quantity.values[size], quantity.kind), _prints(row, quantity, size)
        cells.append(
            (
                names[size],
                f"size {body.sizes[size]}{asked}",
                f"{given} → {taken}" if taken not in ("", given) else given,
                prints,
            )
        )
    widths = [max(len(cell[at]) for cell in cells) for at in range(4)]
    return ["  ".join(f"{text:<{width}}" for text, width in zip(cell, widths, strict=True)) for cell in cells]


def _prints(row: TableRow, quantity: Quantity, size: int) -> str:
    value = quantity.values[size]
    if not isinstance(value, Fraction) or quantity.published is None:
        return ""
    cm, inches = row.published.figure("cm", size), row.published.figure("in", size)
    in_cm = figure_text(cm, "cm") if cm is not None else cm_text(value)
    return f"prints {in_cm} cm / {figure_text(inches, 'in') if inches is not None else inch_text(value)} in"
