"""Faults as a designer makes them, planted in the demos where their numbers stand: one report each, in the right sizes.

A number typed by hand takes the place of one that was worked out, and one size of it is wrong. Faults typed into a row of the
text itself, as bracketed numbers without a slot, are not found here: only working the rows stitch by stitch can find them
(`until there are 50 (58, 65, 70, 76) rows`; `every 4th row 4 (4, 4, 5, 5) … more times`; a decrease row worked once too often).
The numbers are the demos' own.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.diagnostic import Alternative
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text

SOURCES = Path(__file__).parents[2] / "pattern_sources"
HAT, TOP, WAISTCOAT, COWL = "cobblewick_hat", "saltmarrow_yoke_top", "thornhollow_waistcoat", "pebblewold_cowl"
Change = tuple[str, str]
"""As it stands in pattern.yaml, and as planted."""

SLOW_V = """  v_every_4th:
    is: (v_rows - 4 rows) / 2 rows - (v_decs - 1 st) / 1 st
    unit: times
    round: down
"""
QUICK_V = "  v_every_2nd: {is: v_decs / 1 st - 1 - v_every_4th, unit: times,"
PLANTED: dict[str, tuple[str, list[Change], str, tuple[str, ...]]] = {
    "brim rows that are no whole ribs": (
        HAT,
        [
            (
                "  brim_rows: brim_ribs * rib.rows_per_rib\n",
                "  brim_rows: {by_hand: [50, 58, 65, 70, 76], unit: rows, multiple: rib.rows_per_rib,"
                " should_be: brim_ribs * rib.rows_per_rib}\n",
            )
        ],
        "SP002",
        ("Child",),
    ),
    "brim rows of another number of ribs": (
        HAT,
        [
            (
                "  brim_rows: brim_ribs * rib.rows_per_rib\n",
                "  brim_rows: {by_hand: [50, 58, 66, 70, 76], unit: rows, should_be: brim_ribs * rib.rows_per_rib}\n",
            )
        ],
        "SP099",
        ("Child",),
    ),
    "a circumference left behind": (
        HAT,
        [
            (
                "  hat_around: head - ease\n",
                "  hat_around: {cm: [40, 45, 50, 55, 58], in: [15.75, 17.75, 19.75, 21.75, 23.5],"
                " should_be: hat_sts / crown.stitches}\n",
            )
        ],
        "SP097",
        ("Large",),
    ),
    "the slower sleeve rate one time short": (
        TOP,
        [
            (
                "      is: sleeve.shaped_rnds - sleeve.every * sleeve.decs\n",
                "      by_hand: [3, 4, 0, 2, 2, 6, 6, 2, 0]\n",
            ),
            (
                "    more: sleeve.decs - sleeve.slower_decs - 1\n",
                "    more: {by_hand: [2, 1, 6, 6, 6, 3, 5, 11, 14], unit: times}\n",
            ),
        ],
        "SP087",
        ("6",),
    ),
    "a neck too narrow for the head": (
        TOP,
        [
            (
                "by_hand: [53, 54, 55, 56.5, 57.5, 58.5, 60, 61, 62]",
                "by_hand: [46, 54, 55, 56.5, 57.5, 58.5, 60, 61, 62]",
            )
        ],
        "SP090",
        ("1",),
    ),
    "an ease that is not the one promised": (TOP, [("bust_to: 9 cm", "bust_to: 8 cm")], "SP092", ("4", "9")),
    "armhole decreases on an even number of rows": (
        WAISTCOAT,
        [("by_hand: [1, 1, 1, 3, 3, 5, 5, 7, 9, 9]", "by_hand: [1, 1, 1, 3, 3, 4, 5, 7, 9, 9]")],
        "SP002",
        ("6",),
    ),
    "one armhole decrease too many": (
        WAISTCOAT,
        [
            (
                "{is: (armhole_loss - underarm) / 1 st - every_row, unit: times,",
                "{by_hand: [3, 4, 5, 4, 5, 4, 5, 4, 5, 5], unit: times,",
            )
        ],
        "SP087",
        ("9",),
    ),
    "one slow V decrease too few": (
        WAISTCOAT,
        [
            (SLOW_V, "  v_every_4th:\n    by_hand: [4, 4, 4, 5, 5, 4, 5, 5, 6, 5]\n    unit: times\n"),
            (QUICK_V, "  v_every_2nd: {by_hand: [4, 3, 5, 4, 4, 6, 5, 5, 4, 6], unit: times,"),
        ],
        "SP087",
        ("2",),
    ),
    "V decreases on rows that are not there": (
        WAISTCOAT,
        [
            (SLOW_V, "  v_every_4th:\n    by_hand: [4, 5, 4, 5, 5, 4, 5, 5, 6, 7]\n    unit: times\n"),
            (QUICK_V, "  v_every_2nd: {by_hand: [4, 3, 5, 4, 4, 6, 5, 5, 4, 5], unit: times,"),
        ],
        "SP088",
        ("10",),
    ),
    "a left front with the rates of the next size": (
        WAISTCOAT,
        [
            (
                "  v_every_2nd: {is:",
                "  left_2nd: {by_hand: [4, 3, 5, 4, 6, 6, 5, 5, 4, 6], unit: times}\n"
                "  left_4th: {by_hand: [4, 5, 4, 5, 3, 4, 5, 5, 6, 5], unit: times}\n  v_every_2nd: {is:",
            ),
            (
                "    then: [{every: 2 rows, times: v_every_2nd}, {every: 4 rows, times: v_every_4th}]\n"
                "    within: v_rows - 3\n    mirrors:",
                "    then: [{every: 2 rows, times: left_2nd}, {every: 4 rows, times: left_4th}]\n"
                "    within: v_rows - 3\n    mirrors:",
            ),
        ],
        "SP089",
        ("5",),
    ),
    "a label of the next column": (
        WAISTCOAT,
        [
            (
                "  back_across: cross_back_sts / fabric.stitches\n",
                "  back_across: {cm: [33.5, 34.5, 36, 37.5, 40, 40, 41.5, 42.5, 42.5, 44],"
                " should_be: cross_back_sts / fabric.stitches}\n",
            )
        ],
        "SP097",
        ("5",),
    ),
    "a ring measured by its written count": (
        COWL,
        [
            (
                "    around: {is: way_3.ring / fabric.stitches, why",
                "    around: {cm: [56.5, 64.5, 121], should_be: way_3.ring / fabric.stitches, why",
            )
        ],
        "SP097",
        ("Close", "Easy", "Long loop"),
    ),
    "a height that the rounds do not give": (
        COWL,
        [("  height: rnds / fabric.rounds\n", "  height: {cm: [24.5, 24.5, 22], should_be: rnds / fabric.rounds}\n")],
        "SP098",
        ("Long loop",),
    ),
}


ALSO_IN_A_ROW = {"brim rows of another number of ribs"}
"""A number typed by hand against its formula is a warning, as it may be meant; a row that it makes untrue is an error."""


Checked = Callable[[str], CheckOutcome]


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    """A demo with a fault, checked once for all tests."""

    @cache
    def outcome(name: str) -> CheckOutcome:
        demo, changes, _, _ = PLANTED[name]
        root = tmp_path_factory.mktemp("planted")
        return check_pattern(_planted(demo, changes, root), within=root)

    return outcome


@pytest.mark.parametrize("name", PLANTED)
def test_one_report_in_the_right_sizes(name: str, checked: Checked, snapshot: SnapshotAssertion) -> None:
    """Each fault is one report, with its sum; what follows from it is silent."""
    _, _, code, sizes = PLANTED[name]
    found = checked(name)
    beside = [("SP135", sizes)] if name in ALSO_IN_A_ROW else []
    assert [(each.page.code, each.sizes) for each in found.findings] == [*beside, (code, sizes)], _text(found)
    assert _text(found) == snapshot


@pytest.mark.parametrize("name", PLANTED)
def test_every_value_offered_works(name: str, checked: Checked) -> None:
    """An offered value is a promise: put in, the fault is gone in that size and no other has come."""
    _, _, code, sizes = PLANTED[name]
    before = checked(name)
    folder, within = before.folder, before.folder.parents[1]
    assert before.sized is not None
    for offer in before.findings[-1].alternatives:
        change, value = _name_and_value(before, offer)
        after = check_pattern(folder, {(change, before.sized.sizes.index(offer.size)): value}, within=within)
        left = {(each.page.code, size) for each in after.findings for size in each.sizes}
        assert left == {(code, size) for size in sizes if size != offer.size}, (offer, _text(after))


def test_pieces_in_an_order_that_cannot_be_made(tmp_path: Path) -> None:
    """The yoke after the body: body, sleeves and neckband all start from it. One report names all the headings."""
    folder = _planted(TOP, [], tmp_path)
    (folder / "20_yoke.md").rename(folder / "45_yoke.md")
    found = check_pattern(folder, within=tmp_path)
    assert [each.page.code for each in found.findings] == ["SP101"], _text(found)
    places = [found.findings[-1].primary.span, *(each.span for each in found.findings[0].related)]
    assert [place.file.path.split("/")[-1] for place in places] == ["30_body.md", "45_yoke.md", "40_sleeves.md"]


def _planted(demo: str, changes: list[Change], tmp_path: Path) -> Path:
    """A copy of a demo with the changes made; each must have found its place."""
    folder = tmp_path / "pattern_sources" / demo
    shutil.copytree(SOURCES / demo, folder)
    text = (folder / "pattern.yaml").read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    return folder


def _name_and_value(outcome: CheckOutcome, offer: Alternative) -> tuple[str, str]:
    """The name whose value is offered: said beside the value, or else in the headline."""
    assert outcome.sized is not None
    name, _, value = offer.value.partition(" ")
    if name in outcome.sized.scope.quantities:
        return name, value
    return outcome.findings[-1].headline.split()[0], offer.value


def _text(outcome: CheckOutcome) -> str:
    return as_text(facts_of(each) for each in outcome.findings)
