"""What expressions are said to need: whatever they match holds one of the words. Held by their own tree, as Python reads it."""

from __future__ import annotations

import pkgutil
import re
from collections.abc import Callable, Iterator
from importlib import import_module
from random import Random
from typing import Any

import pytest
from hypothesis import given as holds_for
from hypothesis import settings
from hypothesis import strategies as st

import stitchproof.checks
from stitchproof.late_pattern import LatePattern

# How Python reads an expression; there is no public way to see it.
parser: Any = import_module("re._parser")
signs: Any = import_module("re._constants")


def patterns() -> list[tuple[str, LatePattern]]:
    """The expressions of all rules that say what they need, or what hints at them, by the name they have in their module."""
    found: dict[int, tuple[str, LatePattern]] = {}
    for module in pkgutil.iter_modules(stitchproof.checks.__path__):
        for name, value in vars(import_module(f"stitchproof.checks.{module.name}")).items():
            for each in _inside(value):
                found.setdefault(id(each), (f"{module.name}.{name}", each))
    return [(name, each) for name, each in found.values() if each.needs or each.hint]


def _inside(value: object) -> Iterator[LatePattern]:
    if isinstance(value, LatePattern):
        yield value
    elif isinstance(value, dict):
        yield from (each for held in value.values() for each in _inside(held))
    elif isinstance(value, list | tuple):
        yield from (each for held in value for each in _inside(held))


def always_holds(tree: Any, words: tuple[str, ...], fold: Callable[[str], str], before: str = "") -> bool:
    """Whether all that a tree matches holds one of the words. fold: in small letters where case is ignored.

    before: the letters that surely stand right before it.
    """
    run = before
    for sign, given in list(tree):
        if sign is signs.LITERAL:
            run += fold(chr(given))
            if any(run.endswith(word) for word in words):
                return True
            continue
        if sign is signs.SUBPATTERN and always_holds(given[3], words, fold, run):
            return True
        if sign is signs.BRANCH and all(always_holds(each, words, fold, run) for each in given[1]):
            return True
        if sign in (signs.MAX_REPEAT, signs.MIN_REPEAT) and given[0] > 0 and always_holds(given[2], words, fold, run):
            return True
        run = ""
    return False


def test_there_are_such_expressions() -> None:
    assert len(patterns()) > 30


@pytest.mark.parametrize("name", sorted({name for name, each in patterns() if each.needs}))
def test_what_an_expression_needs_stands_in_all_that_it_matches(name: str) -> None:
    for each in (pattern for of, pattern in patterns() if of == name and pattern.needs):
        fold = str.lower if each.flags & re.IGNORECASE else str
        assert all(word == fold(word) for word in each.needs)
        assert always_holds(parser.parse(each.text, each.flags), each.needs, fold), (each.text, each.needs)


@pytest.mark.parametrize("name", sorted({name for name, each in patterns() if each.hint}))
@settings(max_examples=12)
@holds_for(data=st.data())
def test_what_hints_at_an_expression_is_found_wherever_it_is(name: str, data: st.DataObject) -> None:
    for each in (pattern for of, pattern in patterns() if of == name and pattern.hint):
        text = data.draw(st.from_regex(re.compile(each.text, each.flags)))
        if each.hint and each.compiled.search(text):
            assert each.hint.search(text), (text, each.hint.text)


def test_with_a_hint_a_text_is_answered_as_without() -> None:
    pattern = LatePattern(r"\(([^()]+)\)\s*twice", re.IGNORECASE, hint=r"\)\s*t")
    assert pattern.search("(ch 1), join") is None
    assert "compiled" not in vars(pattern)
    assert pattern.search("(ch 1) Twice")
    assert pattern.search("(ch 1), join") is None


@pytest.mark.parametrize(
    ("text", "words", "holds"),
    [
        ("(?:leave|leaving)", ("leav",), True),
        ("skip(?:ping)?|sk|miss(?:ing)?", ("sk", "miss"), True),
        ("skip|hop", ("sk",), False),
        ("(?:x )?y", ("x",), False),
        (r"a\w+b", ("ab",), False),
        ("(?:ab)+", ("ab",), True),
        ("[ab]", ("a",), False),
    ],
)
def test_the_tree_tells_what_is_always_there(text: str, words: tuple[str, ...], holds: bool) -> None:
    assert always_holds(parser.parse(text), words, str.lower) is holds


def test_a_text_without_the_words_is_answered_as_the_expression_would() -> None:
    """Letters that only match where case is ignored are no exception."""
    pattern = LatePattern(r"\bskip\b", re.IGNORECASE, ("skip",))
    random = Random(1)  # noqa: S311  # the same texts each time
    for _ in range(2000):
        text = "".join(random.choices("skipSKIPſKıİ .é", k=random.randint(0, 8)))
        assert bool(pattern.search(text)) == bool(re.search(pattern.text, text, re.IGNORECASE)), text
    assert pattern.search("ſKıP") or not re.search(pattern.text, "ſKıP", re.IGNORECASE)
    assert pattern.search("SkİP") or not re.search(pattern.text, "SkİP", re.IGNORECASE)
