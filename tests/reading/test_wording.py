"""What a designer reads: reports in the words of the trade, with the key, the sign or the name they are about."""

from __future__ import annotations

import re

import pytest

from tests.expansion.unfolded import SIZES, unfolded

GAUGE = "gauges:\n  fabric: {{{}, stitch: sc, worked: rows, hook: 4 mm, state: blocked}}\n"
HEADERS = [
    ("terms: [US]\n", "`terms` takes one text or number"),
    ("dialect: [1]\n", "write for example `dialect: 1`"),
    ("gauges: {fabric: 16}\n", "`fabric: {stitches: 16, rows: 12, over: 10 cm}`"),
    ("pieces: {piece: word}\n", "`cuff: {gauge: fabric, worked: rows}`"),
    ("counts: [a]\n", "`cuff_rows: 12 rows`"),
    ("counts: {a: }\n", "nothing stands here"),
    ('texts: [""]\n', "`texts: [cuff.md, body.md]`"),
    ("gauges: {}\n", "pattern.yaml gives none yet: add it there"),
    (GAUGE.format("stitches: 16, rows: 12, over: 0 cm"), "this gauge is counted over no length"),
    (GAUGE.format("stitches: -16, rows: 12, over: 10 cm"), "write what was counted on the swatch"),
    ("counts: {a: a + 1}\n", "work it out from other numbers"),
    ("counts: {a(k): a(k - 1) + 2}\n", "give it a `start`, its value at 0"),
    ("counts: {cuff: cuff-sts + 1 sts, sts: 3 sts}\n", "join it by underscores: `cuff_sts`"),
    ("counts: {cuff: hem-cuff, hem: 3 sts}\n", "join it by underscores: `hem_cuff`"),
    ("counts: {cuff: hem - cuff, hem: 3 sts}\n", "work it out from other numbers"),
    ("counts:\n" + "".join(f"  a{n}: a{(n + 1) % 90}\n" for n in range(90)), "a0 → a1 → a2 → a3 → a4 → 85 more → a0"),
    ("counts: {a: 'largest(n, 1 sts, 9 sts, n > 10)'}\n", "widen the bounds, or loosen the test"),
    ("counts: {brim.sts: 4 sts}\n", "make a group of it: `brim:` with `sts:` set in below it"),
    ("counts: {cuff sts: 4 sts}\n", "`cuff_sts`"),
    ("counts: {a: 3\u200b sts}\n", "a sign that does not show stands here (U+200B)"),
    ("counts: {a: \u200b3 sts}\n", "a sign that does not show stands here (U+200B)"),
    ("counts: {a: ٣ sts}\n", "write numbers with the digits 0 to 9"),
    ("counts: {a: 3 x 4 sts}\n", "write `*` to multiply"),
    ("counts: {a: nearest 4.5 sts}\n", "`nearest(…)`"),
    ("counts: {a: 3 sts)}\n", "`)` closes no bracket"),
    ('summary: "a\\ud800b"\n', "an escape stands for a character that no text may hold"),
    ("counts: {a: {is: 4 sts, multiple: 1/3}}\n", "write a whole number above 0, such as `8` or `4 plus 2`"),
]
TEXTS = [
    ("{% for a in 3 %}x{% endfor %}", "a list is needed here, and this is a number"),
    ("{% for a, b in [1] %}x{% endfor %}", "the loop has several names, and each item of its list is a number"),
    ("{{ [1][9] }}", "the list has no item [9]"),
    ('{{ "never closed }}', "a quote is not closed"),
    ("{% %}", "a word such as `for`, `if` or `set` is missing after `{%`"),
    ("{{ (", "a `{{` or `{%` is not closed"),
    ("{{ 1 % 0 }}", "it divides by zero"),
    ("{% if a = 1 %}x{% endif %}", "two values are compared by `==`"),
    ("{% for k 3 %}", "`in` is missing before a number"),
    ("{{ a b }}", "`}}` is missing before `b`"),
    ('{{ "a" is nothing }}', "texts have no test `nothing`"),
    ("{{ 'a'|replace }}", "a filter or test is given too few values"),
    ("{{ ''|first }}", "what has nothing in it has no first item"),
    ("{{ 'b'|abs }}", "write what stands in {{ }} and {% %} here in a simpler way"),
    ("::: sizes with\nx\n:::", "`sizes with` does not say which sizes"),
    ("::: sizes with(1 > 2)\nx\n:::", "put a space after `with`"),
    ("::: for k in 1 to 3\nx\n:::", "write a loop as `::: for each k in 1 to n`"),
    ("::: for each k in 1 to 4 cm\nx\n:::", "`4 cm` is length, and stands where a count should"),
    ("::: for each k in 1 to 7 / 2\nx\n:::", "a loop counts whole rows or times, and `7 / 2` is 3.5"),
    ("Row 1: <1 > 2> sts.", "a comparison needs round brackets"),
]
OF_THE_MACHINE = re.compile(
    r"\b(?:object|iterable|instance|operand|NoneType|int|str|argument|token|non-\w+)\b|�|\bat \d+"
)
"""Words of Python and Jinja, a sign that stands for another, and a place counted in characters."""


@pytest.mark.parametrize(("yaml", "words"), HEADERS)
def test_pattern_yaml(yaml: str, words: str) -> None:
    printed = unfolded("Row 1: x\n", (SIZES if "sizes:" not in yaml else "") + yaml).printed
    assert words in printed


@pytest.mark.parametrize(("text", "words"), TEXTS)
def test_texts(text: str, words: str) -> None:
    (finding,) = unfolded(f"{text}\n").findings
    said = " ".join([finding.headline, finding.primary.label, *finding.help])
    assert words in said
    assert not OF_THE_MACHINE.search(said)
