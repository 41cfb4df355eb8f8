"""The trade's words in a text: found where they are words, and listed as abbreviations exactly where they are used."""

from __future__ import annotations

import pytest

from stitchproof.expansion.document import Document, Step, Table, Word, blocks_of, inlines_of
from tests.expansion.unfolded import COUNTS, SIZES, clean, words

OWN = "special_stitches:\n  sc-blo: single crochet in the back loop only\n  CL: {name: cluster, how: Work 3 dc tog.}\n"


def found(text: str, yaml: str = COUNTS) -> list[str]:
    """The words found in the one step of a text, as written."""
    (step,) = clean(f"Row 1: {text}\n", yaml).steps
    return [token.as_written for part in step.parts for token in part.tokens if isinstance(token, Word)]


def abbreviations(document: Document | None) -> dict[str, str]:
    """The list of abbreviations of a document."""
    assert document is not None
    (section,) = [section for section in document.front if section.key == "abbreviations"]
    (table,) = section.blocks
    assert isinstance(table, Table)
    return {words(short): words(full) for short, full in table.rows}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Sc in next st, 2 sc in next 3 sts.", ["Sc", "st", "sc", "sts"]),
        ("sc-blo in each st", ["st"]),
        ("ch-1, (ch-2 sp), ch 3", ["ch", "ch", "sp", "ch"]),
        ("ch-sp and ch-sps", ["ch-sp", "ch-sps"]),
        ("sl st, sl  st, sl sts; slst", ["sl st", "sl  st", "sl sts"]),
        ("scarf, dchain, stitch, esc1, sc2together", []),
        ("sc2tog, hdc2tog, (hdc, dc, tr)", ["sc2tog", "hdc2tog", "hdc", "dc", "tr"]),
        ("with RS facing, rs, WS, ws, Rs", ["RS", "WS"]),
        ("BLO and blo, FPdc and fpdc", ["BLO", "blo", "FPdc", "fpdc"]),
        ("[sc, ch 1]*; rep from *", ["sc", "ch", "rep"]),
        ("sc.sc/sc—sc–sc", ["sc", "sc", "sc", "sc", "sc"]),
        ("rev-sc, sc-like, _sc_", []),
        ("é sc🧶 sc", ["sc", "sc"]),
    ],
)
def test_words_are_found(text: str, expected: list[str]) -> None:
    assert found(text) == expected


def test_uk_terms_have_uk_words() -> None:
    text = "dc in next st, htr, trtr, ss, miss 1 st; sc, hdc and sk are none"
    yaml = COUNTS + "terms: UK\n"
    assert found(text, yaml) == ["dc", "st", "htr", "trtr", "ss", "miss", "st"]
    listed = abbreviations(clean(f"Row 1: {text}\n", yaml).document)
    assert listed["dc"] == "double crochet"
    assert "sc" not in listed


def test_a_patterns_own_stitches_win() -> None:
    yaml = COUNTS + OWN
    outcome = clean("Row 1: sc-blo in each st, CL, cl in next.\n", yaml)
    assert found("sc-blo in each st, CL, cl in next.", yaml) == ["sc-blo", "st", "CL", "cl"]
    listed = abbreviations(outcome.document)
    assert listed["sc-blo"] == "single crochet in the back loop only"
    assert listed["CL"] == "cluster"


def test_the_list_holds_what_is_used_and_nothing_else() -> None:
    """Wherever it is used: heading, step, note, table, materials, gauge (sc), how a special stitch is worked, summary."""
    yaml = COUNTS + OWN + 'materials: ["1 skein in MC"]\nsummary: "Worked with the WS out."\n'
    text = "### With sl sts\nRow 1: sts\n::: note\n*Ch* 1.\n:::\n| yo |\n| - |\n| hdc |\n"
    document = clean(text, yaml).document
    assert document is not None
    listed = abbreviations(document)
    assert set(listed) == {"ch", "dc", "hdc", "MC", "sc", "sl st", "st(s)", "tog", "WS", "yo"}
    used = {inline.entry for block in blocks_of(document) for inline in inlines_of(block) if isinstance(inline, Word)}
    used |= {inline.entry for inline in document.title_block.summary if isinstance(inline, Word)}
    # The pattern's own stitch stands in the list of special stitches, with how it is worked.
    assert used - {"CL"} == {"slst" if key == "sl st" else key.lower().removesuffix("(s)") for key in listed}


def test_a_pattern_without_words_lists_none() -> None:
    document = clean("Row 1: a\n", SIZES).document
    assert document is not None
    own = [section.key for section in document.front]
    assert "special_stitches" not in own


def test_words_in_a_step_stand_where_they_were_typed() -> None:
    (step,) = clean("Row 1: é🧶 sc in next <edge> sts, \\<hdc.\n  Sl st to end.\n").steps
    assert isinstance(step, Step)
    for token in step.parts[0].tokens:
        if isinstance(token, Word):
            assert token.place.span.text == token.as_written
    assert [token.as_written for token in step.parts[0].tokens if isinstance(token, Word)] == [
        "sc",
        "sts",
        "hdc",
        "Sl st",
    ]


def test_words_made_by_jinja_are_placed_at_their_braces() -> None:
    (step,) = clean("{% set stitch = 'sc' %}\nRow 1: {{ stitch }} in next st.\n").steps
    places = {token.as_written: token.place.span.text for token in step.parts[0].tokens if isinstance(token, Word)}
    assert places["sc"] == "{{ stitch }}"
