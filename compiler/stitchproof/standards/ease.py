"""Fit classes by ease, and where hems lie. Ease is the finished chest less the body's chest.

Source: Craft Yarn Council, Ease & Fit Chart and Length Chart. Two editions disagree about the closest classes: keep the
edition with every use, and print the amount beside the name.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from stitchproof.shipped_data import read_shipped
from stitchproof.standards.provenance import Column, Memory, read_memory
from stitchproof.standards.ranges import Range, exact, read_range

CURRENT, OLDER = "current", "older"
"""The editions of the fit chart."""


class FitClass(Struct, frozen=True):
    """A class of an edition, with its ease in both published columns."""

    edition: str
    key: str
    label: str
    cm: Range
    inches: Range
    source: str
    memory: Memory

    def ease(self, column: Column) -> Range:
        """The ease of one column."""
        return self.cm if column is Column.CM else self.inches


class HemLength(Struct, frozen=True):
    """How far below the natural waist a hem lies. wearer: "child" or "woman"."""

    name: str
    wearer: str
    cm: Fraction
    inches: Fraction
    source: str
    memory: Memory


@cache
def fit_classes(edition: str = CURRENT) -> tuple[FitClass, ...]:
    """The classes of an edition, closest first. Raises KeyError for an edition that is neither."""
    data = _data()["editions"][edition]
    memory, source = read_memory(data), str(_data()["source"])
    everything = Range(None, None)
    return tuple(
        FitClass(
            edition,
            key,
            str(row["label"]),
            read_range(row["ease_cm"]) or everything,
            read_range(row["ease_in"]) or everything,
            source,
            memory,
        )
        for key, row in data["classes"].items()
    )


def fit_of(ease: Fraction, column: Column, edition: str = CURRENT) -> FitClass | None:
    """The class of an ease in the unit of `column`; a boundary belongs to the smaller class. None in the chart's gaps."""
    return next((fit for fit in fit_classes(edition) if fit.ease(column).contains(ease)), None)


@cache
def hem_lengths() -> tuple[HemLength, ...]:
    """Hip and tunic length, for a child and a woman."""
    data = _data()["lengths"]
    memory, source = read_memory(data), str(_data()["source"])
    return tuple(
        HemLength(
            row["name"], row["wearer"], exact(row["below_waist_cm"]), exact(row["below_waist_in"]), source, memory
        )
        for row in data["rows"]
    )


@cache
def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("ease.yaml"))
