"""A formula as a worked sum: each name by its value in the size, brackets only where they are needed."""

import pytest

from stitchproof.formulas.evaluation import evaluate
from stitchproof.formulas.sums import worked
from tests.formulas.small_scope import SCOPE, read


@pytest.mark.parametrize(
    ("text", "size", "words"),
    [
        ("width * crown.stitches", 0, "40 cm × 16 sts per 10 cm"),
        ("body_rnds / crown.rounds", 1, "7 rnds ÷ (12 rnds per 10 cm)"),
        ("hat_sts - 8 * (2 + 1)", 0, "64 sts − 8 × (2 + 1)"),
        ("(hat_sts - 8) * 2", 0, "(64 sts − 8) × 2"),
        ("(hat_sts) + ((3 sts))", 0, "64 sts + 3 sts"),
        ("hat_sts - (brim.sts - 1)", 0, "64 sts − (8 sts − 1)"),
        ("hat_sts - -3 sts", 0, "64 sts − (−3 sts)"),
        ("hat_sts / (2 * 4)", 0, "64 sts ÷ (2 × 4)"),
        ("hat_sts * 50%", 0, "64 sts × 50%"),
        ("yarn * 220 m per 100 g", 0, "45 g × 220 m per 100 g"),
        ("nearest(width * crown.stitches, 8)", 1, "nearest(45.5 cm × 16 sts per 10 cm, 8)"),
        ("picked_up(brim_edge, ribs_in_all)", 0, "12 × 5 sts + 1 × 2 sts"),
        ("picked_up(brim_edge, ribs_in_all)", 2, "16 × 5 sts"),
        ("picked_up(plain_edge, 42 ribs)", 0, "42 ribs × 9 sts ÷ 4 ribs"),
        ("edge_for(brim_edge, hat_sts)", 0, "edge for 64 sts at 5 sts per 2 ribs"),
        ("after_dec(3) - 1", 1, "48 sts − 1"),
        ("hat_sts if width > 45 cm else brim.sts", 0, "8 sts"),
        ("hat_sts if width > 45 cm else brim.sts", 1, "72 sts"),
        ("hat_sts if width > 45 cm else not worked", 0, "not worked"),
        ("gap_sts + 1", 1, "not worked + 1"),
        ("hat_sts > 3 and not brim.sts >= 9", 0, "64 sts > 3 and not 8 sts ≥ 9"),
        (
            "largest(n, 1 ribs, 200 ribs, picked_up(brim_edge, n) <= hat_sts)",
            0,
            "at 25 ribs 62 sts ≤ 64 sts; at 26 ribs 65 sts > 64 sts",
        ),
        ("largest(n, 1 ribs, 3 ribs, n < 9)", 0, "at 3 ribs 3 ribs < 9"),
        ("largest(n, 1, 9, n < 3 or n < 2)", 0, "at 2 it holds; at 3 it does not"),
    ],
)
def test_a_worked_sum(text: str, size: int, words: str) -> None:
    assert worked(read(text), SCOPE, size) == words


@pytest.mark.parametrize(
    "text",
    [
        "width * crown.stitches - 2",
        "hat_sts - 8 * (2 + 1)",
        "hat_sts - (brim.sts - 1)",
        "hat_sts / (2 * 4) - (1 - -3)",
        "-(hat_sts - 1) * 2 + hat_sts / 4 * 3",
        "yarn * 220 m per 100 g / 2",
        "2 * width - (width - 1 cm) if hat_sts > 64 else 4 in",
    ],
)
@pytest.mark.parametrize("size", [0, 1, 2])
def test_a_worked_sum_is_a_formula_that_comes_to_the_same(text: str, size: int) -> None:
    """What a designer can check with a calculator: the sum, read as a formula, gives the value."""
    formula = read(text)
    again = read(worked(formula, SCOPE, size))
    assert evaluate(again, SCOPE, size) == evaluate(formula, SCOPE, size)
