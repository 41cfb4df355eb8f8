"""Blocks: loops, passages for some sizes, notes, cautions, things made more than once, and how they stand in one another."""

from __future__ import annotations

import pytest

from stitchproof.expansion.document import Passage
from tests.expansion.unfolded import COUNTS, clean, shown, unfolded


def test_a_loop_serves_the_sizes_that_still_have_a_round() -> None:
    """rows_in_all is 3, 5, 5: from the fourth round on, two sizes are left."""
    text = "::: for each k in 1 to rows_in_all\nRow <k>: a <after(k)>.\n:::\nRow: b\n"
    assert clean(text).piece == [
        "Row <1,1,1>:|[SML]none: a <6,10,14>.",
        "Row <2,2,2>:|[SML]none: a <4,8,12>.",
        "Row <3,3,3>:|[SML]none: a <2,6,10>.",
        "[ML]only {Row <·,4,4>:|[ML]none: a <·,4,8>.}",
        "[ML]only {Row <·,5,5>:|[ML]none: a <·,2,6>.}",
        "Row:|[SML]none: b",
    ]


def test_a_division_by_zero_where_nobody_is_served_is_no_fault() -> None:
    assert clean(
        "::: sizes with rows_in_all > 3 rows\nRow 1: <60 sts / (rows_in_all - 3 rows) * 1 rows> a\n:::\n"
    ).piece
    assert clean("Row 1:\n  sizes M: <sts_around / (sts_around - 8 sts) * 2> a\n  other sizes: b\n").piece


def test_loops_inside_loops_see_both_numbers() -> None:
    text = "::: for each a in 1 to 2\n::: for each b in a to 2\nRow <a>: <a + 10 * b>\n:::\nRnd <a>: x\n:::\n"
    assert [step.identity for step in clean(text).steps] == [
        *("piece/Row/a=1/b=1", "piece/Row/a=1/b=2", "piece/Rnd/a=1", "piece/Row/a=2/b=2", "piece/Rnd/a=2"),
    ]


def test_a_loop_may_begin_elsewhere_and_run_not_at_all() -> None:
    assert [step.identity for step in clean("::: for each k in 3 to rows_in_all\nRow <k>: x\n:::\n").steps] == [
        *("piece/Row/k=3", "piece/Row/k=4", "piece/Row/k=5")
    ]
    assert clean("::: for each k in 9 to rows_in_all\nRow <k>: x\n:::\n").piece == []


def test_a_loop_through_jinja_is_the_same_for_all_sizes() -> None:
    text = "{% for k in upto(rows_in_all) %}\n::: sizes with k <= rows_in_all / 1 rows\nRow {{ k }}: <k>\n:::\n{% endfor %}\n"
    assert clean(text).piece[3:] == ["[ML]only {Row 4:|[ML]none: <·,4,4>}", "[ML]only {Row 5:|[ML]none: <·,5,5>}"]


@pytest.mark.parametrize(
    ("text", "blocks"),
    [
        ("::: sizes S\nRow 1: a\n:::\n", ["[S]only {Row 1:|[S]none: a}"]),
        ("::: sizes S and L\nRow 1: <edge>\n:::\n", ["[SL]only {Row 1:|[SL]none: <2,·,4>}"]),
        (
            "::: sizes S to M\nRow 1: a\n:::\n::: other sizes\nRow 1: b\n:::\n",
            ["[SM]only {Row 1:|[SM]none: a}", "[L]other {Row 1:|[L]none: b}"],
        ),
        (
            "::: sizes with sts_around > 8 sts\nRow 1: a\n:::\n\n::: other sizes\nRow 1: b\n:::\n",
            ["[ML]only {Row 1:|[ML]none: a}", "[S]other {Row 1:|[S]none: b}"],
        ),
        ("::: Sizes  with  sts_around > 8 sts\nRow 1: a\n:::\n", ["[ML]only {Row 1:|[ML]none: a}"]),
        (
            "::: sizes S\nRow 1: a\n:::\nRow 2: b\n::: other sizes\nRow 3: c\n:::\n",
            ["[S]only {Row 1:|[S]none: a}", "Row 2:|[SML]none: b", "Row 3:|[SML]none: c"],
        ),
        ("::: sizes S to L\nRow 1: a\n:::\n", ["Row 1:|[SML]none: a"]),
        (
            "::: sizes S\nRow 1: a\n:::\n::: all sizes\nRow 2: b\n:::\n",
            ["[S]only {Row 1:|[S]none: a}", "[SML]all {Row 2:|[SML]none: b}"],
        ),
        (
            "::: sizes M to L\n::: sizes S to M\nRow 1: a\n:::\n::: other sizes\nRow 1: b\n:::\n:::\n",
            ["[ML]only {[M]only {Row 1:|[M]none: a}; [L]other {Row 1:|[L]none: b}}"],
        ),
        ("::: make 2\nRow 1: a\n:::\n", ["make 2 {Row 1:|[SML]none: a}"]),
        ("::: make two\nRow 1: a\n:::\n", ["make 2 {Row 1:|[SML]none: a}"]),
        ("::: Make 12\nRow 1: a\n:::\n", ["make 12 {Row 1:|[SML]none: a}"]),
        ("::: note\nIt *is* so.\n\n- a\n- b\n:::\n", ["note {It _is_ so.; - a\n- b}"]),
        (
            "::: note\n::: sizes S\nSmall.\n:::\n::: for each k in 1 to 2\nRound <k>.\n:::\n:::\n",
            ["note {[S]only {Small.}; Round <1,1,1>.; Round <2,2,2>.}"],
        ),
        ("::: caution\nNo strings.\n:::\n", ["caution [SML]none {No strings.}"]),
        ("::: caution sizes S and M\nNo strings.\n:::\n", ["caution [SM]only {No strings.}"]),
        ("::: caution for size S\nNo strings.\n:::\n", ["caution [S]only {No strings.}"]),
        ("| a | b |\n|---|---|\n| <edge> | c |\n| d |\n", ["a | b\n<2,–,4> | c\nd | "]),
        ("### Shape the top\nRow 1: a\n#### é🧶\n", ["### Shape the top", "Row 1:|[SML]none: a", "#### é🧶"]),
    ],
)
def test_blocks_of_a_piece(text: str, blocks: list[str]) -> None:
    assert clean(text).piece == blocks


@pytest.mark.parametrize(
    "words",
    [
        "remark",
        "note Mind the edge",
        "caution for babies",
        "caution babies",
        "all sizes here",
        "sizes",
        "other",
        "make 0",
        "make 1",
        "make 100",
        "make some",
        "for each k in 1",
        "for each k in 1 to",
        "For each k in 1 to 3",
        "each k",
    ],
)
def test_words_that_are_no_block_are_never_passed_over(words: str) -> None:
    """Several of these once lost their words, or served all sizes, without a report."""
    outcome = unfolded(f"::: {words}\nRow 1: a\n:::\n")
    assert outcome.codes == ["SP031"]


@pytest.mark.parametrize("words", ["sizes XL", "sizes S to XL", "size of the hook", "caution sizes XL", "sizes L to S"])
def test_sizes_that_are_none(words: str) -> None:
    assert unfolded(f"::: {words}\nRow 1: a\n:::\n").codes == ["SP029"]


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("::: sizes S\nRow 1: a\n", ["SP028"]),
        ("Row 1: a\n:::\n", ["SP028"]),
        ("::: note\n::: sizes S\na\n:::\n", ["SP028"]),
        ("::: for each k in 1 to 2\nRow <k>: a\n", ["SP028"]),
        ("::: for each k in 1 to 2\n::: sizes S\nRow <k>: a\n:::\n", ["SP028"]),
        ("::: sizes with rows_in_all > 9 rows\nRow 1: a\n:::\n", ["SP030"]),
        ("::: sizes with sts_around\nRow 1: a\n:::\n", ["SP008"]),
        ("::: sizes with sts_around > 2 rows\nRow 1: a\n:::\n", ["SP008"]),
        ("::: sizes with sts_arround > 2 sts\nRow 1: a\n:::\n", ["SP007"]),
        ("::: for each k in 1 to rows_in_al\nRow 1: a\n:::\n", ["SP007"]),
        ("::: for each k in 1 to depth\nRow <k>: a\n:::\n", ["SP008"]),
        ("::: for each k in sts_around to rows_in_all\nRow <k>: a\n:::\n", ["SP008"]),
        ("::: for each k in 1 to 30000\nRow <k>: a\n:::\n", ["SP027"]),
        ("{% for k in upto(depth) %}a{% endfor %}\n", ["SP027"]),
        ("{% for k in upto(after) %}a{% endfor %}\n", ["SP027"]),
        ("::: for each sts_around in 1 to 3\nRow 1: a\n:::\n", ["SP026"]),
        ("Row 1: <(rows_in_all > 3 rows)>\n", ["SP008"]),
    ],
)
def test_faults_of_blocks(text: str, codes: list[str]) -> None:
    assert unfolded(text, COUNTS + "measures: {depth: 4 cm}\n").codes == codes


def test_a_loop_block_in_a_loop_of_jinja_does_not_move_its_lines() -> None:
    """The end of a block stands on a line of its own: what is set in behind it was once set in for good."""
    text = "::: for each k in 1 to 2\nRow <k>: a\n:::\n  {% if true %}\nRow 9: b\n  {% endif %}\n"
    assert clean(text).piece[-1] == "Row 9:|[SML]none: b"


def test_a_passage_holds_the_words_that_chose_it() -> None:
    document = clean("::: sizes with sts_around > 8 sts\nRow 1: a\n:::\n").document
    assert document is not None
    (passage,) = document.pieces[0].blocks
    assert isinstance(passage, Passage)
    assert passage.chosen_by == "sts_around > 8 sts"
    assert passage.place.span.text.startswith("::: sizes with")


SECTIONS = """Before any heading, *é*.

## First things

Some <edge>.

::: note
n
:::

## Piece {piece}
Row 1: a

## Last things
1. one
2. two
"""


def test_sections_before_and_after_the_pieces() -> None:
    document = clean(SECTIONS, as_it_stands=True).document
    assert document is not None
    own = [section for section in document.front if section.key in ("notes", "first_things")]
    assert [(section.title, [shown(block) for block in section.blocks]) for section in own] == [
        ("Notes", ["Before any heading, _é_."]),
        ("First things", ["Some <2,–,4>.", "note {n}"]),
    ]
    assert [(section.key, [shown(block) for block in section.blocks]) for section in document.finishing] == [
        ("last_things", ["1. one\n1. two"])
    ]


def test_a_piece_that_is_named_wrongly_or_twice() -> None:
    assert unfolded("## Other {pice}\nRow 1: a\n").codes == ["SP035"]
    assert unfolded("## Piece {piece}\nRow 1: a\n## Again {piece}\nRow 1: b\n").codes == ["SP035"]


def test_a_piece_for_some_sizes_narrows_all_in_it() -> None:
    yaml = COUNTS + "pieces:\n  piece: {gauge: fabric, worked: rows, sizes: [M, L]}\n"
    assert clean("Row 1: <edge>\n::: other sizes\nRow 2: a\n:::\n", yaml).piece == [
        "Row 1:|[ML]none: <·,–,4>",
        "Row 2:|[ML]none: a",
    ]


def test_shipped_cautions_stand_in_front() -> None:
    yaml = COUNTS + "cautions:\n  - rules: [small_parts]\n    sizes: [S]\n  - infant_sleep\n"
    document = clean("Row 1: a\n", yaml).document
    assert document is not None
    (section,) = [section for section in document.front if section.key == "cautions"]
    assert [shown(block)[:14] for block in section.blocks] == ["caution [S]onl", "caution [SML]n"]
    assert [section.key for section in document.back] == ["hands", "help"]
