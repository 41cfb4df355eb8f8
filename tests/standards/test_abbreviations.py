"""The list of abbreviations. Source: Craft Yarn Council, Abbreviations, Crochet Master List, recalled as a whole."""

import pytest

from stitchproof.standards.abbreviations import abbreviations, abbreviations_written, repeat_marks
from stitchproof.standards.provenance import memory_note
from stitchproof.standards.terms import stitch_pairs


@pytest.mark.parametrize(
    ("written", "meanings"),
    [
        ("sc2tog", ["single crochet 2 stitches together"]),
        ("BLO", ["back loop or back loop only"]),
        ("sl  st", ["slip stitch"]),
        ("RS", ["right side"]),
        ("rs", []),
        ("m", ["marker", "meter"]),
        ("fsc", ["foundation single crochet"]),
        ('"', ["inch"]),
    ],
)
def test_what_an_abbreviation_stands_for(written: str, meanings: list[str]) -> None:
    assert [entry.meaning for entry in abbreviations_written(written)] == meanings


def test_only_the_marker_and_the_metre_share_a_spelling() -> None:
    written = [word for entry in abbreviations() for word in (entry.written, *entry.also)]
    assert [word for word in sorted(set(written)) if written.count(word) > 1] == ["m"]


def test_stitches_mean_the_same_in_the_table_of_terms() -> None:
    """US terms in both published tables."""
    named = {entry.written: entry.meaning for entry in abbreviations()}
    pairs = {pair.us.abbreviation: pair.us.name for pair in stitch_pairs()}
    shared = named.keys() & pairs.keys()
    assert len(shared) > 12
    for word in shared:
        assert named[word].replace(" stitches together", " together").split()[:2] == pairs[word].split()[:2] or (
            word in {"ch", "tr2tog"}
        )


def test_entries_not_seen_elsewhere_are_from_memory() -> None:
    """Fifteen entries of the list were found in no independent list."""
    unseen = [entry.written for entry in abbreviations() if entry.listed and memory_note(entry)]
    units = ["in", "cm", "mm", "m", "yd", "g", "oz"]
    assert unseen[-7:] == units
    assert len(unseen) - len(units) == 15


def test_marks_of_repeats() -> None:
    assert [mark.mark for mark in repeat_marks()] == ["*", "* *", "[ ]", "{ }", "( )"]
    assert all(memory_note(mark) for mark in repeat_marks())
