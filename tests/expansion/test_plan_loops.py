"""Loops over a plan: k from 1 to the largest over the sizes, each round for the sizes that still have it."""

import pytest

from tests.expansion.unfolded import clean, unfolded

YAML = (
    "sizes: {names: [S, M, L]}\n"
    "counts:\n"
    "  hat_sts: {by_hand: [16, 24, 32], unit: sts}\n"
    "  often: [2 times, not worked, 3 times]\n"
    "  odd_sts: {by_hand: [16, 25, 32], unit: sts}\n"
    "plans:\n"
    "  crown_dec: {kind: crown, from: hat_sts, sections: 8}\n"
    "  side: {kind: two rates, times: often, rows: 20, worked: rounds}\n"
    "  holes: {kind: buttonholes, along: 30, holes: 3, width: 2, below: 3, above: 3}\n"
    "  inc: {kind: evenly in rounds, from: hat_sts, times: 4, shaping: increase}\n"
)
BROKEN = YAML + "  odd_dec: {kind: crown, from: odd_sts, sections: 8}\n"


def test_a_crown_counts_its_decrease_rounds() -> None:
    """16, 24 and 32 stitches in eights: 1, 2 and 3 rounds."""
    text = "::: for each dec rnd of crown_dec\nDec Rnd <k>: a <crown_dec.after(k)>.\n:::\nRow: b\n"
    assert clean(text, YAML).piece == [
        "Dec Rnd <1,1,1>:|[SML]none: a <8,16,24>.",
        "[ML]only {Dec Rnd <·,2,2>:|[ML]none: a <·,8,16>.}",
        "[L]only {Dec Rnd <·,·,3>:|[L]none: a <·,·,8>.}",
        "Row:|[SML]none: b",
    ]


def test_a_size_that_works_none_is_left_out() -> None:
    text = "::: for each inc rnd of side\nRnd <side.row(k)>: a.\n:::\n"
    assert clean(text, YAML).piece == [
        "[SL]only {Rnd <1,·,1>:|[SL]none: a.}",
        "[SL]only {Rnd <11,·,7>:|[SL]none: a.}",
        "[L]only {Rnd <·,·,14>:|[L]none: a.}",
    ]


@pytest.mark.parametrize("what", ["hole", "buttonhole", "k", "each_one"])
def test_what_a_k_may_be_called(what: str) -> None:
    """What the plan makes, or a counter of the designer's own."""
    k = what if what == "each_one" else "k"
    found = clean(f"::: for each {what} of holes\nRow <{k}>: from st <holes.start({k})>.\n:::\n", YAML)
    assert [step.identity for step in found.steps] == [f"piece/Row/{k}={number}" for number in (1, 2, 3)]


@pytest.mark.parametrize(
    ("loop", "shown"),
    [
        ("for each inc rnd of crown_dec", "inc rnd"),
        ("for each dec row of side", "dec row"),
        ("for each row of holes", "row"),
        ("for each k of inc", "inc"),
        ("for each k of hat_sts", "hat_sts"),
        ("for each dec rnd of crown", "crown"),
    ],
)
def test_a_loop_that_does_not_fit(loop: str, shown: str) -> None:
    """Reported once, at the word that is wrong."""
    found = unfolded(f"::: {loop}\nRow: a.\n:::\n", YAML).findings
    assert [(each.page.code, each.primary.span.text) for each in found if each.page.code == "SP083"] == [
        ("SP083", shown)
    ]


def test_the_loop_of_a_plan_that_cannot_be_made_is_silent() -> None:
    """The plan is reported; its round is kept in the size that has none, and nothing else is said."""
    found = unfolded("::: for each dec rnd of odd_dec\nRow <k>: a <odd_dec.after(k)>.\n:::\n", BROKEN)
    assert [(each.page.code, each.sizes) for each in found.findings] == [("SP080", ("M",))]
