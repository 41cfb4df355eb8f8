"""A single value of a YAML file written anew: in its quotes, in its unit, and with quotes of its own only where it needs them."""

from __future__ import annotations

import re

from stitchproof.measures.units import SINGULAR, UNITS
from stitchproof.reading.yaml_tree import Scalar
from stitchproof.source_edits.raw_text import TextEdit

_NUMBER = re.compile(r"-?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)")
_WITH_UNIT = re.compile(rf"(?P<number>{_NUMBER.pattern})\s*(?P<unit>[^\W\d_]+)")
_FIRST_SIGNS = "-?:,[]{}#&*!|>'\"%@`"
PLURAL = {singular: plural for plural, singular in SINGULAR.items()}


def extent(scalar: Scalar) -> tuple[int, int]:
    """Start and end with its quotes."""
    return scalar.span.start - scalar.quoted, scalar.span.end + scalar.quoted


def raw_of(scalar: Scalar) -> str:
    """As it is typed, quotes included."""
    start, end = extent(scalar)
    return scalar.span.file.text[start:end]


def is_plain_text(scalar: Scalar) -> bool:
    """Whether what it says is what is typed: on one line, not folded, no escapes."""
    return scalar.text.strip() == scalar.span.text.strip() and "\n" not in scalar.span.text


def replaced(scalar: Scalar, text: str, in_brackets: bool) -> TextEdit:
    """The edit that makes a scalar (`is_plain_text`) say another text."""
    if not scalar.quoted:
        return TextEdit(scalar.span.start, scalar.span.end, as_scalar(text, in_brackets))
    single = scalar.span.file.text[scalar.span.start - 1] == "'"
    inside = text.replace("'", "''") if single else text.replace("\\", "\\\\").replace('"', '\\"')
    return TextEdit(scalar.span.start, scalar.span.end, inside)


def as_scalar(text: str, in_brackets: bool) -> str:
    """A text as a YAML value or key: as it is where YAML reads it so, else in double quotes.

    YAML 1.1 and 1.2 agree on the signs: specification 1.2, section 7.3.3, plain style.
    """
    safe = bool(text) and text == text.strip() and text.isprintable()
    # `-`, `?` and `:` may begin a plain value where no blank follows: -2 cm.
    safe = safe and (text[0] not in _FIRST_SIGNS or (text[0] == "-" and text[1:2].strip() not in ("", ",")))
    safe = safe and ": " not in text and " #" not in text and not text.endswith(":")
    safe = safe and not (in_brackets and any(sign in text for sign in ",[]{}"))
    return text if safe else '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def in_style_of(old: str, new: str, unit: str, noun: str) -> str:
    """A new number as the old one was written: bare where a `unit:` says the unit, else with it.

    unit: what a bare number means here ("" where that would be a fault). noun: of the value, for a number that comes bare and
    has nothing to follow; "" where it has none.
    """
    old, new = " ".join(old.split()), " ".join(new.split())
    typed, held = _WITH_UNIT.fullmatch(new), _WITH_UNIT.fullmatch(old)
    if typed and unit and _same_unit(typed["unit"], unit) and not held:
        return typed["number"]
    if not _NUMBER.fullmatch(new) or (unit and not held):
        return new
    word = held["unit"] if held and held["unit"] in UNITS else noun
    return f"{new} {_for_number(new, word)}" if word else new


def _for_number(number: str, word: str) -> str:
    """`2 sts`, `1 st`; a unit that has no such forms as it is."""
    plural = PLURAL.get(word, word)
    return SINGULAR.get(plural, plural) if number in ("1", "-1") else plural


def _same_unit(one: str, other: str) -> bool:
    return (
        one == other or (one in UNITS and other in UNITS and UNITS[one] == UNITS[other]) or _noun(one) == _noun(other)
    )


def _noun(word: str) -> str:
    return UNITS[word].noun if word in UNITS else word
