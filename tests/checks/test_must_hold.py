"""What must hold, against sums done another way: shapings row by row, worked examples of the trade, and values that are offered.

The worked examples are common practice, no source; their numbers are invented, and worked out beside them by hand.
"""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.page import Example
from stitchproof.sizing.claims import USUAL_STRETCH
from tests.checks.smallest_pattern import write_example

STEPS = st.lists(st.tuples(st.integers(1, 6), st.integers(0, 8)), min_size=1, max_size=3)
FEW = settings(max_examples=40, deadline=None)


@FEW
@given(STEPS, st.integers(0, 4), st.integers(-3, 3), st.integers(-3, 3), st.sampled_from([-2, -1, 1, 3]))
def test_a_shaping_is_judged_as_if_worked_row_by_row(
    steps: list[tuple[int, int]], first: int, too_many: int, rows_over: int, each: int
) -> None:
    """The rows are gone through one by one, and the changes counted on the way; first = 0: no `first_on`."""
    rows = [first] if first else []
    for every, times in steps:
        for _ in range(times):
            rows.append((rows[-1] if rows else 0) + every)
    changes = len(rows)
    end = 200 + each * (changes + too_many)
    within = max((rows[-1] if rows else 0) + rows_over, 0)
    then = ", ".join(f"{{every: {every} rows, times: {times}}}" for every, times in steps)
    first_on = f"first_on: {first} rows, " if first else ""
    found = _checked(
        f"must_hold:\n  - {{shaping: edge, from: 200 sts, to: {end} sts, each: {each} sts, {first_on}"
        f"then: [{then}], within: {within} rows}}\n"
    )
    runs_past = bool(rows) and rows[-1] > within
    expected = "SP088" if runs_past else "SP087" if too_many else ""
    assert [each.page.code for each in found.findings] == ([expected] if expected else [])


@FEW
@given(st.lists(st.tuples(st.integers(1, 3), st.integers(20, 60)), min_size=2, max_size=4), st.integers(-5, 5))
def test_parts_make_a_whole_exactly_when_they_add_up(parts: list[tuple[int, int]], off: int) -> None:
    """A fault shows the difference; each value offered, put in, is right to the stitch."""
    whole = sum(times * value for times, value in parts) + off
    counts = "".join(f"  p{index}: {value} sts\n" for index, (_, value) in enumerate(parts))
    listed = ", ".join(f"{times} * p{index}" for index, (times, _) in enumerate(parts))
    yaml = f"counts:\n{counts}  whole: {whole} sts\nmust_hold:\n  - {{parts: [{listed}], make: whole}}\n"
    found = _checked(yaml).findings
    assert bool(found) == bool(off)
    for line in found[0].sums if found else ():
        assert line.left is not None and line.right is not None
        assert line.left - line.right == -off
    for offer in found[0].alternatives if found else ():
        name, value, _ = offer.value.split()
        index = None if name == "whole" else int(name.removeprefix("p"))
        total = sum(times * (int(value) if at == index else held) for at, (times, held) in enumerate(parts))
        assert total == (int(value) if index is None else whole)


@FEW
@given(
    st.lists(st.tuples(st.integers(1, 5), st.integers(0, 6)), min_size=1, max_size=3),
    st.lists(st.tuples(st.integers(1, 5), st.integers(0, 6)), min_size=1, max_size=3),
)
def test_two_sides_are_alike_exactly_when_their_rows_are(
    one: list[tuple[int, int]], two: list[tuple[int, int]]
) -> None:
    """Written in other steps the same rows are the same shaping."""
    sides = []
    for name, steps in (("left", one), ("right", two)):
        then = ", ".join(f"{{every: {every} rows, times: {times}}}" for every, times in steps)
        changes = sum(times for _, times in steps)
        mirrors = ", mirrors: right" if name == "left" else ""
        sides.append(f"  - {{shaping: {name}, from: {changes} sts, to: 0 sts, each: -1 st, then: [{then}]{mirrors}}}\n")
    found = _checked("must_hold:\n" + "".join(sides)).findings
    assert [each.page.code for each in found] == ([] if _rows(one) == _rows(two) else ["SP089"])


def _rows(steps: list[tuple[int, int]]) -> list[int]:
    rows = [0]
    for every, times in steps:
        rows += [rows[-1] + every * number for number in range(1, times + 1)]
    return rows


NECKS = {
    "a mesh edge: 91 sts at 18 are 50.56 cm, × 1.15 = 58.1": ("91 sts / 18 sts per 10 cm", "mesh", False),
    "a round of sc: 82 sts at 16 are 51.25 cm, × 1.05 = 53.8": ("82 sts / 16 sts per 10 cm", "firm sc", True),
    "a round of sc: 90 sts at 16 are 56.25 cm, × 1.05 = 59.1": ("90 sts / 16 sts per 10 cm", "firm sc", False),
    "a rib of 45 ribs, 2 rows each, at 18 rows: 50 cm, × 1.35 = 67.5": ("90 rows / 18 rows per 10 cm", "rib", False),
    "43 cm of rib, × 1.35 = 58.05": ("43 cm", "rib", False),
    "42 cm of rib, × 1.35 = 56.7": ("42 cm", "rib", True),
}
"""The line of the neck, what it is made of, and whether a head of 56 cm, with 1 cm to spare, is stopped."""


@pytest.mark.parametrize("name", NECKS)
def test_necks_over_a_head_of_56_cm(name: str) -> None:
    line, of, is_tight = NECKS[name]
    found = _checked(f"body: {{head: 56 cm}}\nmust_hold:\n  - {{opening: {line}, of: {of}, over: head}}\n").findings
    assert [each.page.code for each in found] == (["SP090"] if is_tight else [])


def test_room_to_spare_at_the_head() -> None:
    """1 cm where nothing is said; a designer may say none. An arm needs none unless she says so."""
    tight = "body: {head: 56 cm, arm: 56 cm}\nmust_hold:\n  - {opening: 56 cm, stretch: 1, over: "
    assert [each.page.code for each in _checked(tight + "head}\n").findings] == ["SP090"]
    assert not _checked(tight + "head, spare: 0 cm}\n").findings
    assert not _checked(tight + "arm}\n").findings
    assert [each.page.code for each in _checked(tight + "arm, spare: 5 mm}\n").findings] == ["SP091"]


def test_what_is_not_said_of_an_edge_is_taken_from_the_stiffest() -> None:
    """Nothing said of it: it is taken for firm sc, and the report says so."""
    assert min(USUAL_STRETCH, key=lambda of: USUAL_STRETCH[of]) == "firm sc"
    found = _checked("body: {head: 56 cm}\nmust_hold:\n  - {opening: 54 cm, over: head}\n").findings
    assert "taken to stretch 1.05 times, as firm sc usually does" in found[0].help[0]


CAPS = {17: ("27.4 cm", False), 18: ("28.2 cm", False), 19: ("29 cm", True), 21: ("31 cm", True)}
"""Rows of a sleeve cap, the length of its edge, and whether it does not fit an armhole of 27.6 cm: −0.7, +2.2, +5.1, +12.3 %."""


@pytest.mark.parametrize("rows", CAPS)
def test_caps_in_an_armhole(rows: int) -> None:
    """From 1 % shorter to 5 % longer is usual; a woven fabric that eases in more may say so."""
    edge, is_off = CAPS[rows]
    found = _checked(f"must_hold:\n  - {{edge: {edge}, meets: 27.6 cm}}\n").findings
    assert [each.page.code for each in found] == (["SP095"] if is_off else [])
    assert not _checked(f"must_hold:\n  - {{edge: {edge}, meets: 27.6 cm, to: 15%}}\n").findings


def test_a_hem_of_ribs_against_the_fabric() -> None:
    """17 sts per 10 cm in the fabric, 19 in the rib: the hem is 0.89 of the fabric, which is usual; 1.08 is not."""
    for rib, codes in (("19", []), ("15.74", ["SP096"])):
        found = _checked(
            "counts: {hem: 170 sts}\nmust_hold:\n"
            f"  - {{ratio: hem / {rib} sts per 10 cm, against: hem / 17 sts per 10 cm}}\n"
        ).findings
        assert [each.page.code for each in found] == codes


def test_an_ease_below_nothing_is_an_ease() -> None:
    """A hat 2 to 3 cm smaller than the head, as its pattern says; as printed, 2.2 cm is 2."""
    hat = "body: {head: 56 cm}\nmust_hold:\n  - {ease: WIDE, over: head, from: -3 cm, to: -2 cm}\n"
    assert not _checked(hat.replace("WIDE", "53.2 cm")).findings
    assert not _checked(hat.replace("WIDE", "54.2 cm")).findings
    assert [each.page.code for each in _checked(hat.replace("WIDE", "54.3 cm")).findings] == ["SP092"]


def test_two_lengths_that_should_be_each_other_are_both_reported() -> None:
    """Neither is the cause of the other, so neither is silent."""
    found = _checked("measures:\n  a: {cm: [50, 50], should_be: b}\n  b: {cm: [50, 52], should_be: a}\n").findings
    assert [(each.page.code, each.sizes) for each in found] == [("SP097", ("M",))] * 2


def test_a_typed_value_of_a_neighbour_is_pointed_out() -> None:
    """38 cm are the 61 stitches of size M."""
    found = _checked(
        "counts: {back: {by_hand: [58, 61], unit: sts}}\n"
        "measures: {across: {cm: [38, 38], should_be: back / fabric.stitches}}\n"
    ).findings
    assert found[0].sums[0].note == "+1.8 cm / +0.7 in; it is the value of size M"


def test_sizes_that_are_not_worked_hold_nothing() -> None:
    """A size that does without is not judged."""
    found = _checked(
        "counts:\n  a: [4 sts, not worked]\n  n: [2 times, not worked]\nmust_hold:\n"
        "  - {parts: [a, 3 sts], make: 7 sts}\n  - {edge: a, meets: 4 sts}\n"
        "  - {shaping: gusset, from: a, to: 0 sts, each: -2 sts, times: n}\n  - {that: k < 9, for_each: k in 1 to n}\n"
        "  - {opening: a * 10 cm per st, over: 12 cm}\n  - {ratio: a, against: 5 sts}\n"
    ).findings
    assert not found


def test_a_claim_on_a_part_of_a_plan_offers_numbers_behind_the_plan() -> None:
    """5 buttonholes of 2 in 52 and 36 sts, 5 at the ends: gaps of 37 ÷ 4 and 21 ÷ 4; for gaps of 6, 3 sts more (by hand)."""
    found = _checked(
        "counts:\n  band_sts: {by_hand: [52, 36], unit: sts}\n"
        "plans:\n  holes: {kind: buttonholes, along: band_sts, holes: 5, width: 2 sts, below: 3 sts, above: 2 sts}\n"
        "must_hold:\n  - that: holes.fewer >= 6\n    why: the yarn hides narrow gaps\n"
    )
    assert [(each.page.code, each.sizes) for each in found.findings] == [("SP005", ("M",))]
    assert [offer.value for offer in found.findings[0].alternatives] == ["band_sts 39 sts"]


def test_a_value_over_all_sizes_is_tried_in_its_own_size_only() -> None:
    """The widest size must be no more than 20 sts above the narrowest: from 60 to 90, only M can come down, to 80."""
    found = _checked(
        "counts:\n  back: {by_hand: [60, 90], unit: sts}\n"
        "must_hold:\n  - that: highest(back) - lowest(back) <= 20 sts\n    why: one chart for all\n"
    )
    offers = [(offer.size, offer.value) for offer in found.findings[0].alternatives]
    assert offers == [("S", "back 70 sts"), ("M", "back 80 sts")]


def _checked(yaml: str) -> CheckOutcome:
    with TemporaryDirectory() as folder:
        written = write_example(Example(yaml, "", None), Path(folder))
        return check_pattern(written, within=Path(folder))
