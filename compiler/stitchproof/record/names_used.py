"""Which names a formula, a slot or a plan hangs on, in full: `body.head`, `gauges.crown.stitches`, `rates.brim_edge`."""

from __future__ import annotations

import re
from collections.abc import Iterable

from stitchproof.formulas.tree import Formula, names_in
from stitchproof.sizing.sized_pattern import PatternScope

NAME = re.compile(r"[^\W\d][\w.]*")


def used_in(formulas: Iterable[Formula | None], scope: PatternScope) -> tuple[str, ...]:
    """The full names in some formulas, in the order written, each once; words that name nothing (a k) are left out."""
    return _known((node.name for formula in formulas if formula for node in names_in(formula.node)), scope)


def used_in_text(written: str, scope: PatternScope) -> tuple[str, ...]:
    """The same for a formula of which only the text is at hand."""
    return _known(NAME.findall(written), scope)


def _known(names: Iterable[str], scope: PatternScope) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for name in names:
        full = scope.full_name(name)
        rate = full.removeprefix("rates.")
        if full in scope.quantities or full in scope.plans:
            found[full] = None
        elif rate in scope.rates or rate.rpartition(".")[0] in scope.rates:
            found[f"rates.{rate if rate in scope.rates else rate.rpartition('.')[0]}"] = None
    return tuple(found)
