"""Runs every rule over what it reads: the first parameter of a check says which stage's value that is."""

from __future__ import annotations

import os
from collections.abc import Callable
from functools import cache
from importlib import import_module
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
    "parts",
    "pattern_lines",
    "recalled_figures",
    "row_findings",
    "shaping_sums",
    "signs_printed",
    "stitch_shapes",
    "stretches",
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


def checks_of(stage_type: str) -> tuple[Check, ...]:
    """The checks that read a stage's value, by the name of its type, in the order of the folder."""
    return _all_checks().get(stage_type, ())


@cache
def _all_checks() -> dict[str, tuple[Check, ...]]:
    """Every check, by the type of the value that it reads. The folder is the list."""
    found: dict[str, tuple[Check, ...]] = {}
    names = sorted(name[:-3] for name in os.listdir(os.path.dirname(__file__)) if name.endswith(".py"))
    for name in names:
        if name[:1].islower() and name not in NO_RULES:
            for check in getattr(import_module(f"stitchproof.checks.{name}"), "CHECKS", ()):
                stage_type = next(iter(check.__annotations__.values()))
                found[stage_type] = (*found.get(stage_type, ()), check)
    return found
