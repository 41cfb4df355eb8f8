"""The chain that a piece begins with, closed into a ring in the ways in which the trade says so (common practice, no source)."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from stitchproof.simulation.worked_pattern import Proof
from stitchproof.stages import CheckOutcome
from tests.checks.smallest_pattern import write_example

YAML = "counts:\n  body_sts: {by_hand: [30, 36], unit: sts}\npieces: {piece: {gauge: fabric, worked: joined rounds}}\n"
RINGS = (
    "Ch <body_sts>, join with sl st in first ch to form a ring.",
    "Ch <body_sts>; join with sl st in first ch.",
    "Ch <body_sts> and join.",
    "Ch <body_sts>, sl st in first ch to form a ring.",
    "Ch <body_sts> and join into a ring with sl st in first ch.",
    "Ch <body_sts>. Join with sl st in first ch, taking care not to twist.",
    "Ch <body_sts>, being careful not to twist, join with sl st in first ch to form a ring.",
    "Ch <body_sts>.\nJoin with sl st in first ch to form a ring.",
    "Ch <body_sts>, join with sl st in first ch. — <body_sts> ch",
)


def worked(text: str, folder: Path) -> CheckOutcome:
    return check_pattern(write_example(Example(YAML, text, None, ()), folder), within=folder)


def first_round(stated: str) -> str:
    return f"Rnd 1: Ch 1, sc in each ch around, join with sl st in first sc. — {stated} sc\nFasten off.\n"


@pytest.mark.parametrize("ring", RINGS)
def test_a_ring_of_chains_is_worked_into(ring: str, tmp_path: Path) -> None:
    """Its first round has a stitch for each chain, and one more or fewer is found."""
    right = worked(f"{ring}\n{first_round('<body_sts>')}", tmp_path / "right")
    assert right.findings == ()
    assert right.worked
    (piece,) = right.worked.pieces
    assert {step.proof for step in piece.steps} <= {Proof.PROVED, Proof.TOLD}
    wrong = worked(f"{ring}\n{first_round('<body_sts - 1>')}", tmp_path / "wrong")
    assert [(each.page.code, each.sizes) for each in wrong.findings] == [("SP135", ("S", "M"))]


def test_the_chains_of_a_ring_are_held_against_their_count(tmp_path: Path) -> None:
    text = f"Ch <body_sts>, join with sl st in first ch. — <body_sts + 1> ch\n{first_round('<body_sts>')}"
    (error,) = worked(text, tmp_path).findings
    assert (error.page.code, error.primary.span.text) == ("SP135", "<body_sts + 1> ch")


def test_a_small_ring_is_worked_around(tmp_path: Path) -> None:
    """Stitches in a ring are as many as the row says, whatever the chains were."""
    text = (
        "Ch 4, join with sl st in first ch to form a ring.\n"
        "Rnd 1: Ch 1, 6 sc in ring, join with sl st in first sc. — 6 sc\n"
        "Rnd 2: Ch 1, 2 sc in each st around, join with sl st in first sc. — {} sc\nFasten off.\n"
    )
    assert worked(text.format(12), tmp_path / "right").findings == ()
    assert [each.page.code for each in worked(text.format(13), tmp_path / "wrong").findings] == ["SP135"]
