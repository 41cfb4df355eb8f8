"""Random texts with Jinja in them, the same for every run: literal text, slots, and every tag that texts may use.

Literal text is in small letters, what expressions print in capitals and digits, so that each character of the outcome tells
where it came from. Slots are plain numbers, so that filters which change letters leave them alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random

LITERAL = "abcdeé🧶ωß\u0301"
PRINTED = "ΓΔΘΛ"
SHARED = """{% macro twice(text) -%}
  both é🧶 {{ text }}, {{ text }}
{%- endmacro %}
{% macro around(text) %}
around {{ caller() }} {{ text }}
{% endmacro %}
{% macro edge(n=1) %}b <1 + 2>{% for i in [1, 2] %} e{{ i + n }}{% endfor %}{% endmacro %}
"""
INCLUDED = """included é
  {% for i in [1] -%}
    <4> again
  {%- endfor %}
"""


@dataclass
class Writer:
    """Writes one text. plain: names of texts without slots. any: names that can be printed. numbers: loop counters."""

    random: Random
    plain: list[str] = field(default_factory=list)
    any: list[str] = field(default_factory=list)
    numbers: list[str] = field(default_factory=list)
    named: int = 0
    slots: bool = True
    imported: bool = False

    def text(self) -> str:
        """A whole text."""
        start = '{% from "shared.md" import twice, around, edge %}\n' if self.random.random() < 0.3 else ""
        self.imported = bool(start)
        return start + self.body(self.random.choice((1, 1, 2)))

    def body(self, depth: int) -> str:
        """A stretch of text; what is set inside it is known inside it only."""
        held = [*self.plain], [*self.any], [*self.numbers]
        parts = []
        for _ in range(self.random.randint(1, 3)):
            kinds: list[Callable[[int], str]] = [self.included] if self.imported and self.slots else []
            kinds += [self.literal, self.literal, self.printed, self.comment, self.raw, self.set]
            if depth:
                kinds += [self.choice, self.loop, self.capture, self.filtered, self.macro]
                if self.imported:
                    kinds += [self.called]
            parts.append(self.random.choice(kinds)(depth))
        self.plain, self.any, self.numbers = held
        return "".join(parts)

    def name(self) -> str:
        """A name that was not used before."""
        self.named += 1
        return f"v{self.named}"

    def tag(self, words: str) -> str:
        """A block tag, with or without signs that take blanks away."""
        begin, end = (
            self.random.choices(["", "-", "+"], [8, 1, 1])[0],
            self.random.choices(["", "-", "+"], [8, 1, 1])[0],
        )
        return f"{{%{begin} {words} {end}%}}" + self.random.choice(["", "\n", "\n", " "])

    def literal(self, _: int) -> str:
        """Text as typed, over several lines, with slots and signs that look like more than they are."""
        words = []
        for _ in range(self.random.randint(1, 5)):
            word = "".join(self.random.choices(LITERAL, k=self.random.randint(1, 4)))
            odd = ["\n", "\n  ", "  ", "\n\n", "\\<", "{", "}", "%}", "< ", "#", "|", "\t", "<https://a>"]
            odd += ["<1>", "<(2 > 3)>", "*<12>*"] if self.slots else []
            words.append(word + (self.random.choice(odd) if self.random.random() < 0.5 else " "))
        return "".join(words).replace("{%", "{ %").replace("{{", "{ {").replace("{#", "{ #") + " "

    def expression(self) -> str:
        """Something that can be printed."""
        choices = [f'"{self.random.choice(PRINTED)}"', f'"{self.random.choice(PRINTED)} " ~ 7', '""', '"{{"', '"%}Γ"']
        choices += [f'("Γ" if {self.test()})', f'("Γ" if {self.test()} else "Δ")', "[1, 2]|join(', ')"]
        choices += [f"{name}|{self.random.choice(['upper', 'trim', 'capitalize', 'length'])}" for name in self.plain]
        choices += [f"{name}|trim" for name in self.any] + [f"{name} ~ 'Θ'" for name in self.any]
        choices += [*self.any, *self.any, *self.numbers, *(f"{name} + 1" for name in self.numbers)]
        return self.random.choice(choices)

    def test(self) -> str:
        """Something that is true or not."""
        choices = ["true", "1 < 2", "nothing is defined", "not false"]
        for name in self.plain:
            choices += [
                f'{name} == "a"',
                f"{name}|length > 3",
                f'"é" in {name}',
                name,
                f"not {name}",
                f"{name} is lower",
            ]
        choices += [f"{name} is odd" for name in self.numbers] + [f"{name} > 1" for name in self.numbers]
        return self.random.choice(choices)

    def printed(self, _: int) -> str:
        """An expression between braces."""
        return f"{{{{{self.random.choice(['', '', '-'])} {self.expression()} {self.random.choice(['', '', '-'])}}}}}"

    def comment(self, _: int) -> str:
        """A comment that looks like text."""
        return "{# é <1> {{ x }} {% if %} #}" + self.random.choice(["", "\n"])

    def raw(self, _: int) -> str:
        """Text that is not read."""
        slot = " <5>" if self.slots else ""
        return f"{self.tag('raw').replace('+%', '%')}a {{{{ x }}}} é{slot} {{% if %}}\n  b{self.tag('endraw')}"

    def set(self, _: int) -> str:
        """A variable."""
        name = self.name()
        out = self.tag(f"set {name} = {self.expression()}")
        self.any.append(name)
        return out

    def choice(self, depth: int) -> str:
        """A choice."""
        out = self.tag(f"if {self.test()}") + self.body(depth - 1)
        if self.random.random() < 0.5:
            out += self.tag(f"elif {self.test()}") + self.body(depth - 1)
        return out + self.tag("else") + self.body(depth - 1) + self.tag("endif")

    def loop(self, depth: int) -> str:
        """A loop over numbers or texts."""
        name = self.name()
        over = self.random.choice(["[1, 2]", "upto(2)", "[3]", "[]", "(1, 2, 3)"])
        self.numbers.append(name)
        out = self.tag(f"for {name} in {over}") + self.body(depth - 1)
        self.numbers.remove(name)
        return out + self.tag("endfor")

    def capture(self, depth: int) -> str:
        """Text kept in a variable; half the time without slots, so that it can be looked into."""
        name, slots = self.name(), self.slots
        self.slots = slots and self.random.random() < 0.5
        known, self.any = [*self.any], [*self.any] if self.slots else [*self.plain]
        out = self.tag(f"set {name}") + self.body(0) + self.tag("endset")
        self.any = known
        if not self.slots:
            self.plain.append(name)
        self.any.append(name)
        self.slots = slots
        return out

    def filtered(self, depth: int) -> str:
        """A stretch that goes through a filter."""
        words, slots = (
            self.random.choice(["trim", "upper", "lower|trim", "capitalize", 'replace("a", "Λ")']),
            self.slots,
        )
        known = [*self.any]
        if words.startswith(("capitalize", "replace")):
            self.slots, self.any = False, [*self.plain]
        out = self.tag(f"filter {words}") + self.body(0) + self.tag("endfilter")
        self.slots, self.any = slots, known
        return out

    def macro(self, depth: int) -> str:
        """A macro, and a call of it."""
        name, argument = self.name(), self.name()
        handed = self.expression()
        known, self.any = self.any, [argument]
        plain, self.plain, numbers, self.numbers = self.plain, [], self.numbers, []
        out = self.tag(f"macro {name}({argument})") + self.body(depth - 1) + self.tag("endmacro")
        self.any, self.plain, self.numbers = known, plain, numbers
        return out + f"{{{{ {name}({handed}) }}}}"

    def included(self, _: int) -> str:
        """A shared text as a whole."""
        return self.tag('include "included.md"')

    def called(self, depth: int) -> str:
        """Macros of a shared text, and a shared text as a whole."""
        choices = [f"{{{{ twice({self.expression()}) }}}}"]
        if self.slots:
            choices += ["{{ edge() }}", "{{ edge(2) }}"]
        choices += [self.tag(f"call around({self.expression()})") + self.body(0) + self.tag("endcall")]
        return self.random.choice(choices if self.slots else choices[:1])
