"""What a report about a worked row says of its likely cause: the number that would fit, and how it may have come about."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import islice, pairwise

from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.values import PerSize
from stitchproof.rows.row_tree import RowTree, StatedCount
from stitchproof.simulation.slips import DoesNotDivide, LeftOver, PastEnd
from stitchproof.simulation.worked_pattern import Mend, RowFinding, WorkedPattern

MOST_MENDS = 2
FOLLOWING_WORDS = 3


def causes_note(finding: RowFinding, worked: WorkedPattern) -> str:
    """The numbers of which one, changed alone, makes the row come out, with where they may come from."""
    alike = Counter(_mend_words(mend, finding, worked) for mend in finding.mends or ())
    told = [f"{words}{_places(number)}" for words, number in islice(alike.items(), MOST_MENDS)]
    if finding.chain is not None:
        told.append(f"ch {finding.chain} before it")
    return f"{' or '.join(told)} would fit" if told else ""


def _places(number: int) -> str:
    """Where the same words stand several times in a line, each of which, alone, may be the one."""
    return "" if number == 1 else " in either place" if number == 2 else f" in any one of {number} places"


def _mend_words(mend: Mend, finding: RowFinding, worked: WorkedPattern) -> str:
    read = next(each for each in worked.written.readings if each.step is finding.step)
    text = read.parts[mend.part].line.text
    before = text[: mend.at.start].rsplit(None, 1)[-1:] if text[: mend.at.start].strip() else []
    after = text[mend.at.end :].split()[:FOLLOWING_WORDS]
    word = (
        before[0].strip("(")
        if before and before[0].lower() in ("ch", "sk", "next", "last", "first", "every", "until")
        else ""
    )
    noun = _plain_words(after)
    was = mend.values[finding.size]
    said = f"{word} {mend.fits} {noun}".strip() + (f" for {was}" if isinstance(was, Fraction) else "")
    why = origin(mend.values, finding, mend.fits, worked)
    return f"{said} ({why})" if why else said


def _plain_words(words: list[str]) -> str:
    """The words after a number up to the first mark: "more times", "sts"."""
    taken = []
    for word in words:
        if word.startswith(("(", "[", "—")):
            break
        taken.append(word.rstrip(",.;:)]"))
        if word != taken[-1]:
            break
    return " ".join(word for word in taken if word.isalpha() or "-" in word)


def origin(values: PerSize, finding: RowFinding, right: int, worked: WorkedPattern) -> str:
    """How a wrong number of a size may have come about: a value of another size, values swapped, figures swapped.

    A value is not taken over from a size that has the fault itself: there it is wrong for another reason.
    """
    size, names = finding.size, worked.written.document.sizes.names
    written = values[size]
    if not isinstance(written, Fraction):
        return ""
    holding = [index for index, each in enumerate(values) if each == right and index != size]
    for index in (size - 1, size + 1):
        if (
            0 <= index < len(values)
            and index in holding
            and _rises(_swapped(values, size, index))
            and not _rises(values)
        ):
            return f"the values of {names[min(size, index)]} and {names[max(size, index)]} look swapped"
    alike = len({each for each in values if isinstance(each, Fraction)}) == 1
    wrong = {each.size for each in worked.findings if each.step is finding.step}
    for index in (size - 1, size + 1):
        if 0 <= index < len(values) and values[index] == written and not alike and index not in wrong:
            return f"{written} is the value of size {names[index]}"
    if sorted(str(written)) == sorted(str(right)) and written != right:
        return "its figures are swapped"
    return "one off" if abs(written - right) == 1 else ""


def _swapped(values: PerSize, one: int, other: int) -> list[object]:
    held: list[object] = list(values)
    held[one], held[other] = held[other], held[one]
    return held


def _rises(values: PerSize | list[object]) -> bool:
    numbers = [each for each in values if isinstance(each, Fraction)]
    return all(sooner <= later for sooner, later in pairwise(numbers))


def stated_origin(finding: RowFinding, right: int, at: object, worked: WorkedPattern) -> str:
    """The same for a count that the row states."""
    read = next(each for each in worked.written.readings if each.step is finding.step)
    reading = read.parts[finding.part].reading
    for count in _stated(reading) if isinstance(reading, RowTree) else ():
        if count.at == at:
            return origin(count.amount.values, finding, right, worked)
    return ""


def _stated(tree: RowTree) -> Iterator[StatedCount]:
    for stated in tree.stated:
        yield from stated.counts


def totals_note(slip: LeftOver | PastEnd | DoesNotDivide, finding: RowFinding, worked: WorkedPattern) -> str:
    """The nearest totals into which the repeat goes whole, with what they measure at the gauge of the piece."""
    fit = slip.fit if isinstance(slip, DoesNotDivide) else slip.repeat
    if fit is None or fit.takes < 2:
        return ""
    match slip:
        case DoesNotDivide():
            available, taken = fit.room, 0
        case LeftOver():
            available, taken = slip.available, slip.taken
        case PastEnd():
            available, taken = slip.available, slip.needed
    over = (available - taken) % fit.takes
    if not over:
        return ""
    totals = [total for total in (available - over, available - over + fit.takes) if total > 0]
    return " or ".join(f"{total}{_width(total, finding, worked)}" for total in totals) + " to work into would fit"


def _width(sts: int, finding: RowFinding, worked: WorkedPattern) -> str:
    """What a total measures at the gauge of the piece, in brackets; "" where it has none."""
    sized = worked.written.expanded.sized
    entry = next((each.entry for each in sized.pieces if each.entry.name == finding.step.piece), None)
    gauge = sized.scope.quantities.get(f"gauges.{entry.gauge.text.strip()}.stitches") if entry and entry.gauge else None
    per_cm = gauge.values[finding.size] if gauge and gauge.values else None
    if not isinstance(per_cm, Fraction) or per_cm <= 0:
        return ""
    return f" ({cm_text(sts / per_cm)} cm / {inch_text(sts / per_cm)} in)"
