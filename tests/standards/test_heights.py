"""Turning chains, foundations, circles and row ends. Common practice; sources of worked figures by key, in sources.yaml."""

from fractions import Fraction

import pytest

from stitchproof.standards.heights import (
    FlatCircle,
    Foundation,
    StitchFigure,
    fabric_heights,
    flat_circles,
    foundation,
    row_ends,
    turning_chains,
)
from stitchproof.standards.provenance import memory_note


@pytest.mark.parametrize(
    ("stitch", "chains", "counts", "more", "first"),
    [
        ("sc", 1, False, 1, 2),
        ("hdc", 1, False, 1, 2),
        ("hdc", 2, False, 2, 3),
        ("hdc", 2, True, 1, 3),
        ("dc", 2, False, 2, 3),
        ("dc", 3, True, 2, 4),
        ("dc", 3, False, 3, 4),
        ("tr", 4, True, 3, 5),
        ("tr", 4, False, 4, 5),
        ("dtr", 5, True, 4, 6),
        ("sl st", 0, False, 1, 2),
    ],
)
def test_foundations_by_the_trades_table(stitch: str, chains: int, counts: bool, more: int, first: int) -> None:
    """Common practice, no source: chain N + more for N stitches, first stitch into the named chain from the hook."""
    assert foundation(chains, counts) == Foundation(more, first), stitch


@pytest.mark.parametrize(
    ("page", "chain", "turning_chain", "counts", "stitches"),
    [
        ("teaching_15", 26, 1, False, 25),
        ("yarn_company_7", 12, 1, False, 11),
        ("teaching_12", 11, 1, False, 10),
        ("yarn_company_8", 7, 0, False, 6),
        ("handbook_4", 17, 2, True, 16),
        # teaching_24 prints 10 hdc for 10 + 2 chains that count; by its own rule it is 11. Kept as a warning.
        ("teaching_24, corrected", 12, 2, True, 11),
    ],
)
def test_first_rows_of_published_pages(page: str, chain: int, turning_chain: int, counts: bool, stitches: int) -> None:
    found = foundation(turning_chain, counts)
    assert chain - found.more_chains == stitches, page
    worked = chain - (found.first_chain - 1)
    assert worked + (1 if counts else 0) == stitches


def test_each_turning_chain_is_the_stitchs_height_in_chains() -> None:
    """Sources: handbook_3 and teaching_14 of sources.yaml, heights 0 to 5; triple treble from memory."""
    found = [(chain.stitch, chain.chains) for chain in turning_chains()]
    assert found == [("slst", 0), ("sc", 1), ("hdc", 2), ("dc", 3), ("tr", 4), ("dtr", 5), ("trtr", 6)]
    assert [chain.stitch for chain in turning_chains() if memory_note(chain)] == ["trtr"]


def test_whether_a_turning_chain_counts() -> None:
    """Common practice: sc never, half double crochet disputed, the taller ones usually."""
    assert {chain.stitch: chain.counts for chain in turning_chains()} == {
        "slst": None,
        "sc": False,
        "hdc": True,
        "dc": True,
        "tr": True,
        "dtr": True,
        "trtr": True,
    }
    assert [chain.stitch for chain in turning_chains() if chain.disputed] == ["hdc"]


def circle(stitch: str) -> FlatCircle:
    """The circle of a stitch."""
    return next(found for found in flat_circles() if found.stitch == stitch)


@pytest.mark.parametrize(
    ("page", "stitch", "rounds"),
    [
        ("blog_14", "sc", [6, 12, 18, 24, 30, 36, 42, 48]),
        ("retail_10", "hdc", [8, 16, 24, 32, 40]),
        ("retail_10", "dc", [12, 24, 36, 48, 60]),
    ],
)
def test_flat_circles_of_published_pages(page: str, stitch: str, rounds: list[int]) -> None:
    usual = circle(stitch).usual
    assert [number * usual for number in range(1, len(rounds) + 1)] == rounds, page
    assert page in circle(stitch).confirmed_by


def test_usual_circles_are_in_use() -> None:
    for found in flat_circles():
        assert found.in_use.contains(Fraction(found.usual))
    assert [found.stitch for found in flat_circles() if memory_note(found)] == ["tr"]


def of(figures: tuple[StitchFigure, ...]) -> dict[str, Fraction]:
    """The figures by stitch."""
    return {figure.stitch: figure.figure for figure in figures}


def test_row_ends() -> None:
    """1 sc to a row of sc, 2 to a row of dc: teaching_18 and forum_3 of sources.yaml; the others from memory."""
    assert of(row_ends()) == {"sc": 1, "hdc": Fraction(3, 2), "dc": 2, "tr": 3, "dtr": 4}
    assert [figure.stitch for figure in row_ends() if not memory_note(figure)] == ["sc", "dc"]


def test_fabric_heights_are_a_rule_of_thumb_from_memory() -> None:
    assert of(fabric_heights())["dc"] == 2
    assert all(memory_note(figure) for figure in fabric_heights())
