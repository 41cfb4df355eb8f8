"""SP167 buttonholes-off-their-plan

Severity  error
Checks    a row with as many buttonholes, of the same width, as a plan of `plans` has the gaps of that plan between them.
Matters   where the last words of the row are “to end” a wrong gap still leaves the right count; only the border after the last
          hole shows it, and by then the buttons on the other front do not meet their holes.
Mend      print the gaps by the names of the plan, such as <band_holes.more>, or change the plan.
Source    common practice, no source.

Fires in S, M:
    counts:
      band_sts: {by_hand: [24, 24], unit: sts}
    plans:
      band_holes: {kind: buttonholes, along: band_sts, holes: 3, width: 2 sts, below: 3 sts, above: 3 sts}
    ---
    Ch 25.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 24 sc
    Row 2: Ch 1, sc in each of next 3 sts, ch 2, sk next 2 sts, sc in each of next 5 sts, ch 2, sk next 2 sts,
      sc in each of next 6 sts, ch 2, sk next 2 sts, sc in each st to end. Fasten off.

Quiet:
    counts:
      band_sts: {by_hand: [24, 24], unit: sts}
    plans:
      band_holes: {kind: buttonholes, along: band_sts, holes: 3, width: 2 sts, below: 3 sts, above: 3 sts}
    ---
    Ch 25.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 24 sc
    Row 2: Ch 1, sc in each of next 3 sts, [ch 2, sk next 2 sts, sc in each of next 6 sts] 2 times, ch 2, sk next 2 sts,
      sc in each st to end. Fasten off.

Quiet:
    counts:
      band_sts: {by_hand: [24, 24], unit: sts}
    plans:
      band_holes: {kind: buttonholes, along: band_sts, holes: 3, width: 2 sts, below: 3 sts, above: 3 sts}
    ---
    Ch 25.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 24 sc
    Row 2: Ch 1, sc in each of next 3 sts, ch 2, sk next 2 sts, sc in each of next 12 sts, ch 2, sk next 2 sts,
      sc in each st to end. Fasten off.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct

from stitchproof.checks.wrong_counts import text_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Number
from stitchproof.rows.row_tree import Amount, Chain, Item, Join, Mark, Reach, Remark, Repeat, RowTree, Skip, Turn, Work
from stitchproof.rows.written_pattern import ReadStep
from stitchproof.simulation.worked_pattern import WorkedPattern
from stitchproof.sizing.sized_plans import SizedPlan

if TYPE_CHECKING:
    from stitchproof.plans.buttonholes import Buttonholes

PAGE = read_page(__doc__)
MOST_HOLES = 60
_BETWEEN = (Remark, Turn, Join, Mark)


class _Hole(Struct, frozen=True):
    """A hole: the stitches worked since the one before it, and its own."""

    gap: int
    width: int


def gaps(worked: WorkedPattern, report: Report) -> None:
    """Rows of buttonholes that are not spaced as their plan has them."""
    if not worked.written.expanded.sized.scope.plans:
        return
    plans = list(_plans(worked))
    for read in worked.written.readings if len(plans) == 1 else ():
        if read.label is not None:
            _hold(read, plans[0], worked, report)


def _plans(worked: WorkedPattern) -> Iterator[SizedPlan]:
    from stitchproof.plans.buttonholes import Buttonholes  # a pattern without plans does without

    for plan in worked.written.expanded.sized.scope.plans.values():
        if any(isinstance(made, Buttonholes) for made in plan.plans):
            yield plan


def _hold(read: ReadStep, plan: SizedPlan, worked: WorkedPattern, report: Report) -> None:
    from stitchproof.plans.buttonholes import Buttonholes

    names, sums = worked.written.document.sizes.names, []
    for size in read.step.served:
        made, holes = plan.plans[size], _holes_of(read, size)
        if not isinstance(made, Buttonholes) or holes is None or len(holes) != made.holes or made.holes < 2:
            continue
        if any(hole.width != made.width for hole in holes) or _is_told(read, size, worked):
            continue
        found, wanted = [hole.gap for hole in holes[1:]], _gaps_of(made)
        if sorted(found) != sorted(wanted):
            sums.append(
                SumLine(names[size], f"between the holes are {_words(found)} sts, `{plan.name}` has {_words(wanted)}")
            )
    if sums:
        place = read.step.place
        report.add(
            Diagnostic(
                PAGE,
                f"the buttonholes of {read.step.piece} are not spaced as `{plan.name}` has them",
                Excerpt(place.span, "the row with the holes"),
                sizes=tuple(each.size for each in sums),
                piece=read.step.piece,
                row=read.step.identity,
                related=(Excerpt(plan.entry.span, "the plan"), *used_from(place)),
                sums=tuple(sums),
                help=(f"print the gaps by the names of the plan, such as <{plan.name}.more> and <{plan.name}.fewer>",),
            )
        )


def _is_told(read: ReadStep, size: int, worked: WorkedPattern) -> bool:
    """Whether the row comes out wrong, or is made with a count that is reported."""
    sized = worked.written.expanded.sized
    if any(finding.step is read.step and finding.size == size for finding in worked.findings):
        return True
    slots = [token.written for part in read.step.parts for token in part.tokens if isinstance(token, Number)]
    return any(text_follows_from_wrong(text, size, sized) for text in slots)


def _gaps_of(plan: Buttonholes) -> list[int]:
    return [after - before - plan.width for before, after in zip(plan.starts, plan.starts[1:], strict=False)]


def _words(numbers: list[int]) -> str:
    return ", ".join(map(str, numbers))


def _holes_of(read: ReadStep, size: int) -> list[_Hole] | None:
    """The holes of a row in a size; None where something in it is not told in numbers."""
    items: list[Item] = []
    for part in read.parts:
        if size in part.served:
            if not isinstance(part.reading, RowTree):
                return None
            items += part.reading.items
    steps = _flat(tuple(items), size)
    if steps is None:
        return None
    holes: list[_Hole] = []
    gap, chains = 0, 0
    for kind, number in steps:
        if kind == "skip" and chains == number:
            holes.append(_Hole(gap, number))
            gap = 0
        elif kind == "skip":
            return None
        gap += number if kind == "work" else 0
        chains = number if kind == "chain" else 0
    return holes


def _flat(items: tuple[Item, ...], size: int) -> list[tuple[str, int]] | None:
    """What the row does, one thing after the other, up to where it goes on to the end; None where it cannot be told so."""
    found: list[tuple[str, int]] = []
    for item in items:
        match item:
            case Work() if item.target is not None and item.target.reach is Reach.EACH:
                return found
            case Work() if _is_not_plain(item):
                return None
            case Work():
                number = _number(item.target.count if item.target else item.number, size)
                found.append(("work", number))
            case Chain():
                found.append(("chain", _number(item.number, size)))
            case Skip():
                found.append(("skip", _number(item.target.count, size)))
            case Repeat() if item.target is None and item.extent is not None and item.extent.times is not None:
                inner = _flat(item.items, size)
                if inner is None or item.extent.more or item.extent.doubtful:
                    return None
                found += inner * min(_number(item.extent.times, size), MOST_HOLES)
            case _ if isinstance(item, _BETWEEN):
                pass
            case _:
                return None
    return found


def _is_not_plain(work: Work) -> bool:
    """Whether it takes or makes more than one stitch in one place."""
    several = work.each is not None and set(work.each.values) != {1}
    return several or work.stitch in ("inc", "dec") or "tog" in work.stitch or bool(work.target and work.target.over)


def _number(amount: Amount | None, size: int) -> int:
    value = amount.values[size] if amount else Fraction(1)
    return max(int(value), 0) if isinstance(value, Fraction) else 0


CHECKS = (gaps,)
