"""Runs every rule over what it reads: the first parameter of a check says which stage's value that is."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from typing import Any

import stitchproof.checks
from stitchproof.diagnostics.report import Report

Check = Callable[[Any, Report], None]


def judge(value: object, report: Report) -> None:
    """Run all checks that read this kind of value."""
    for check in checks_of(type(value).__name__):
        check(value, report)


@cache
def checks_of(stage_type: str) -> tuple[Check, ...]:
    """The checks that read a stage's value, by the name of its type, in the order of the folder."""
    found: list[Check] = []
    for module in iter_modules(stitchproof.checks.__path__):
        rule = import_module(f"stitchproof.checks.{module.name}")
        for check in getattr(rule, "CHECKS", ()):
            first = next(iter(inspect.signature(check).parameters.values()))
            if first.annotation == stage_type:
                found.append(check)
    return tuple(found)
