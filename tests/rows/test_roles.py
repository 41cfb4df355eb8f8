"""What each number of a step does: numbers the row, counts times, states a count, measures a length; and its noun."""

from __future__ import annotations

import pytest

from stitchproof.expansion.document import Number, Role
from tests.expansion.unfolded import COUNTS, clean

YAML = COUNTS + "measures: {depth: 4 cm}\n"


def numbers(text: str) -> list[tuple[str, Role, str]]:
    """Formula, role and noun of each number of the one step."""
    (step,) = clean(text + "\n", YAML.replace("counts:\n", "counts:\n  n: {by_hand: [2, 3, 4], unit: groups}\n")).steps
    tokens = (*step.label, *(token for part in step.parts for token in part.tokens))
    return [(token.written, token.role, token.noun) for token in tokens if isinstance(token, Number)]


@pytest.mark.parametrize(
    ("text", "roles"),
    [
        ("Row <rows_in_all>: x", [Role.ROW_NUMBER]),
        ("Rows <n>–<rows_in_all>: x", [Role.ROW_NUMBER, Role.ROW_NUMBER]),
        ("Row 1: x — <sts_around> sc", [Role.STATED_COUNT]),
        ("Row 1: x — <sts_around>", [Role.STATED_COUNT]),
        ("Row 1: x — (<sts_around>) sts", [Role.STATED_COUNT]),
        ("Row 1: x — <sts_around> sc, <edge> ch-1 sps", [Role.STATED_COUNT, Role.STATED_COUNT]),
        ("Row 1: x. (<sts_around> sc)", [Role.STATED_COUNT]),
        ("Row 1: x. (<sts_around> sc, <edge> ch)", [Role.PLAIN, Role.PLAIN]),
        ("Row 1: x. (<sts_around> ch-1 sps)", [Role.STATED_COUNT]),
        ("Row 1: x (work <sts_around> sc)", [Role.PLAIN]),
        ("Row 1: [x] <n> times.", [Role.TIMES]),
        ("Row 1: [x] <n> more times. — <sts_around> sc", [Role.TIMES, Role.STATED_COUNT]),
        ("Row 1: Rep Row 2 <n> time", [Role.TIMES]),
        ("Row 1: Sc in next <edge> sts, then <edge> timeless sts", [Role.PLAIN, Role.PLAIN]),
        ("Row 1: until it measures <depth>", [Role.LENGTH]),
        ("Ch <sts_around>.", [Role.PLAIN]),
        ("Row 1: a — b. Ch <edge> now", [Role.PLAIN]),
    ],
)
def test_roles(text: str, roles: list[Role]) -> None:
    assert [role for _, role, _ in numbers(text)] == roles


@pytest.mark.parametrize(
    ("text", "nouns"),
    [
        ("Row 1: Sc in next <edge> sts.", ["sts"]),
        ("Row 1: Work <n> groups.", ["groups"]),
        ("Row 1: Work <sts_around / edge if (edge > 3 sts) else 2> hdc.", ["hdc"]),
        ("Row 1: <after(1)>.", ["sts"]),
    ],
)
def test_nouns(text: str, nouns: list[str]) -> None:
    assert [noun for _, _, noun in numbers(text)] == nouns
