"""A garment joined at the underarms: every row proved in every size, its table of counts, and ten faults, each alone.

The design is ours, made for this test; its table was worked stitch by stitch apart from this program.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.report import Report
from stitchproof.diagnostics.terminal import as_text
from stitchproof.simulation.work_pattern import work_pattern
from stitchproof.simulation.worked_pattern import Proof, WorkedPattern

FOLDER = Path(__file__).parent / "patterns" / "bottom_up_join"
Change = tuple[str, str]

TABLE = {
    "hem.rows": [120, 132, 144, 156],
    "hem.ribs": [60, 66, 72, 78],
    "hem.groups": [20, 22, 24, 26],
    "body.sts": [140, 154, 168, 182],
    "body.rnds": [40, 40, 42, 42],
    "underarm.either_side": [3, 3, 4, 4],
    "underarm.sts": [7, 7, 9, 9],
    "body.opposite": [71, 78, 85, 92],
    "body.half": [74, 81, 89, 96],
    "body.live": [63, 70, 75, 82],
    "cuff.rows": [30, 30, 36, 36],
    "cuff.ribs": [15, 15, 18, 18],
    "sleeve.first": [35, 35, 42, 42],
    "sleeve.incs": [8, 11, 10, 11],
    "sleeve.every": [5, 4, 4, 4],
    "sleeve.last_inc": [40, 45, 41, 45],
    "sleeve.top": [51, 57, 62, 64],
    "sleeve.live": [44, 50, 53, 55],
    "yoke.join": [214, 240, 256, 274],
    "yoke.raglan": [150, 176, 192, 210],
    "yoke.decs": [10, 16, 12, 14],
    "yoke.last": [140, 160, 180, 196],
}
LENGTHS = {
    "body_around": ["87.5", "96.5", "105", "114"],
    "hem_relaxed": ["75", "82.5", "90", "97.5"],
    "sleeve_around": ["32", "35.5", "39", "40"],
}
STITCHES = {
    "hem": {"sc": [8 * rows for rows in TABLE["hem.rows"]]},
    "body": {
        "sc": TABLE["body.sts"],
        "hdc": [
            sts * (rnds - 1) + half
            for sts, rnds, half in zip(TABLE["body.sts"], TABLE["body.rnds"], TABLE["body.half"], strict=True)
        ],
    },
    "cuff": {"sc": [8 * rows for rows in TABLE["cuff.rows"]]},
    "sleeve": {"sc": TABLE["sleeve.first"]},
    "yoke": {"hdc2tog": [8 * 8 + decs for decs in TABLE["yoke.decs"]]},
}  # fmt: skip
"""Stitches by kind: rounds times stitches, by hand. The sleeve's hdc are added up in a test of their own."""

ALL = ("One", "Two", "Three", "Four")
FAULTS: dict[str, tuple[list[Change], str, tuple[str, ...], str]] = {
    "T-1 half a rib": (
        [("    rows: hem.ribs * rib.rows_per_rib", "    rows: {by_hand: [120, 131, 144, 156], unit: rows, gauge: rib}")],
        "SP143",
        ("Two",),
        "131 rows / 2 = 65.5 ribs, stated 66",
    ),
    "T-2 a pick-up that is not whole": (
        [("ribs: {by_hand: [60, 66, 72, 78]", "ribs: {by_hand: [60, 66, 73, 78]")],
        "SP004",
        ("Three",),
        "73 ribs",
    ),
    "T-3 one repeat too many": (
        [("    groups: {is: body.sts / 7 sts, unit: times, why: each group of 3 ribs gives 7 stitches}",
          "    groups: {by_hand: [20, 22, 24, 27], unit: times}")],
        "SP137",
        ("Four",),
        "needs 162 sts, there are 156",
    ),
    "T-4 unequal underarms": (
        [
            ("  sleeve:\n", "  sleeve:\n    sides: {by_hand: [3, 3, 4, 5], unit: sts}\n    under: 2 * sleeve.sides + 1\n"),
            (
                "Underarm S: the st with marker S and the <underarm.either_side> sts either side of it. — <underarm.sts> sts",
                "Underarm S: the st with marker S and the <sleeve.sides> sts either side of it. — <sleeve.under> sts",
            ),
        ],
        "SP161",
        ("Four",),
        "sleeve 11 sts, body 9 sts; sleeve would have 64 − 11 = 53 live sts, with 9 it has 55",
    ),
    "T-5 a marker counted from the wrong stitch": (
        [
            ("  body:\n    sts:", "  body:\n    marker_b: {by_hand: [71, 78, 84, 92], unit: sts}\n    sts:"),
            ("Marker B in st <body.opposite>", "Marker B in st <body.marker_b>"),
        ],
        "SP160",
        ("Three",),
        "counting marker A’s st as st 1, the opposite st of 168 is st 85, written 84; underarm B would end at st 88, "
        "the half rnd ends at st 89",
    ),
    "T-6 a half round one stitch short": (
        [
            ("    half: {is: body.opposite + underarm.either_side, why: up to the last stitch of underarm B}",
             "    half: {by_hand: [74, 80, 89, 96], unit: sts}"),
        ],
        "SP159",
        ("Two",),
        "it ends at st 80; underarm B (marker B in st 78, 3 after it) ends at st 81",
    ),
    "T-7 too few stitches of the second sleeve": (
        [
            ("    live: sleeve.top - underarm.sts",
             "    live: sleeve.top - underarm.sts\n    other: {by_hand: [44, 50, 51, 55], unit: sts}"),
            ("<sleeve.live> sts of second sleeve", "<sleeve.other> sts of second sleeve"),
        ],
        "SP136",
        ("Three",),
        "62 − 9 = 53 sts are live on second sleeve; uses 51 of 53 sts, 2 left",
    ),
    "T-8 the sum of the join": (
        [
            ("    first_dec: yoke.join", "    stated: {by_hand: [214, 240, 265, 274], unit: sts}\n    first_dec: yoke.join"),
            ("— <yoke.join> hdc", "— <yoke.stated> hdc"),
        ],
        "SP135",
        ("Three",),
        "75 of body + 53 of first sleeve + 75 of body + 53 of second sleeve = 256 hdc, stated 265",
    ),
    "T-9 a repeat that does not divide": (
        [("    before_dec: yoke.raglan / yoke.decs - 2 sts", "    before_dec: {by_hand: [13, 8, 14, 13], unit: sts}")],
        "SP136",
        ("Two",),
        "uses 160 of 176 sts, 16 left",
    ),
    "T-10 a half round that is joined": (
        [("sts; do not join, do not fasten off.", "sts; join with sl st in first hdc, do not fasten off.")],
        "SP159",
        ALL,
        "the start would not move",
    ),
}  # fmt: skip
"""What is changed, and the one report: its code, its sizes and its sum."""


def planted(changes: list[Change], tmp_path: Path) -> Path:
    """A copy of the pattern with the changes made; each must have found its place once in one of its files."""
    folder = tmp_path / "bottom_up_join"
    shutil.copytree(FOLDER, folder)
    for old, new in changes:
        texts = {path: path.read_text("utf-8") for path in folder.iterdir()}
        assert sum(text.count(old) for text in texts.values()) == 1, old
        for path, text in texts.items():
            path.write_text(text.replace(old, new), encoding="utf-8")
    return folder


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_one_report(name: str, tmp_path: Path, snapshot: SnapshotAssertion) -> None:
    changes, code, sizes, sum_ = FAULTS[name]
    folder = planted(changes, tmp_path)
    found = [each for each in check_pattern(folder).findings if not each.accepted]
    text = as_text([facts_of(each) for each in found]).replace(str(tmp_path), "")
    assert [(each.page.code, each.sizes) for each in found] == [(code, sizes)], text
    assert sum_ in " ".join(text.split())
    assert text == snapshot


def test_a_round_over_several_pieces_is_joined_into_its_first_stitch(tmp_path: Path) -> None:
    """The joining round is looked at as any other."""
    folder = planted(
        [("sk underarm B, join with sl st in first hdc.", "sk underarm B, join with sl st in first dc.")], tmp_path
    )
    (error,) = (each for each in check_pattern(folder).findings if not each.accepted)
    assert error.headline == "Yoke Rnd 1 (join) of yoke is joined into its first dc, and has no dc"


@pytest.fixture(scope="module")
def outcome() -> CheckOutcome:
    return check_pattern(FOLDER)


@pytest.fixture(scope="module")
def worked(outcome: CheckOutcome) -> WorkedPattern:
    assert outcome.written
    return work_pattern(outcome.written, Report())


def test_nothing_is_found(outcome: CheckOutcome) -> None:
    """Two warnings are accepted, with their reasons: uneven decreases in the last round, and measures that it has not."""
    assert {found.page.code for found in outcome.findings} == {"SP056", "SP111"}
    assert all(found.accepted for found in outcome.findings)


@pytest.mark.parametrize("name", TABLE)
def test_counts(outcome: CheckOutcome, name: str) -> None:
    assert outcome.sized
    assert [int(value) for value in outcome.sized.scope.quantities[name].values] == TABLE[name]  # type: ignore[arg-type]


def test_every_row_is_proved_in_every_size(worked: WorkedPattern) -> None:
    """Only what makes no stitch is merely told: foundation chains, a named row, which side is turned in."""
    proofs = {step.step.identity: step.proof for piece in worked.pieces for step in piece.steps}
    told = {name for name, proof in proofs.items() if proof is Proof.TOLD}
    assert told == {"hem/Ch .", "hem/Turn seam inside. Do", "cuff/Ch .", "sleeve/Inc Rnd"}
    assert set(proofs.values()) == {Proof.PROVED, Proof.TOLD}
    assert worked.findings == ()


@pytest.mark.parametrize("piece", STITCHES)
def test_stitches_of_each_piece(worked: WorkedPattern, piece: str) -> None:
    census = next(each.census for each in worked.pieces if each.name == piece)
    for kind, numbers in STITCHES[piece].items():
        assert [
            found and found["fabric" if piece not in ("hem", "cuff") else "rib", kind] for found in census
        ] == numbers


def test_stitches_of_the_sleeve(worked: WorkedPattern) -> None:
    """Round 2 to 48, each round with two stitches more from an increase round on."""
    census = next(each.census for each in worked.pieces if each.name == "sleeve")
    for size, found in enumerate(census):
        every, incs, sts = (TABLE[f"sleeve.{name}"][size] for name in ("every", "incs", "first"))
        on = {5 + every * number for number in range(incs)}
        total = 0
        for rnd in range(2, 49):
            sts += 2 * (rnd in on)
            total += sts
        assert found and found["fabric", "hdc"] == total and max(on) == TABLE["sleeve.last_inc"][size]


def test_stitches_of_the_yoke(worked: WorkedPattern) -> None:
    """Rounds of J, J − 8, … J − 64 and the last one; a decrease counts as one of them."""
    census = next(each.census for each in worked.pieces if each.name == "yoke")
    for size, found in enumerate(census):
        join, last = TABLE["yoke.join"][size], TABLE["yoke.last"][size]
        assert (
            found and found["fabric", "hdc"] + found["fabric", "hdc2tog"] == sum(join - 8 * k for k in range(9)) + last
        )
