"""Faults planted in the hat, each alone: one report, the right sizes, and every value it offers works when it is tried."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text

ROOT = Path(__file__).parents[2]
HAT = ROOT / "pattern_sources" / "cobblewick_hat"

Change = tuple[str, str, str]
"""File, text as it stands, text as planted."""

BRIM_OFF_ITS_RATE: list[Change] = [
    ("pattern.yaml", "left_over: 2 sts per rib, ", ""),
    (
        "pattern.yaml",
        "    is: largest(n, 1 ribs, 200 ribs, picked_up(brim_edge, n) <= hat_sts)",
        "    by_hand: [25 ribs, 29 ribs, 32 ribs, 35 ribs, 38 ribs]",
    ),
]
ODD_TOTAL: list[Change] = [
    ("pattern.yaml", "counts:\n", "counts:\n  edging_sts: {by_hand: [64, 71, 80, 87, 96], unit: sts, gauge: crown}\n"),
    (
        "pattern.yaml",
        "  body: {gauge: crown, worked: spiral rounds, starts_from: [brim]}",
        "  body: {gauge: crown, worked: spiral rounds,\n    offset_fabric: {total: edging_sts, worked: joined rounds}}",
    ),
]
HALF_A_STITCH: list[Change] = [
    (
        "pattern.yaml",
        "  brim_chain: brim_sts + 1",
        "  brim_chain: brim_sts + 1\n  half_brim: {is: brim_sts / 2, gauge: rib}",
    )
]
FOUR_VALUES: list[Change] = [("pattern.yaml", "by_hand: [8, 9, 10, 11, 11]", "by_hand: [8, 9, 10, 11]")]
MISSPELT: list[Change] = [
    ("20_brim.md", "and in each ch across, turn. — <brim_sts> sc", "and in each ch across, turn. — <brim_stz> sc")
]
OFF_ITS_EIGHT: list[Change] = [
    (
        "pattern.yaml",
        "    is: hat_around * crown.stitches\n    round: nearest",
        "    by_hand: [64 sts, 72 sts, 80 sts, 87 sts, 96 sts]\n    gauge: crown",
    )
]
HEAD_DOES_NOT_PASS: list[Change] = [("pattern.yaml", "stretch: 1.35", "stretch: 1.25")]
MIXED: list[Change] = [("pattern.yaml", "brim_depth + pick_up_rnd_depth +", "brim_sts + pick_up_rnd_depth +")]
NO_UNIT: list[Change] = [("pattern.yaml", "pick_up_rnd_depth: 0.6 cm", "pick_up_rnd_depth: 0.6")]
LEFT_OVER: list[Change] = [
    ("30_body.md", "Rnd 3: Hdc in each st around. — <hat_sts> hdc", "Rnd 3: Hdc in each st around. — XX hdc")
]

PLANTED = {
    "brim ribs off their pick-up rate": (BRIM_OFF_ITS_RATE, "SP004", ("Baby", "Toddler", "Adult")),
    "odd total for a joined offset fabric": (ODD_TOTAL, "SP003", ("Toddler", "Adult")),
    "half a stitch": (HALF_A_STITCH, "SP001", ("Toddler", "Adult", "Large")),
    "four values for five sizes": (FOUR_VALUES, "SP006", ()),
    "misspelt name in a slot": (MISSPELT, "SP007", ("Baby", "Toddler", "Child", "Adult", "Large")),
    "off its multiple": (OFF_ITS_EIGHT, "SP002", ("Adult",)),
    "head does not pass": (HEAD_DOES_NOT_PASS, "SP090", ("Baby",)),
    "stitches added to a length": (MIXED, "SP008", None),
    "a length without a unit": (NO_UNIT, "SP009", None),
    "a leftover placeholder": (LEFT_OVER, "SP010", None),
}


def planted(changes: list[Change], tmp_path: Path) -> Path:
    """A copy of the hat with the changes made; each must have found its place."""
    folder = tmp_path / "pattern_sources" / "cobblewick_hat"
    shutil.copytree(HAT, folder)
    for name, old, new in changes:
        text = (folder / name).read_text("utf-8")
        assert text.count(old) == 1, (name, old)
        (folder / name).write_text(text.replace(old, new), encoding="utf-8")
    return folder


Checked = Callable[[str], CheckOutcome]


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    """The hat with a fault, checked once for all tests."""

    @cache
    def outcome(name: str) -> CheckOutcome:
        root = tmp_path_factory.mktemp("planted")
        return check_pattern(planted(PLANTED[name][0], root), within=root)

    return outcome


@pytest.mark.parametrize("name", PLANTED)
def test_one_report_in_the_right_sizes(name: str, checked: Checked, snapshot: SnapshotAssertion) -> None:
    """Each fault is found, once, in the sizes that have it; what follows from it stays silent."""
    _, code, sizes = PLANTED[name]
    found = checked(name).findings
    text = as_text(facts_of(each) for each in found)
    assert [each.page.code for each in found] == [code], text
    if sizes is not None:
        assert found[0].sizes == sizes
    assert text == snapshot


@pytest.mark.parametrize(
    "name", [name for name, (_, code, _) in PLANTED.items() if code in ("SP001", "SP002", "SP003", "SP004")]
)
def test_every_value_offered_works(name: str, checked: Checked) -> None:
    """An offered value is a promise: put in, the fault is gone in that size and no other has come."""
    _, code, _ = PLANTED[name]
    before = checked(name)
    folder, within = before.folder, before.folder.parents[1]
    offers = before.findings[0].alternatives
    assert offers
    for offer in offers:
        after = _with_value(folder, within, PROMISED[code], offer.size, offer.value, before)
        assert _pairs(after) == _pairs(before) - {(code, offer.size)}, offer


PROMISED = {"SP001": "half_brim", "SP002": "hat_sts", "SP003": "edging_sts", "SP004": "brim_ribs"}
"""The name whose value is offered."""


def test_values_that_break_another_rule_are_left_out_and_said_so(tmp_path: Path) -> None:
    """24 and 26 ribs suit the rate in size Baby, but leave the hat more than two stitches short, or over."""
    found = check_pattern(planted(BRIM_OFF_ITS_RATE, tmp_path), within=tmp_path).findings[0]
    assert [(offer.size, offer.value) for offer in found.alternatives] == [("Toddler", "28 ribs")]
    together, alone = found.left_out
    assert together == "these would bring SP005 assertion-fails: Baby 24 or 26 ribs; Toddler 30 ribs; Adult 36 ribs"
    assert alone.startswith("Adult  ")


def test_misspelt_name_is_mended_by_the_name_offered(tmp_path: Path) -> None:
    """The nearest known name, written in its place, makes the hat clean again."""
    folder = planted(MISSPELT, tmp_path)
    found = check_pattern(folder, within=tmp_path).findings[0]
    offered = found.help[0].removeprefix("write `").removesuffix("`")
    text = (folder / "20_brim.md").read_text("utf-8").replace("brim_stz", offered)
    (folder / "20_brim.md").write_text(text, encoding="utf-8")
    assert check_pattern(folder, within=tmp_path).findings == ()


def _with_value(folder: Path, within: Path, name: str, size: str, value: str, before: CheckOutcome) -> CheckOutcome:
    assert before.sized is not None
    return check_pattern(folder, {(name, before.sized.sizes.index(size)): value}, within=within)


def _pairs(outcome: CheckOutcome) -> set[tuple[str, str]]:
    return {(found.page.code, size) for found in outcome.findings for size in found.sizes}
