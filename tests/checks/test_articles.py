"""The article before a stitch, by its sound (common practice, no source)."""

from __future__ import annotations

import pytest

from stitchproof.checks.row_findings import words_for


@pytest.mark.parametrize(
    "said",
    [
        "an hdc", "an sc", "a dc", "a tr", "a dtr", "an fpdc", "a bpdc", "an fsc", "an fhdc", "an hdc2tog", "an sc3tog",
        "a dc2tog", "an sc-blo", "an esc", "an edc", "an ehdc", "an rsc", "a shell", "a fan", "a cluster", "a popcorn",
        "a puff", "a marker", "a star st", "a sl st", "a st", "a ch", "a base ch", "a row-end", "a rib", "an arch",
        "a loop", "a lp", "a vst", "an inc", "a dec", "a scallop", "a corner",
    ],
)  # fmt: skip
def test_the_article_is_that_of_the_sound(said: str) -> None:
    assert words_for(said.partition(" ")[2]) == said


def test_a_place_that_is_no_stitch_is_put_in_words() -> None:
    assert (words_for("chsp"), words_for("chsp2"), words_for("tch")) == ("a ch-sp", "a ch-2 sp", "a turning chain")
