"""What a page says of its body table: which it is, which of its sizes these are, what was chosen, replaced and is from memory."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.measures.published import FROM_MEMORY_MARK
from stitchproof.sizing.sized_body import SizedBody, TableRow
from stitchproof.sizing.sized_pattern import SizedPattern

TAKEN = {
    "low": "the lower figure",
    "middle": "the middle",
    "high": "the higher figure",
}
"""What is taken of a range, for a reader."""


def body_note(sized: SizedPattern) -> Iterator[str]:
    """Paragraphs for below the table of sizes; none where the pattern names no body table. Of its rows only those in use."""
    body = sized.body
    if body is None:
        return
    used = tuple(row for row in body.rows if row.name in sized.scope.asked)
    theirs = tuple(row for row in used if not row.own)
    source = f" Source: {body.source}." if body.source else ""
    parts = [f"Body measurements: {_sentence(body.title)}.{source}", _sizes(body, sized.sizes), *_taken(theirs)]
    if len(theirs) < len(used):
        own = _listed([row.words for row in used if row.own])
        parts.append(f"The figures for {own} are the designer's own.")
    yield " ".join(filter(None, parts))
    recalled = [row for row in theirs if row.published.from_memory]
    if recalled:
        rows = _listed([_recalled_words(row) for row in recalled])
        yield (
            f"Figures marked {FROM_MEMORY_MARK} are from memory: confirm them against the published table before you rely on "
            f"them. This pattern uses such figures for {rows}."
        )


def _sentence(title: str) -> str:
    return title[:1].upper() + title[1:]


def _sizes(body: SizedBody, names: tuple[str, ...]) -> str:
    """Which size of the table each size is, where the names do not say it."""
    pairs = [f"{name} is {label}" for name, label in zip(names, body.sizes, strict=True) if name != label]
    return f"Size{'s' if len(pairs) > 1 else ''} in the table: {', '.join(pairs)}." if pairs else ""


def _taken(rows: tuple[TableRow, ...]) -> Iterator[str]:
    """One sentence for each way in which a figure was taken from ranges."""
    ways = {row.take: [each.words for each in rows if each.take == row.take] for row in rows if row.take}
    for way, measures in ways.items():
        whose = "" if len(ways) == 1 else f" for {_listed(measures)}"
        yield f"Of each range {TAKEN[way]} is taken{whose}."


def _recalled_words(row: TableRow) -> str:
    """ "waist", or "chest in cm" where only one of two columns is from memory."""
    printed = [unit for unit, figures in (("cm", row.published.cm), ("in", row.published.inches)) if any(figures)]
    only = row.published.from_memory
    return row.words if len(only) == len(printed) else f"{row.words} in {' and '.join(only)}"


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""
