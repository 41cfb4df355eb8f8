"""A formula that is too long, too deep or too wide ends in a report, never in an exception or a long wait."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.evaluation import evaluate
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.kinds import kind_of
from stitchproof.formulas.reader import DEEPEST, LONGEST, MOST_DIGITS, MOST_SIGNS, read_formula
from stitchproof.formulas.sums import worked
from stitchproof.formulas.tree import Formula
from tests.formulas.small_scope import SCOPE, cannot, refused, span_of, values


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("(" * (DEEPEST + 1) + "1" + ")" * (DEEPEST + 1), "nested too deeply"),
        ("abs(" * (DEEPEST + 1) + "1" + ")" * (DEEPEST + 1), "nested too deeply"),
        ("1 if 1 > 0 else " * (DEEPEST + 1) + "1", "nested too deeply"),
        ("(" * LONGEST, "nested too deeply"),
        ("-" * 1900 + "1", "at most 100 operators"),
        ("1" + " + 1" * (MOST_SIGNS + 1), "at most 100 operators"),
        ("1 > 0" + " and 1 > 0" * MOST_SIGNS, "at most 100 operators"),
        ("1" * (MOST_DIGITS + 1), f"at most {MOST_DIGITS} digits"),
        ("0." + "1" * MOST_DIGITS, f"at most {MOST_DIGITS} digits"),
        ("1 + 1 " * 400, f"at most {LONGEST} characters"),
    ],
)
def test_what_cannot_be_read(text: str, why: str) -> None:
    found = refused(text)
    assert found.page.name == "formula-not-readable"
    assert why in found.headline


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("*".join(["999999999999999"] * 20), "the number grows too long"),
        ("1 / " + " / ".join(["999999999999999"] * 20), "the number grows too long"),
        ("largest(n, 1, 100000, n < 3)", "wider than 10000 values"),
        ("largest(n, 1, 999999999999999, n < 3)", "wider than 10000 values"),
        ("largest(n, 1, 9000, largest(m, 1, 9000, m < 0 - n) > 0)", "no value from 1 to 9000"),
        ("largest(n, 1, 9000, largest(m, 0, 9000, m = 0 or m + n < 3) > 5000)", "too many steps"),
        ("largest(n, 1, 20, n > 30)", "no value from 1 to 20 passes the test"),
        ("largest(n, 9, 3, n > 0)", "no value from 9 to 3 passes the test"),
        ("edge_for(brim_edge, 20000 sts)", "more than 10000 stitches"),
    ],
)
def test_what_cannot_be_worked_out(text: str, why: str) -> None:
    found = cannot(text)
    assert found.page.name == "too-much-to-work-out"
    assert why in found.headline


def test_what_just_fits() -> None:
    """The bounds themselves are allowed, and every stage follows a formula that is as deep as may be."""
    deepest = "(" * (DEEPEST - 1) + "1" + ")" * (DEEPEST - 1)
    assert values(deepest) == [1, 1, 1]
    longest = "hat_sts" + " + 1" * MOST_SIGNS
    assert values(longest) == [164, 172, 180]
    assert values("-" * MOST_SIGNS + "1") == [1, 1, 1]
    assert values("1 if 1 < 0 else " * (MOST_SIGNS // 3) + "2") == [2, 2, 2]
    assert values("largest(n, 1, 10001, n = 1)") == [1, 1, 1]


SCRAPS = [
    *"()+-*/<>=,%.≤≥≠×÷−[]'\"&|^½@#$ \n\tk°\x00é🧶",
    *("0", "1", "007", "2.5", ".5", "999999999999999", "cm", "in", "sts", "ribs", "g", "per", "if", "else", "and"),
    *("or", "not", "worked", "hat_sts", "width", "crown.stitches", "after_dec", "brim_edge", "gap_sts", "no_such"),
    *("largest", "picked_up", "edge_for", "nearest", "min", "abs", "largest(n, 1, 9, ", "picked_up(brim_edge, "),
]


@settings(max_examples=400)
@given(st.lists(st.sampled_from(SCRAPS), max_size=25), st.sampled_from(["", " "]))
def test_any_text_is_a_formula_or_a_report(scraps: list[str], blank: str) -> None:
    """Whatever is typed: a report whose place lies in the text, or a value in every size."""
    text = blank.join(scraps)
    span = span_of(text)
    formula = read_formula(span)
    found = kind_of(formula, SCOPE) if isinstance(formula, Formula) else formula
    if isinstance(found, Diagnostic):
        assert found.headline
        assert found.help
        assert span.start <= found.primary.span.start <= found.primary.span.end <= span.end
    elif isinstance(found, Kind) and isinstance(formula, Formula):
        for size in range(3):
            evaluate(formula, SCOPE, size)
            assert worked(formula, SCOPE, size)
