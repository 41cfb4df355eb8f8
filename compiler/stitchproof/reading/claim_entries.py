"""The entries of `must_hold` as written: what the designer says is true of every size. Nothing is worked out."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.formulas.tree import Formula
from stitchproof.source import Span


class EveryValue(Struct, frozen=True, eq=False):
    """`for_each: k in 1 to inc_rnds`: the name that counts, and what it counts from and to."""

    variable: str
    first: Formula
    last: Formula
    span: Span


class Assertion(Struct, frozen=True, eq=False):
    """Something that must hold in every size, and for every k where it says so."""

    that: Formula
    for_each: EveryValue | None
    why: str
    span: Span


class PartsEntry(Struct, frozen=True, eq=False):
    """Parts that together make a whole."""

    parts: tuple[Formula, ...]
    make: Formula
    why: str
    span: Span


class StepEntry(Struct, frozen=True, eq=False):
    """A stretch of shaping: a change on every so many rows, so many times. each: its own change, if it is another one."""

    every: Formula
    times: Formula
    each: Formula | None
    span: Span


class ShapingEntry(Struct, frozen=True, eq=False):
    """A shaping: from so many stitches to so many by changes that follow a schedule, or are only counted (`times`).

    first_on: the row of the first change; the steps follow it. Without it the first step counts from the row before the first.
    within: the rows there are. ends_on: the row of the last change. mirrors: the name of the shaping on the other side.
    """

    name: str
    name_span: Span
    start: Formula
    end: Formula
    each: Formula
    times: Formula | None
    first_on: Formula | None
    steps: tuple[StepEntry, ...]
    within: Formula | None
    ends_on: Formula | None
    mirrors: str
    mirrors_span: Span
    why: str
    span: Span


class OpeningEntry(Struct, frozen=True, eq=False):
    """A line of an opening that must pass over a part of the body. of: what the line is made of, for its usual stretch."""

    line: Formula
    stretch: Formula | None
    of: str
    over: Formula
    spare: Formula | None
    why: str
    span: Span


class EaseEntry(Struct, frozen=True, eq=False):
    """A finished measurement over the body's: the ease that the pattern states, and the least that can be worn."""

    finished: Formula
    over: Formula
    low: Formula | None
    high: Formula | None
    at_least: Formula | None
    why: str
    span: Span


class EdgeEntry(Struct, frozen=True, eq=False):
    """Two edges that are sewn or worked together. low, high: by how much the first may be shorter or longer, of the second."""

    edge: Formula
    meets: Formula
    low: Formula | None
    high: Formula | None
    why: str
    span: Span


class RatioEntry(Struct, frozen=True, eq=False):
    """One measurement against another: an edge and the fabric that it finishes."""

    measure: Formula
    against: Formula
    low: Formula | None
    high: Formula | None
    why: str
    span: Span


Claim = Assertion | PartsEntry | ShapingEntry | OpeningEntry | EaseEntry | EdgeEntry | RatioEntry
