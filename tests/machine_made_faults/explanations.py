"""Why a fault that changes the page is not found: one rule for each sort of miss. Exactly one must fit each miss."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from stitchproof.checks.grade import JUDGED_FROM, is_yarn
from stitchproof.measures.dimension import LENGTH
from tests.machine_made_faults.campaign import Trial
from tests.machine_made_faults.clean_pattern import CleanPattern
from tests.machine_made_faults.planted_fault import PlantedFault

BY_ONE_OR_TWO = frozenset({"by 1 up", "by 1 down", "by 2 up", "by 2 down"})
DIGITS = frozenset({"digits swapped", "digit doubled"})
GRIDS = frozenset({"rounding", "round left out", "multiple", "multiple left out"})
FORMULAS = frozenset(
    {
        "plus and minus",
        "times and divided by",
        "number in a formula",
        "name beside it",
        "function",
        "comparison turned in a formula",
        "edge of a comparison in a formula",
    }
)


class Needs(Enum):
    """What it would take to find it."""

    NOTHING = "nothing: all of it is as true as before"
    MEASURING = "the scale, the swatch or the sample"
    TABLE = "a table of bodies or garments"
    WORDS = "a rule that reads the words beside the numbers"
    SECOND_SUM = "a second sum for the same thing"


@dataclass(frozen=True)
class Explanation:
    """fits: whether it is the reason of a miss. because: the reason."""

    because: str
    needs: Needs
    fits: Callable[[PlantedFault, Trial, CleanPattern], bool]


def explanations_of(trial: Trial, pattern: CleanPattern) -> list[Explanation]:
    """The explanations that fit a miss; there must be one."""
    return [each for each in EXPLANATIONS if each.fits(trial.fault, trial, pattern)]


def _section(fault: PlantedFault, pattern: CleanPattern) -> str:
    quantity = pattern.sized.scope.quantities.get(pattern.sized.scope.full_name(fault.name))
    return quantity.section if quantity else fault.name.partition(".")[0]


def _is_of_yarn(fault: PlantedFault, pattern: CleanPattern) -> bool:
    """Whether it stands at an amount of yarn, or in what only amounts of yarn are worked out from."""
    quantity = pattern.sized.scope.quantities.get(pattern.sized.scope.full_name(fault.name))
    return bool(quantity and is_yarn(quantity)) or fault.name.endswith("_weight")


def _is_for_rows(fault: PlantedFault, trial: Trial, pattern: CleanPattern) -> bool:
    """Whether it stands in a sum for a number of the rows; a length that is told among them is a measurement."""
    quantity = pattern.sized.scope.quantities.get(pattern.sized.scope.full_name(fault.name))
    is_length = bool(quantity and quantity.kind.dimension == LENGTH)
    return not is_length and any(part.startswith("rows of") for part in trial.changed)


def _in_a_list(fault: PlantedFault, pattern: CleanPattern, *sections: str) -> bool:
    return (
        fault.size is not None
        and not _is_of_yarn(fault, pattern)
        and _section(fault, pattern) in sections
        and fault.kind in BY_ONE_OR_TWO | {"neighbours swapped"}
    )


def _only_a_noun(fault: PlantedFault) -> bool:
    """Whether a word for a plain number is taken for another word: balls for grams."""
    return fault.kind == "unit" and fault.edits[0][0].text in ("balls", "groups", "pairs", "times", "buttons", "ribs")


EXPLANATIONS: tuple[Explanation, ...] = (
    Explanation(
        "another choice of the designer's that goes from size to size as her others do; all that follows from it follows",
        Needs.NOTHING,
        lambda fault, _, pattern: _in_a_list(fault, pattern, "measures", "counts"),
    ),
    Explanation(
        "another body measure that goes from size to size as the others do; all that follows from it follows",
        Needs.TABLE,
        lambda fault, _, pattern: _in_a_list(fault, pattern, "body"),
    ),
    Explanation(
        "two digits slipped in a list of three sizes: of so few none can be said to stand out",
        Needs.TABLE,
        lambda fault, _, pattern: (
            fault.kind in DIGITS and len(pattern.sized.sizes) < JUDGED_FROM and not _is_of_yarn(fault, pattern)
        ),
    ),
    Explanation(
        "another weight of yarn, still rising with the sizes: it was weighed, and nothing else on the page is",
        Needs.MEASURING,
        lambda fault, _, pattern: fault.size is not None and _is_of_yarn(fault, pattern),
    ),
    Explanation(
        "another number that the designer fixed for all sizes; all that follows from it follows",
        Needs.NOTHING,
        lambda fault, _, pattern: fault.kind == "fixed number" and not _is_of_yarn(fault, pattern),
    ),
    Explanation(
        "another weight of one stitch: it was weighed, and nothing else on the page is",
        Needs.MEASURING,
        lambda fault, _, pattern: fault.kind == "fixed number" and _is_of_yarn(fault, pattern),
    ),
    Explanation(
        "another gauge: it was counted on a swatch, and every number follows from it",
        Needs.MEASURING,
        lambda fault, _, __: fault.kind == "gauge" or (fault.kind == "unit" and fault.name.startswith("gauges.")),
    ),
    Explanation(
        "another hook at a gauge that no piece is worked at: hooks are asked for where pieces are worked",
        Needs.WORDS,
        lambda fault, _, __: fault.kind == "hook",
    ),
    Explanation(
        "how the swatch was worked is printed as it is typed, and not held against how the pieces are worked",
        Needs.WORDS,
        lambda fault, _, __: fault.kind == "way of working" and fault.name.startswith("gauges."),
    ),
    Explanation(
        "a number typed among words: no formula stands behind it, and no other number is of the same thing",
        Needs.WORDS,
        lambda fault, _, __: fault.kind == "number typed in words",
    ),
    Explanation(
        "a caution that no word of the pattern calls for, or a size that no word makes a baby's: the designer's judgement",
        Needs.NOTHING,
        lambda fault, _, __: fault.kind == "entry of a list dropped" and fault.name.startswith("cautions"),
    ),
    Explanation(
        "an amount of yarn rounded another way: more or less exact, and as true as before",
        Needs.NOTHING,
        lambda fault, _, pattern: fault.kind in GRIDS and _is_of_yarn(fault, pattern),
    ),
    Explanation(
        "a value rounded to a neighbour of the one before; still within all that must hold, and all that follows follows",
        Needs.NOTHING,
        lambda fault, _, pattern: fault.kind in GRIDS and not _is_of_yarn(fault, pattern),
    ),
    Explanation(
        "an amount of yarn in another unit, large enough as before: what one ball of it holds is typed among words",
        Needs.SECOND_SUM,
        lambda fault, _, pattern: fault.kind == "unit" and _is_of_yarn(fault, pattern) and not _only_a_noun(fault),
    ),
    Explanation(
        "another word beside a plain number: balls, groups and times are counted alike",
        Needs.WORDS,
        lambda fault, _, __: _only_a_noun(fault),
    ),
    Explanation(
        "the same number in another unit of its kind: only the size of the thing says that it cannot be",
        Needs.TABLE,
        lambda fault, _, pattern: (
            fault.kind == "unit"
            and not fault.name.startswith(("gauges.", "rates."))
            and not _is_of_yarn(fault, pattern)
            and not _only_a_noun(fault)
        ),
    ),
    Explanation(
        "another sum for a number of the rows, and they work out with it just as well: how many rounds there are is a choice",
        Needs.SECOND_SUM,
        lambda fault, trial, pattern: fault.kind in FORMULAS and _is_for_rows(fault, trial, pattern),
    ),
    Explanation(
        "another sum for a measurement or for yarn that no other number of the page is of",
        Needs.SECOND_SUM,
        lambda fault, trial, pattern: fault.kind in FORMULAS and not _is_for_rows(fault, trial, pattern),
    ),
)
