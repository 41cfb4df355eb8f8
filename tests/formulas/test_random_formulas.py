"""Random formulas come to what a second, independent evaluation says; and dimensions never mix unseen."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.evaluation import evaluate
from stitchproof.formulas.kind import TRUTH
from stitchproof.formulas.kinds import kind_of
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import LENGTH, PLAIN, STITCHES
from tests.formulas.random_formulas import ZERO, Written, formulas, truths
from tests.formulas.small_scope import SCOPE, kind, read

DIMENSIONS = {"": PLAIN, "sts": STITCHES, "cm": LENGTH}


def assert_comes_out(written: Written) -> None:
    found = evaluate(read(written.text), SCOPE, 0)
    if written.outcome is ZERO:
        assert isinstance(found, Diagnostic), written.text
        assert found.page.name == "division-by-zero"
    else:
        assert found == written.outcome, written.text


@pytest.mark.parametrize("unit", DIMENSIONS)
@settings(max_examples=100)
@given(data=st.data())
def test_a_formula_comes_to_what_the_second_evaluation_says(unit: str, data: st.DataObject) -> None:
    written = data.draw(formulas(unit))
    assert kind(written.text).dimension == DIMENSIONS[unit]
    assert_comes_out(written)


@settings(max_examples=100)
@given(formulas("sts", absent=True))
def test_not_worked_and_unknown_spread(written: Written) -> None:
    """An absent value makes absent what is worked out from it; unknown wins over not worked, and a test can avoid both."""
    assert_comes_out(written)


@settings(max_examples=100)
@given(truths("cm"))
def test_a_test_comes_out_true_or_false(written: Written) -> None:
    assert kind(written.text) == TRUTH
    assert_comes_out(written)


@settings(max_examples=60)
@given(formulas("sts"))
def test_blanks_and_brackets_change_nothing(written: Written) -> None:
    assert_comes_out(Written(f" (\n{written.text.replace(' ', '   ')})\t", 8, written.outcome))


@settings(max_examples=60)
@given(formulas("", depth=2), formulas("sts", depth=2, absent=True))
def test_a_long_search_finds_what_a_search_candidate_by_candidate_does(factor: Written, bound: Written) -> None:
    """In a long search what does not speak of the candidate is worked out once; a search of one candidate is never long."""
    test = f"n * ({factor.text}) * 1 sts <= ({bound.text}) + 3 sts"
    alone = (evaluate(read(f"largest(n, {n}, {n}, {test})"), SCOPE, 0) for n in range(30, -1, -1))
    passed = (each for each in alone if not (isinstance(each, Diagnostic) and "no value from" in each.headline))
    wanted, found = next(passed, None), evaluate(read(f"largest(n, 0, 30, {test})"), SCOPE, 0)
    if wanted is None or isinstance(wanted, Diagnostic):
        assert isinstance(found, Diagnostic)
        assert found.page.name == (wanted.page.name if wanted else "too-much-to-work-out")
    else:
        assert found == wanted


NOUNS = ["sts", "rows", "cm", "g", "sts per 10 cm", "m per 100 g", "ribs"]
JOINED = ["{} + {}", "{} - {}", "{} < {}", "{} = {}", "min({}, {})", "max({}, 0, {})", "{} if width > 1 cm else {}"]
amounts = st.integers(1, 99)


@given(amounts, amounts, st.sampled_from(NOUNS), st.sampled_from(NOUNS), st.sampled_from(JOINED))
def test_only_like_is_joined_to_like(one: int, two: int, left: str, right: str, form: str) -> None:
    """Adding, comparing and choosing between unlike dimensions is always a fault; between like ones it never is."""
    formula = read(form.format(f"{one} {left}", f"{two} {right}"))
    found = kind_of(formula, SCOPE)
    if left == right:
        assert not isinstance(found, Diagnostic)
    else:
        assert isinstance(found, Diagnostic), formula.text
        assert found.page.name == "mixed-dimensions"


@settings(max_examples=60)
@given(formulas("sts", depth=2), formulas("cm", depth=2), st.sampled_from(["+", "-", "<", ">="]))
def test_a_slip_is_found_however_deep_it_stands(stitches: Written, length: Written, sign: str) -> None:
    """The report shows the smallest stretch that mixes: the two sides, each labelled with what it is."""
    joined = f"({stitches.text}) {sign} ({length.text})"
    text = f"abs(1 sts + {joined})" if sign in "+-" else f"hat_sts if {joined} else hat_sts"
    formula = read(text)
    assert isinstance(formula, Formula)
    found = kind_of(formula, SCOPE)
    assert isinstance(found, Diagnostic)
    assert found.page.name == "mixed-dimensions"
    assert f"({length.text})" in [excerpt.span.text for excerpt in found.related]
