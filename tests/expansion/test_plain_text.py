"""Texts without Jinja of their own: unfolded at once they come to what Jinja makes of their template. Jinja is the reference."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

import pytest
from jinja2 import DictLoader
from jinja2.exceptions import TemplateError

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.plain_text import PlainUnfolding, plain_parts
from stitchproof.expansion.sandbox import Sandbox
from stitchproof.expansion.spent import Spent
from stitchproof.reading.marks import SLOT, mark
from stitchproof.reading.pattern_source import TextFile
from stitchproof.reading.templates import Registry, make_template
from stitchproof.source import SourceFile

GIVEN = {"hat_sts": 64, "n": 3, "rows": 2}
LINES = (
    "Row <k>: Ch 1, sc in each of next <hat_sts - k> sts, turn. — <hat_sts> sc",
    "## Crown {crown}",
    "  indented, with {braces} and a } by itself",
    "",
    "::: for each k in 1 to n",
    "::: for each j in k to rows",
    "  ::: for each k in 2 to n",
    "::: sizes with k < n",
    ":::",
    ":::",
    "::: note",
    "<n as words> and <j>, <unknown>",
    "\tTabs, “quotes” and 5 × 3",
    "{<n>} and <n>} and %} and #}",
    "<loop> of <true>",
)


class _Calls:
    """What slots and loops were handed, in their order; a loop goes one further each time it comes up."""

    def __init__(self) -> None:
        self.made: list[tuple[int, tuple[tuple[str, object], ...]]] = []
        self.spent = Spent()

    def slot(self, number: int, names: Mapping[str, object]) -> str:
        self.made.append((number, tuple((name, names[name]) for name in names if isinstance(names[name], int))))
        return mark(SLOT, len(self.made) - 1)

    def each(self, number: int, names: Mapping[str, object]) -> range:
        self.made.append((-number, tuple((name, names[name]) for name in names if isinstance(names[name], int))))
        return range(1, 1 + len(self.made) % 4)


def by_jinja(template: str) -> tuple[str, _Calls] | None:
    """The text as Jinja unfolds its template; None where it cannot."""
    calls = _Calls()

    def slot(number: int, /, **names: object) -> str:
        environment.tick(None)
        return calls.slot(number, names)

    def each(number: int, /, **names: object) -> range:
        return calls.each(number, names)

    environment = Sandbox(DictLoader({"text.md": template}), slot, each, None, calls.spent)
    try:
        return environment.get_template("text.md").render(GIVEN), calls
    except (TemplateError, SyntaxError, TypeError):
        return None


@pytest.mark.parametrize("seed", range(4))
def test_plain_texts_unfold_as_jinja_unfolds_them(seed: int) -> None:
    random = Random(seed)  # noqa: S311  # the same texts each time
    plain = 0
    for _ in range(100):
        text = "\n".join(random.choices(LINES, k=random.randint(1, 9))) + random.choice(("", "\n"))
        file = SourceFile("text.md", text)
        template = make_template(file, False, Registry(), Report())
        assert template is not None
        parts = plain_parts(TextFile("text.md", file, template, False, ()))
        reference = by_jinja(template)
        assert reference or parts is None, text
        if parts is None or reference is None:
            continue
        plain += 1
        calls = _Calls()
        assert PlainUnfolding(calls.slot, calls.each, calls.spent).text(parts, dict(GIVEN)) == reference[0], text
        assert calls.made == reference[1].made, text
        assert vars(calls.spent) == vars(reference[1].spent), text
    assert plain > 50


@pytest.mark.parametrize(
    "text",
    [
        "{% if true %}a{% endif %}",
        "{{ 'a' }}",
        "{# a #}",
        "{<n>}",
        "<loop>",
        "::: for each none in 1 to n\n<none>\n:::\n",
    ],
)
def test_what_jinja_takes_otherwise_is_left_to_it(text: str) -> None:
    file = SourceFile("text.md", text)
    template = make_template(file, False, Registry(), Report())
    assert template is not None
    assert plain_parts(TextFile("text.md", file, template, False, ())) is None
