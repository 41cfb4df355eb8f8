"""Abbreviations told from ordinary words by their shape."""

from __future__ import annotations

import pytest

from stitchproof.checks.stitch_shapes import has_stitch_shape, in_these_terms, is_of_other_terms
from stitchproof.standards.abbreviations import abbreviations
from stitchproof.stitches.lexicon import lexicon_for

KNOWN = frozenset(spelling.lower() for entry in lexicon_for("US", []).entries.values() for spelling in entry.spellings)

# Ordinary prose of patterns, written for this test; the abbreviations of measures are common practice, no source.
PROSE = """
With RS facing, work along the row-ends; miss none, and keep an even tension. Measure 20 cm, 8 in, 2 lbs, 30 yds, 4 mm or 3 oz.
Turn the disc over, misc. colours first. The 1st, 2nd and nth rows try my patience. By now the shy rhythm is dry; why fly? Etc.
Use a DPN or a T-shirt yarn from the USA, ask on TV, write to the BBC or NASA; sizes XS to 2XL, 5XL; V-neck, X-back, A-line.
Metre, centre, theatre, ultra, intro, string, strand, trim, track, scarf, disco, descend, script, scatter, scrub, trestle.
"""


@pytest.mark.parametrize("word", sorted({word.strip(".,;?") for word in PROSE.split()}))
def test_ordinary_words_have_no_stitch_shape(word: str) -> None:
    assert not has_stitch_shape(word, KNOWN)


def test_published_stitches_have_the_shape_or_are_known() -> None:
    """Craft Yarn Council, Abbreviations, Crochet Master List: each abbreviation whose meaning ends in "crochet"."""
    stitches = [each.written for each in abbreviations() if each.meaning.endswith("crochet")]
    assert len(stitches) > 10
    for written in stitches:
        assert written.lower() in KNOWN or has_stitch_shape(written, KNOWN), written


@pytest.mark.parametrize("word", ["fpdcc", "hcd", "sc3tog", "Sc3tog", "V-st", "hdc-blo", "rdn", "trinc"])
def test_slips_of_the_pen_have_the_shape(word: str) -> None:
    assert has_stitch_shape(word, KNOWN)


@pytest.mark.parametrize("word", ["sc", "hdc", "dcs", "hdcs", "chs"])
def test_known_words_and_their_plurals_are_no_slips(word: str) -> None:
    assert word in KNOWN or not has_stitch_shape(word, KNOWN)


@pytest.mark.parametrize(
    ("word", "terms", "ours"),
    [("htr", "US", "hdc"), ("FPhtr", "US", "fphdc"), ("sc2tog", "UK", "dc2tog"), ("hdc", "UK", "htr")],
)
def test_terms_by_the_stitch_in_a_word(word: str, terms: str, ours: str) -> None:
    """Craft Yarn Council, term differences: htr is UK only; sc and hdc are US only."""
    assert is_of_other_terms(word, terms)
    assert in_these_terms(word, terms) == ours


@pytest.mark.parametrize("word", ["dc", "tr", "dtr", "disc", "misc", "dc2tog"])
def test_what_proves_nothing(word: str) -> None:
    assert not is_of_other_terms(word, "US")
    assert not is_of_other_terms(word, "UK")
