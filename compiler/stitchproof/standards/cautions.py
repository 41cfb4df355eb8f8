"""The shipped cautions: what to print with items that can hurt someone. Our own wording; each defers to local rules."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml


@dataclass(frozen=True, slots=True)
class ShippedCaution:
    """A caution by its rule. place: "front", "back" or "item", where it is to be printed."""

    rule: str
    text: str
    place: str


@cache
def shipped_cautions() -> dict[str, ShippedCaution]:
    """All shipped cautions by rule."""
    text = Path(__file__).with_name("safety.yaml").read_text("utf-8")
    data: dict[str, Any] = yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))  # noqa: S506  # a safe loader either way
    return {
        str(rule["id"]): ShippedCaution(
            str(rule["id"]), " ".join(str(rule["caution"]).split()), str(rule.get("place", "front"))
        )
        for rule in data["rules"]
    }
