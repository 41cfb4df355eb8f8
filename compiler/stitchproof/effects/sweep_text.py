"""A sweep: one value after the other, and what each comes to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stitchproof.effects.effect import CountChanged, Effect
from stitchproof.effects.effect_text import names_text, vector
from stitchproof.effects.facts import effect_facts

FORMAT = "stitchproof-sweep"
VERSION = 1


def sweep_text(name: str, steps: Sequence[tuple[str, Effect]]) -> str:
    """For each value the checks that fail, the counts that are rounded, and the yarn; of the rest, how much moves."""
    wide = max((len(value) for value, _ in steps), default=0)
    lines = [f"{name}"]
    for value, effect in steps:
        lines.append(f"  {value:>{wide}}  {_checks(effect)}")
    rounded = list(dict.fromkeys(each for _, effect in steps for each in effect.rounded_names))
    for title in (*rounded, *_yarn_names(steps)):
        changes = [(value, _change(effect, title)) for value, effect in steps]
        if any(change for _, change in changes):
            lines.append(title)
            lines += [f"  {value:>{wide}}  {_values(change)}" for value, change in changes]
    lines.append("For all that one of them changes, ask for that value alone")
    return "\n".join(lines) + "\n"


def _checks(effect: Effect) -> str:
    new = [each for each in effect.comparison.findings_new if each.severity != "note" and not each.accepted]
    if not new:
        return "nothing fails that did not before"
    codes = list(dict.fromkeys(f"{each.code} ({', '.join(each.sizes)})" if each.sizes else each.code for each in new))
    return f"{len(new)} fail: {names_text(codes)}"


def _yarn_names(steps: Sequence[tuple[str, Effect]]) -> list[str]:
    names = dict.fromkeys(each.name for _, effect in steps for each in effect.yarn)
    return [name for name in names if name.endswith(".grams")]


def _change(effect: Effect, name: str) -> CountChanged | None:
    return next((each for each in (*effect.counts, *effect.yarn) if each.name == name), None)


def _values(change: CountChanged | None) -> str:
    if change is None:
        return "as it is"
    return vector(change.new)


def sweep_facts(name: str, steps: Sequence[tuple[str, Effect]]) -> dict[str, Any]:
    """The same as plain data, each step whole."""
    held = [{"value": value, "effect": effect_facts(effect)} for value, effect in steps]
    return {"sweep": {"format": FORMAT, "version": VERSION, "name": name, "steps": held}}
