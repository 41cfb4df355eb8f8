"""Values such as `after_dec(k)` at every k in use: judged once for each value, the k named."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from stitchproof.checks.wrong_counts import follows_from_wrong, is_wrong_at, value_at
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import Page
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.formulas.asked import asked_in
from stitchproof.formulas.kind import NUMBER, amount_text
from stitchproof.formulas.scope import Bound
from stitchproof.formulas.sums import worked
from stitchproof.measures.values import exact_text
from stitchproof.sizing.sized_pattern import Quantity

Fault = Callable[[Quantity, int, Fraction], str]
"""What is wrong with a value in a size, in a few words; "" where nothing is."""

_InUse = tuple[Quantity, int, tuple[tuple[Fraction, Fraction], ...]]
_last: tuple[object, tuple[_InUse, ...]] = None, ()


def faults_at_k(
    expanded: ExpandedPattern, page: Page, fault: Fault, headline: str, help_text: str
) -> Iterator[Diagnostic]:
    """One report for each value and size that has a fault at some k. headline: with the value's name for %s."""
    for quantity, size, values in _values_in_use(expanded):
        wrong = []
        for k, value in values:
            words = fault(quantity, size, value)
            if words and not _follows(quantity, size, k, expanded):
                wrong.append((k, words))
        if wrong and not follows_from_wrong(quantity, size, expanded.sized):
            yield Diagnostic(
                page,
                headline % f"`{quantity.name}({quantity.parameter})`",
                Excerpt(quantity.value_span),
                sizes=(expanded.sized.sizes[size],),
                sums=(_sum(quantity, size, wrong, expanded),),
                help=(help_text,),
            )


def _values_in_use(expanded: ExpandedPattern) -> tuple[_InUse, ...]:
    """The numbers that values come to in each size at the k in use there. Several rules ask for them, and while a pattern is
    followed the k in use are the same object for as long as its numbers are the same."""
    global _last
    held = _last
    if held[0] is not expanded.in_use:
        held = _last = expanded.in_use, tuple(_worked_out(expanded))
    return held[1]


def _worked_out(expanded: ExpandedPattern) -> Iterator[_InUse]:
    for name, by_size in expanded.in_use.items():
        quantity = expanded.sized.scope.quantities.get(name)
        if quantity:
            for size, ks in by_size.items():
                values = [(k, value_at(quantity, size, k, expanded.sized)) for k in ks]
                yield quantity, size, tuple((k, value) for k, value in values if isinstance(value, Fraction))


def is_wrong_in_use(name: str, size: int, expanded: ExpandedPattern) -> bool:
    """Whether a value that takes a k has a fault at one of those in use in a size, and so is reported for itself."""
    full = expanded.sized.scope.full_name(name)
    quantity = expanded.sized.scope.quantities.get(full)
    ks = expanded.in_use.get(full, {}).get(size, ())
    return quantity is not None and any(is_wrong_at(quantity, size, k, expanded.sized) for k in ks)


def _follows(quantity: Quantity, size: int, k: Fraction, expanded: ExpandedPattern) -> bool:
    """Whether a value at its k is worked out from another that is wrong at its own."""
    formula = quantity.start if quantity.start and k == 0 else quantity.formulas[size]
    if formula is None:
        return False
    for asked in asked_in(formula.node, Bound(expanded.sized.scope, quantity.parameter, NUMBER, k), size):
        used = expanded.sized.scope.quantities.get(expanded.sized.scope.full_name(asked.name))
        if used and asked.k is not None and is_wrong_at(used, asked.size, asked.k, expanded.sized):
            return True
    return False


def _sum(quantity: Quantity, size: int, wrong: list[tuple[Fraction, str]], expanded: ExpandedPattern) -> SumLine:
    """The first k with a fault as a sum; the others are named."""
    k, words = wrong[0]
    formula = quantity.start if quantity.start and k == 0 else quantity.formulas[size]
    scope = Bound(expanded.sized.scope, quantity.parameter, NUMBER, k)
    text = amount_text(value_at(quantity, size, k, expanded.sized), quantity.kind)
    sum_words = f"{worked(formula, scope, size)} = {text}" if formula else text
    others = ", ".join(exact_text(each) for each, _ in wrong[1:4]) + (" and more" if len(wrong) > 4 else "")
    also = f"; also at {quantity.parameter} = {others}" if others else ""
    return SumLine(
        expanded.sized.sizes[size], f"{quantity.parameter} = {exact_text(k)}: {sum_words}", note=words + also
    )
