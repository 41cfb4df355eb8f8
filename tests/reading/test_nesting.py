"""How deep a text may be nested: what is allowed is unfolded, one more is reported at its place, whatever it is made of."""

from __future__ import annotations

import pytest

from stitchproof.reading.nesting import DEEPEST, DEEPEST_BRACKETS, MOST_SIGNS
from tests.expansion.unfolded import clean, unfolded

NESTED = {
    "loops": ("{% for i in [1] %}", "{% endfor %}"),
    "choices": ("{% if true %}", "{% endif %}"),
    "texts of their own": ("{% set a %}", "{% endset %}"),
    "variables of their own": ("{% with a = 1 %}", "{% endwith %}"),
    "filters": ("{% filter upper %}", "{% endfilter %}"),
    "loop blocks": ("::: for each k in 1 to 1\n", "\n:::"),
    "passages": ("::: sizes with 1 > 0\n", "\n:::"),
    "notes": ("::: note\n", "\n:::"),
    "loops in loop blocks": ("::: for each k in 1 to 1\n{% for i in [1] %}\n", "\n{% endfor %}\n:::\n"),
}
BRACKETS = {
    "round": ("(", "1", ")"),
    "square": ("[", "'a'", "]|first"),
    "calls": ("m(", "1", ")"),
}
SIGNS = {
    "not": "{{{{ 'a' if {}true else '' }}}}".format,
    "minus": "{{{{ {}1 }}}}".format,
}


def nested(name: str, depth: int) -> str:
    """A text with so many of a kind inside one another."""
    opening, closing = NESTED[name]
    return f"{opening * depth}Turn. {closing * depth}\n"


@pytest.mark.parametrize("name", NESTED)
def test_nesting(name: str) -> None:
    levels = 2 if name == "loops in loop blocks" else 1
    clean(nested(name, DEEPEST // levels))
    assert unfolded(nested(name, DEEPEST // levels + 1)).codes == ["SP016"]
    assert unfolded(nested(name, 500)).codes == ["SP016"]


def test_what_is_closed_does_not_count() -> None:
    assert clean("".join(nested(name, 3) for name in ("loops", "choices", "texts of their own")) * 20).piece


def test_a_value_that_is_set_opens_nothing() -> None:
    assert clean("{% set a = 1 %}\n" * 100 + "x\n").piece


@pytest.mark.parametrize("name", BRACKETS)
def test_brackets(name: str) -> None:
    opening, inner, closing = BRACKETS[name]
    macro = "{% macro m(x) %}{{ x }}{% endmacro %}\n"
    depth = DEEPEST_BRACKETS if "|" not in closing else MOST_SIGNS // 2
    assert clean(f"{macro}{{{{ {opening * depth}{inner}{closing * depth} }}}}\n").piece
    assert unfolded(f"{macro}{{{{ {opening * 300}{inner}{closing * 300} }}}}\n").codes == ["SP016"]


@pytest.mark.parametrize(("sign", "least"), [("not ", 2), ("-", 0), ("+", 0)])
def test_signs(sign: str, least: int) -> None:
    made = SIGNS["not" if sign == "not " else "minus"]
    assert clean(made(sign * (MOST_SIGNS - least)) + "\n").piece
    assert unfolded(made(sign * (MOST_SIGNS - least + 1)) + "\n").codes == ["SP016"]


@pytest.mark.parametrize("chain", ["|upper", ".a", "[0]", "()", " ~ 'a'", " is defined"])
def test_chains(chain: str) -> None:
    """What is done again and again to the same value lies one deeper each time."""
    assert unfolded(f"{{{{ x{chain * 500} }}}}\n").codes == ["SP016"]


def test_the_place_is_the_one_too_many() -> None:
    (finding,) = unfolded("Row 1: x\n" + "::: note\n" * (DEEPEST + 1) + ":::\n" * (DEEPEST + 1)).findings
    span = finding.primary.span
    before = span.file.text[: span.start]
    assert span.text == "::: note"
    assert before.count("::: note") == DEEPEST


def test_a_fault_of_jinja_before_the_nesting_is_told_by_jinja() -> None:
    assert unfolded("{{ ( }}\n").codes == ["SP025"]
    assert unfolded("{% knit %}\n" + nested("loops", 3)).codes == ["SP025"]
