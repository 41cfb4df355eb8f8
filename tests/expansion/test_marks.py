"""Marks through Jinja: without them, the unfolded text is what Jinja itself makes of the source; with them, every character
that was typed is placed where it was typed. Jinja, in the same settings, is the reference."""

from __future__ import annotations

import re
from collections.abc import Mapping
from random import Random

import pytest
from jinja2 import DictLoader, Environment, StrictUndefined

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedText, placed, without_position_marks
from stitchproof.expansion.sandbox import Sandbox
from stitchproof.reading.marks import PRIVATE, SLOT, mark
from stitchproof.reading.templates import Registry, make_template
from stitchproof.source import SourceFile, Span
from tests.expansion.random_templates import INCLUDED, SHARED, Writer

TEMPLATES = 800
TEXTS = {"shared.md": SHARED, "included.md": INCLUDED}


class Unfolding:
    """A text unfolded by the compiler's own template of it; `slots` are the numbers of the islands as they came up."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self.registry = Registry()
        self.slots: list[int] = []
        templates = {}
        for name, text in texts.items():
            report = Report()
            template = make_template(SourceFile(name, text), False, self.registry, report)
            assert report.findings() == (), text
            assert template is not None
            templates[name] = template
        environment = Sandbox(DictLoader(templates), self.slot, range, upto)
        self.marked = environment.get_template("text.md").render()

    def slot(self, number: int, /, **_: object) -> str:
        """A slot came up."""
        self.slots.append(number)
        return mark(SLOT, len(self.slots) - 1)

    def written(self, text: str) -> str:
        """A text with its slots as they were written."""
        return SLOT_MARK.sub(lambda each: self.registry.islands[self.slots[int(each[1])]].span.text, text)

    @property
    def plain(self) -> str:
        """The unfolded text without marks."""
        return self.written(without_position_marks(self.marked))

    @property
    def placed(self) -> PlacedText:
        """The unfolded text and where it stood."""
        return placed(self.marked, tuple(self.registry.marks), Span(SourceFile("text.md", ""), 0, 0))


def upto(last: object) -> range:
    """1 to a number."""
    assert isinstance(last, int)
    return range(1, last + 1)


def reference(texts: Mapping[str, str]) -> str:
    """What Jinja makes of a text."""
    environment = Environment(
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        undefined=StrictUndefined,
        autoescape=False,  # noqa: S701  # a text is not HTML
        loader=DictLoader(dict(texts)),
    )
    environment.globals = {"upto": upto}
    return environment.get_template("text.md").render()


@pytest.mark.parametrize("seed", range(10))
def test_without_marks_the_text_is_what_jinja_makes_of_it(seed: int) -> None:
    random = Random(seed)  # noqa: S311  # the same texts each time
    exact = 0
    for _ in range(TEMPLATES // 10):
        text = Writer(random).text()
        texts = {**(TEXTS if "shared.md" in text else {}), "text.md": text}
        unfolded = Unfolding(texts)
        assert unfolded.plain == reference(texts), text
        assert not re.search(f"[{PRIVATE[0]}-{PRIVATE[1]}]", unfolded.plain)
        exact += placed_exactly(unfolded)
    assert exact > 10 * TEMPLATES // 10, "filters and `~` lose places; most text goes through neither"


def placed_exactly(unfolded: Unfolding) -> int:
    """How many characters are placed where they were typed; the others are placed at the braces that made them."""
    text, exact = unfolded.placed, 0
    for offset, character in enumerate(SLOT_MARK.sub(lambda each: " " * len(each[0]), text.text)):
        if character.isspace():
            continue
        span = text.place(offset, offset + 1).span
        if span.text == character:
            exact += 1
            continue
        assert re.match(r"\{[{%].*[%}]\}", span.text, re.DOTALL), (text.text, offset, character, span)
    return exact


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("{% for k in [1, 2] %}\n  {% if k > 1 %}\nRow {{ k }}\n  {% endif %}\n{% endfor %}\n", "Row 2\n"),
        ("{% set t %}\nabc\n{% endset %}\n{% if t == 'abc\n' %}\nyes\n{% endif %}\n", "yes\n"),
        ("{% set t %}{{ '' }}{% endset %}{{ 'full' if t else 'empty' }}", "empty"),
        ("{% set t %}abc{% endset %}{{ t|length }}{{ t|capitalize }}{{ t[0] }}{{ t|reverse }}", "3Abcacba"),
        ("{% set t %}abc{% endset %}{% for c in t %}{{ c }}.{% endfor %}", "a.b.c."),
        ("{% set t %}abc{% endset %}{{ ['x', t]|join('-') }}{{ 'abc' in ['x', t] }}", "x-abcTrue"),
        ("{% set t %}abc{% endset %}{{ t is in ['abc'] }}{{ t is upper }}{{ t is eq 'abc' }}", "TrueFalseTrue"),
        ("{% set t|upper %}abc{% endset %}{{ t }}{{ t == 'ABC' }}", "ABCTrue"),
        ("{% filter title %}a bc{% endfilter %} d", "A Bc d"),
        ("{% macro m() %}abc{% endmacro %}{{ m() == 'abc' }}{{ m() ~ 'd' == 'abcd' }}", "TrueTrue"),
        ("{% set t %}abc{% endset %}{% set u = t ~ 'd' %}{{ u == 'abcd' }}", "True"),
        ("{%- if true -%}\n a \n{%- endif -%}\n b", "ab"),
        ("  {%+ if true %}a{% endif %}", "  a"),
        ("{{ \"a'b\" }}{{ '<1>' }}", "a'b<1>"),
        ("{% raw %}{{ <1> }}{% endraw %}<1>", "{{ <1> }}<1>"),
    ],
)
def test_marks_are_out_of_the_way(text: str, outcome: str) -> None:
    """Each of these came out differently, or not at all, when marks stood where they should not."""
    assert Unfolding({"text.md": text}).plain == outcome
    assert reference({"text.md": text}) == outcome


def test_each_round_and_each_call_has_its_own_place() -> None:
    """A character that is printed twice is placed once, with the call it came through."""
    text = "{% macro m(a) %}é🧶 x{% endmacro %}\n{% for k in [1, 2] %}\n{{ m(k) }} y\n{% endfor %}\n"
    unfolded = Unfolding({"text.md": text}).placed
    for offset in (match.start() for match in re.finditer("x", unfolded.text)):
        place = unfolded.place(offset, offset + 1)
        assert place.span.start == text.index("x")
        assert [call.text for call in place.calls] == ["{{ m(k) }}"]
    for offset in (match.start() for match in re.finditer("y", unfolded.text)):
        place = unfolded.place(offset, offset + 1)
        assert place.span.start == text.index("y")
        assert place.calls == ()


def test_calls_within_calls_are_told_from_the_outside_in() -> None:
    text = "{% macro inner() %}x{% endmacro %}{% macro outer() %}-{{ inner() }}-{% endmacro %}\n{{ outer() }}\n"
    unfolded = Unfolding({"text.md": text}).placed
    place = unfolded.place(unfolded.text.index("x"), unfolded.text.index("x") + 1)
    assert [call.text for call in place.calls] == ["{{ outer() }}", "{{ inner() }}"]


def test_a_place_ends_with_its_line() -> None:
    text = "ab {{ 'Γ' }} cd\nef\n"
    unfolded = Unfolding({"text.md": text}).placed
    assert unfolded.text == "ab Γ cd\nef\n"
    assert unfolded.place(0, 2).span.text == "ab"
    assert "\n" not in unfolded.place(0, len(unfolded.text)).span.text
    assert unfolded.place(unfolded.text.index("cd"), len(unfolded.text)).span.text == "cd"
    assert [line.place.span.text for line in unfolded.lines()[1:2]] == ["ef"]
