"""The worked sums of a named value: one line per size, or per k, with what decided and what the rounding did."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from stitchproof.formulas.evaluation import CannotWorkOut, value_of
from stitchproof.formulas.kind import NUMBER, amount_text
from stitchproof.formulas.scope import Bound, NoValueThere, Scope
from stitchproof.formulas.sums import decided_by, worked, worked_further
from stitchproof.formulas.tree import Amount, Call, Formula, NotWorked, names_in
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import change_text, cm_text, inch_text
from stitchproof.measures.values import Absent, Value, exact_text
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

MOST_K = 60
"""Lines of a table over k; what lies beyond is told by its last k."""
KsBySize = Mapping[int, tuple[Fraction, ...]]
DASH = "–"


def sum_lines(quantity: Quantity, sized: SizedPattern, sizes: tuple[int, ...]) -> list[str]:
    """The worked sum of a value in each size, or one for all where they are the same."""
    rows = [(sized.sizes[size], *_row(quantity, sized, size)) for size in sizes]
    if len(rows) > 1 and len({row[1:] for row in rows}) == 1:
        rows = [("all sizes", *rows[0][1:])]
    return _aligned(rows)


def sums_at_k(
    quantity: Quantity, sized: SizedPattern, sizes: tuple[int, ...], in_use: KsBySize, k: Fraction | None
) -> list[str]:
    """The same of a value that takes a k: one k worked out in each size, and a table of all k in use there.

    Of one size, every k is worked out. k: the only one asked for.
    """
    held = {size: in_use.get(size, ()) for size in sizes}
    every = sorted({each for ks in held.values() for each in ks})
    letter = quantity.parameter
    if k is not None or not every:
        shown = Fraction(1) if k is None else k
        words = "" if k is not None else f"no {letter} is in use; "
        return [f"{words}at {letter} = {exact_text(shown)}:", "", *_at(quantity, sized, sizes, shown)]
    if len(sizes) == 1:
        rows = [(f"{letter} = {exact_text(each)}", *_row_at(quantity, sized, sizes[0], each)) for each in every]
        return _cut(_aligned(rows), every, letter)
    first = next((each for each in every if each > 0 or quantity.start is None), every[0])
    example = _at(quantity, sized, tuple(size for size in sizes if first in held[size]), first)
    return [
        f"for example at {letter} = {exact_text(first)}:",
        "",
        *example,
        *table_of_k(quantity, sized, sizes, held, " in use"),
    ]


def table_of_k(
    quantity: Quantity, sized: SizedPattern, sizes: tuple[int, ...], held: KsBySize, which: str = ""
) -> list[str]:
    """The values of a quantity at every k that some size has, one column per size, under a heading that says which k."""
    letter = quantity.parameter
    every = sorted({each for ks in held.values() for each in ks})
    table = [(letter, *(sized.sizes[size] for size in sizes))]
    for each in every:
        cells = (_at_text(quantity, sized, size, each) if each in held[size] else DASH for size in sizes)
        table.append((exact_text(each), *cells))
    heading, *lines = _aligned(table)
    words = f" ({DASH} where a size does not get there)" if len(sizes) > 1 else ""
    return ["", f"every {letter}{which}{words}:", "", heading, *_cut(lines, every, letter)]


def _cut(lines: list[str], every: list[Fraction], letter: str) -> list[str]:
    more = [f"… to {letter} = {exact_text(every[-1])}"] if len(lines) > MOST_K else []
    return [*lines[:MOST_K], *more]


def _at(quantity: Quantity, sized: SizedPattern, sizes: tuple[int, ...], k: Fraction) -> list[str]:
    rows = [(sized.sizes[size], *_row_at(quantity, sized, size, k)) for size in sizes]
    if len(rows) > 1 and len({row[1:] for row in rows}) == 1:
        rows = [("all sizes", *rows[0][1:])]
    return _aligned(rows)


def _aligned(rows: Sequence[tuple[str, ...]]) -> list[str]:
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))] if rows else []
    return ["  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]


def _row(quantity: Quantity, sized: SizedPattern, size: int) -> tuple[str, str]:
    """The sum of a value in a size, and what there is to say about it."""
    formula, value, raw = quantity.formulas[size], quantity.values[size], quantity.raw[size]
    return _sum_and_words(quantity, formula, sized.scope, size, raw, value)


def _row_at(quantity: Quantity, sized: SizedPattern, size: int, k: Fraction) -> tuple[str, str]:
    formula = quantity.start if quantity.start and k == 0 else quantity.formulas[size]
    if formula is None:
        return Absent.UNKNOWN.value, ""
    scope = Bound(sized.scope, quantity.parameter, NUMBER, k)
    return _sum_and_words(
        quantity, formula, scope, size, value_of(formula.node, scope, size), _value_at(quantity, sized, size, k)
    )


def _at_text(quantity: Quantity, sized: SizedPattern, size: int, k: Fraction) -> str:
    return amount_text(_value_at(quantity, sized, size, k), quantity.kind)


def _value_at(quantity: Quantity, sized: SizedPattern, size: int, k: Fraction) -> Value:
    try:
        return sized.scope.value(quantity.name, size, k)
    except (CannotWorkOut, NoValueThere, RecursionError):
        return Absent.UNKNOWN


def _sum_and_words(
    quantity: Quantity, formula: Formula | None, scope: Scope, size: int, raw: Value, value: Value
) -> tuple[str, str]:
    by_formula = formula if formula and not isinstance(formula.node, Amount | NotWorked) else None
    decided = _in_one(decided_by(by_formula, scope, size)) if by_formula else ""
    if value is Absent.UNKNOWN and by_formula:
        return f"{worked(by_formula, scope, size)} = unknown", decided
    if not isinstance(value, Fraction) and not isinstance(value, bool):
        return value.value, decided or (_cause(by_formula, scope, size, value) if by_formula else "")
    result, before = amount_text(value, quantity.kind), amount_text(raw, quantity.kind)
    rounded = f" → {result}" if raw != value else ""
    searched = by_formula and isinstance(by_formula.node, Call) and by_formula.node.name == "largest"
    if by_formula and searched:
        return f"{worked(by_formula, scope, size)}; so {result}", ""
    steps = _steps(by_formula, scope, size, before) if by_formula else [before]
    words = [_effect(quantity, raw, value), decided]
    return " = ".join(steps) + rounded, "; ".join(each for each in words if each)


def _steps(formula: Formula, scope: Scope, size: int, result: str) -> list[str]:
    """The sum, the sum with its functions worked out, the result: each only where it says something new."""
    steps = [worked(formula, scope, size), worked_further(formula, scope, size), result]
    if steps[0].replace(" ÷ ", " per ") == result:  # a gauge, as it is counted
        return [result]
    bare = steps[1].isdecimal() and result.partition(" ")[0] == steps[1]
    kept = [steps[0], *([] if bare else [steps[1]]), result]
    return [step for number, step in enumerate(kept) if number == 0 or step != kept[number - 1]]


def _in_one(decided: tuple[str, ...]) -> str:
    """ "decided by every_row, and by 0"."""
    return "; ".join(decided).replace("; decided by ", ", and by ")


def _cause(formula: Formula, scope: Scope, size: int, value: Absent) -> str:
    """The first value of a formula for whose sake it has none."""
    for each in names_in(formula.node):
        if not scope.takes_parameter(each.name) and scope.value(each.name, size, None) is value:
            return f"as {each.name} is {value.value}"
    return ""


def _effect(quantity: Quantity, raw: Value, value: Value) -> str:
    """What the rounding did, or a length as it prints."""
    if not isinstance(value, Fraction) or not isinstance(raw, Fraction):
        return ""
    if value != raw:
        change = amount_text(abs(value - raw), quantity.kind)
        at_gauge = f", {change_text((value - raw) * quantity.cm_per_unit)}" if quantity.cm_per_unit else ""
        return f"rounding: {'+' if value > raw else '−'}{change}{at_gauge}"
    if quantity.kind.dimension == LENGTH and quantity.kind.noun in ("cm", "in", ""):
        return f"prints {cm_text(value)} cm / {inch_text(value)} in"
    return "exact" if quantity.rounding else ""
