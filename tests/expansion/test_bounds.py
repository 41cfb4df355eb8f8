"""A text that unfolds without end, computes, reaches out or calls what it should not ends in one report, and soon."""

from __future__ import annotations

import pytest

from tests.expansion.unfolded import unfolded

TEN = "abcdefghij"
DOUBLING_MACROS = "{% macro m0() %}{% endmacro %}" + "".join(
    f"{{% macro m{n} () %}}{{{{ m{n - 1}() }}}}{{{{ m{n - 1}() }}}}{{% endmacro %}}" for n in range(1, 60)
)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{% for k in upto(99999999999) %}x{% endfor %}", "20,000 rounds"),
        ("{% for a in upto(20000) %}{% for b in upto(20000) %}{% endfor %}{% endfor %}", "20,000 rounds"),
        ("::: for each k in 1 to 900 * 1 rows\n::: for each j in 1 to 2000\nRow 1: a\n:::\n:::", "20,000 rounds"),
        (DOUBLING_MACROS + "{{ m59() }}", "more than"),
        ("{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}", "calls itself"),
        ("{% include 'text.md' %}", "calls itself"),
        ("{% extends 'text.md' %}", "calls itself"),
        ("{% set x = 'aa' %}" + "{% set x = x ~ x %}" * 60 + "{{ x }}", "4,000,000 characters"),
        ("{% set x = 'aa' %}" + "{% set x = [x, x]|join %}" * 60 + "{{ x }}", "4,000,000 characters"),
        ("{% set x = [1] %}" + "{% set x = [x, x] %}" * 60 + "{{ x|join }}", "lists inside lists"),
        ("{% set x = [1] %}" + "{% set x = [x, x] %}" * 60 + "{{ x == [x] }}", "lists inside lists"),
        ("{% set x = 1 %}" + "{% set x = {1: x, 2: x} %}" * 60 + "{{ x == {1: x} }}", "lists inside lists"),
        ("{% for k in upto(19000) %}" + TEN * 100 + "{% endfor %}", "4,000,000 characters"),
        (
            "{% macro m() %}{% for k in upto(900) %}" + TEN * 40 + "{% endfor %}{% endmacro %}"
            "{% for k in upto(20) %}{% set t %}{{ m() }}{% endset %}{% endfor %}",
            "4,000,000 characters",
        ),
        ("{% set x = '1'|replace('1', '" + "1" * 3000 + "') %}{% set x = x|replace('1', x) %}", "4,000,000 characters"),
        ("{% set x = [1] %}" + "{% set x = [x, x] %}" * 60 + "{{ x }}", "can be printed"),
        ("{% set x = [1] %}" + "{% set x = x + x %}" * 60, "loop counters only"),
        ("{{ '%99999999999d' % 1 }}", "loop counters only"),
        ("{{ 'a' + 'b' }}", "joined by `~`"),
        ("{{ 'a'.ljust(999999999) }}", "call macros"),
        ("{{ 'a'|center(999999999) }}", "no filter `center`"),
        ("{{ [1, 2]|random }}", "no filter `random`"),
        ("{{ ''.__class__ }}", "out of its reach"),
        ("{{ ''['__class__'] }}", "out of its reach"),
        ("{{ (1).__class__.__base__.__subclasses__() }}", "out of its reach"),
        ("{{ upto.__globals__ }}", "out of its reach"),
        ("{{ range(3) }}", "`range` is not set"),
        ("{{ lipsum(3) }}", "`lipsum` is not set"),
        ("{{ slot(3) }}", "`slot` is not set"),
        ("{{ 3|slot }}", "no filter `slot`"),
        ("{{ upto(2.5) }}", "whole number"),
        ("{{ upto('a') }}", "whole number"),
        ("{% autoescape true %}<sts_around>{% endautoescape %}", "not HTML"),
        ("{{ nothing }}", "`nothing` is not set"),
        ("{{ nothing() }}", "`nothing` is not set"),
        ("{% set a, b = 'abc' %}", "more or fewer names than its"),
        ("{{ 1 < 'a' }}", "a number and a text cannot be compared"),
    ],
)
def test_ends_in_one_report(text: str, words: str) -> None:
    outcome = unfolded(f"Row 1: a\n{text}\n")
    assert outcome.codes == ["SP027"], outcome.printed[:2000]
    assert words in outcome.findings[0].headline


@pytest.mark.parametrize("text", ["{{ 10 ** 9 }}", "{{ 'a' * 999999999 }}", "{{ 2 ** 99 ** 99 }}", "{{ 7 // 2 }}"])
def test_nothing_is_computed(text: str) -> None:
    """Not even by Jinja's own compiler, which works constants out before the template runs."""
    assert unfolded(f"Row 1: a\n{text}\n").codes == ["SP026"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{% for k in upto(3) %}\nRow 1: a", "`{% for %}` is not closed"),
        ("{% if true %}", "`{% if %}` is not closed"),
        ("{{ 1", "is not closed"),
        ("{% if %}", "expected an expression"),
        ("{% knit %}", "it has no `{% knit %}`"),
        ("{{ }}", "expected an expression"),
        ("{% endfor %}", "`{% endfor %}` closes nothing"),
        ("{% raw %}", "`{% raw %}` is not closed"),
        ("{# never closed", "`{#` is not closed"),
    ],
)
def test_what_jinja_cannot_read(text: str, words: str) -> None:
    outcome = unfolded(f"Row 1: a\n{text}\n")
    assert outcome.codes == ["SP025"]
    assert words in outcome.findings[0].headline.lower()
