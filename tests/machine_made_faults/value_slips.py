"""Slips in lists with one value per size, and in the sizes themselves."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.reading.yaml_tree import Listing, Scalar
from stitchproof.source import Span
from tests.machine_made_faults.clean_pattern import NUMBERS, CleanPattern, Leaf
from tests.machine_made_faults.planted_fault import PlantedFault

_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def one_value(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """One value of a list: by one, by two, two digits the wrong way round, a digit twice, or its neighbour's."""
    for path, listing in _value_lists(pattern):
        name = Leaf(path, _scalar(listing, 0), None).name
        for size, item in enumerate(listing.items):
            span = item.span
            for kind, put in _slips(span.text):
                yield PlantedFault(pattern.name, kind, name, ((span, put),), size)
            if size + 1 < len(listing.items) and (after := listing.items[size + 1].span).text != span.text:
                yield PlantedFault(
                    pattern.name, "neighbours swapped", name, ((span, after.text), (after, span.text)), size
                )


def _slips(text: str) -> Iterator[tuple[str, str]]:
    if not _NUMBER.fullmatch(text):
        return
    whole, point, part = text.partition(".")
    for by in (1, 2):
        yield f"by {by} up", f"{int(whole) + by}{point}{part}"
        if int(whole) >= by:
            yield f"by {by} down", f"{int(whole) - by}{point}{part}"
    if len(whole) > 1 and whole[-1] != whole[-2]:
        yield "digits swapped", f"{whole[:-2]}{whole[-1]}{whole[-2]}{point}{part}"
    yield "digit doubled", f"{whole}{whole[-1]}{point}{part}"


def short_list(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """A list one value short, or one too long."""
    for path, listing in _value_lists(pattern):
        name = Leaf(path, _scalar(listing, 0), None).name
        for size, item in enumerate(listing.items[1:], 1):
            before = listing.items[size - 1].span
            gone = Span(item.span.file, before.end, item.span.end)
            yield PlantedFault(pattern.name, "list one short", name, ((gone, ""),))
            yield PlantedFault(
                pattern.name, "list one too long", name, ((item.span, f"{item.span.text}, {item.span.text}"),)
            )


def size_names(pattern: CleanPattern) -> Iterator[PlantedFault]:
    """A size's name dropped, written twice, or misspelt; a bracket of another length; a size of a caution dropped."""
    for path, listing in pattern.listings:
        spans = [item.span for item in listing.items]
        if path == ("sizes", "names"):
            for size, span in enumerate(spans):
                yield PlantedFault(pattern.name, "size name dropped", "sizes.names", (_without(spans, size),))
                other = spans[size - 1].text
                yield PlantedFault(pattern.name, "size name doubled", "sizes.names", ((span, other),))
        if path == ("sizes", "groups"):
            for span in spans:
                yield PlantedFault(pattern.name, "sizes per bracket", "sizes.groups", ((span, _plus(span.text, 1)),))
        if path[0] == "cautions" or path == ("audience",):
            for place in range(len(spans)):
                if len(spans) > 1:
                    what = ".".join(map(str, path))
                    yield PlantedFault(pattern.name, "entry of a list dropped", what, (_without(spans, place),))


def _without(spans: list[Span], place: int) -> tuple[Span, str]:
    if place:
        return Span(spans[place].file, spans[place - 1].end, spans[place].end), ""
    return Span(spans[0].file, spans[0].start, spans[1].start), ""


def _plus(text: str, by: int) -> str:
    return str(int(text) + by)


def _value_lists(pattern: CleanPattern) -> Iterator[tuple[tuple[str | int, ...], Listing]]:
    for path, listing in pattern.listings:
        if path[0] in NUMBERS:
            yield path, listing


def _scalar(listing: Listing, place: int) -> Scalar:
    item = listing.items[place]
    assert isinstance(item, Scalar)
    return item
