"""Slips in what stands beside a number: its unit, multiple, rounding and bounds; gauges, rates, hooks; a typed number."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.reading.yaml_tree import Mapping
from stitchproof.source import Span
from tests.machine_made_faults.clean_pattern import NUMBERS, CleanPattern, Leaf
from tests.machine_made_faults.planted_fault import PlantedFault

_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?")
_UNIT = re.compile(r"(?<![\w.])(?:mm|cm|g|m|sts?|rows?|rnds?|ribs?|times|groups|pairs|balls|buttons)(?![\w.])")
TAKEN_FOR = {
    "mm": "cm",
    "cm": "in",
    "in": "cm",
    "g": "oz",
    "m": "cm",
    "st": "row",
    "sts": "rows",
    "row": "st",
    "rows": "sts",
    "rnd": "st",
    "rnds": "sts",
    "rib": "row",
    "ribs": "rows",
    "times": "sts",
    "groups": "times",
    "pairs": "times",
    "balls": "g",
    "buttons": "sts",
}
"""Which unit is typed for which."""
ROUNDINGS = ("nearest", "up", "down")
WAYS = {
    "rows": "joined rounds",
    "joined rounds": "spiral rounds",
    "spiral rounds": "rows",
    "spiral rnds": "rows",
    "joined rnds": "rows",
    "rounds": "rows",
    "spiral rounds, start kept in place": "joined rounds",
    "spiral rounds, each ending with a chain": "spiral rounds, start kept in place",
}
"""Which way of working is typed for which."""


def units(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """A unit taken for another: after `unit:`, beside a number in a formula, or as the key of a list of body measures."""
    for leaf in pattern.leaves:
        if leaf.path[0] not in (*NUMBERS, "gauges", "rates", "must_hold"):
            continue
        if leaf.last == "unit" or leaf.is_formula or leaf.path[0] in ("gauges", "rates"):
            for match in _UNIT.finditer(leaf.scalar.span.text):
                if leaf.path[-1] in ("stitch", "hook", "worked", "along", "state"):
                    continue
                span = leaf.scalar.span.part(match.start(), match.end())
                yield PlantedFault(pattern.name, "unit", leaf.name, ((span, TAKEN_FOR[match[0]]),))
        if leaf.last == "cm" and leaf.key is not None and leaf.path[-1] == 0:
            yield PlantedFault(pattern.name, "unit", leaf.name, ((leaf.key.span, "in"),))


def multiples(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """Another multiple: one more, one less, the half or the double of it, or without what is added to it."""
    for leaf in pattern.leaves:
        if leaf.last != "multiple":
            continue
        span = leaf.scalar.span
        first = _NUMBER.search(span.text)
        if first is None:
            continue
        number = span.part(first.start(), first.end())
        if "." not in first[0]:
            held = int(first[0])
            for other in sorted({held + 1, held - 1, held * 2, held // 2} - {0, held}):
                yield PlantedFault(pattern.name, "multiple", leaf.name, ((number, str(other)),))
        plus = span.text.find(" plus")
        added = (
            (span.part(plus, len(span.text)), "")
            if plus > 0
            else (span.part(len(span.text), len(span.text)), " plus 1")
        )
        yield PlantedFault(pattern.name, "multiple", leaf.name, (added,))


def left_out(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """A multiple, a rounding, a bound, a unit or what is left over of a rate, not typed at all."""
    for path, mapping, place in pattern.entries:
        key = str(path[-1])
        if key in ("multiple", "round", "at_least", "at_most", "unit", "left_over"):
            leaf = Leaf(path, mapping.entries[place][0], None)
            yield PlantedFault(pattern.name, f"{key} left out", leaf.name, ((_entry_span(mapping, place), ""),))


def _entry_span(mapping: Mapping, place: int) -> Span:
    """An entry with what parts it from its neighbours, so that the rest stays well written."""
    key, value = mapping.entries[place]
    if place + 1 < len(mapping.entries):
        return Span(key.span.file, key.span.start, mapping.entries[place + 1][0].span.start)
    return Span(key.span.file, mapping.entries[place - 1][1].span.end, value.span.end)


def roundings(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """Another word for rounding."""
    for leaf in pattern.leaves:
        if leaf.last == "round":
            for other in ROUNDINGS:
                if other not in leaf.scalar.text:
                    yield PlantedFault(pattern.name, "rounding", leaf.name, ((leaf.scalar.span, other),))


def gauges_and_rates(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """Another number in a gauge, in a rate, or in the hook of a gauge; another gauge or way of working for a piece."""
    names = [str(path[1]) for path, _, _ in pattern.entries if path[0] == "gauges" and len(path) == 2]
    for leaf in pattern.leaves:
        span = leaf.scalar.span
        if leaf.path[0] in ("gauges", "rates"):
            number = _NUMBER.search(span.text)
            kind = "hook" if leaf.last == "hook" else str(leaf.path[0]).removesuffix("s")
            for other in _other_numbers(number[0]) if number else ():
                assert number is not None
                place = span.part(number.start(), number.end())
                yield PlantedFault(pattern.name, kind, f"{leaf.name}.{leaf.last}", ((place, other),))
        if leaf.last in ("gauge", "along") and leaf.scalar.text in names and len(names) > 1:
            other = names[(names.index(leaf.scalar.text) + 1) % len(names)]
            yield PlantedFault(pattern.name, "another gauge", leaf.name, ((span, other),))
        if leaf.last == "worked":
            yield PlantedFault(pattern.name, "way of working", leaf.name, ((span, WAYS[leaf.scalar.text]),))


def _other_numbers(text: str) -> Iterator[str]:
    whole, point, part = text.partition(".")
    yield f"{int(whole) + 1}{point}{part}"
    if int(whole) > 1:
        yield f"{int(whole) - 1}{point}{part}"
    if len(whole) > 1 and whole[-1] != whole[-2]:
        yield f"{whole[:-2]}{whole[-1]}{whole[-2]}{point}{part}"


def typed_numbers(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """A number typed among words: in the materials, in a stitch's description."""
    for leaf in pattern.leaves:
        if leaf.path[0] not in ("materials", "special_stitches", "summary"):
            continue
        for match in _NUMBER.finditer(leaf.scalar.span.text):
            place = leaf.scalar.span.part(match.start(), match.end())
            for other in _other_numbers(match[0]):
                yield PlantedFault(pattern.name, "number typed in words", leaf.name, ((place, other),))
