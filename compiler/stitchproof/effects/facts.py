"""The effect of a change as plain data, for machines."""

from __future__ import annotations

from typing import Any

import msgspec

from stitchproof.effects.effect import Effect

FORMAT = "stitchproof-effect"
VERSION = 1


def effect_facts(effect: Effect) -> dict[str, Any]:
    """Text, whole numbers, lists and maps only; the order is that of the report."""
    facts: dict[str, Any] = msgspec.to_builtins(effect)
    return {"format": FORMAT, "version": VERSION, **facts}
