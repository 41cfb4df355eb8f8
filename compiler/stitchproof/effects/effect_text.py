"""The effect of a change as text: what was not recomputed, what was changed, what followed, what fails, what held."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.comparison.comparison import FindingSeen, InputChanged
from stitchproof.comparison.words import input_lines
from stitchproof.effects.effect import CountChanged, Effect, LengthChanged, RoundedFar
from stitchproof.effects.hand_set import HandSet
from stitchproof.measures.units import SINGULAR

PLURALS = {singular: plural for plural, singular in SINGULAR.items()}
FEW = 3
"""From so many sizes on, what was changed in them stands in one line."""
MOST_NAMES = 12
"""Names that one line lists before it says how many more there are."""


def effect_text(effect: Effect) -> str:
    """The whole report."""
    return "\n".join(_lines(effect)) + "\n"


def _lines(effect: Effect) -> Iterator[str]:
    for title, lines in effect_parts(effect):
        yield title
        yield from (f"  {line}" for line in lines)
    yield held_text(effect)


def effect_parts(effect: Effect) -> list[tuple[str, list[str]]]:
    """Each part of the report that has something to say: its title and its lines."""
    comparison = effect.comparison
    parts: list[tuple[str, list[str]]] = [
        ("Set by hand, not recomputed", list(_hand_set(effect.hand_set))),
        ("Sizes", _sizes(effect)),
        ("Changed", [line for each in comparison.inputs for line in _input(each)]),
        ("Counts", [*_numbers(effect.counts), *_at_k(effect)]),
        ("Finished measures", [line for each in effect.lengths for line in _length(each)]),
        ("Yarn", _numbers(effect.yarn)),
        ("Rounded by more than half", list(_rounded(effect.rounded_far))),
        ("Checks", list(_checks(effect))),
    ]
    return [(title, lines) for title, lines in parts if lines]


def _hand_set(values: tuple[HandSet, ...]) -> Iterator[str]:
    """Those that the change touches one by one, the others by name."""
    for each in values:
        if not each.touched:
            continue
        if each.formula:
            told = "; ".join(
                f"{size} {value}, the formula gives {given}"
                for size, value, given in zip(each.sizes, each.values, each.by_formula, strict=True)
            )
            yield f"{each.name}  {told}   ({each.formula})"
        else:
            widths = f"; at the new gauge {_range(each.widths)}" if each.widths else ""
            moved = f"; what is made of it moves: {names_text(list(each.moved))}" if each.moved else ""
            yield f"{each.name}  {vector(each.values)}{widths}{moved}"
    rest = [each.name for each in values if not each.touched]
    if rest:
        yield f"as before: {names_text(rest)}"


def _range(texts: tuple[str, ...]) -> str:
    """From the first size to the last."""
    return texts[0] if len(set(texts)) == 1 else f"{texts[0]} to {texts[-1]}"


def _sizes(effect: Effect) -> list[str]:
    comparison = effect.comparison
    lines = [f"added    {', '.join(comparison.sizes_added)}"] if comparison.sizes_added else []
    lines += [f"removed  {', '.join(comparison.sizes_removed)}"] if comparison.sizes_removed else []
    if lines and comparison.same_sizes:
        lines.append(f"the same to the last number: {', '.join(comparison.same_sizes)}")
    if effect.drawn:
        lines.append("drawn on from the neighbours, and nobody's choice yet:")
        lines += [f"  {each}" for each in effect.drawn]
    for each in effect.new_sizes:
        values = ", ".join(f"{size} {text}" for size, text in zip(each.sizes, each.values, strict=True))
        lines.append(f"{each.label or each.name}  {values}")
    return lines


def _input(change: InputChanged) -> list[str]:
    """A value that was changed; where it was in several sizes, all of them in a line. A gauge that a value lost because its own
    inputs are not known is no change of anybody's."""
    if change.what == "gauge" and change.all and not change.all.new:
        return []
    if len(change.by_size) < FEW:
        return list(input_lines(change))
    sizes = [size for size, _ in change.by_size]
    old, new = (tuple(getattr(pair, side) or "–" for _, pair in change.by_size) for side in ("old", "new"))
    return [f"{change.name}[{sizes[0]} … {sizes[-1]}]  {vector(old)} → {vector(new)}"]


def _numbers(changes: tuple[CountChanged, ...]) -> list[str]:
    wide = max((len(each.name) for each in changes), default=0)
    return [f"{each.name:<{wide}}  {vector(each.old)} → {vector(each.new)}" for each in changes]


def _at_k(effect: Effect) -> list[str]:
    return [f"at some k: {names_text(list(effect.at_k))}"] if effect.at_k else []


def _length(change: LengthChanged) -> Iterator[str]:
    name = f"{change.label} ({change.name})" if change.label else change.name
    cm, inches = (f"{vector(side[0])} → {vector(side[1])}" for side in (change.cm, change.inches))
    if change.cm[0] == change.cm[1] and change.inches[0] == change.inches[1]:
        yield f"{name}  prints as before"
    else:
        yield f"{name}  {cm} cm"
        yield f"{'':{len(name)}}  {inches} in"


def _rounded(far: tuple[RoundedFar, ...]) -> Iterator[str]:
    for each in far:
        if not each.before:
            in_cm = f" ({each.change_cm})" if each.change_cm else ""
            yield f"{each.name}[{each.size}]  {each.raw} → {each.value}: {each.moved}{in_cm}"
    rest = list(dict.fromkeys(each.name for each in far if each.before))
    if rest:
        yield f"before as well: {names_text(rest)}"


def _checks(effect: Effect) -> Iterator[str]:
    comparison = effect.comparison
    for word, found in (("fails now", comparison.findings_new), ("cleared", comparison.findings_gone)):
        for each in found:
            if each.severity != "note" and not each.accepted:
                yield f"{word}  {_finding(each)}"


def _finding(found: FindingSeen) -> str:
    sizes = f" ({', '.join(found.sizes)})" if found.sizes else ""
    return f"{found.severity} {found.code}: {found.headline}{sizes}"


def held_text(effect: Effect) -> str:
    """What did not change, in one line."""
    comparison = effect.comparison
    changed = len(comparison.numbers)
    lines = f"{comparison.same_lines} of {comparison.same_lines + len(comparison.lines)} lines"
    if not changed and not comparison.lines and not comparison.inputs:
        return f"Nothing changed: {comparison.same_numbers} numbers and {comparison.same_lines} lines are the same in every size"
    return (
        f"Not changed: {comparison.same_numbers} of {effect.quantities} numbers and {lines} read the same in every size"
    )


def vector(texts: tuple[str, ...]) -> str:
    """`64 (72, 80) sts`: one value for each size, a unit that they share said once; one for all where they agree."""
    if len(set(texts)) == 1:
        return texts[0]
    parts = [text.partition(" ") if text[:1].isdigit() or text[:1] in "−+±." else (text, "", "") for text in texts]
    units = {PLURALS.get(unit, unit) for _, blank, unit in parts if blank}
    unit = units.pop() if len(units) == 1 else ""
    shown = [number if unit and blank else text for text, (number, blank, _) in zip(texts, parts, strict=True)]
    return f"{shown[0]} ({', '.join(shown[1:])}) {unit}".rstrip()


def names_text(names: list[str]) -> str:
    """Names in a line, no more than it holds."""
    more = f" and {len(names) - MOST_NAMES} more" if len(names) > MOST_NAMES else ""
    return ", ".join(names[:MOST_NAMES]) + more
