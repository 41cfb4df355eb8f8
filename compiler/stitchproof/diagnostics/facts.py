"""A finding as plain data: what the JSON form holds, and all that the terminal text is made from."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from stitchproof.diagnostics.diagnostic import Alternative, Diagnostic, Excerpt, SumLine
from stitchproof.measures.units import CM_PER_INCH

FORMAT = "stitchproof-diagnostics"
VERSION = 1
LINES_SHOWN = 3
WIDTH_SHOWN = 400
Facts = dict[str, Any]


def facts_of(found: Diagnostic) -> Facts:
    """One finding: text, whole numbers, lists and maps only. Lines and columns from 1, ends exclusive."""
    return {
        "code": found.page.code,
        "name": found.page.name,
        "severity": found.severity.value,
        "headline": found.full_headline,
        "piece": found.piece,
        "row": found.row,
        "sizes": list(found.sizes),
        "primary": _excerpt(found.primary),
        "related": [_excerpt(excerpt) for excerpt in found.related],
        "sum": [_sum(line) for line in found.sums],
        "alternatives": [_alternative(alternative) for alternative in found.alternatives],
        "left_out": list(found.left_out),
        "help": list(found.help),
        "accepted": found.accepted,
        "explain": f"stitchproof explain {found.page.code}",
    }


def as_json(findings: Iterable[Facts], **more: Any) -> str:
    """The JSON form of a run's findings, given as facts. `more`: further facts of the run."""
    import json  # the form for people does without

    held = {"format": FORMAT, "version": VERSION, "diagnostics": list(findings), **more}
    return json.dumps(held, ensure_ascii=False, indent=2) + "\n"


def _excerpt(excerpt: Excerpt) -> Facts:
    span = excerpt.span
    first, first_column = span.file.line_column(span.start)
    last, last_column = span.file.line_column(span.end)
    seen = last - 1 if last > first and last_column == 1 else last  # a place that ends with its line ends on it
    shown = range(first, min(seen, first + LINES_SHOWN - 1) + 1)
    return {
        "path": span.file.path,
        "start": {"line": first, "column": first_column},
        "end": {"line": last, "column": last_column},
        "label": excerpt.label,
        "lines": [
            _line(span.file.line_text(line), line, first_column if line == first else 1)
            for line in shown
            if span.file.text
        ],
    }


def _line(text: str, number: int, column: int) -> Facts:
    """A line of the excerpt; of a very long one only the stretch around the fault, `skipped` characters in."""
    skipped = max(0, column - 1 - WIDTH_SHOWN // 2) if len(text) > WIDTH_SHOWN else 0
    return {"number": number, "skipped": skipped, "text": text[skipped : skipped + WIDTH_SHOWN]}


def _sum(line: SumLine) -> Facts:
    held: Facts = {"size": line.size, "expression": line.expression}
    if line.left is not None and line.right is not None:
        for key, number in (("left", line.left), ("right", line.right), ("remainder", line.left - line.right)):
            held[key] = _number(number)
    held["note"] = line.note
    if line.row:
        held["row"] = line.row
    return held


def _alternative(alternative: Alternative) -> Facts:
    change = alternative.change_cm
    return {
        "size": alternative.size,
        "value": alternative.value,
        "change_cm": None if change is None else _number(change),
        "change_in": None if change is None else _number(change / CM_PER_INCH),
    }


def _number(number: Fraction) -> Facts:
    return {"exact": str(number), "decimal": _decimal(number)}


def _decimal(number: Fraction) -> str:
    """Four places, worked out in whole numbers: a fraction of any length has them."""
    if number.denominator == 1:
        return str(number)
    whole, rest = divmod(abs(round(number * 10_000)), 10_000)
    return f"{'-' if number < 0 else ''}{whole}.{rest:04}"
