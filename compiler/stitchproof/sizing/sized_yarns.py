"""The yarns of a pattern: what sizing knows of them, and what the worked rows make of them in every size."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.measures.yarn_sum import BuyingRule, StitchesWeighed, YarnSum
from stitchproof.source import Span


class StitchKey(Struct, frozen=True):
    """A stitch as the census has it. ids: what it may be called there; gauge: "" for every gauge."""

    ids: tuple[str, ...]
    gauge: str
    words: str

    def fits(self, gauge: str, stitch: str) -> bool:
        """Whether a stitch of the census, at its gauge, is meant."""
        return stitch in self.ids and self.gauge in ("", gauge)


class StitchWeight(Struct, frozen=True):
    """What one of a stitch weighs by its swatch, in g, per size. name: the dotted name of the number."""

    key: StitchKey
    name: str
    grams: PerSize


class StandsFor(Struct, frozen=True):
    """A stitch that weighs as so many of another."""

    key: StitchKey
    number: Fraction
    of: StitchKey


class SizedSample(Struct, frozen=True):
    """The sample: its size (index), its real weight in g per size (UNKNOWN where unusable), its pieces, () for the whole."""

    size: int
    weighs: PerSize
    pieces: tuple[str, ...]


class SizedYarn(Struct, frozen=True):
    """A yarn before the rows are worked. rules: how its amount is told, per size; None where a number of it has a fault.

    pieces: those it is used for, all of which a maker works; one_of: those of which she works one.
    sound: whether all of it could be understood; else no amount is worked out, and the reason is reported.
    """

    name: str
    weights: tuple[StitchWeight, ...]
    stands_for: tuple[StandsFor, ...]
    inside_scale: tuple[StitchKey, ...]
    sample: SizedSample | None
    pieces: tuple[str, ...]
    one_of: tuple[str, ...]
    rules: tuple[BuyingRule | None, ...]
    span: Span
    sound: bool = True


class Unweighed(Struct, frozen=True):
    """Stitches of the census that no weight is given for: how many in each size."""

    gauge: str
    stitch: str
    numbers: tuple[int, ...]


class YarnUse(Struct, frozen=True):
    """What the worked rows make of a yarn. One entry per size in stitches, sums and one_of.

    stitches: what was weighed; sums: from these to what is bought, `not worked` where no piece of it is worked, UNKNOWN where
    its rows are not all proved or a weight is missing. one_of: the piece that takes most, where a maker works one of several.
    sample: the stitches that the scale is worked out from, and the weight of the sample, if there is one.
    unproved: the sizes in which a row of it is not proved, is on trust or has a fault.
    """

    yarn: SizedYarn
    stitches: tuple[tuple[StitchesWeighed, ...], ...]
    sums: tuple[YarnSum | Absent, ...]
    one_of: tuple[str, ...]
    sample: tuple[StitchesWeighed, ...]
    weighed: Fraction | None
    unweighed: tuple[Unweighed, ...]
    unproved: tuple[int, ...]

    @property
    def scale(self) -> Fraction | None:
        """The real weight of the sample to what its stitches come to; None where it is not known."""
        return next((each.scale for each in self.sums if isinstance(each, YarnSum)), None)


def late_values(use: YarnUse) -> dict[str, PerSize]:
    """The values of a yarn by their names: `yarn.grams` and the others."""
    columns = [each if isinstance(each, Absent) else _amounts(each) for each in use.sums]
    return {
        f"{use.yarn.name}.{name}": tuple(each if isinstance(each, Absent) else each[name] for each in columns)
        for name in ("counted", "scale", "predicted", "grams", "metres", "balls")
    }


def _amounts(found: YarnSum) -> dict[str, Value]:
    """The amounts of one size by name; what the designer gives no rule for is not known."""
    return {
        "counted": found.counted,
        "scale": found.scale,
        "predicted": found.predicted,
        "grams": found.grams,
        "metres": Absent.UNKNOWN if found.cm_of_yarn is None else found.cm_of_yarn,
        "balls": Absent.UNKNOWN if found.balls is None else found.balls,
    }
