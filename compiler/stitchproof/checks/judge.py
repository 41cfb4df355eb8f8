"""Runs every rule over what it reads: the first parameter of a check says which stage's value that is."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

from stitchproof.diagnostics.report import Report

NO_RULES = (
    "catalogue",
    "checklist",
    "child_ages",
    "child_items",
    "claim_sums",
    "contradictions",
    "counts_alike",
    "eases",
    "edge_fits",
    "grade",
    "judge",
    "k_values",
    "levers",
    "likely_causes",
    "line_places",
    "materials_lines",
    "mentions",
    "one_root",
    "openings",
    "part_sums",
    "pattern_lines",
    "printed_lines",
    "recalled_figures",
    "row_findings",
    "shaping_sums",
    "signs_printed",
    "stitch_shapes",
    "things_counted",
    "told_before",
    "typed_lengths",
    "typed_values",
    "typed_vectors",
    "wording",
    "wrong_counts",
)
"""Modules beside the rules."""
Check = Callable[[Any, Report], None]


def judge(value: object, report: Report) -> None:
    """Run all checks that read this kind of value."""
    for check in checks_of(type(value).__name__):
        check(value, report)


@cache
def checks_of(stage_type: str) -> tuple[Check, ...]:
    """The checks that read a stage's value, by the name of its type, in the order of the folder."""
    found: list[Check] = []
    for file in sorted(Path(__file__).parent.glob("[a-z]*.py")):
        rule = import_module(f"stitchproof.checks.{file.stem}") if file.stem not in NO_RULES else None
        for check in getattr(rule, "CHECKS", ()):
            if next(iter(check.__annotations__.values())) == stage_type:
                found.append(check)
    return tuple(found)
