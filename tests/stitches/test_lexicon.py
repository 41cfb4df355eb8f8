"""The lexicon: US and UK terms are one to one, every spelling leads to one entry, a pattern's own stitches come first."""

from __future__ import annotations

import pytest

from stitchproof.stitches.lexicon import Lexicon, lexicon_for

US, UK = lexicon_for("US", ()), lexicon_for("UK", ())
BOTH = [pytest.param(US, id="US"), pytest.param(UK, id="UK")]

# Differences of US and UK terms. Source: Craft Yarn Council, Standards & Guidelines for Crochet and Knitting (booklet dated
# 02/05/18), term conversions; from memory, read against no copy at hand.
SAME_STITCH = [
    ("sl st", "ss"),
    ("sc", "dc"),
    ("hdc", "htr"),
    ("dc", "tr"),
    ("tr", "dtr"),
    ("dtr", "trtr"),
    ("sc2tog", "dc2tog"),
    ("dc2tog", "tr2tog"),
    ("sk", "miss"),
    ("yo", "yrh"),
    ("ch", "ch"),
]


@pytest.mark.parametrize(("us", "uk"), SAME_STITCH)
def test_a_stitch_has_a_name_in_either_terms(us: str, uk: str) -> None:
    american, british = US.entry_of(us), UK.entry_of(uk)
    assert american is not None
    assert british is not None
    assert american.key == british.key
    assert (american.abbreviation, british.abbreviation) == (us, uk)


def test_terms_are_one_to_one() -> None:
    """The same entries in both, and no two of them under one abbreviation or one meaning."""
    assert set(US.entries) == set(UK.entries)
    for lexicon in (US, UK):
        assert len({entry.abbreviation.lower() for entry in lexicon.entries.values()}) == len(lexicon.entries)
        assert len({entry.meaning for entry in lexicon.entries.values()}) == len(lexicon.entries)


@pytest.mark.parametrize("lexicon", BOTH)
def test_every_spelling_leads_to_its_entry_and_to_no_other(lexicon: Lexicon) -> None:
    spellings = [spelling.lower() for entry in lexicon.entries.values() for spelling in entry.spellings]
    assert len(set(spellings)) == len(spellings)
    for entry in lexicon.entries.values():
        for spelling in entry.spellings:
            assert lexicon.entry_of(spelling) is entry
            assert lexicon.pattern.fullmatch(spelling)


@pytest.mark.parametrize("lexicon", BOTH)
def test_capitals_matter_only_where_they_tell_words_apart(lexicon: Lexicon) -> None:
    for entry in lexicon.entries.values():
        changed = entry.abbreviation.swapcase()
        assert lexicon.entry_of(changed) is (None if entry.exact else entry)


@pytest.mark.parametrize("own", ["CL", "cl", "sc", "SC", "sl st", "Sts", "sl  st"])
def test_a_patterns_own_stitch_comes_first(own: str) -> None:
    """Whatever it is called, also by the name of a word whose capitals matter."""
    lexicon = lexicon_for("US", [(own, "a stitch of the pattern's own")])
    entry = lexicon.entry_of(own)
    assert entry is not None
    assert entry.special
    assert entry.meaning == "a stitch of the pattern's own"


def test_the_longest_word_wins() -> None:
    lexicon = lexicon_for("US", [("sc-blo", "single crochet in the back loop only"), ("sc cl", "cluster")])
    found = [match[0] for match in lexicon.pattern.finditer("sc-blo sc cl sc2tog sc ch-sps ch-1 sl  st")]
    assert found == ["sc-blo", "sc cl", "sc2tog", "sc", "ch-sps", "ch", "sl  st"]


def test_a_stitch_without_a_name_is_none() -> None:
    lexicon = lexicon_for("US", [("", "nothing"), ("  ", "nothing")])
    assert lexicon.pattern.search("xyz") is None
