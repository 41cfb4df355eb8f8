"""Steps: labels, verbatim text, continuations, parts for some sizes, and identities."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.expansion.document import Text
from tests.expansion.unfolded import SIZES, clean, unfolded, words


@pytest.mark.parametrize(
    ("line", "label"),
    [
        ("Row 1: x", "Row 1:"),
        ("Rnd 12: x", "Rnd 12:"),
        ("Round 3 (RS): x", "Round 3 (RS):"),
        ("Rows 2–4: x", "Rows 2–4:"),
        ("Rows 2 and 4 (WS): x", "Rows 2 and 4 (WS):"),
        ("Dec Rnd <rows_in_all>: x", "Dec Rnd <3,5,5>:"),
        ("Joining row: x", "Joining row:"),
        ("Next Rnd: x", "Next Rnd:"),
        ("Rep Rows 1–2: x", "Rep Rows 1–2:"),
        ("Row 1 with RS facing: x", "Row 1 with RS facing:"),
        ("Row 1: with: colons: x", "Row 1:"),
        ("Fasten off: x", ""),
        ("Ch 12.", ""),
        ("Narrow: x", ""),
        ("In the next row, work: x", "In the next row, work:"),
        ("Work 2 rows. Then: x", ""),
    ],
)
def test_labels(line: str, label: str) -> None:
    (step,) = clean(line + "\n").steps
    assert words(step.label) == label


@settings(max_examples=60)
@given(st.text(st.sampled_from("ab é🧶*_#|[]()`~!>&;,'\"+=-/^"), min_size=1, max_size=30))
def test_a_step_is_verbatim(text: str) -> None:
    """Signs of Markdown inside a step are the trade's own: rep from *, sc_blo, [2 sc in next st]."""
    line = "Row 1: x " + " ".join(text.split()).replace("__", "_")  # `__` is a placeholder that was left over
    assert clean(line.rstrip() + "\n").piece == [f"Row 1:|[SML]none: {line[7:].rstrip()}"]


@pytest.mark.parametrize(
    "line",
    ["*Sc in next st; rep from * around.", "1. Ch 3.", "- Ch 3.", "> Ch 3.", "_sc_ in each st", "&amp; ch 3", "***"],
)
def test_a_line_that_looks_like_markdown_is_a_step(line: str) -> None:
    assert clean(line + "\n").piece == [f"|[SML]none: {line}"]


def test_indented_lines_go_on_and_blank_lines_part() -> None:
    text = "Row 1: a\n  b é\n\tc\n\nRow 2: d\n\n\n  e\nf\n"
    assert clean(text).piece == ["Row 1:|[SML]none: a b é c", "Row 2:|[SML]none: d", "|[SML]none: e", "|[SML]none: f"]


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Row 1:\n  sizes S: a\n  sizes M and L: b\n", "Row 1:|[S]only: a|[ML]only: b"),
        ("Row 1:\n  sizes S to M: a\n  other sizes: b\n", "Row 1:|[SM]only: a|[L]other: b"),
        ("Row 1:\n  size L only: a\n  other sizes: b\n", "Row 1:|[L]only: a|[SM]other: b"),
        ("Row 1: a\n  sizes M: b\n  all sizes: c\n", "Row 1:|[SML]none: a|[M]only: b|[SML]all: c"),
        (
            "Row 1:\n  sizes with sts_around > 8 sts: a <edge>\n  other sizes: b\n",
            "Row 1:|[ML]only: a <·,–,4>|[S]other: b",
        ),
        ("Row 1:\n  Sizes with sts_around > 8 sts: a\n  Other sizes: b\n", "Row 1:|[ML]only: a|[S]other: b"),
        ("Row 1:\n  sizes with sts_around>8 sts and rows_in_all<4 rows: a\n  other sizes: b\n", "Row 1:|[SML]none: b"),
        ("Row 1:\n  sizes with edge > 3 sts: a\n  other sizes: b\n", "Row 1:|[L]only: a|[SM]other: b"),
        ("Row 1:\n  sizes S: a\n    b\n  other sizes: c\n", "Row 1:|[S]only: a b|[ML]other: c"),
        ("Row 1:\n  sizes S to L: a\n", "Row 1:|[SML]none: a"),
        ("Row 1: a\n  sizes-with care: b\n", "Row 1:|[SML]none: a sizes-with care: b"),
        ("Row 1: a\n  all sizes of hook: b\n", "Row 1:|[SML]none: a all sizes of hook: b"),
        ("Row 1: a sizes S: b\n", "Row 1:|[SML]none: a sizes S: b"),
    ],
)
def test_parts_of_a_step(text: str, shown: str) -> None:
    assert clean(text).piece == [shown]


@pytest.mark.parametrize("words_", ["sizes XQ", "size 5 mm hook", "sizes S to XL", "sizes L to S", "Sizes S & M"])
def test_a_part_for_sizes_that_are_none_is_reported(words_: str) -> None:
    """It was once printed for all sizes, its first words gone."""
    assert unfolded(f"Row 1: a\n  {words_}: b\n").codes == ["SP029"]


def test_a_step_whose_parts_serve_no_size_vanishes() -> None:
    assert clean("Row 1:\n  sizes with sts_around > 99 sts: a\nRow 2: b\n").piece == ["Row 2:|[SML]none: b"]


def test_identities() -> None:
    """piece / label / loop values; a number only where the author repeats a label; an unlabelled step by its first words."""
    text = (
        "Ch <sts_around> and turn, then go on.\nRow 1: a\nRow 1: b\nRow 1/2: c\nRow 1: d\n"
        "::: for each k in 1 to rows_in_all\nDec Rnd <k>: a\n::: sizes with k < 3\nNext Rnd: b\nNext Rnd: c\n:::\n:::\n"
    )
    assert [step.identity for step in clean(text).steps] == [
        "piece/Ch and turn, then",
        "piece/Row 1",
        "piece/Row 1/2",
        "piece/Row 1/2/2",
        "piece/Row 1/3",
        *("piece/Dec Rnd/k=1", "piece/Next Rnd/k=1", "piece/Next Rnd/k=1/2"),
        *("piece/Dec Rnd/k=2", "piece/Next Rnd/k=2", "piece/Next Rnd/k=2/2"),
        *("piece/Dec Rnd/k=3", "piece/Dec Rnd/k=4", "piece/Dec Rnd/k=5"),
    ]


@settings(max_examples=40)
@given(
    st.lists(
        st.sampled_from(["Row 1: a", "Row 1/2: a", "Row 1/3: a", "Row 1: b", "Ch 3.", "Ch 3", "Row: a"]), max_size=9
    )
)
def test_no_two_steps_have_one_identity(lines: list[str]) -> None:
    identities = [step.identity for step in clean("\n".join(lines) + "\n").steps]
    assert len(set(identities)) == len(lines)


def test_an_identity_does_not_hang_on_the_numbers() -> None:
    """Another count in the row, or another size, is the same row to a comparison of two revisions."""
    before = clean("Row 1: Sc in next <sts_around> sts.\nSc <edge> times.\n").steps
    after = clean("Row 1: Sc in next 99 sts.\nSc <sts_around> times.\n").steps
    assert [step.identity for step in before] == [step.identity for step in after]


def test_texts_of_a_step_keep_their_places() -> None:
    for step in clean("Row 1: a é🧶 <edge> sc \\{ b\n  goes on <edge>.\n").steps:
        for token in step.parts[0].tokens:
            if isinstance(token, Text) and token.text.strip():
                assert token.place.span.text == token.text


SIZE_NAMES = SIZES.replace("[S, M, L]", '["0–3 months", "3–6 months", "6 to 9 months"]')


@pytest.mark.parametrize(
    ("named", "served"),
    [
        ("0–3 months", (0,)),
        ("0–3 months and 3–6 months", (0, 1)),
        ("0–3 months to 6 to 9 months", (0, 1, 2)),
        ("3–6 months – 6 to 9 months", (1, 2)),
        ("6 TO 9 months", (2,)),
    ],
)
def test_names_of_sizes_may_hold_dashes(named: str, served: tuple[int, ...]) -> None:
    """Children's sizes are ages as often as not: common practice, no source."""
    (step,) = clean(f"Row 1:\n  sizes {named}: a\n", SIZE_NAMES).steps
    assert step.served == served


def test_sizes_called_by_number() -> None:
    yaml = SIZES.replace("]}", "], called_by: number}")
    (step,) = clean("Row 1:\n  sizes 1 and 3: a\n", yaml).steps
    assert step.served == (0, 2)
    assert re.fullmatch("SP029", unfolded("Row 1:\n  sizes 4: a\n", yaml).codes[0])
