"""Values that take a number in brackets, among them those that go on from the value before."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.measures.values import Absent
from stitchproof.sizing.sized_pattern import MOST_STEPS_BACK
from tests.sizing.written_pattern import faultless, sized


def whole(*numbers: int | str) -> tuple[Fraction, ...]:
    return tuple(Fraction(number) for number in numbers)


def test_a_value_at_a_number() -> None:
    found = faultless("""
        counts:
          hat: [64 sts, 72 sts]
          after(k): hat - 8 * k
          left: after(3)
          half: after(0.5)
    """)
    assert found.values("left") == whole(40, 48)
    assert found.values("half") == whole(60, 68)
    assert found.quantity("after").values == ()
    assert found.quantity("after").parameter == "k"


@given(st.integers(0, 40), st.integers(0, 60), st.integers(1, 9), st.integers(0, 9))
def test_step_by_step_against_a_loop(last: int, start: int, more: int, every: int) -> None:
    """Add `more`, and twice that on every third step: the same loop by hand."""
    found = faultless(f"""
        counts:
          yoke(k): {{is: yoke(k - 1) + (2 * {more} sts if down(k / 3) * 3 = k else {more} sts) + {every}, start: {start} sts}}
          end: yoke({last})
    """)
    by_hand = start
    for k in range(1, last + 1):
        by_hand += (2 * more if k % 3 == 0 else more) + every
    assert found.values("end") == whole(by_hand, by_hand)


@pytest.mark.parametrize("last", [1_000, MOST_STEPS_BACK])
def test_thousands_of_steps(last: int) -> None:
    """No step calls the one before it: the depth of the machine's stack has no part in it."""
    found = faultless(f"counts:\n  f(k): {{is: f(k - 1) + 2 sts, start: 5 sts}}\n  end: f({last})\n")
    assert found.values("end") == whole(5 + 2 * last, 5 + 2 * last)


def test_every_step_is_rounded_if_it_says_so() -> None:
    found = faultless("""
        counts:
          third(k): {is: 10 sts / 3 * k, round: nearest}
          by_four(k): {is: 10 sts / 3 * k, round: up, multiple: 4}
          halved(k): {is: halved(k - 1) / 2, start: 25 sts, round: down}
          a: third(2)
          b: by_four(2)
          c: halved(2)
    """)
    assert [found.values(name)[0] for name in "abc"] == list(whole(7, 8, 6))


def test_one_rule_per_size() -> None:
    found = faultless("counts:\n  f(k): [10 sts - k, 20 sts - 2 * k]\n  a: f(3)\n")
    assert found.values("a") == whole(7, 14)


def test_not_worked_spreads_from_step_to_step() -> None:
    found = faultless("counts:\n  s: [4 sts, not worked]\n  f(k): {is: f(k - 1) + 1, start: s}\n  a: f(3)\n")
    assert found.values("a") == (Fraction(7), Absent.NOT_WORKED)


@pytest.mark.parametrize(
    ("yaml", "fault"),
    [
        ("f(k): {is: f(k - 1) + 1, start: 3 sts}\n  a: f(-1)", ("function-used-wrongly", "f(-1)")),
        ("f(k): {is: f(k - 1) + 1, start: 3 sts}\n  a: f(1 / 2)", ("function-used-wrongly", "f(1 / 2)")),
        ("f(k): {is: f(k - 1) + 1, start: 3 sts}\n  a: f(5001)", ("function-used-wrongly", "f(5001)")),
        ("gap(k): 40 sts / k\n  a: gap(0)\n  b: gap(0) + a", ("division-by-zero", "k")),
        ("f(k): {is: f(k - 1) / (3 - k), start: 60 sts}\n  a: f(3)\n  b: f(9)", ("division-by-zero", "(3 - k)")),
        (
            "f(k): {is: f(k - 1) * f(k - 1) / 1 st, start: 3 sts}\n  a: f(60)",
            ("too-much-to-work-out", "f(k - 1) * f(k - 1)"),
        ),
        ("f(k): {is: f(k - 1) + 4 cm, start: 60 sts}\n  a: f(3)", ("mixed-dimensions", "f(k - 1) + 4 cm")),
        ("f(k): {is: 4 rows * k, start: 60 sts}\n  a: f(3)", ("mixed-dimensions", "4 rows * k")),
        ("f(k): {is: f(k - 1) + 4 sts, start: 6 cm > 2 cm}\n  a: f(3)", ("mixed-dimensions", "6 cm > 2 cm")),
        ("f(k): {is: 3 + k, unit: in}\n  a: f(3)", ("missing-unit", "3 + k")),
        ("f(k): 4 sts * k\n  a: f + 1", ("function-used-wrongly", "f")),
    ],
)
def test_a_fault_on_the_way_is_reported_once(yaml: str, fault: tuple[str, str]) -> None:
    """At the rule that has it, or at the call that asks for what is not there; never a silent gap in the text."""
    found = sized(f"counts:\n  {yaml}\n")
    assert [each[:2] for each in found.faults] == [fault]
    assert found.findings[0].sizes == ("S", "M")


def test_a_fault_in_one_size() -> None:
    found = sized("counts:\n  n: [2 sts, 0 sts]\n  f(k): {is: 40 sts * k / n * 1 st, round: up}\n  a: f(3)\n")
    assert found.faults == [("division-by-zero", "n", ("M",))]
    assert found.values("a") == (Fraction(60), Absent.UNKNOWN)


def test_shared_work_is_done_once() -> None:
    """Thirty rules, each of which uses the one before twice: a thousand million evaluations, were they not kept."""
    rules = "".join(f"  f{n}(k): f{n - 1}(k) + f{n - 1}(k)\n" for n in range(1, 31))
    found = faultless(f"counts:\n  f0(k): 1 st * k\n{rules}  a: f30(1)\n")
    assert found.values("a") == whole(2**30, 2**30)


@pytest.mark.parametrize(
    "yaml",
    [
        "  f0(k): 1 st * k\n" + "".join(f"  f{n}(k): f{n - 1}(k) + 1\n" for n in range(1, 400)) + "  a: f399(1)\n",
        "  f(k): largest(n, 1 st, 9000 sts, n * k <= 9000 sts or n = 1)\n"
        "  a: largest(n, 1 st, 9000 sts, f(n / 1 st) > 9000 sts or n = 1 st)\n",
    ],
)
def test_too_much_work_ends_in_a_report(yaml: str) -> None:
    """A chain of four hundred rules; a wide search within a wide search."""
    found = sized(f"counts:\n{yaml}")
    assert {fault[0] for fault in found.faults} == {"too-much-to-work-out"}
    assert found.values("a") == (Absent.UNKNOWN, Absent.UNKNOWN)
