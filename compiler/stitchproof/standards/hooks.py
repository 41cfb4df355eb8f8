"""Hook sizes. The millimetre figure is the key; letters and numbers are labels, and a bare number is never a size.

Source: Craft Yarn Council, Hooks & Needles (US); trade conversion charts (old UK and Canadian, steel, Japanese).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from stitchproof.measures.values import exact_text
from stitchproof.shipped_data import read_shipped
from stitchproof.standards.provenance import Memory, memory_note, read_keys, read_memory
from stitchproof.standards.ranges import exact

US, OLD_UK = "US", "old UK"


class Hook(Struct, frozen=True):
    """A hook in mm with its labels, "" where it has none. disputed_uk: the old UK numbers that charts give it, if several."""

    mm: Fraction
    us: str
    uk: str
    disputed_uk: tuple[str, ...]
    memory: Memory


class NumberedHook(Struct, frozen=True):
    """A hook of a system of its own: "US steel", "Japanese lace" or "Japanese"."""

    system: str
    number: str
    mm: Fraction
    memory: Memory


@cache
def hooks() -> tuple[Hook, ...]:
    """All hooks that have a US or an old UK label, and the sizes between them, finest first."""
    return tuple(
        Hook(exact(row["mm"]), row["us"] or "", row["uk"] or "", read_keys(row, "disputed_uk"), read_memory(row))
        for row in _data()["hooks"]
    )


@cache
def numbered_hooks() -> tuple[NumberedHook, ...]:
    """The steel and Japanese hooks, by system."""
    return tuple(
        NumberedHook(system["system"], number, exact(mm), Memory.NONE if number in confirmed else Memory.ALL)
        for system in _data()["numbered"]
        for confirmed in (read_keys(system, "confirmed"),)
        for number, mm in system["mm"].items()
    )


def hook_at(mm: Fraction) -> Hook | None:
    """The hook of a size in mm, None where no table lists it."""
    return next((hook for hook in hooks() if hook.mm == mm), None)


def hook_label(mm: Fraction, terms: str = "US") -> str:
    """A size as printed, mm first: "5 mm (US H-8)", in UK terms "5 mm (old UK 6)"; without a label "3 mm"."""
    size = f"{exact_text(mm)} mm"
    hook = hook_at(mm)
    system, label = (OLD_UK, hook.uk if hook else "") if terms == "UK" else (US, hook.us if hook else "")
    if hook is None or not label:
        return size
    return f"{size} ({', '.join(filter(None, (f'{system} {label}', memory_note(hook))))})"


def hooks_labelled(label: str) -> tuple[tuple[str, Fraction], ...]:
    """Each system in which a label is a hook, with its size in mm: "6" is a hook of four systems, and so never enough."""
    return tuple(_labelled(label.strip().casefold()))


def _labelled(wanted: str) -> Iterator[tuple[str, Fraction]]:
    for hook in hooks():
        letters, _, number = hook.us.casefold().partition("-")
        if wanted and wanted in {hook.us.casefold(), *letters.split("/"), number}:
            yield US, hook.mm
        if wanted and wanted in {hook.uk, *hook.disputed_uk}:
            yield OLD_UK, hook.mm
    for numbered in numbered_hooks():
        if wanted == numbered.number:
            yield numbered.system, numbered.mm


@cache
def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("hooks.yaml"))
