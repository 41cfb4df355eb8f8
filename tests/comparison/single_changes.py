"""Random single changes of inputs: the comparison must name that input, and no other, for every number that changed.

`python -m tests.comparison.single_changes --number 200` tries more of them than the tests do.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.comparison.comparison import Comparison, How
from tests.comparison.changed import DEMOS, record_now, with_values


def single_changes(number: int, seed: int) -> Iterator[tuple[str, str, str]]:
    """A demo, the dotted name of an input in it, and another value."""
    rng = random.Random(seed)  # noqa: S311  # a draw of tests, no secret
    made = 0
    while made < number:
        demo = DEMOS[made % len(DEMOS)]
        record = record_now(demo)
        given = [
            q for q in record.quantities if not q.inputs and not q.late and q.section != "plans" and not q.parameter
        ]
        quantity = rng.choice(given)
        size = rng.choice(record.sizes) if quantity.by_hand else None
        value = Fraction(record.by_size[size or record.sizes[0]].quantities[quantity.name].value)
        other = _other(value, quantity.unit, rng)
        if other:
            made += 1
            yield demo, f"{quantity.name}[{size}]" if size else quantity.name, other


def _other(value: Fraction, unit: str, rng: random.Random) -> str:
    """Another value in the same unit, near enough for the pattern to be worked; "" for units that are not changed here."""
    if unit.endswith(" per cm"):
        return str(int(value * 10) + rng.choice([-1, 1]))
    if unit == "cm":
        return f"{max(0.5, float(value) + rng.choice([-1.5, 1, 2])):.2f} cm"
    if unit == "g":
        return f"{float(value) * rng.choice([0.9, 1.2]):.4f} g"
    if unit == "ratio":
        return f"{float(value) * 1.1:.3f}"
    return "" if " per " in unit else f"{int(value) + rng.choice([1, -1, 2])} {unit}"


def wrong_causes(comparison: Comparison, name: str) -> list[str]:
    """What the comparison says beside the truth."""
    root = name.partition("[")[0]
    wrong = [f"input {each.name}" for each in comparison.inputs if each.name != root]
    for number in comparison.numbers:
        if {chain.root for chain in number.causes} != {root}:
            wrong.append(f"{number.name}: {[chain.names for chain in number.causes]}")
    for line in comparison.lines:
        roots = {chain.root for chain in line.causes}
        if line.how is How.CHANGED and (roots - {root} or (line.kind == "row" and not roots)):
            wrong.append(f"{line.under}, {line.label}: {roots}")
    return wrong


def main() -> int:
    """Try a number of changes and tell the wrong ones."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--number", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    failed = 0
    for demo, name, value in single_changes(asked.number, asked.seed):
        wrong = wrong_causes(with_values(demo, {name: value}), name)
        failed += bool(wrong)
        if wrong:
            print(demo, f"{name}={value}", wrong[:4])
    print(f"{asked.number} changes, {failed} with a cause that is not the one")
    return int(failed > 0)


if __name__ == "__main__":
    raise SystemExit(main())
