"""Texts changed at random: what a slip of the hand, a torn file or an ill will makes of them. The same seed gives the same."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from random import Random

SIGNS = (
    *"<>()[]{}:#|*-%\\\"'`@!&,.=~+/ \n\t0189é🧶kR—–½×\u202e\u200d\ufeff",
    *("{{", "}}", "{%", "%}", "{#", ":::", "<<", "> ", "- ", "&a ", "*a", "!!", "---", "? ", "'''", "**", "//", "\r\n"),
    *("99999999999999999999", "1e999", "0x10", "-1", "1/0", ".5", "1.", "~", "null", "true", "sts", "cm", "in", "of"),
    *(
        "{% for k in upto(9) %}",
        "{% endfor %}",
        "::: for each k in 1 to 9\n",
        ":::\n",
        "<k>",
        "<hat_sts>",
        "## A {a}\n",
    ),
    *("next ", "each ", "rep from * ", "across", " times", "(", ")]", "sk ", "ch ", "turn", "Row 1: ", "Rnds 1–3: "),
)
WORDS = (
    "0",
    "-1",
    "1/0",
    "1e999",
    "9" * 30,
    "9" * 5000,
    "NaN",
    "null",
    "true",
    "'",
    "\\ud800",
    "S",
    "sts",
    "\u0664",
    "_",
    "a.b",
)
_WORD = re.compile(r"[\w./-]+")
Change = Callable[[str, Sequence[str], Random], str]
MOST_CHANGES = 4
LONGEST_STRETCH = 60
OFTENEST = 40


def mutated(text: str, others: Sequence[str], random: Random) -> str:
    """A text with one to four changes. others: texts that a stretch may come from."""
    for _ in range(random.randint(1, MOST_CHANGES)):
        change: Change = random.choice(_CHANGES)
        text = change(text, others, random)
    return text


def _without(text: str, _: Sequence[str], random: Random) -> str:
    at = random.randrange(len(text) or 1)
    return text[:at] + text[at + random.randint(1, 12) :]


def _with_sign(text: str, _: Sequence[str], random: Random) -> str:
    at = random.randrange(len(text) + 1)
    sign: str = random.choice(SIGNS)
    return text[:at] + sign + text[at:]


def _sign_instead(text: str, _: Sequence[str], random: Random) -> str:
    at = random.randrange(len(text) or 1)
    sign: str = random.choice(SIGNS)
    return text[:at] + sign + text[at + 1 :]


def _word_instead(text: str, others: Sequence[str], random: Random) -> str:
    """A word or a number in the place of another, so that what has a form keeps it."""
    words = list(_WORD.finditer(text))
    if not words:
        return text
    word = random.choice(words)
    other = list(_WORD.finditer(random.choice(others))) if others and random.random() < 0.5 else []
    instead: str = random.choice(other)[0] if other else random.choice(WORDS)
    return text[: word.start()] + instead + text[word.end() :]


def _often(text: str, _: Sequence[str], random: Random) -> str:
    """A stretch again and again."""
    at = random.randrange(len(text) or 1)
    to = at + random.randint(1, 8)
    return text[:to] + text[at:to] * random.randint(1, OFTENEST) + text[to:]


def _moved(text: str, _: Sequence[str], random: Random) -> str:
    at, to = random.randrange(len(text) or 1), random.randrange(len(text) or 1)
    return text[:to] + text[at : at + random.randint(1, LONGEST_STRETCH)] + text[to:]


def _from_another(text: str, others: Sequence[str], random: Random) -> str:
    other = random.choice(others) if others else text
    at, to = random.randrange(len(other) or 1), random.randrange(len(text) + 1)
    return text[:to] + other[at : at + random.randint(1, LONGEST_STRETCH)] + text[to:]


def _without_line(text: str, _: Sequence[str], random: Random) -> str:
    lines = text.split("\n")
    at = random.randrange(len(lines))
    return "\n".join([*lines[:at], *lines[at + 1 :]])


def _line_twice(text: str, _: Sequence[str], random: Random) -> str:
    lines = text.split("\n")
    at = random.randrange(len(lines))
    return "\n".join([*lines[: at + 1], *lines[at:]])


def _set_in(text: str, _: Sequence[str], random: Random) -> str:
    """A line set in, or out."""
    lines = text.split("\n")
    at = random.randrange(len(lines))
    lines[at] = f"  {lines[at]}" if random.random() < 0.5 else lines[at].lstrip()
    return "\n".join(lines)


_CHANGES: tuple[Change, ...] = (
    _without,
    _with_sign,
    _with_sign,
    _sign_instead,
    _word_instead,
    _word_instead,
    _often,
    _moved,
    _from_another,
    _from_another,
    _without_line,
    _line_twice,
    _set_in,
)
