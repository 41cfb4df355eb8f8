"""Unfolds a text that uses no Jinja of its own, as most do: slots and loop blocks alone.

Its template holds no more than what reading has put in, so Jinja need not read, compile and run it, nor be loaded at all. What
Jinja would take otherwise than it looks (names it keeps for itself, a brace before a slot) is left to Jinja.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from keyword import iskeyword

from msgspec import Struct

from stitchproof.expansion.spent import Spent
from stitchproof.expressions import expression
from stitchproof.reading.marks import JINJA_SIGNS
from stitchproof.reading.pattern_source import TextFile

_PUT_IN = expression(
    r"\{\{ (?P<slot>\d+)\|slot\((?P<handed>[^{}()]*(?:\(none\)[^{}()]*)*)\) \}\}"
    r"|\{% for (?P<variable>\w+) in (?P<loop>\d+)\|each\((?P<outer>[^{}()]*(?:\(none\)[^{}()]*)*)\) %\}"
    r'|(?P<end>\{\{ "\\n" \}\}\{% endfor %\}\n?)'
)
_HANDED = expression(r"(\w+)=")
_KEPT_BY_JINJA = frozenset({"true", "false", "none", "loop", "self", "super", "upto", "caller", "varargs", "kwargs"})


class SlotCall(Struct, frozen=True):
    """A slot: the number of its island, and the names it is handed."""

    island: int
    names: tuple[str, ...]


class Rounds(Struct, frozen=True):
    """A loop block: the number of its island, the names it is handed, what it counts by, and what stands in it."""

    island: int
    names: tuple[str, ...]
    variable: str
    parts: tuple[str | SlotCall | Rounds, ...]


Parts = tuple[str | SlotCall | Rounds, ...]
Names = dict[str, object]


def plain_parts(text: TextFile) -> Parts | None:
    """The parts of a text without Jinja of its own; None of one that Jinja must unfold."""
    if any(sign in text.file.text for sign in JINJA_SIGNS):
        return None
    open_loops: list[list[str | SlotCall | Rounds]] = [[]]
    heads: list[re.Match[str]] = []
    position = 0
    for match in _PUT_IN.finditer(text.template):
        literal = text.template[position : match.start()]
        if literal.endswith("{") or not _are_plain(match):
            return None
        position = match.end()
        open_loops[-1].append(literal)
        if match["slot"]:
            open_loops[-1].append(SlotCall(int(match["slot"]), tuple(_HANDED.findall(match["handed"]))))
        elif match["loop"]:
            heads.append(match)
            open_loops.append([])
        elif not heads:
            return None
        else:
            # The newline that Jinja drops behind a tag is printed at the end of each round instead.
            head, parts = heads.pop(), (*open_loops.pop(), "\n")
            rounds = Rounds(int(head["loop"]), tuple(_HANDED.findall(head["outer"])), head["variable"], parts)
            open_loops[-1].append(rounds)
    literal = text.template[position:]
    if heads or any(sign in part for part in (literal, *_literals(open_loops[0])) for sign in JINJA_SIGNS):
        return None
    return (*open_loops[0], literal)


def _literals(parts: list[str | SlotCall | Rounds] | Parts) -> Iterator[str]:
    for part in parts:
        if isinstance(part, str):
            yield part
        elif isinstance(part, Rounds):
            yield from _literals(part.parts)


def _are_plain(match: re.Match[str]) -> bool:
    """Whether the names of a slot or loop mean to Jinja what they say: each once, and none that it keeps for itself."""
    handed = _HANDED.findall(match["handed"] or match["outer"] or "")
    names = {*handed, match["variable"]} if match["variable"] else set(handed)
    return len(set(handed)) == len(handed) and all(
        name.isascii() and name.isidentifier() and not iskeyword(name) and name not in _KEPT_BY_JINJA for name in names
    )


class PlainUnfolding:
    """Unfolds plain parts. slot, each: called where a slot, or the head of a loop block stands, with what it is handed."""

    def __init__(self, slot: Callable[[int, Names], str], each: Callable[[int, Names], range], spent: Spent) -> None:
        self.slot = slot
        self.each = each
        self.spent = spent

    def text(self, parts: Parts, handles: Names) -> str:
        """The unfolded text. Raises TooMuchText."""
        self.spent.tick()
        return self.spent.bounded(self._unfolded(parts, handles))

    def _unfolded(self, parts: Parts, known: Names) -> Iterator[str]:
        for part in parts:
            if isinstance(part, str):
                yield part
            elif isinstance(part, SlotCall):
                self.spent.tick()
                yield self.slot(part.island, {name: known[name] for name in part.names if name in known})
            else:
                for number in self.each(part.island, {name: known[name] for name in part.names if name in known}):
                    self.spent.tick()
                    yield from self._unfolded(part.parts, {**known, part.variable: number})
