"""Yarn weight categories 0 to 7 with their usual crochet gauge and hooks: guidelines, never a rule.

Source: Craft Yarn Council, Standard Yarn Weight System. A pattern's own gauge always wins, and garments are often worked with
far larger hooks for drape. Neighbouring categories overlap, so a gauge alone does not name one.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from stitchproof.shipped_data import read_shipped
from stitchproof.standards.provenance import Memory, read_keys, read_memory
from stitchproof.standards.ranges import Range, read_range


class Printing(Struct, frozen=True):
    """The figures of a category as one edition prints them. gauge: stitches in 4 in (10 cm). hook_us: for people."""

    gauge: Range
    hook_mm: Range
    hook_us: str


class YarnWeight(Struct, frozen=True):
    """A category. gauge_stitch: what its gauge is counted in ("sc", for category 0 "dc"). types: kinds of yarn in it.

    printings: as published, the present form first. trade_names: (country, names) that are common, not the council's.
    wraps_per_inch: how often it goes round a ruler; the ranges overlap too much to decide a category.
    """

    category: int
    name: str
    types: tuple[str, ...]
    gauge_stitch: str
    printings: tuple[Printing, ...]
    wraps_per_inch: Range
    trade_names: tuple[tuple[str, tuple[str, ...]], ...]
    source: str
    memory: Memory
    confirmed_by: tuple[str, ...]


@cache
def yarn_weights() -> tuple[YarnWeight, ...]:
    """All categories, thinnest first."""
    data = read_shipped(Path(__file__).with_name("yarn_weights.yaml"))
    regional = {row["cyc"]: row for row in data["regional_names"]["rows"]}
    wraps = data["wraps_per_inch"]["values"]
    return tuple(
        YarnWeight(
            int(category),
            str(row["name"]),
            read_keys(row, "types"),
            str(row.get("gauge_stitch", "sc")),
            (_printing(row), *(_printing(variant) for variant in row.get("variants", ()))),
            read_range(wraps[category]) or Range(None, None),
            tuple((place, read_keys(regional.get(category, {}), place)) for place in ("us", "uk", "au")),
            str(data["source"]),
            read_memory(row),
            read_keys(row, "confirmed_by"),
        )
        for category, row in data["weights"].items()
    )


def weights_for(gauge: Fraction | None, hook_mm: Fraction | None, stitch: str = "sc") -> tuple[YarnWeight, ...]:
    """The categories that print, in one edition, a gauge (stitches in 4 in or 10 cm) and a hook; None leaves one out.

    A category whose gauge is counted in another stitch than `stitch` is left out where a gauge is given.
    """
    return tuple(
        weight
        for weight in yarn_weights()
        if (gauge is None or weight.gauge_stitch == stitch)
        and any(_fits(printing, gauge, hook_mm) for printing in weight.printings)
    )


def weights_called(name: str) -> tuple[YarnWeight, ...]:
    """The categories that a name or number may mean: "DK", "fingering" (two of them), "4 ply", "5"."""
    wanted = " ".join(name.split()).casefold()
    return tuple(weight for weight in yarn_weights() if wanted in _names(weight))


def _names(weight: YarnWeight) -> set[str]:
    trade = (name for _, names in weight.trade_names for name in names)
    return {name.casefold() for name in (str(weight.category), weight.name, *weight.types, *trade)}


def _fits(printing: Printing, gauge: Fraction | None, hook_mm: Fraction | None) -> bool:
    return (gauge is None or printing.gauge.contains(gauge)) and (hook_mm is None or printing.hook_mm.contains(hook_mm))


def _printing(row: dict[str, Any]) -> Printing:
    open_range = Range(None, None)
    return Printing(
        read_range(row["gauge_4in"]) or open_range, read_range(row["hook_mm"]) or open_range, str(row["hook_us"])
    )
