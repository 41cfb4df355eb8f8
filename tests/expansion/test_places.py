"""Where a fault is shown: the very characters that were typed, whatever stands before them, and the calls that used them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text
from tests.expansion.unfolded import RULES, unfolded, words


def carets(printed: str, sign: str = "^") -> list[str]:
    """What stands above each row of carets, counted by terminal columns: an emoji takes two. (ASCII spans only.)"""
    lines = printed.split("\n")
    found = []
    for above, below in pairwise(lines):
        if "|" in above and below.lstrip(" |").startswith(sign):
            start = below.index(sign)
            cells = [character for character in above for _ in range(columns(character))]
            found.append("".join(cells[start : start + below.count(sign)]))
    return found


def columns(character: str) -> int:
    """Terminal columns of the few characters used here: Unicode Standard Annex 11 (wide), and combining marks."""
    return {"🧶": 2, "\u0301": 0}.get(character, 1)


FAULT = "<sts_arround>"


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [
        (f"Row 1: é🧶 sc in {FAULT} sts.\n", 3, 18),
        (f"Row 1: e\u0301 🧶🧶 {FAULT} sts.\n", 3, 15),
        (f"::: for each k in 1 to rows_in_all\nRow <k>: é🧶 sc in {FAULT} sts.\n:::\n", 4, 20),
        (f"{{% for k in upto(rows_in_all) %}}\nRow {{{{ k }}}}: é🧶 sc in {FAULT} sts.\n{{% endfor %}}\n", 4, 24),
        (f"Row 1: é🧶\n  goes on é🧶 {FAULT} sts.\n", 4, 15),
        (f"Row 1:\n  sizes S: é🧶 {FAULT} sts.\n  other sizes: Sc.\n", 4, 16),
        (f"::: note\nSo *é🧶* and é {FAULT}.\n:::\n", 4, 16),
        (f"| é | 🧶 |\n| - | - |\n| é🧶 | x {FAULT} |\n", 5, 11),
        (f"### é🧶 {FAULT}\n", 3, 9),
        (f"::: sizes S\nRow 1: é🧶 {FAULT} sts.\n:::\n", 4, 12),
    ],
)
def test_a_fault_is_shown_where_it_was_typed(text: str, line: int, column: int) -> None:
    """After an accented letter and an emoji: in a step, a loop of either kind, a continuation, a part, a note, a table."""
    outcome = unfolded(text)
    (found,) = [each for each in outcome.findings if each.page.code != "SP215"]  # the emoji has no place on paper
    assert found.page.code == "SP007"
    place = facts_of(found)["primary"]
    assert (place["start"]["line"], place["start"]["column"]) == (line, column)
    assert found.primary.span.text == "sts_arround"
    assert "sts_arround" in carets(outcome.printed)


MACROS = "{% macro dec(n, k) %}\né🧶 Dec Rnd {{ k }}: sc in <n / 0> sts, é🧶 done.\n{% endmacro %}\n"


def test_written_here_used_there() -> None:
    """A fault inside a macro of a shared text: the macro's line first, then each call, nearest first."""
    text = '{% from "decs.md" import dec %}\n## Piece {piece}\n{{ dec(sts_around, 1) }}\né {{ dec(edge, 2) }}\n'
    outcome = unfolded("## Other\n" + text, shared={"decs.md": MACROS})
    (found,) = [each for each in outcome.findings if each.page.code not in RULES]
    assert found.page.code == "SP022"
    assert found.primary.span.file.path.endswith("shared_text/decs.md")
    assert found.primary.span.text == "0"
    assert found.primary.span.file.line_column(found.primary.span.start) == (2, 32)
    places = [(each.span.text, each.span.file.line_column(each.span.start), each.label) for each in found.related]
    assert places == [
        ("{{ dec(sts_around, 1) }}", (4, 1), "used from here"),
        ("{{ dec(edge, 2) }}", (5, 3), "used from here"),
    ]
    assert carets(as_text([facts_of(found)])) == ["0"]
    assert carets(as_text([facts_of(found)]), "-") == ["{{ dec(sts_around, 1) }}", "{{ dec(edge, 2) }}"]


@pytest.mark.parametrize(
    "use",
    [
        "Row 1: {{ m(sts_around) }}\n",
        "## {{ m(sts_around) }} {piece}\n",
        "::: note\n*Mind* {{ m(sts_around) }}\n:::\n",
        "| {{ m(sts_around) }} |\n| - |\n",
        "::: note\n- a\n- {{ m(sts_around) }}\n:::\n",
        "Row 1:\n  {{ m(sts_around) }}\n",
    ],
)
def test_the_call_is_told_wherever_it_stands(use: str) -> None:
    text = '## Other\n{% from "m.md" import m %}\n' + ("" if "{piece}" in use else "## Piece {piece}\n") + use
    (found,) = unfolded(text, shared={"m.md": "{% macro m(n) %}x <n / 0> y{% endmacro %}"}).findings
    assert [excerpt.span.text for excerpt in found.related] == ["{{ m(sts_around) }}"]


def test_a_fault_in_a_part_of_a_macro_tells_its_call() -> None:
    shared = {"m.md": "{% macro m(n) %}\nRow 1:\n  sizes with n / 0 > 2: Sc.\n{% endmacro %}"}
    (found,) = unfolded('{% from "m.md" import m %}\n{{ m(sts_around) }}\n', shared=shared).findings
    assert [excerpt.span.text for excerpt in found.related] == ["{{ m(sts_around) }}"]


def test_a_wrong_formula_is_one_report_however_often_its_line_is_repeated() -> None:
    text = "::: for each k in 1 to rows_in_all\nRow <k>: <sts_around / (k - k)> sts, <wrong>.\n:::\n"
    outcome = unfolded(text)
    assert sorted(outcome.codes) == ["SP007", "SP022"]
    assert outcome.findings[0].sizes == outcome.findings[1].sizes == ("S", "M", "L")


def test_a_backslash_moves_no_place() -> None:
    """`\\\\<` prints a bare <; what stands behind it is still placed where it was typed."""
    outcome = unfolded("Row 1: 2 \\< 3, sc in next st.\n")
    (step,) = outcome.steps
    tokens = step.parts[0].tokens
    assert words(tokens) == "2 < 3, sc in next st."
    assert [token.place.span.text for token in tokens] == ["2 ", "< 3, ", "sc", " in next ", "st", "."]
