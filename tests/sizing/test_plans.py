"""Plans named in pattern.yaml: each kind against counting it out, and its parts in formulas. The numbers are invented."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example, Severity
from stitchproof.measures.values import Absent, Value
from stitchproof.plans.kinds import KINDS
from stitchproof.plans.parts import parts
from stitchproof.sizing.changes import Changes
from stitchproof.sizing.sized_plans import SizedPlan
from tests.checks.smallest_pattern import FOUNDED, write_example
from tests.plans.deal import dealt
from tests.sizing.written_pattern import Sized, derivation_text, faultless, sized, told

COUNTS = """
sizes: {names: [S, M, L]}
rates:
  edge: {sts: 9, per: 4 ribs, left_over: 2 sts}
counts:
  hat_sts: {by_hand: [64, 72, 80], unit: sts}
  body_sts: {by_hand: [90, 92, 97], unit: sts}
  incs: {by_hand: [20, 23, 13], unit: times}
  v_rows: {by_hand: [22, 31, 40], unit: rows}
  band_sts: {by_hand: [30, 40, 41], unit: sts}
  ribs: {by_hand: [40, 42, 45], unit: ribs}
  wrist: {by_hand: [44, 46, 40], unit: sts}
plans:
"""
SIZES = range(3)
HAT, BODY, INCS, V_ROWS, BAND, RIBS = (64, 72, 80), (90, 92, 97), (20, 23, 13), (22, 31, 40), (30, 40, 41), (40, 42, 45)
EACH_KIND = {
    "evenly in rounds": "{kind: evenly in rounds, from: body_sts, times: incs, shaping: increase, larger_groups: last}",
    "evenly in rows": "{kind: evenly in rows, from: body_sts, times: 5, shaping: double decrease, ends: whole gaps}",
    "two rates": "{kind: two rates, times: 5, rows: v_rows, step: 2 rows, only: RS, place: between, after: 3}",
    "one rate": "{kind: one rate, times: 4, rows: v_rows, first: 3, every: 6 rows, worked: rounds}",
    "taper": "{kind: taper, from: 62 sts, to: wrist, each: 2, rows: v_rows, slower: first}",
    "crown": "{kind: crown, from: hat_sts, sections: 8, to: 16, plain: [1 rnd, 2 rnds]}",
    "yoke": "{kind: yoke, from: body_sts, to: body_sts + 60, shaping_rounds: 5, rounds: 24, first: 3, every: 4}",
    "yoke by shares": "{kind: yoke by shares, from: 200, rounds: 24, on: [8, 16, 22], lose: [25%, 33%, 40%]}",
    "raglan": "{kind: raglan, front: 80, back: 80, sleeve: 50, neck: 100, rounds: 24, least_sleeve: 6, before: 2}",
    "buttonholes": "{kind: buttonholes, along: band_sts, holes: [5, 5, 6], width: 2, below: 3, above: 2 sts}",
    "pick up": "{kind: pick up, along: ribs, rate: edge}",
    "edge for": "{kind: edge for, sts: 94, rate: edge}",
    "longest edge": "{kind: longest edge, sts: body_sts, rate: edge}",
    "row-end rate": "{kind: row-end rate, stitches: 16 sts per 10 cm, rows: fabric.rows, within: 4%}",
    "v neck": "{kind: v neck, neck: 24, half_band: 2.5, rows: v_rows, even_after: 3}",
    "round neck": "{kind: round neck, neck: 28, centre: 12, steps: [3, 2, 2, 1], rows: 12}",
    "armhole": "{kind: armhole, width: 76, cross_back: 50, rows: 22, unworked: 6, every_row: 3}",
}
"""One plan of each kind, so that every key is used by one of them or in the tests of its room."""


def plan(kind: str) -> Sized:
    return faultless(f"{COUNTS}  a: {EACH_KIND[kind]}\n")


def at(found: Sized, name: str, size: int, k: int | None = None) -> Value:
    return found.pattern.scope.value(name, size, None if k is None else Fraction(k))


def all_k(found: Sized, name: str, size: int) -> list[int]:
    """The values at k = 1, 2, …, as far as the size works them."""
    values = found.quantity(name).by_k[size]
    assert not isinstance(values, Absent)
    return [int(value) for value in values if isinstance(value, Fraction)]


def test_there_is_one_of_each_kind() -> None:
    assert set(EACH_KIND) == set(KINDS)


@pytest.mark.parametrize("kind", EACH_KIND)
def test_every_part_is_a_name_with_the_value_of_the_plan(kind: str) -> None:
    """In every size, the names of `parts` and no others; what a size does not work is not worked."""
    found = plan(kind)
    made: SizedPlan = found.pattern.scope.plans["a"]
    names = [each.name for each in found.pattern.quantities if each.section == "plans"]
    for size in SIZES:
        there = made.plans[size]
        assert not isinstance(there, Absent)
        named = parts(there)  # type: ignore[arg-type]  # a plan that cannot be made is a finding, and there is none
        assert [f"a.{part.name}" for part in named] == names
        for part in named:
            values = part.value if isinstance(part.value, tuple) else (part.value,)
            for k, value in enumerate(values, start=1):
                held = at(found, f"a.{part.name}", size, k if isinstance(part.value, tuple) else None)
                assert held == (Absent.NOT_WORKED if value is None else value), part.name


@pytest.mark.parametrize("kind", EACH_KIND)
def test_every_plan_and_part_explains_itself(kind: str) -> None:
    found = plan(kind)
    text = derivation_text(found, "a")
    assert text.count("\nS  ") == text.count("\nL  ") == 1
    assert "as text for all sizes:" in text
    for quantity in found.pattern.quantities:
        if quantity.section == "plans":
            assert "→" in derivation_text(found, quantity.name)


def test_evenly_deals_the_plain_stitches_out() -> None:
    found = plan("evenly in rounds")
    for size in SIZES:
        groups = dealt(BODY[size] - INCS[size], INCS[size])
        larger, smaller = max(groups), min(groups)
        more = larger if larger > smaller else Absent.NOT_WORKED
        assert at(found, "a.more", size) == more
        assert at(found, "a.fewer", size) == smaller
        assert at(found, "a.fewer_times", size) == groups.count(smaller)
        assert at(found, "a.after", size) == BODY[size] + INCS[size]


def test_a_row_with_double_decreases_uses_up_its_stitches() -> None:
    """First edge, gaps and last edge, with three stitches to each decrease."""
    found = plan("evenly in rows")
    for size in SIZES:
        gaps = sum(
            _or_0(at(found, f"a.{of}", size)) * _or_0(at(found, f"a.{of}_times", size)) for of in ("more", "fewer")
        )
        edges = _or_0(at(found, "a.first_edge", size)) + _or_0(at(found, "a.last_edge", size))
        assert edges + gaps + 5 * 3 == BODY[size]
        assert at(found, "a.after", size) == BODY[size] - 10


def test_two_rates_are_the_slowest_that_fit() -> None:
    """All right-side rows, at even steps, three rows left over; one step more anywhere would leave the section."""
    found = plan("two rates")
    for size in SIZES:
        rows = all_k(found, "a.row", size)
        steps = {later - earlier for earlier, later in pairwise(rows)}
        assert len(rows) == 5
        assert all(row % 2 == 1 for row in rows)
        assert max(steps) - min(steps) in (0, 2)
        assert rows[-1] <= V_ROWS[size] - 3 < rows[-1] + 2
        assert at(found, "a.even_after", size) == V_ROWS[size] - rows[-1]


def test_one_rate_and_taper() -> None:
    found = plan("one rate")
    assert all_k(found, "a.row", 1) == [3, 9, 15, 21]
    assert found.quantity("a.row").kind.noun == "rnds"
    tapered = plan("taper")
    for size, wrist in enumerate((44, 46, 40)):
        assert all_k(tapered, "a.count", size) == list(range(60, wrist - 1, -2))
        assert len(all_k(tapered, "a.row", size)) == (62 - wrist) // 2
        assert all_k(tapered, "a.row", size)[-1] == V_ROWS[size]


def test_a_crown_counted_round_by_round() -> None:
    """Eight stitches go in each decrease round until 16 are left; a plain round follows the first, two the second."""
    found = plan("crown")
    for size in SIZES:
        sts, rounds, number, ks = HAT[size], [], 0, 0
        while sts > 16:
            ks += 1
            number += 1
            assert at(found, "a.before", size, ks) == sts // 8 - 2
            sts -= 8
            assert at(found, "a.after", size, ks) == sts
            rounds.append(number)
            number += {1: 1, 2: 2}.get(ks, 0)
        assert all_k(found, "a.round", size) == rounds
        assert at(found, "a.dec_rounds", size) == ks
    assert at(found, "a.after", 0, 7) is Absent.NOT_WORKED
    assert at(found, "a.after", 2, 8) == 16


def test_a_yoke_adds_up() -> None:
    found = plan("yoke")
    for size in SIZES:
        sts = BODY[size]
        for k in range(1, 6):
            groups = dealt(sts - 12, 12)
            assert at(found, "a.fewer", size, k) == min(groups)
            assert at(found, "a.fewer_times", size, k) == groups.count(min(groups))
            sts += 12
            assert at(found, "a.after", size, k) == sts
        assert sts == BODY[size] + 60


def test_a_yoke_by_shares() -> None:
    """200 less a quarter is 150, less 33 % is 100.5, up to 101, less 40 % is 60.6, up to 61. Worked by hand."""
    assert all_k(plan("yoke by shares"), "a.after", 0) == [150, 101, 61]


def test_buttonholes_laid_along_the_band() -> None:
    """Stitch by stitch: below, holes with their gaps, above."""
    found = plan("buttonholes")
    for size, holes in enumerate((5, 5, 6)):
        starts = all_k(found, "a.start", size)
        assert starts[0] == 4
        assert starts[-1] + 1 == BAND[size] - 2
        gaps = [later - earlier - 2 for earlier, later in pairwise(starts)]
        assert sorted(gaps) == sorted(dealt(BAND[size] - 5 - 2 * holes, holes - 1))


def test_a_pick_up_is_that_of_the_formula() -> None:
    """The plan and `picked_up( )` are one sum."""
    found = faultless(
        f"{COUNTS}  a: {EACH_KIND['pick up']}\n".replace("plans:", "  sum: picked_up(edge, ribs)\nplans:")
    )
    assert found.values("a.picked_up") == found.values("sum")
    walked = [sum(3 if rib % 4 == 0 else 2 for rib in range(1, ribs + 1)) for ribs in RIBS]
    assert found.values("a.picked_up") == tuple(map(Fraction, walked))


def test_parts_in_formulas_and_plans_on_plans() -> None:
    """A count from a plan, a plan from that count, and one that a size does without."""
    found = faultless(
        COUNTS.replace("plans:", "  half: inc.after / 2\n  none: [4 times, not worked, 5 times]\nplans:")
        + "  inc: {kind: evenly in rounds, from: body_sts, times: [10, 12, 13], shaping: increase}\n"
        + "  dec: {kind: evenly in rounds, from: half, times: none, shaping: decrease}\n"
    )
    assert found.values("half") == (50, 52, 55)
    assert found.values("dec.after") == (46, Absent.NOT_WORKED, 50)


@pytest.mark.parametrize(
    ("counts", "plans", "fault"),
    [
        ("", "a: {kind: crown, from: hat_around, sections: 8}", ("mixed-dimensions", "hat_around")),
        ("", "a: {kind: crown, from: 64 sts, sections: 8, to: 2 rows}", ("mixed-dimensions", "2 rows")),
        ("b: a.after(0)", "a: {kind: crown, from: 64 sts, sections: 8}", ("function-used-wrongly", "a.after(0)")),
        ("b: a.after(8)", "a: {kind: crown, from: 64 sts, sections: 8}", ("function-used-wrongly", "a.after(8)")),
        ("b: a.befor(1)", "a: {kind: crown, from: 64 sts, sections: 8}", ("unknown-name", "a.befor")),
        ("b: a + 1", "a: {kind: crown, from: 64 sts, sections: 8}", ("unknown-name", "a")),
        ("b: a.end * 2", "a: {kind: crown, from: b, sections: 8}", ("circular-definition", "b")),
        ("", "a: {kind: pick up, along: 20 rows, rate: edge}", ("mixed-dimensions", "20 rows")),
        ("", "a: {kind: pick up, along: 20 ribs, rate: egde}", ("word-not-known", "egde")),
        ("", "a: {kind: crown, from: [64, 72, 80], sections: 8}", ("wrong-number-of-values", "[64, 72, 80]")),
    ],
)
def test_faults_are_reported_once(counts: str, plans: str, fault: tuple[str, str]) -> None:
    """One cause, one report; what follows from it is silent."""
    found = sized(
        "rates:\n  edge: {sts: 9, per: 4 ribs}\nmeasures:\n  hat_around: 50 cm\ncounts:\n  c: 4 sts\n"
        f"  {counts}\nplans:\n  {plans}\nmust_hold:\n  - that: a.end >= 0\n"
        if "pick up" not in plans
        else f"rates:\n  edge: {{sts: 9, per: 4 ribs}}\nplans:\n  {plans}\n"
    )
    assert [(name, text) for name, text, _ in found.faults] == [fault]


def test_offers_are_tried_and_told_by_name(tmp_path: Path) -> None:
    """A plan that cannot be made offers the nearest value of each number; 88 sts would break what must hold."""
    yaml = (
        "counts:\n  hat_sts: {by_hand: [80, 86], unit: sts}\n"
        "plans:\n  crown_dec: {kind: crown, from: hat_sts, sections: 8}\n"
        "must_hold:\n  - that: hat_sts < 88\n    why: the band is bought ready-made\n"
    )
    folder = write_example(Example(yaml, FOUNDED, None), tmp_path)
    (found,) = check_pattern(folder, within=tmp_path).findings
    assert [(each.size, each.value) for each in found.alternatives] == [
        ("M", "hat_sts 80 sts"),
        ("M", "sections of crown_dec 2"),
        ("M", "sections of crown_dec 43"),
    ]
    assert found.left_out == ("M  hat_sts 88 sts would bring SP005 assertion-fails",)
    changes: tuple[Changes, ...] = ({("hat_sts", 1): "80 sts"}, {("plans.crown_dec.sections", 1): "43"})
    for change in changes:
        assert not check_pattern(folder, change, within=tmp_path).findings


def test_a_number_of_a_plan_can_be_changed_in_one_size_and_in_all() -> None:
    """From 80 to 16 stitches, sixteen sections lose 16 in each of 4 rounds; what is no number of sections is refused."""
    plans = f"{COUNTS}  crown_dec: {EACH_KIND['crown']}\n"
    assert faultless(plans, {"plans.crown_dec.sections[L]": "16"}).values("crown_dec.dec_rounds") == (6, 7, 4)
    assert faultless(plans, {"plans.crown_dec.sections": "4"}).values("crown_dec.dec_rounds") == (12, 14, 16)
    assert sized(plans, {"plans.crown_dec.sections": "5 cm"}).faults == [("mixed-dimensions", "5 cm", ("S", "M", "L"))]
    assert sized(plans, {"plans.crown_dec.sections(2)": "4"}).faults == [("function-used-wrongly", "4", ())]
    assert sized(plans, {"plans.crown_dec.section": "4"}).faults == [("unknown-name", "4", ())]


def test_a_plan_is_told_of_one_size_and_a_part_at_one_k() -> None:
    found = faultless(f"{COUNTS}  crown_dec: {EACH_KIND['crown']}\n  inc: {EACH_KIND['evenly in rounds']}\n")
    for name in ("crown_dec[M]", "crown_dec.before[M]", "inc.more[M]"):
        text = derivation_text(found, name)
        assert "\nM  " in text or "\nk  M\n" in text
        assert "\nS  " not in text and "\nL  " not in text
    at_3 = derivation_text(found, "crown_dec.before(3)").partition("\n\n")[2]
    assert at_3.startswith(
        "at k = 3:\n\nS  rnd 6: 48 sts − 8 × 2 = 32 plain sts; 32 = 8 × 4: 8 groups of 4; then 40 sts → 4 sts\n"
    )
    assert "every k" not in at_3
    assert "S  (64 − 16) ÷ 8 sections = 6 dec rnds; with 3 plain rnds 9 rnds; k goes from 1 to 6\n" in derivation_text(
        found, "crown_dec.before(7)"
    )
    for name in ("crown_dec(2)", "inc.more(2)", "crown_dec[XL]"):
        assert not isinstance(told(found, name), str)


@pytest.mark.parametrize("kind", EACH_KIND)
def test_the_row_with_slots_can_be_pasted(kind: str, tmp_path: Path) -> None:
    """As it stands, below a label where it has none: no error, in any size.

    One row out of a piece: that the rows before it are missing (SP144), its edge (SP136) or its end (SP165), is no fault of it.
    """
    text = derivation_text(plan(kind), "a").partition("as text for all sizes:\n\n")[2]
    text = text if text.startswith((":::", "Inc R", "Dec R")) else f"Row 1: {text}"
    pieces = "pieces:\n  piece: {gauge: fabric, worked: rows}\nspecial_stitches: {sc3tog: single crochet 3 together}\n"
    folder = write_example(Example(f"{pieces}{COUNTS}  a: {EACH_KIND[kind]}\n", text, None), tmp_path)
    errors = [found for found in check_pattern(folder, within=tmp_path).findings if found.severity is Severity.ERROR]
    assert [found.full_headline for found in errors if found.page.code not in ("SP136", "SP144", "SP165")] == []


@pytest.mark.parametrize("kind", ["two rates", "one rate", "taper", "v neck", "armhole"])
def test_the_rows_that_are_offered_for_shaping_are_read_and_worked(kind: str, tmp_path: Path) -> None:
    """Pasted below the row that it names: every size is proved, and there is nothing to say of the line."""
    written = EACH_KIND[kind].replace(", after: 3", ", before: 2").replace("neck: 24", "neck: 20, before: 2")
    found = faultless(f"{COUNTS}  a: {written}\n")
    text = derivation_text(found, "a").partition("as text for all sizes:\n\n")[2]
    named = re.match(r"Work (\w+ (Row|Rnd)) on ", text)
    assert named is not None
    in_rounds = named[2] == "Rnd"
    end = ", join with sl st in first sc" if in_rounds else ", turn"
    into = "Rnd 1: Sc in each ch around" if in_rounds else "Row 1: Sc in 2nd ch from hook and in each ch across"
    rows = (
        "Ch 100; join with sl st in first ch." if in_rounds else "Ch 101.",
        f"{into}{end}. — 100 sc",
        f"{named[2]} 2: Sc in each st {'around' if in_rounds else 'across'}{end}. — 100 sc",
        f"{named[1]}: Sc2tog, sc in each st to last 2 sts, sc2tog{end}. — 2 sts dec",
        f"{text}Fasten off.\n",
    )
    pieces = f"pieces:\n  piece: {{gauge: fabric, worked: {'joined rounds' if in_rounds else 'rows'}}}\n"
    folder = write_example(Example(f"{pieces}{COUNTS}  a: {written}\n", "\n".join(rows), None), tmp_path)
    assert [each.full_headline for each in check_pattern(folder, within=tmp_path).findings] == []


def test_a_plan_follows_the_piece_that_it_is_named_after_or_all_pieces() -> None:
    """What it says of itself comes first; where pieces differ and none has its name, it is as it always was."""
    taper = EACH_KIND["taper"]

    def noun(pieces: str, name: str = "a", written: str = taper) -> str:
        found = faultless(f"pieces: {pieces}\n{COUNTS}  {name}: {written}\n")
        return found.quantity(f"{name}.first").kind.noun

    assert noun("{piece: {worked: rows}}") == "rows"
    assert noun("{piece: {worked: joined rounds}}") == "rnds"
    assert noun("{piece: {worked: rows}}", written=taper.replace("}", ", worked: rounds}")) == "rnds"
    both = "{piece: {worked: rows}, sleeve: {worked: spiral rounds}}"
    assert (noun(both, "sleeve"), noun(both, "sleeve_decs"), noun(both, "piece_sides")) == ("rnds", "rnds", "rows")
    assert noun(both) == noun(both, "sleeveless") == "rnds"
    assert noun(both, written=EACH_KIND["two rates"]) == "rows"


def test_explained(snapshot: SnapshotAssertion) -> None:
    """A plan, a part of it, and a part that takes a k, as they are told. Read by eye."""
    found = faultless(
        f"{COUNTS}  inc: {EACH_KIND['evenly in rounds']}\n"
        f"  crown_dec: {EACH_KIND['crown']}\n  holes: {EACH_KIND['buttonholes']}\n"
    )
    for name in ("inc", "inc.more", "crown_dec.before", "crown_dec", "holes"):
        assert derivation_text(found, name) == snapshot(name=name)


def _or_0(value: Value) -> int:
    return int(value) if isinstance(value, Fraction) else 0
