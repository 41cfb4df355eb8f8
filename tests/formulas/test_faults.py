"""What a fault of a formula points at, and what it offers."""

import pytest

from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import finding_text
from stitchproof.source import SourceFile, Span
from tests.formulas.small_scope import cannot, refused, refused_at


@pytest.mark.parametrize(
    ("text", "shown", "headline"),
    [
        ("10 sts +", "", "this formula cannot be read: the formula ends where a value should follow"),
        ("", "", "this formula cannot be read: the formula ends where a value should follow"),
        ("hat_sts sts", "sts", "this formula cannot be read: `sts` does not follow on `hat_sts`"),
        ("3 crown.stitches", "crown.stitches", "this formula cannot be read: `crown.stitches` does not follow on `3`"),
        ("(hat_sts + 1", "", "this formula cannot be read: `)` is missing to close the bracket"),
        ("max(1, 2", "", "this formula cannot be read: `)` is missing to close `max(`"),
        ("1 if 2 > 1", "", "this formula cannot be read: `else` is missing after the test"),
        ("1 < 2 < 3", "<", "this formula cannot be read: a test compares two values only"),
        ("16 sts per hat_sts", "hat_sts", "this formula cannot be read: `per` needs a length or a noun after it"),
        ("16 sts per 0 cm", "", "this formula cannot be read: `per` needs a length or a noun after it"),
        ("hat_sts ^ 2", "^", "this formula cannot be read: `^` has no meaning in a formula"),
        ("15½ in", "½", "this formula cannot be read: `½` has no meaning in a formula"),
        ("not not 1 = 1", "not", "this formula cannot be read: `not` stands where a value should"),
        ("hat_stz + 1", "hat_stz", "`hat_stz` is not a name of this pattern"),
        ("abs(crown.stiches)", "crown.stiches", "`crown.stiches` is not a name of this pattern"),
        ("neerest(2.5)", "neerest", "`neerest` is not a name of this pattern"),
        ("picked_up(brim_egde, 4 ribs)", "brim_egde", "`brim_egde` is not a name of this pattern"),
        ("2 * (width + hat_sts)", "(width + hat_sts)", "`(width + hat_sts)` mixes length with stitches"),
        ("(width + 1) * 2", "1", "`1` stands beside a length and needs a unit: 1 what?"),
        ("yarn > 50", "50", "`50` stands beside a weight and needs a unit: 50 what?"),
        ("(hat_sts > 1) + 2", "(hat_sts > 1)", "`(hat_sts > 1)` is a test, and stands where a number should"),
        ("1 if hat_sts else 2", "hat_sts", "`hat_sts` is a number, and stands where a test should"),
        ("not hat_sts", "hat_sts", "`hat_sts` is a number, and stands where a test should"),
        ("brim_edge + 1", "brim_edge", "`brim_edge` is a rate, not a number"),
        ("picked_up(hat_sts, 3)", "hat_sts", "`hat_sts` is not a rate"),
        (
            "picked_up(brim_edge, 3 rows)",
            "picked_up(brim_edge, 3 rows)",
            "`picked_up(brim_edge, 3 rows)` mixes ribs with rows",
        ),
        ("after_dec + 1", "after_dec", "`after_dec` takes a number in brackets"),
        ("hat_sts(3)", "hat_sts(3)", "`hat_sts` takes nothing in brackets"),
        ("after_dec(1, 2)", "after_dec(1, 2)", "`after_dec` takes one whole number"),
        ("after_dec(3 cm)", "after_dec(3 cm)", "`after_dec` takes one whole number"),
        ("nearest()", "nearest()", "`nearest` has no values in its brackets"),
        ("abs(1, 2)", "abs(1, 2)", "`abs` has 2 values in its brackets"),
        ("max(1)", "max(1)", "`max` has 1 value in its brackets"),
        ("largest(hat_sts, 1, 2, 1 > 0)", "hat_sts", "`largest` begins with a name of its own, such as n"),
        ("largest(3, 1, 2, 1 > 0)", "3", "`largest` begins with a name of its own, such as n"),
    ],
)
def test_the_smallest_text_that_shows_the_fault(text: str, shown: str, headline: str) -> None:
    found = refused(text)
    assert found.headline == headline
    assert found.primary.span.text == shown
    if not shown:
        assert found.primary.span.start == len(text)


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("hat_stz", "write `hat_sts`"),
        ("brim.stss", "write `brim.sts`"),
        ("crown.stiches", "write `crown.stitches`"),
        ("crown_rounds", "write `crown.rounds`"),
        ("neerest(1)", "write `nearest`"),
        ("after_decs(1)", "write `after_dec`"),
        ("brim_egde", "write `brim_edge`"),
        ("15½ in", "write it with a point, 15.5 for 15½"),
        ("hat_sts²", "write the product out, `a * a`"),
        ("[1, 2]", "in a formula use round brackets; a list of one value per size stands alone"),
        ("zzz", "add it to pattern.yaml, or write a name that is there"),
    ],
)
def test_the_right_form_is_offered(text: str, offered: str) -> None:
    assert refused(text).help == (offered,)


@pytest.mark.parametrize(
    ("text", "whole", "divisor"),
    [
        ("3 + (hat_sts + 1) / (hat_sts - 64)", "(hat_sts + 1) / (hat_sts - 64)", "(hat_sts - 64)"),
        ("(1 + 2) * 3 / 0", "(1 + 2) * 3 / 0", "0"),
    ],
)
def test_a_quotient_is_shown_with_its_brackets(text: str, whole: str, divisor: str) -> None:
    found = cannot(text)
    assert found.headline == f"`{whole}` divides by zero"
    assert found.primary.span.text == divisor


BEFORE = [
    ("Größe: ", 7),
    ("cafe\u0301 🧶: ", 9),
    ("🧶🧶 é: ", 8),
    ("編み目: ", 8),
]
"""A text that stands before a fault on its line, and the terminal columns that it takes.

An accented letter takes one column whether it is one character or two, an emoji and an East Asian character take two.
Source: Unicode Standard Annex 11, East Asian Width; the combining mark from the Unicode Character Database.
"""


@pytest.mark.parametrize(("before", "columns"), BEFORE)
def test_the_caret_stands_below_the_fault(before: str, columns: int) -> None:
    """Columns are counted in characters, the caret is set in terminal columns: both exact after é and an emoji."""
    text = f"title: Hat\n{before}10 sts + hat_stz * 2\n"
    file = SourceFile("pattern.yaml", text)
    start = text.index("10 sts")
    found = refused_at(Span(file, start, len(text) - 1))
    shown = facts_of(found)["primary"]
    fault = len(before) + len("10 sts + ")
    assert shown["start"] == {"line": 2, "column": fault + 1}
    assert shown["end"] == {"line": 2, "column": fault + 1 + len("hat_stz")}
    caret = next(line for line in finding_text(facts_of(found)).splitlines() if "^" in line)
    assert caret.index("^") == len("2 | ") + columns + len("10 sts + ")
    assert caret.count("^") == len("hat_stz")
