"""Jinja never works with a number of the pattern: every way to try is a located fault, and none answers in silence."""

from __future__ import annotations

import re

import pytest

from tests.expansion.unfolded import clean, unfolded

# Each with `x` where the number stands. Jinja alone would answer most of these, wrongly in all sizes but one.
MISUSES = (
    "{{ x }}",
    "{{ x ~ 'a' }}",
    "{{ x == 3 }}",
    "{{ x == x }}",
    "{{ x != 3 }}",
    "{{ x < 3 }}",
    "{{ 3 > x }}",
    "{{ 1 < x < 9 }}",
    "{{ x in [1] }}",
    "{{ x in [] }}",
    "{{ 1 in x }}",
    "{{ x not in [1] }}",
    "{{ x is number }}",
    "{{ x is none }}",
    "{{ x is string }}",
    "{{ x is iterable }}",
    "{{ x is callable }}",
    "{{ x is sameas 3 }}",
    "{{ x is divisibleby 2 }}",
    "{{ x is odd }}",
    "{{ 3 is eq x }}",
    "{% if x %}a{% endif %}",
    "{% if not x %}a{% endif %}",
    "{% if true and x %}a{% endif %}",
    "{{ 'a' if x }}",
    "{{ 'a' if x else 'b' }}",
    "{{ x or 1 }}",
    "{{ x and 1 }}",
    "{{ x + 1 }}",
    "{{ 1 - x }}",
    "{{ -x }}",
    "{{ x % 2 }}",
    "{{ '%s' % x }}",
    "{{ x|upper }}",
    "{{ x|length }}",
    "{{ x|list }}",
    "{{ x|abs }}",
    "{{ x|default(3) }}",
    "{{ [x]|join }}",
    "{{ [1, x]|max }}",
    "{{ (x,)|first }}",
    "{{ 'a'|replace('a', x) }}",
    "{% filter replace('a', x) %}b{% endfilter %}",
    "{{ x.foo }}",
    "{{ x['a'] }}",
    "{{ x[0] }}",
    "{{ [1, 2][x] }}",
    "{{ [1, 2][:x] }}",
    "{{ x() }}",
    "{{ {x: 1} }}",
    "{% for i in x %}a{% endfor %}",
    "{% for i in [x] %}{{ i }}{% endfor %}",
    "{% set y = x %}{{ y }}",
    "{% set a, b = x %}",
    "{% with y = x %}{{ y }}{% endwith %}",
)
ELSEWISE = (
    "{{ x * 2 }}",
    "{{ 2 / x }}",
    "{{ x // 2 }}",
    "{{ 2 ** x }}",
    "{{ x|int }}",
    "{{ x|string }}",
    "{{ x|tojson }}",
    "{{ x|pprint }}",
    "{{ '%s'|format(x) }}",
    "{{ '{}'.format(x) }}",
    "{{ 'a'.join(x) }}",
    "{{ [x] }}",
    "{{ {'a': x} }}",
    "{{ x._name }}",
    "{{ x.__class__ }}",
    "{{ x.full_name }}",
    "{% include x %}",
    "{{ upto(x)|last }}",
    "{{ upto(x)|length }}",
    "{{ upto(x)|list }}",
    "{{ upto(x)[2] }}",
    "{{ 3 in upto(x) }}",
    "{{ upto(x) }}",
    "{% for k in upto(x) %}{{ loop.last }}{% endfor %}",
    "{% for k in upto(x) %}{{ loop.length }}{% endfor %}",
    "{% for k in upto(x) %}{{ loop.revindex }}{% endfor %}",
    "{% for k in upto(x) %}{{ loop.nextitem }}{% endfor %}",
    "{% for k in [1] %}{{ loop.changed(x) }}{% endfor %}",
    "{% for k in [1] %}{{ loop.cycle(x) }}{% endfor %}",
)
"""Told in other words: Jinja computes nothing, texts have no such filter, only macros can be called."""


def direct(use: str) -> str:
    """The misuse in the pattern's own text."""
    return "Row 1: a\n" + re.sub(r"\bx\b", "sts_around", use) + "\n"


def through_a_macro(use: str) -> str:
    """The misuse inside a macro that the number is handed to, where nothing but its running shows it."""
    return "Row 1: a\n{% macro m(x) %}\n" + use + "\n{% endmacro %}\n{{ m(sts_around) }}\n"


@pytest.mark.parametrize("use", MISUSES)
@pytest.mark.parametrize("way", [direct, through_a_macro])
def test_every_misuse_is_located(use: str, way: object) -> None:
    text = way(use)  # type: ignore[operator]
    outcome = unfolded(text)
    assert set(outcome.codes) == {"SP026"}, outcome.printed
    line = "## Piece {piece}\n\n" + text
    place = outcome.findings[0].primary.span
    assert place.text in line.split("\n")[place.file.line_column(place.start)[0] - 1]
    assert place.text == "sts_around" or use in place.text
    assert "Handle" not in outcome.printed


@pytest.mark.parametrize("use", ELSEWISE)
@pytest.mark.parametrize("way", [direct, through_a_macro])
def test_every_other_misuse_is_located(use: str, way: object) -> None:
    outcome = unfolded(way(use))  # type: ignore[operator]
    assert outcome.codes, use
    assert set(outcome.codes) <= {"SP026", "SP027"}, outcome.printed
    assert "Handle" not in outcome.printed
    assert "0x" not in outcome.printed
    line = outcome.findings[0].primary.span.file.line_column(outcome.findings[0].primary.span.start)[0]
    assert line == (4 if way is direct else 5), outcome.printed


@pytest.mark.parametrize(
    "text",
    [
        "{% set sts_around = 3 %}",
        "{% set sts_around %}a{% endset %}",
        "{% for sts_around in [1] %}a{% endfor %}",
        "{% macro sts_around() %}a{% endmacro %}",
        "{% macro m(sts_around) %}a{% endmacro %}",
        "{% with sts_around = 1 %}a{% endwith %}",
        "{% import 'm.md' as sts_around %}",
        "{% from 'm.md' import m as sts_around %}",
        "::: for each sts_around in 1 to 3\nRow 1: a\n:::",
    ],
)
def test_a_variable_cannot_have_the_name_of_a_number(text: str) -> None:
    outcome = unfolded(f"Row 1: a\n{text}\n", shared={"m.md": "{% macro m() %}{% endmacro %}"})
    assert outcome.codes == ["SP026"]
    assert outcome.findings[0].primary.span.text == "sts_around"


def test_what_a_number_may_do() -> None:
    """Be handed to a macro, by position or by name, through a call block and a group, and to `upto`."""
    yaml = "sizes: {names: [S, M, L]}\ncounts:\n  cuff: {rows_in: [2 rows, 3 rows, 4 rows]}\n"
    text = (
        "{% macro m(n, k=0) %}Row: <n> {{ k }}{% if k > 1 %}+{% endif %}{% endmacro %}\n"
        "{% macro w(n) %}{{ caller() }} <n>{% endmacro %}\n"
        "{{ m(cuff.rows_in) }}\n{{ m(n=cuff.rows_in, k=2) }}\n{% call w(cuff.rows_in) %}Rnd:{% endcall %}\n\n"
        "{% for k in upto(cuff.rows_in) %}\nRow {{ k }}: {{ loop.index + k }}{{ ',' if loop.first }}\n{% endfor %}\n"
    )
    assert clean(text, yaml).piece == [
        "Row:|[SML]none: <2,3,4> 0",
        "Row:|[SML]none: <2,3,4> 2+",
        "Rnd:|[SML]none: <2,3,4>",
        *("Row 1:|[SML]none: 2,", "Row 2:|[SML]none: 4", "Row 3:|[SML]none: 6", "Row 4:|[SML]none: 8"),
    ]


@pytest.mark.parametrize(
    "name", ["number", "self", "slot", "each", "tick", "joined", "loop", "true", "none", "k", "caller"]
)
def test_a_number_may_have_any_name(name: str) -> None:
    """Also one that Jinja or the compiler's own calls have a use for."""
    yaml = f"counts:\n  {name}: 12 rows\n"
    text = f"Row 1: <{name}>.\n{{% for i in [1] %}}\nRow 2: <{name} + i * 1 rows>.\n{{% endfor %}}\n"
    assert clean(text, yaml).piece == ["Row 1:|[SM]none: <12,12>.", "Row 2:|[SM]none: <13,13>."]


SHARED = {
    "m.md": "{% macro m(n) %}Row: <n>{% endmacro %}\n{% macro leak() %}Row: <sts_around>{% endmacro %}\n",
    "inc.md": "Row: <sts_around>\n",
    "jinja.md": "{% if sts_around %}a{% endif %}\n",
    "set.md": "Row: {{ word }}\n",
    "loop.md": "{% macro m(n) %}\n::: for each k in 1 to n\nRow <k>: <n>\n:::\n{% endmacro %}\n",
    "times.md": "{% macro m(n) %}Row: {{ 2 * 3 }}{% endmacro %}\n",
}


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ('{% from "m.md" import m %}{{ m(sts_around) }}', []),
        ('{% from "shared_text/m.md" import m %}{{ m(sts_around) }}', []),
        ('{% import "m.md" as shared %}{{ shared.m(sts_around) }}', []),
        ('{% from "loop.md" import m %}{{ m(rows_in_all) }}', []),
        ('{% from "m.md" import leak %}{{ leak() }}', ["SP007"]),
        ('{% from "m.md" import leak with context %}{{ leak() }}', ["SP007"]),
        ('{% include "inc.md" %}', ["SP007"]),
        ('{% include "inc.md" with context %}', ["SP007"]),
        ('{% include "jinja.md" %}', ["SP027"]),
        ('{% set word = "a" %}{% include "set.md" %}', ["SP027"]),
        ('{% from "times.md" import m %}{{ m(sts_around) }}', ["SP026"]),
        ('{% include "missing.md" %}', ["SP027"]),
        ('{% include ["missing.md", "gone.md"] %}', ["SP027"]),
        ('{% include "../example/text.md" %}', ["SP027"]),
        ('{% include "/etc/passwd" %}', ["SP027"]),
    ],
)
def test_shared_texts_see_what_they_are_handed_and_no_more(text: str, codes: list[str]) -> None:
    """One line out of a piece: that it is not worked (SP142) is not asked here."""
    assert [code for code in unfolded(text + "\n", shared=SHARED).codes if code != "SP142"] == codes


@pytest.mark.parametrize(
    "text",
    [
        "{% set t %}a <sts_around>{% endset %}{% if t == 'a' %}b{% endif %}",
        "{% set t %}a <sts_around>{% endset %}{{ t|length }}",
        "{% set t %}a <sts_around>{% endset %}{{ t[2:] }}",
        "{% set t %}a <sts_around>{% endset %}{% for c in t %}{{ c }}{% endfor %}",
        "{% filter replace('0', '1') %}a <sts_around>{% endfilter %}",
        "{% filter title %}a <sts_around>{% endfilter %}",
        "{% macro m() %}<sts_around>{% endmacro %}{{ m() in ['a'] }}",
        "{% set a, b, c = '\\ue004' ~ '0' ~ '\\ue001' %}{{ a }}",
        "{% set t %}<sts_around>{% endset %}{% set a, b, c = t %}{{ a }}",
        "{{ '\\ue0049\\ue001' }}",
        "{{ '\\ue0009999\\ue001' }}",
    ],
)
def test_a_text_that_holds_a_number_is_not_taken_apart(text: str) -> None:
    """Or another number might be printed in its place."""
    outcome = unfolded(f"Row 1: a\n{text}\n")
    assert len(outcome.codes) == 1
    assert outcome.codes[0] in ("SP026", "SP027")


def test_a_text_that_holds_a_number_can_be_kept_and_printed() -> None:
    text = "{% set t %} Sc <sts_around>. {% endset %}\nRow 1: {{ t|trim }} {{ t|upper|trim }}{{ ' x' if t }}\n"
    assert clean(text).piece == ["Row 1:|[SML]none: Sc <8,12,16>. SC <8,12,16>. x"]
