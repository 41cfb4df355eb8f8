"""Plans whose numbers are known: the plan of every size, and what it would be by other numbers."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct

from stitchproof.formulas.kind import Kind
from stitchproof.formulas.tree import Formula
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.reading.pattern_source import PlanEntry
from stitchproof.source import Span

if TYPE_CHECKING:  # a pattern without plans does not load them
    from stitchproof.plans.no_plan import NoPlan
    from stitchproof.plans.parts import PartValue, Plan


class SizedInput(Struct, frozen=True):
    """One number of a plan, and what it comes to in every size. argument: what the plan's function calls it.

    formulas, kind: as of a Quantity. name: of the value it stands for, where the formula is nothing but a name; else "".
    """

    key: str
    argument: str
    kind: Kind
    formulas: tuple[Formula | None, ...]
    values: PerSize
    name: str
    whole: bool
    span: Span


class SizedPlan(Struct, frozen=True, eq=False):
    """A plan in every size: the plan, why there is none, or why the size has no numbers for one.

    inputs: its single numbers, those of lists one by one. others: what its words and rates stand for, by argument.
    used: the names in its formulas. lengths: per size the largest k.
    """

    entry: PlanEntry
    inputs: tuple[SizedInput, ...]
    others: Mapping[str, object]
    used: tuple[str, ...]
    plans: tuple[Plan | NoPlan | Absent, ...] = ()
    lengths: tuple[int, ...] = ()

    @property
    def name(self) -> str:
        return self.entry.name

    def given(self, values: tuple[Value, ...]) -> dict[str, object] | Absent:
        """What the plan's function takes in one size, from a value for each input, in order; why not, where one is missing.

        UNKNOWN also where one that must be whole is not: that is told where the numbers are judged.
        """
        broken = any(each.whole and _is_fraction(value) for each, value in zip(self.inputs, values, strict=True))
        if broken or Absent.UNKNOWN in values:
            return Absent.UNKNOWN
        if Absent.NOT_WORKED in values:
            return Absent.NOT_WORKED
        from stitchproof.plans.kinds import KINDS  # a pattern without plans does without

        taken = dict(self.others)
        written = {each.key for each in self.entry.inputs}
        for asked in KINDS[self.entry.kind].asked:
            found = [
                _exact(each, value) for each, value in zip(self.inputs, values, strict=True) if each.key == asked.key
            ]
            if asked.many and asked.key in written:
                taken[asked.argument] = tuple(found)
            elif found:
                taken[asked.argument] = found[0]
        return taken

    def made_of(self, given: dict[str, object]) -> Plan | NoPlan:
        """The plan that these numbers and words make."""
        from stitchproof.plans.kinds import KINDS  # as above

        return KINDS[self.entry.kind].make(**given)

    def part_with(self, values: tuple[Value, ...], part: str, k: Fraction | None) -> Value:
        """A part of the plan that other values for its inputs would give in a size, at k where it takes one."""
        given = self.given(values)
        if isinstance(given, Absent):
            return given
        from stitchproof.plans.no_plan import NoPlan  # as above
        from stitchproof.plans.parts import parts

        made = self.made_of(given)
        if isinstance(made, NoPlan):
            return Absent.UNKNOWN
        return part_value(next((each.value for each in parts(made) if each.name == part), None), k)


def part_value(part: PartValue, k: Fraction | None) -> Value:
    """A part of a plan as a value, at k where it takes one; not worked beyond the end of the plan."""
    if not isinstance(part, tuple):
        return Absent.NOT_WORKED if part is None else Fraction(part)
    if k is None or k.denominator != 1 or not 1 <= k <= len(part):
        return Absent.NOT_WORKED
    return part_value(part[int(k) - 1], None)


def _is_fraction(value: Value) -> bool:
    return isinstance(value, Fraction) and value.denominator != 1


def _exact(number: SizedInput, value: Value) -> int | Fraction:
    if not isinstance(value, Fraction):
        raise AssertionError(f"{number.key} was found to be a number")
    return int(value) if number.whole else value
