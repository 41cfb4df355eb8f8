"""Values such as `after(k)` are judged at the k that the text works with: once for each value, the k named."""

import pytest

from tests.expansion.unfolded import unfolded

YAML = """sizes: {names: [S, M, L]}
counts:
  sts: [40 sts, 48 sts, 60 sts]
  rnds: [3 rnds, 4 rnds, 5 rnds]
  %s
"""
LOOP = "::: for each k in 1 to %s\nRow <k>: Work as set, — <%s> sc\n:::\n"


def found(value: str, slot: str, last: str = "rnds") -> list[tuple[str, tuple[str, ...], list[str]]]:
    """Code, sizes and sums of each error of a crown or yoke that prints one value in a loop."""
    findings = unfolded(LOOP % (last, slot), YAML % value).findings
    errors = [each for each in findings if each.severity.value == "error"]
    return [(each.page.code, each.sizes, [f"{line.expression}: {line.note}" for line in each.sums]) for each in errors]


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        # A crown that runs out of stitches in the larger sizes, which have more rounds.
        (
            "f(k): sts - 13 * k",
            [
                (
                    "SP038",
                    ("M", "L"),
                    ["k = 4: 48 sts − 13 × 4 = −4 sts: below zero", "k = 5: 60 sts − 13 × 5 = −5 sts: below zero"],
                )
            ],
        ),
        ("f(k): {is: sts - 8 * k, at_least: 16}", []),
        (
            "f(k): {is: sts - 8 * k, at_least: 20}",
            [
                (
                    "SP038",
                    ("S", "M"),
                    ["k = 3: 40 sts − 8 × 3 = 16 sts: below 20 sts", "k = 4: 48 sts − 8 × 4 = 16 sts: below 20 sts"],
                )
            ],
        ),
        ("f(k): {is: sts + k, at_most: 64}", [("SP038", ("L",), ["k = 5: 60 sts + 5 = 65 sts: above 64 sts"])]),
        (
            "f(k): sts / k",
            [
                (
                    "SP001",
                    ("S",),
                    ["k = 3: 40 sts ÷ 3 = 13.33 sts: not whole"],
                )
            ],
        ),
        ("f(k): {is: sts / k, round: down}", []),
        (
            "f(k): {is: sts + 4 * k, multiple: 8}",
            [
                (
                    "SP002",
                    ("S", "M", "L"),
                    [
                        "k = 1: 40 sts + 4 × 1 = 44 sts: not a multiple of 8; also at k = 3",
                        "k = 1: 48 sts + 4 × 1 = 52 sts: not a multiple of 8; also at k = 3",
                        "k = 2: 60 sts + 4 × 2 = 68 sts: not a multiple of 8; also at k = 4",
                    ],
                )
            ],
        ),
    ],
)
def test_a_value_is_judged_at_the_k_of_its_loop(value: str, expected: object) -> None:
    assert found(value, "f(k)") == expected


def test_each_size_is_judged_at_its_own_k_only() -> None:
    """Round 5 is worked in L alone; what S would have there is nobody's business."""
    assert found("f(k): {is: sts - 10 * k, at_least: 8}", "f(k)") == []


def test_a_value_built_up_from_its_start_is_reported_where_it_first_goes_wrong() -> None:
    found_here = found("f(k): {is: f(k - 1) - 15, start: sts}", "f(k)")
    assert found_here == [
        (
            "SP038",
            ("S", "M", "L"),
            [
                "k = 3: 10 sts − 15 = −5 sts: below zero",
                "k = 4: 3 sts − 15 = −12 sts: below zero",
                "k = 5: 0 sts − 15 = −15 sts: below zero",
            ],
        )
    ]


def test_what_follows_from_a_wrong_value_stays_silent() -> None:
    values = "half(k): sts / 2 - k / 2\n  twice(k): 3 * half(k)\n  at_two: twice(1)"
    assert [each[0] for each in found(values, "twice(k)")] == ["SP001"]


def test_a_value_that_follows_from_a_wrong_count_stays_silent() -> None:
    values = "third: sts / 9\n  f(k): third - k"
    assert [each[0] for each in found(values, "f(k)")] == ["SP001"]


@pytest.mark.parametrize("slot", ["max(0, f(k))", "(f(k) if f(k) > 0 else 0)", "(1 if f(k) > 0 else 2)", "down(g(k))"])
def test_what_a_formula_bounds_rounds_or_tests_may_be_anything(slot: str) -> None:
    assert found("f(k): sts - 16 * k\n  g(k): abs(sts / 7 - k)", slot) == []


def test_a_value_asked_for_by_another_is_judged_too() -> None:
    assert found("f(k): sts - 16 * k\n  g(k): 2 * f(k) + 40", "g(k)")[0][0] == "SP038"
    assert found("f(k): sts - 16 * k\n  last: f(3) + 40", "sts")[0][:2] == ("SP038", ("S",))


def test_a_value_of_another_size_is_judged_in_that_size() -> None:
    assert found("f(k): sts - 15 * k\n  last: f(3)[S] + 40", "sts")[0][:2] == ("SP038", ("S",))


def test_a_k_handed_to_a_macro_counts() -> None:
    text = "{% macro row(n) %}\nRow <n>: Work as set. — <f(n)> sc\n{% endmacro %}\n{{ row(3) }}\n"
    errors = [each.page.code for each in unfolded(text, YAML % "f(k): sts - 16 * k").findings]
    assert "SP038" in errors


def test_a_way_of_printing_that_does_not_fit_is_one_report() -> None:
    text = "Row 1: Work as set. <sts as cm> <width as percent> — <sts> sc\n"
    yaml = "sizes: {names: [S, M]}\nmeasures: {width: 40.3 cm}\ncounts: {sts: '40.5 sts / 0.5'}\n"
    findings = unfolded(text, yaml).findings
    assert [(each.page.code, each.primary.span.text) for each in findings if each.page.code == "SP120"] == [
        ("SP120", "<sts as cm>"),
        ("SP120", "<width as percent>"),
    ]


def test_a_plan_works_with_a_value_at_its_k_too() -> None:
    """A plan that starts from a value at one k has it judged there, once, though no row prints it."""
    plan = "f(k): sts / k\nplans:\n  inc: {kind: evenly in rounds, from: f(3), times: 2, shaping: increase}"
    findings = unfolded("Row 1: Sc in each st across.\n", YAML % plan).findings
    errors = [(each.page.code, each.sizes) for each in findings if each.severity.value == "error"]
    assert errors == [("SP001", ("S",))]
