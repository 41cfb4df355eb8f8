"""Slips of a designer's pen, planted in the shipped patterns one at a time: one report, its rule, the right sizes.

Only what a text or a number shows by itself stands here; a count that a row must be worked for is not among them.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion

from stitchproof import check_pattern
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text

SOURCES = Path(__file__).parents[2] / "pattern_sources"
HAT, COWL, TOP, WAISTCOAT = "cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top", "thornhollow_waistcoat"
ALL = ("all",)

Fault = tuple[str, str, str, str, str, tuple[str, ...]]
"""Pattern, file, text as it stands, text as planted; the code, and the sizes reported."""
FURTHER = {
    "the convention on chains left out": (("pattern.yaml", " (each sc and each ch-1 sp is 1 st)", ""),),
    "a special stitch without its how": (
        ("30_body.md", "Rnd 3: Hdc in each st", "Rnd 3: Hdc in next st, knop in next st, hdc in each st"),
    ),
}
"""What else must change for a fault to be there."""

FAULTS: dict[str, Fault] = {
    # Numbers for several sizes
    "an irregular step, typed": (
        HAT, "40_crown.md", "## Crown {crown}\n",
        "## Crown {crown}\n\n::: note\nThe first decreases have 6 (7, 8, 8, 10) sts between them.\n:::\n",
        "SP054", (),
    ),
    "two sizes have changed places, typed": (
        HAT, "10_notes.md", "The hat is worked in spiral rnds",
        "The hat, of 64 (72, 88, 80, 96) sts, is worked in spiral rnds", "SP054", (),
    ),
    "two sizes have changed places, by hand": (
        HAT, "pattern.yaml", "by_hand: [8, 9, 10, 11, 11]", "by_hand: [8, 9, 11, 10, 11]", "SP055", ("Adult",),
    ),
    "a size is left out of a step": (
        HAT, "30_body.md", "  other sizes: Hdc in each st around. — <hat_sts> hdc\n", "", "SP057", ("Toddler", "Child"),
    ),
    "a second rate for a size that has only one": (
        TOP, "40_sleeves.md", "  sizes with sleeve.slower_decs > 0: Then every",
        "  sizes 4 to 9: Then every", "SP058", ("9",),
    ),
    "one number of nine is missing": (
        TOP, "30_body.md", "ch <underarm>,\n  sk next <divide.held> sts (second sleeve)",
        "ch 8 (8, 10, 12) (14, 16, 18, 20),\n  sk next <divide.held> sts (second sleeve)", "SP053", (),
    ),
    "the sizes bracketed in another way": (
        TOP, "30_body.md", "ch <underarm>,\n  sk next <divide.held> sts (second sleeve)",
        "ch 8 (8, 10, 12, 14, 16, 18, 20, 22),\n  sk next <divide.held> sts (second sleeve)", "SP116", (),
    ),
    "another underarm, typed": (
        TOP, "60_finishing.md", "Weave in ends.",
        "Sew the 8 (8, 10, 12, 14) (18, 18, 20, 22) underarm sts of body and sleeve together. Weave in ends.", "SP106", ("6",),
    ),
    "one number for all sizes": (
        TOP, "60_finishing.md", "Close the gap", "Sew the 10 underarm sts of body and sleeve. Close the gap",
        "SP105", ("1", "2", "4", "5", "6", "7", "8", "9"),
    ),
    "one number for all sizes, in the mirrored piece": (
        WAISTCOAT, "40_left_front.md", "every 2nd row <v_every_2nd> more times, then every 4th row <v_every_4th> more times.",
        "every 2nd row <v_every_2nd> more times, then every 4th row 5 more times.", "SP105", ("1", "3", "6", "9"),
    ),
    "balls for the largest sizes only": (
        HAT, "pattern.yaml", "<yarn.balls> balls of 50 g", "2 balls of 50 g", "SP105", ("Baby", "Toddler"),
    ),
    "0 in an action": (
        TOP, "50_neckband.md", "band_decs.times: Ch 1, [hdc in each of next <band_decs.fewer> base ch",
        "band_decs.times: Ch 1, hdc in each of next <band_decs.times - band_decs.fewer_times> base ch, "
        "[hdc in each of next <band_decs.fewer> base ch", "SP058", ("3", "4", "6", "7"),
    ),
    "a size that the pattern does not have": (
        HAT, "30_body.md", "sizes with rnd_2_increases = 1:", "size 6:", "SP029", (),
    ),
    # Materials and units
    "6 buttons listed, 5 holes worked": (
        WAISTCOAT, "pattern.yaml", "<buttons> buttons, <button as mm>", "6 buttons, 15 mm", "SP069", ALL,
    ),
    "inches that belong to other centimetres": (
        TOP, "60_finishing.md", "Block to measurements.", "Block to measurements; size 7 is 148 cm / 60¼ in around the bust.",
        "SP060", (),
    ),
    "a hook that is not listed": (
        TOP, "50_neckband.md", "## Neckband (3.5 mm hook)", "## Neckband (3.25 mm hook)", "SP067", (),
    ),
    "the amount of yarn falls": (
        WAISTCOAT, "pattern.yaml", "hdc: 0.0345 g",
        f"hdc: [{', '.join(['0.0345 g'] * 7 + ['0.0300 g'] + ['0.0345 g'] * 2)}]", "SP061", ("8",),
    ),
    "a yarn without its fibre": (
        COWL, "pattern.yaml", "Fine-weight (category 2) wool, 320 m", "Fine-weight (category 2) yarn, 320 m", "SP071", (),
    ),
    "a gauge without its state": (
        COWL, "pattern.yaml", "    worked: rounds\n    hook: 4.5 mm\n    state: blocked", "    worked: rounds\n    hook: 4.5 mm",
        "SP068", (),
    ),
    # Words
    "an abbreviation of another stitch": (
        HAT, "40_crown.md", "  other sizes: [Hdc2tog] 8 times.", "  other sizes: [Hdc3tog] 8 times.", "SP063", (),
    ),
    "a stitch defined that no row uses": (
        HAT, "pattern.yaml", "special_stitches:\n", "special_stitches:\n  dc2tog: double crochet 2 together\n", "SP064", (),
    ),
    "a UK term": (
        HAT, "30_body.md", "Rnd 3: Hdc in each st around.", "Rnd 3: Htr in each st around.", "SP066", (),
    ),
    "a row in a piece of rounds": (
        HAT, "30_body.md", "until <body_rnds> rnds are complete", "until <body_rnds> rows are complete", "SP049", (),
    ),
    "a joined round in a spiral": (
        HAT, "30_body.md", "Rnd 3: Hdc in each st around.", "Rnd 3: Hdc in each st around, join with sl st in first hdc.",
        "SP117", (),
    ),
    "a join without its place": (
        TOP, "50_neckband.md", "around,\n  join with sl st in first fphdc.", "around,\n  join with sl st.", "SP045", (),
    ),
    "left and right, and nothing says whose": (
        TOP, "60_finishing.md", "Weave in ends.", "Weave in ends, first of all at the left shoulder.", "SP109", (),
    ),
    "the body called a bodice": (
        TOP, "30_body.md", "Body measures about <body_length>", "Bodice measures about <body_length>", "SP107", (),
    ),
    "the convention on chains left out": (
        COWL, "10_notes.md", "Each sc and each ch-1 sp is 1 st of the total; a sl st never counts.", "A sl st never counts.",
        "SP108", (),
    ),
    "a step that only the photo explains": (
        WAISTCOAT, "80_finishing.md", ", opposite the buttonholes.", ", as shown.", "SP110", (),
    ),
    "the upper arm left out of the table": (
        TOP, "pattern.yaml", "  Finished upper arm: <finished_arm>\n", "", "SP111", (),
    ),
    "straight for even": (
        WAISTCOAT, "20_back.md", "Work even until <rows_before_neck>", "Work straight until <rows_before_neck>", "SP113", (),
    ),
    "a side told by the start of a long spiral": (
        COWL, "40_way_3.md", "Last rnd: Sc in next ch-sp,", "The marker is now at the left side.\nLast rnd: Sc in next ch-sp,",
        "SP114", ALL,
    ),
    "a special stitch without its how": (
        HAT, "pattern.yaml", "special_stitches:\n", "special_stitches:\n  knop: raised knop\n", "SP115", (),
    ),
    "a placeholder": (HAT, "20_brim.md", "<brim_ribs> ribs", "XX ribs", "SP010", ()),
}  # fmt: skip


def planted(name: str, tmp_path: Path) -> Path:
    """A copy of the pattern with the fault in it; it must have found its place, once."""
    fault, further = FAULTS[name], FURTHER.get(name, ())
    pattern, file, old, new, *_ = fault
    folder = tmp_path / "pattern_sources" / pattern
    shutil.copytree(SOURCES / pattern, folder)
    for name, stands, put in ((file, old, new), *further):
        text = (folder / name).read_text("utf-8")
        assert text.count(stands) == 1, (name, stands, text.count(stands))
        (folder / name).write_text(text.replace(stands, put), encoding="utf-8")
    return folder


@pytest.mark.parametrize("name", FAULTS)
def test_one_report_in_the_right_sizes(name: str, tmp_path: Path, snapshot: SnapshotAssertion) -> None:
    """Each slip is found by the rule for it, once, in the sizes that have it; rows that it spoils are not told beside it."""
    fault = FAULTS[name]
    outcome = check_pattern(planted(name, tmp_path), within=tmp_path)
    findings = outcome.findings
    text = as_text(facts_of(found) for found in findings)
    assert [found.page.code for found in findings] == [fault[4]], text
    sizes = findings[0].sizes
    assert outcome.sized is not None
    assert sizes == (outcome.sized.sizes if fault[5] == ALL else fault[5]), text
    assert text == snapshot
