"""Names of stitches: US and UK one to one, every name one stitch, and what each stitch takes and makes."""

from __future__ import annotations

import pytest

from stitchproof.standards.abbreviations import abbreviations
from stitchproof.standards.heights import turning_chains
from stitchproof.standards.terms import TermPair, stitch_pairs
from stitchproof.stitches.lexicon import lexicon_for
from stitchproof.stitches.stitch_names import facts_of, names_of_stitches, shipped_facts

US, UK = names_of_stitches("US"), names_of_stitches("UK")


def test_both_terms_have_the_same_stitches() -> None:
    assert set(US.values()) == set(UK.values()) == set(shipped_facts())


@pytest.mark.parametrize(
    "pair", [pair for pair in stitch_pairs() if pair.key in shipped_facts()], ids=lambda pair: pair.key
)
def test_published_names_lead_to_their_stitch(pair: TermPair) -> None:
    """Craft Yarn Council, term differences between the U.S., U.K. and Canada (standards/terms.yaml)."""
    assert US[tuple(pair.us.name.split())] == pair.key
    assert UK[tuple(pair.uk.name.split())] == pair.key
    assert US[tuple(pair.us.abbreviation.lower().split())] == pair.key
    assert UK[tuple(pair.uk.abbreviation.lower().split())] == pair.key


def test_published_abbreviations_of_stitches_are_known() -> None:
    """Craft Yarn Council, Abbreviations, Crochet Master List: each whose meaning ends in "crochet"."""
    stitches = [each for each in abbreviations() if each.meaning.endswith("crochet")]
    assert len(stitches) > 10
    for each in stitches:
        assert tuple(each.written.lower().split()) in US, each.written
        assert tuple(each.meaning.split()) in US, each.meaning


def test_the_printed_list_and_the_rows_agree() -> None:
    """A stitch in the list of abbreviations is the same stitch to the reader, in either terms."""
    for terms, names in (("US", US), ("UK", UK)):
        for key, entry in lexicon_for(terms, ()).entries.items():
            found = names.get(tuple(entry.abbreviation.lower().split()))
            if key in shipped_facts() and found is not None:
                assert found == key


@pytest.mark.parametrize(
    ("stitch", "takes", "makes", "base"),
    [
        # Common practice, no source.
        ("sc", 1, 1, "sc"),
        ("hdc2tog", 2, 1, "hdc"),
        ("dc3tog", 3, 1, "dc"),
        ("tr12tog", 12, 1, "tr"),
        ("fpdc2tog", 2, 1, "dc"),
        ("fsc", 0, 1, "sc"),
        ("fhdc", 0, 1, "hdc"),
        ("fpdc", 1, 1, "dc"),
        ("esc", 1, 1, "sc"),
        ("picot", 0, 0, "picot"),
        ("vst", 1, 2, "vst"),
    ],
)
def test_what_a_stitch_does(stitch: str, takes: int, makes: int, base: str) -> None:
    facts = facts_of(stitch)
    assert facts is not None
    assert (facts.takes, facts.makes, facts.base) == (takes, makes, base)


def test_heights_follow_the_published_turning_chains() -> None:
    """standards/stitch_heights.yaml names the handbooks; the chain of a single crochet does not count as one."""
    for chain in turning_chains():
        facts = facts_of(chain.stitch)
        assert facts is not None
        assert facts.height == chain.chains


def test_what_is_no_stitch_has_no_facts() -> None:
    assert facts_of("xyz2tog") is None
    assert facts_of("frobnicate") is None
