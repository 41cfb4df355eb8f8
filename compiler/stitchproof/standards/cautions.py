"""The shipped cautions: what to print with items that can hurt someone. Our own wording; each defers to local rules."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from stitchproof.shipped_data import read_shipped


@dataclass(frozen=True, slots=True)
class ShippedCaution:
    """A caution by its rule. place: "front", "back" or "item", where it is to be printed."""

    rule: str
    text: str
    place: str


@cache
def shipped_cautions() -> dict[str, ShippedCaution]:
    """All shipped cautions by rule."""
    data = read_shipped(Path(__file__).with_name("safety.yaml"))
    return {
        str(rule["id"]): ShippedCaution(
            str(rule["id"]), " ".join(str(rule["caution"]).split()), str(rule.get("place", "front"))
        )
        for rule in data["rules"]
    }
