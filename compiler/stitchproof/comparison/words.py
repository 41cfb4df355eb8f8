"""The sentences of a comparison, shared by the terminal and the page."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from stitchproof.comparison.comparison import Chain, Comparison, InputChanged, LineChanged, NumberChanged, Pair, Side

MOST_KS = 4
NOTHING = "–"
ARROW = " → "


def pair_text(pair: Pair) -> str:
    """ "16 per 10 cm → 17 per 10 cm"."""
    return f"{pair.old or NOTHING}{ARROW}{pair.new or NOTHING}"


def side_text(side: Side) -> str:
    """ "build/hat, revision 2, 2026-05-01"."""
    parts = [side.where, f"revision {side.revision}" if side.revision else "", side.date]
    return ", ".join(part for part in parts if part)


def sizes_text(sizes: Iterable[str], every: tuple[str, ...]) -> str:
    """ "all sizes", "size M", "sizes XS to L", "sizes S, L"."""
    named = tuple(sizes)
    if not named:
        return "no size"
    if len(named) == 1:
        return f"size {named[0]}"
    if named == every:
        return "all sizes"
    places = [every.index(size) for size in named if size in every]
    if len(named) > 2 and len(places) == len(named) and places == list(range(places[0], places[0] + len(places))):
        return f"sizes {named[0]} to {named[-1]}"
    return f"sizes {', '.join(named)}"


def chain_text(chain: Chain) -> str:
    """ "hat_around ← ease": the input that was changed stands last."""
    return " ← ".join(chain.names)


def causes_text(causes: Iterable[Chain]) -> str:
    """Every cause, "" where there is none to tell."""
    return "; ".join(chain_text(chain) for chain in causes)


def input_lines(change: InputChanged) -> list[str]:
    """What is written otherwise: one line, or one for each size."""
    what = "" if change.what in ("formula", "by hand", "new", "gone") else f" ({change.what})"
    if change.all is not None:
        note = f"  {change.what}" if change.what in ("new", "gone") else ""
        return [f"{change.name}{what}  {pair_text(change.all)}{note}"]
    return [f"{change.name}[{size}]{what}  {pair_text(pair)}" for size, pair in change.by_size]


def number_lines(change: NumberChanged) -> list[tuple[str, str, str]]:
    """Size by size: the size, old and new, and by how much; of a value with a k the first few."""
    lines = []
    for size, group in groupby(change.changes, key=lambda each: each.size):
        found = list(group)
        if not found[0].k:
            only = found[0]
            more = ", ".join(part for part in (only.change, only.change_cm) if part and part != only.values.new)
            lines.append((size, pair_text(only.values), more))
            continue
        told = [f"k = {each.k}: {pair_text(each.values)}" for each in found[:MOST_KS]]
        left = len(found) - MOST_KS
        lines.append((size, "; ".join(told), f"and at {left} more k" if left > 0 else ""))
    return lines


def unchanged_text(comparison: Comparison) -> list[str]:
    """What is proved to be the same."""
    lines = []
    if comparison.same_sizes:
        are = "is" if len(comparison.same_sizes) == 1 else "are"
        words = sizes_text(comparison.same_sizes, comparison.new.sizes)
        lines.append(f"{words[0].upper()}{words[1:]} {are} unchanged: every number and every line is the same.")
    lines.append(
        f"The same in all sizes of both: {comparison.same_numbers} named values, {comparison.same_lines} lines."
    )
    return lines


def line_head(line: LineChanged, every: tuple[str, ...]) -> str:
    """ "Body: Rnd 3 (sizes S, M)"."""
    return f"{line.under}: {line.label} ({sizes_text(line.sizes, every)})" if line.label else line.under


def old_text(line: LineChanged) -> str:
    """The line as it was."""
    return "".join(stretch.words.old for stretch in line.stretches).strip()


def new_text(line: LineChanged) -> str:
    """The line as it is now."""
    return "".join(stretch.words.new for stretch in line.stretches).strip()


def size_number_lines(line: LineChanged) -> list[tuple[str, str]]:
    """Size by size the numbers of a line that changed: ("3", "10 → 7, 18 → 22")."""
    return [(size, ", ".join(pair_text(pair) for pair in pairs)) for size, pairs in line.numbers]
