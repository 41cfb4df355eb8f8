"""The shipped cautions: what to print with items that can hurt someone. Our own wording; each defers to local rules."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from stitchproof.shipped_data import read_shipped
from stitchproof.standards.provenance import Memory, read_keys, read_memory


class Basis(Struct, frozen=True):
    """What a caution rests on. body: who lays it down, or ""; reference: where it stands, or ""."""

    rule: str
    body: str
    reference: str
    memory: Memory
    confirmed_by: tuple[str, ...]


class ShippedCaution(Struct, frozen=True):
    """A caution by its rule. place: "front" or "back", where it is to be printed.

    ages: whom the item is for ("baby", "any", …). items, triggers: words for what is made, and for what in it is risky;
    the caution belongs to an item of that kind that has one of the triggers.
    """

    rule: str
    text: str
    place: str
    ages: tuple[str, ...]
    items: tuple[str, ...]
    triggers: tuple[str, ...]
    basis: tuple[Basis, ...]


@cache
def shipped_cautions() -> dict[str, ShippedCaution]:
    """All shipped cautions by rule."""
    return {str(rule["id"]): _caution(rule) for rule in _data()["rules"]}


def defer_text() -> str:
    """The sentence that puts local rules and advice above all the cautions."""
    return _one_line(_data()["defer"])


@cache
def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("safety.yaml"))


def _caution(rule: dict[str, Any]) -> ShippedCaution:
    return ShippedCaution(
        str(rule["id"]),
        _one_line(rule["caution"]),
        str(rule.get("place", "front")),
        read_keys(rule["applies_to"], "age"),
        read_keys(rule["applies_to"], "items"),
        read_keys(rule, "triggers"),
        tuple(_basis(basis) for basis in rule["basis"]),
    )


def _basis(basis: dict[str, Any]) -> Basis:
    return Basis(
        _one_line(basis["rule"]),
        str(basis.get("body", "")),
        str(basis.get("ref", "")),
        read_memory(basis),
        read_keys(basis, "confirmed_by"),
    )


def _one_line(text: str) -> str:
    return " ".join(text.split())
