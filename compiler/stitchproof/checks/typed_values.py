"""Values typed by hand that a formula contradicts: which sum gives them, the report, and the value that would do."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.checks.claim_sums import number_text, side_text
from stitchproof.checks.contradictions import contradicts, print_alike
from stitchproof.checks.wrong_counts import (
    follows_from_wrong,
    is_fraction,
    is_off_its_multiple,
    term_follows_from_wrong,
)
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, Proposal, SumLine
from stitchproof.diagnostics.page import Page
from stitchproof.formulas.tree import names_in
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.print_grid import change_text, on_cm_grid, on_inch_grid
from stitchproof.measures.units import CM_PER_INCH, UNITS
from stitchproof.measures.values import rounded_text
from stitchproof.sizing.sized_claims import SizedExpectation
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern

ROW_NUMBERS = ("rows", "rounds", "rows_per_rib")
"""The numbers of a gauge that give lengths; its stitches give widths."""
Contradiction = tuple[Quantity, SizedExpectation, int]


def contradictions(sized: SizedPattern) -> Iterator[Contradiction]:
    """Each typed value, its expectation and the size in which it is another; not where one of its numbers is reported itself."""
    for expectation in sized.claims.expectations:
        quantity = sized.scope.quantities[expectation.name]
        for size in range(len(sized.sizes)):
            if contradicts(quantity, expectation, size) and not _is_caused(quantity, expectation, size, sized):
                yield quantity, expectation, size


def _is_caused(quantity: Quantity, expectation: SizedExpectation, size: int, sized: SizedPattern) -> bool:
    """Whether one of its numbers is reported for itself. What hangs on the typed value in turn is no cause of it."""
    if is_fraction(quantity, size) or is_off_its_multiple(quantity, size) or follows_from_wrong(quantity, size, sized):
        return True
    used = _hangs_on(expectation, sized)
    held = {each.name: each for each in sized.claims.expectations if each.name in used}
    if quantity.name in used or any(quantity.name in _hangs_on(each, sized) for each in held.values()):
        return False
    return term_follows_from_wrong((expectation.expected,), size, sized)


def _hangs_on(expectation: SizedExpectation, sized: SizedPattern) -> list[str]:
    """Every name that the formula of an expectation hangs on, the nearest first."""
    if expectation.expected is None:
        return []
    waiting = [sized.scope.full_name(node.name) for node in names_in(expectation.expected.formula.node)]
    seen: dict[str, None] = {}
    while waiting:
        name = waiting.pop(0)
        if name not in seen:
            seen[name] = None
            quantity = sized.scope.quantities.get(name)
            waiting += quantity.inputs if quantity else ()
    return list(seen)


def is_by_rows(expectation: SizedExpectation, sized: SizedPattern) -> bool:
    """Whether the nearest gauge that gives a length is one of rows: then it runs along the piece, and not across."""
    numbers = (name.rpartition(".")[2] for name in _hangs_on(expectation, sized) if name.startswith("gauges."))
    return next(numbers, "") in ROW_NUMBERS


def contradiction(page: Page, found: Contradiction, what: str, help_text: str, sized: SizedPattern) -> Diagnostic:
    """The sum, by how much the typed value is off, and the value that the formula gives, to be tried. what: what it should be."""
    quantity, expectation, size = found
    value, expected = quantity.values[size], expectation.expected
    wanted = expected.at(size) if expected else None
    typed = value if isinstance(value, Fraction) else Fraction(0)
    proposal = None if wanted is None else _proposal(quantity, size, typed, wanted)
    return Diagnostic(
        page,
        f"{quantity.name} is not the {what}",
        Excerpt(quantity.value_span, "typed here"),
        sizes=(sized.sizes[size],),
        related=(Excerpt(expected.formula.span, "this gives another value"),) if expected else (),
        sums=(
            SumLine(
                sized.sizes[size],
                f"{side_text(expected.formula.node, sized.scope, size)}, not {number_text(typed, quantity.kind)}"
                if expected
                else number_text(typed, quantity.kind),
                typed,
                wanted,
                _note(found, typed, wanted, sized),
            ),
        ),
        proposals=(proposal,) if proposal else (),
        help=(help_text,),
    )


def _note(found: Contradiction, typed: Fraction, wanted: Fraction | None, sized: SizedPattern) -> str:
    """What the number looks like: the value of a size beside it, or one that the column in inches does not share."""
    quantity, expectation, size = found
    if quantity.kind.dimension != LENGTH or wanted is None:
        return ""
    notes = [change_text(typed - wanted)]
    inches = expectation.inches[size] if expectation.inches else None
    if isinstance(inches, Fraction) and print_alike(inches, wanted, in_inches=True):
        notes.append(f"the column in inches, {rounded_text(inches / CM_PER_INCH)} in, agrees")
    near = (size - 1, size + 1)
    for other in near:
        value = expectation.expected.at(other) if expectation.expected and 0 <= other < len(sized.sizes) else None
        if value is not None and print_alike(value, typed, in_inches=quantity.kind.noun == "in"):
            notes.append(f"it is the value of size {sized.sizes[other]}")
    return "; ".join(notes)


def _proposal(quantity: Quantity, size: int, typed: Fraction, wanted: Fraction) -> Proposal | None:
    """The value as it would be typed: a length as it prints, a count only where it is whole."""
    dimension, noun = quantity.kind.dimension, quantity.kind.noun
    unit = UNITS[noun or "cm"].size if dimension in (LENGTH, WEIGHT) else Fraction(1)
    value = wanted / unit
    if dimension == LENGTH:
        value = on_inch_grid(wanted) if noun == "in" else on_cm_grid(wanted) / unit
    elif value.denominator != 1:
        return None
    change = unit if dimension == LENGTH else quantity.cm_per_unit
    below, above = ((value,), ()) if value < typed / unit else ((), (value,))
    return Proposal(
        quantity.name, size, noun or ("cm" if dimension == LENGTH else ""), typed / unit, below, above, change
    )
