"""US and UK terms. Source: Craft Yarn Council, term differences between the U.S., U.K. and Canada."""

import pytest

from stitchproof.standards.provenance import memory_note
from stitchproof.standards.terms import TermPair, ambiguous_words, certain_signs, sign_of, stitch_pairs, word_pairs
from stitchproof.stitches.lexicon import lexicon_for


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_stitches_are_one_to_one(terms: str) -> None:
    """No two stitches share a name or an abbreviation within one of the two, so that a text can be turned over and back."""
    for part in ("name", "abbreviation"):
        written = [getattr(pair.in_terms(terms), part) for pair in stitch_pairs()]
        assert len(set(written)) == len(written)
    also = [word for pair in stitch_pairs() for word in pair.in_terms(terms).also]
    taken = {pair.in_terms(terms).abbreviation for pair in stitch_pairs()}
    assert len(set(also)) == len(also)
    assert not taken & set(also)


def test_keys_are_those_of_us_terms() -> None:
    assert len({pair.key for pair in stitch_pairs()}) == len(stitch_pairs())


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("sc", "dc"),
        ("hdc", "htr"),
        ("dc", "tr"),
        ("tr", "dtr"),
        ("dtr", "trtr"),
        ("sc2tog", "dc2tog"),
        ("FPdc", "FPtr"),
    ],
)
def test_uk_names_stand_one_step_higher(us: str, uk: str) -> None:
    pair = pair_of(us)
    assert pair.uk.abbreviation == uk
    assert memory_note(pair) == ""


def pair_of(us: str) -> TermPair:
    """The pair with a US abbreviation."""
    return next(pair for pair in stitch_pairs() if pair.us.abbreviation == us)


def test_the_lexicon_that_reads_rows_says_the_same() -> None:
    """The stitches that both tables have carry the same abbreviation in both terms."""
    both = 0
    for terms in ("US", "UK"):
        entries = lexicon_for(terms, ()).entries
        for pair in stitch_pairs():
            if pair.key in entries:
                both += 1
                assert entries[pair.key].abbreviation == pair.in_terms(terms).abbreviation
    assert both > 20


@pytest.mark.parametrize(
    ("word", "terms"),
    [
        ("sc", "US"),
        ("hdc", "US"),
        ("Half  double crochet", "US"),
        ("htr", "UK"),
        ("Miss", "UK"),
        ("tension", "UK"),
        ("yrh", "UK"),
        ("dc", None),
        ("tr", None),
        ("dtr", None),
        ("ch", None),
    ],
)
def test_what_a_word_proves(word: str, terms: str | None) -> None:
    found = sign_of(word)
    assert (found.terms if found else None) == terms


def test_a_certain_sign_is_no_stitch_or_word_of_the_other_terms() -> None:
    """Except the rare US htr, which carries its caveat."""
    for terms, other in (("US", "UK"), ("UK", "US")):
        words = {word for pair in (*stitch_pairs(), *word_pairs()) for word in pair.in_terms(other).spellings}
        shared = {sign.word for sign in certain_signs(terms)} & words
        assert shared <= {"htr"}
        assert all(sign.caveat for sign in certain_signs(terms) if sign.word in shared)


def test_ambiguous_words_are_different_stitches_in_the_two() -> None:
    written = {
        terms: {pair.in_terms(terms).abbreviation: pair.key for pair in stitch_pairs()} for terms in ("US", "UK")
    }
    for word in ambiguous_words():
        assert sign_of(word) is None
        keys = {written[terms].get(word) for terms in ("US", "UK")}
        assert len(keys) == 2, word
    both = {word for word in written["US"].keys() & written["UK"].keys() if written["US"][word] != written["UK"][word]}
    assert both <= {*ambiguous_words(), "htr"}  # rare in US terms, and so a certain sign with its caveat


def test_words_that_differ() -> None:
    pairs = {pair.us.name: pair.uk.name for pair in word_pairs()}
    assert (pairs["skip"], pairs["gauge"], pairs["yarn over"]) == ("miss", "tension", "yarn round hook")
