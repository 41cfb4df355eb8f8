"""Slots: where they open and close, in every kind of text, and what only looks like one."""

from __future__ import annotations

import pytest

from stitchproof.formulas.slot import Slot, slots_in
from stitchproof.source import SourceFile, Span
from tests.expansion.unfolded import clean, unfolded


def slots(text: str) -> list[str]:
    """The slots of a line as written; "!" for one that cannot be read."""
    file = SourceFile("text.md", text)
    found = slots_in(Span(file, 0, len(text)))
    return [each.span.text if isinstance(each, Slot) else "!" for each in found]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("<a>", ["<a>"]),
        ('x<a>y <b>, (<c>) [<d>] "<e>" —<f>— <g>.', ["<a>", "<b>", "<c>", "<d>", "<e>", "<f>", "<g>"]),
        ("<a><b>", ["<a>", "<b>"]),
        ("<a + 1>", ["<a + 1>"]),
        ("<(a + 1) * 2>", ["<(a + 1) * 2>"]),
        ("<3 * a>", ["<3 * a>"]),
        ("<after(k)>", ["<after(k)>"]),
        ("<a if (x > 3) else b>", ["<a if (x > 3) else b>"]),
        ("<a if (x > 3 and (y > 4)) else b> and c > d", ["<a if (x > 3 and (y > 4)) else b>"]),
        ("<brim.rows as words>", ["<brim.rows as words>"]),
        ("<größe> <ω_2>", ["<größe>", "<ω_2>"]),
        ("é🧶 <a> e\u0301", ["<a>"]),
        ("\\<a> and <b>", ["<b>"]),
        ("2 < 3 > 1, a<-b, < a>, <!-- x -->, </a>, <=, \\<>", []),
        ("<> < >", ["!", "!"]),
        ("<https://example.org/a?b=c> <http://a.b>", []),
        ("<mailto:a@example.org> <a.b@example.org>", []),
        ("<a", ["!"]),
        ("<a\nb>", ["!"]),
        ("<a (b>", ["!"]),
        ("<a as poem>", ["!"]),
        ("<a b>", ["!"]),
        ("<a> > <b>", ["<a>", "<b>"]),
        ("<a > 3>", ["!"]),
        ("<a if b >= 3 sts else c> <d>", ["!", "<d>"]),
        ("<a > and 3 > <b>", ["!", "<b>"]),
        ("<a > and <b>", ["<a >", "<b>"]),
        ("<a, <b and <c", ["!"]),
    ],
)
def test_slots_of_a_line(text: str, found: list[str]) -> None:
    assert slots(text) == found


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Row 1: <sts_around>.\n", "Row 1:|[SML]none: <8,12,16>."),
        ("Row 1: (<sts_around> sts), <sts_around>!\n", "Row 1:|[SML]none: (<8,12,16> sts), <8,12,16>!"),
        ("Row 1: \\<sts_around> 2 < 3.\n", "Row 1:|[SML]none: <sts_around> 2 < 3."),
        ("Row 1: <https://a.b> <a@b.c>.\n", "Row 1:|[SML]none: <https://a.b> <a@b.c>."),
        ("Row 1: <edge if (sts_around > 8 sts) else 1 sts>.\n", "Row 1:|[SML]none: <1,–,4>."),
        ("Row <rows_in_all>: x.\n", "Row <3,5,5>:|[SML]none: x."),
        (
            "| a | <edge> |\n| - | - |\n| **<sts_around>** | <max(edge, 3 sts)> |\n",
            "a | <2,–,4>\n**<8,12,16>** | <3,–,4>",
        ),
        ("### Sub <edge> here\n", "### Sub <2,–,4> here"),
        (
            "::: note\n**<edge>** _<edge>_ [to <edge>](https://a.b) `<edge>`\n:::\n",
            "note {**<2,–,4>** _<2,–,4>_ [to <2,–,4>](https://a.b) <2,–,4>}",
        ),
        (
            "::: note\n<https://a.b> <a@b.c> \\<edge>\n:::\n",
            "note {[https://a.b](https://a.b) [a@b.c](mailto:a@b.c) <edge>}",
        ),
        ("::: note\nsts: <edge>_sts_<edge>*x*\n:::\n", "note {sts: <2,–,4>_sts_<2,–,4>_x_}"),
        ("::: note\n<edge>\n<edge>\n:::\n", "note {<2,–,4> <2,–,4>}"),
        ("::: note\n- <edge>\n1. <edge>\n:::\n", "note {- <2,–,4>; 1. <2,–,4>}"),
        ("{% raw %}Row 1: <edge> \\{ %.{% endraw %}\n", "Row 1:|[SML]none: <edge> { %."),
    ],
)
def test_slots_stand_anywhere(text: str, shown: str) -> None:
    """HTML would swallow `<edge>`, and a `|` or `*` inside a slot would cut a table cell or begin emphasis."""
    assert clean(text).piece == [shown]


@pytest.mark.parametrize("text", ["Row 1: <sts_around sts.\n", "::: note\n<edge\n:::\n", "| <edge |\n| - |\n"])
def test_a_slot_that_is_not_closed_is_reported_once(text: str) -> None:
    assert unfolded(text).codes == ["SP024"]


def test_slots_in_comments_and_in_jinja_are_none() -> None:
    outcome = clean("{# <nothing #}\nRow 1: {{ '<nothing>' }} x.\n")
    assert outcome.piece == ["Row 1:|[SML]none: <nothing> x."]
