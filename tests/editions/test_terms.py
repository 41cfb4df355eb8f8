"""The other terms: each word one to one, and the same work behind it.

Pairs of terms: Craft Yarn Council, term differences between the U.S., U.K. and Canada (standards/terms.yaml).
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from stitchproof.editions.print_document import PrintBlock, PrintPassage, PrintStep, visible_text
from stitchproof.editions.terms import in_terms
from stitchproof.expansion.document import Text, Word, blocks_of, inlines_of
from stitchproof.rows.line import line_of_text
from stitchproof.rows.own_stitches import words_for
from stitchproof.rows.read_row import read_row
from stitchproof.rows.row_tree import RowTree
from stitchproof.source import SourceFile
from stitchproof.standards.terms import certain_signs
from tests.editions.demos import SHIPPED, document_of, set_in_one_size, written
from tests.editions.page_text import document_blocks, plain
from tests.editions.samples import document, prose, row, sizes_of
from tests.rows.notation import shown

FIRST = 0


def _steps(blocks: tuple[PrintBlock, ...]) -> list[PrintStep]:
    found = []
    for block in blocks:
        if isinstance(block, PrintStep):
            found.append(block)
        elif isinstance(block, PrintPassage):
            found += _steps(block.blocks)
    return found


def _trees(name: str, size: int, terms: str) -> list[str]:
    """The rows of a printed edition read again, as what they mean."""
    special = written(name).expanded.sized.source.header.special_stitches
    words = words_for(terms, special if terms == "US" else ())
    found = []
    for section in set_in_one_size(name, size, terms).sections:
        for step in _steps(section.blocks):
            for line in step.lines:
                text = plain(visible_text(line.inlines))
                read = read_row(line_of_text(text, ("",), SourceFile("printed", text).whole), words)
                assert isinstance(read, RowTree), (text, read)
                found.append(shown(read))
    return found


@pytest.mark.parametrize("name", SHIPPED)
def test_one_size_in_uk_terms_read_back_is_the_same_work(name: str) -> None:
    for size in (FIRST, len(document_of(name).sizes.names) - 1):
        us, uk = _trees(name, size, "US"), _trees(name, size, "UK")
        assert us
        # What rows are called by is kept in its own words.
        assert [each.replace("<hdc rows>", "<htr rows>") for each in us] == uk


@pytest.mark.parametrize("name", SHIPPED)
def test_no_certain_word_of_us_terms_is_left(name: str) -> None:
    turned = in_terms(document_of(name), "UK")
    texts = " ".join(
        inline.text if isinstance(inline, Text) else inline.as_written
        for block in blocks_of(turned.document)
        for inline in inlines_of(block)
        if isinstance(inline, Text | Word)
    ).lower()
    words = set(texts.replace("(", " ").replace(")", " ").replace(",", " ").split())
    assert not words & {sign.word for sign in certain_signs("US")} - {"skip"}
    assert turned.document.title_block.terms == "UK"
    assert turned.left == ()


@pytest.mark.parametrize("name", SHIPPED)
def test_there_and_back_is_where_we_were(name: str) -> None:
    there = in_terms(document_of(name), "UK").document
    back = in_terms(there, "US").document
    for old, new in zip(document_of(name).pieces, back.pieces, strict=True):
        said = [
            "".join(
                i.text if isinstance(i, Text) else i.as_written for i in inlines_of(b) if isinstance(i, Text | Word)
            )
            for piece in (old, new)
            for b in piece.blocks
        ]
        half = len(said) // 2
        # "ss" is one and many: which of "sl st" and "sl sts" it was cannot be told.
        assert [each.replace("sl sts", "sl st") for each in said[:half]] == said[half:]


def _one(text: str) -> str:
    sample = document(sizes_of("S", ()), prose(text))
    sample = replace(sample, title_block=replace(sample.title_block, terms="US"))
    (block,) = in_terms(sample, "UK").document.pieces[0].blocks
    return "".join(
        i.text if isinstance(i, Text) else i.as_written for i in inlines_of(block) if isinstance(i, Text | Word)
    )


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("half double crochet", "half treble crochet"),
        ("Single crochet and double crochet", "Double crochet and treble crochet"),
        ("double treble crochet", "triple treble crochet"),
        ("hdc, dc, sc and tr", "htr, tr, dc and dtr"),
        ("Dc2tog, sc3tog", "Tr2tog, dc3tog"),
        ("sc-blo, fsc, FPdc", "dc-blo, fdc, fptr"),
        ("skip the next; skipped; skipping", "miss the next; missed; missing"),
        ("Written in US terms", "Written in UK terms"),
        ("Gauge, color, yarn over", "Tension, colour, yarn round hook"),
        ("double the yarn, a treble clef", "double the yarn, a treble clef"),
        ("`sl st` in next `sc`, `yo`", "ss in next dc, yrh"),
    ],
)
def test_words(us: str, uk: str) -> None:
    assert _one(us).lower() == uk.lower()


def test_what_may_be_plain_english_is_reported() -> None:
    sample = document(sizes_of("S", ()), prose("A sweater in worsted weight."), row("Row 1:", "`Sc` across.", (0,)))
    sample = replace(sample, title_block=replace(sample.title_block, terms="US"))
    assert in_terms(sample, "UK").left == (("sweater", "jumper"), ("worsted weight", "aran"))
    assert in_terms(sample, "US").document is sample


def test_the_lists_are_in_the_same_terms() -> None:
    blocks = document_blocks(set_in_one_size("saltmarrow_yoke_top", 0, "UK"))
    assert "Abbreviations (UK terms)" in blocks
    assert "Tension" in blocks
    assert [each for each in blocks if "US terms" in each] == []
    assert "fhtr (foundation half treble crochet)" in blocks
    at = blocks.index("htr")
    assert blocks[at + 1] == "half treble crochet"
    assert not [text for text in blocks if "hdc" in text]
