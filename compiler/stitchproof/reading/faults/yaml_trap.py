"""SP013 yaml-trap

Severity  error
Checks    no value of pattern.yaml is misread because one of its signs means something else in YAML.
Matters   the value would silently become another one, or the file could not be read at all.
Mend      put the whole value in double quotes, or write it on lines of its own, as the help line shows.
Source    YAML 1.1 and 1.2 specifications, yaml.org.

Fires:
    counts:
      body_sts: {is: max(40 sts, 44 sts), round: nearest}

Fires:
    must_hold:
      - that: > 5 cm

Fires:
    title: *Star Hat

Fires:
    measures:
      drop: - 4 cm

Fires:
    title: Hat #2

Fires:
    title: Hat: a study

Fires:
    counts:
      body_sts: [8, 9] sts

Fires:
    title: @home

Fires:
    title: “Hat: a study”

Fires:
    sizes: {names: [S, “M”]}

Quiet:
    title: "“Hat” and ‘cap’"
    summary: The “Hat” of the valley’s “Caps”

Quiet:
    title: "Hat: a study in #2"   # a comment is no trap
    counts:
      body_sts: {is: "max(40 sts, 44 sts)", round: nearest}
"""

from __future__ import annotations

from enum import Enum

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


class Trap(Enum):
    """Each trap: what YAML makes of it, and what to type instead."""

    COMMA = (
        "a comma inside { } or [ ] ends the value there",
        'put the value in double quotes: `"{text}"`, or write each key on a line of its own',
    )
    STAR = ("a value that begins with * is read as a reference", 'put the value in double quotes: `"{text}"`')
    GREATER = (
        "a value that begins with > or | is read as the start of a longer text",
        'put the value in double quotes: `"{text}"`',
    )
    DASH = (
        "a value that begins with a dash and a space is read as a list",
        'write `-` without a space after it, or put the value in double quotes: `"{text}"`',
    )
    NUMBER_SIGN = (
        "the rest of the line after ` #` is left out as a comment",
        "put the value in double quotes; if it is a comment, put a space after the #",
    )
    COLON = ("a colon and a space inside a value are read as another key", "put the whole value in double quotes")
    AFTER_BRACKET = (
        "nothing may follow the bracket that closes a list",
        "write the unit once beside the list (`unit: sts`), or put a whole text in double quotes",
    )
    CURLY = (
        "curly quotes are letters to it, and hold nothing together",
        'use straight quotes: `"{inside}"`; around curly ones that are to print as well',
    )
    SIGN = ("a value cannot begin with @ ` % & or !", 'put the value in double quotes: `"{text}"`')


def yaml_trap(trap: Trap, span: Span) -> Diagnostic:
    """span: the value that was misread."""
    what, help_text = trap.value
    return Diagnostic(
        PAGE,
        f"YAML reads this value as something else: {what}",
        Excerpt(span),
        help=(help_text.format(text=span.text, inside=span.text[1:-1]),),
    )
