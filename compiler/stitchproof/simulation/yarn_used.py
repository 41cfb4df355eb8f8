"""What the worked rows make of each yarn: the stitch census of every size, weighed."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from stitchproof.measures.values import Absent
from stitchproof.measures.yarn_sum import StitchesWeighed, YarnSum, weight_of, yarn_sum
from stitchproof.simulation.worked_pattern import WorkedPattern
from stitchproof.sizing.sized_yarns import SizedYarn, StandsFor, StitchWeight, Unweighed, YarnUse

Census = dict[tuple[str, str], int]
"""How many of each stitch, by gauge and name."""


def yarn_used(worked: WorkedPattern) -> tuple[YarnUse, ...]:
    """Each yarn of the pattern in every size; the amount of a size is UNKNOWN where its stitches are not all known."""
    return tuple(_YarnCount(yarn, worked).use() for yarn in worked.written.expanded.sized.yarns)


class _YarnCount:
    """Weighs one yarn."""

    def __init__(self, yarn: SizedYarn, worked: WorkedPattern) -> None:
        self.yarn = yarn
        self.pieces = {piece.name: piece for piece in worked.pieces}
        self.sizes = range(len(worked.written.document.sizes.names))
        self.open: set[tuple[str, int]] = {(each.step.piece, each.size) for each in worked.findings}
        self.open.update(
            (piece.name, size) for piece in worked.pieces for step in piece.steps for size in step.not_counted
        )
        self.unweighed: dict[tuple[str, str], list[int]] = {}

    def use(self) -> YarnUse:
        most = tuple(self._most(size) for size in self.sizes)
        stitches = tuple(self._stitches(self._pieces(size, most[size]), size) for size in self.sizes)
        for size in self.sizes:
            self._look_for_unweighed(size)
        sample = self.yarn.sample
        weighed: Fraction | None = None
        scale: Fraction | None = None
        sampled: tuple[StitchesWeighed, ...] = ()
        if sample is None:
            scale = Fraction(1)
        elif isinstance(value := sample.weighs[sample.size], Fraction):
            weighed = value
            names = sample.pieces or self._pieces(sample.size, most[sample.size])
            sampled = self._stitches(names, sample.size)
            counted = weight_of(sampled)
            scale = weighed / counted if counted > 0 and not self._is_open(names, sample.size) else None
        sums = tuple(self._sum(stitches[size], scale, size) for size in self.sizes)
        unweighed = tuple(Unweighed(*key, tuple(numbers)) for key, numbers in self.unweighed.items())
        unproved = tuple(size for size in self.sizes if self._is_open(self._all_pieces(), size))
        return YarnUse(self.yarn, stitches, sums, most, sampled, weighed, unweighed, unproved)

    def _all_pieces(self) -> tuple[str, ...]:
        return (*self.yarn.pieces, *self.yarn.one_of)

    def _pieces(self, size: int, most: str) -> tuple[str, ...]:
        return (*self.yarn.pieces, *([most] if most else []))

    def _most(self, size: int) -> str:
        """Of the pieces of which a maker works one, that which takes most; "" where there are none."""
        worked = [name for name in self.yarn.one_of if self._census((name,), size)]
        return max(worked, key=lambda name: weight_of(self._stitches((name,), size)), default="")

    def _is_open(self, names: Iterable[str], size: int) -> bool:
        """Whether the stitches of some pieces are not all known in a size."""
        return any((name, size) in self.open for name in names)

    def _census(self, names: Iterable[str], size: int) -> Census:
        found: Census = {}
        for name in names:
            piece = self.pieces.get(name)
            for key, number in ((piece.census[size] or {}) if piece else {}).items():
                found[key] = found.get(key, 0) + number * (piece.times if piece else 1)
        return {key: number for key, number in found.items() if number}

    def _stitches(self, names: Iterable[str], size: int) -> tuple[StitchesWeighed, ...]:
        """What is weighed, stitches of one name and weight together; those without a weight are left out."""
        found: dict[tuple[str, Fraction], int] = {}
        for (gauge, stitch), number in sorted(self._census(names, size).items()):
            told = self._weight(gauge, stitch, size)
            if told:
                found[told] = found.get(told, 0) + number
        return tuple(StitchesWeighed(words, Fraction(number), grams) for (words, grams), number in found.items())

    def _look_for_unweighed(self, size: int) -> None:
        for (gauge, stitch), number in sorted(self._census(self._all_pieces(), size).items()):
            inside = any(key.fits(gauge, stitch) for key in self.yarn.inside_scale)
            if not inside and self._weight(gauge, stitch, size) is None:
                self.unweighed.setdefault((gauge, stitch), [0] * len(self.sizes))[size] += number

    def _weight(self, gauge: str, stitch: str, size: int) -> tuple[str, Fraction] | None:
        """A stitch in words, and what one of it weighs; a weight for its gauge goes before one for all."""
        for at in (gauge, ""):
            for weight in self.yarn.weights:
                if weight.key.gauge == at and stitch in weight.key.ids:
                    return _grams(weight, size, weight.key.words)
            for stands in self.yarn.stands_for:
                if stands.key.gauge == at and stitch in stands.key.ids:
                    return self._as_another(stands, gauge, size)
        return None

    def _as_another(self, stands: StandsFor, gauge: str, size: int) -> tuple[str, Fraction] | None:
        for at in (stands.of.gauge,) if stands.of.gauge else (gauge, ""):
            for weight in self.yarn.weights:
                if weight.key.gauge == at and set(stands.of.ids) & set(weight.key.ids):
                    found = _grams(weight, size, stands.key.words)
                    return (found[0], found[1] * stands.number) if found else None
        return None

    def _sum(self, stitches: tuple[StitchesWeighed, ...], scale: Fraction | None, size: int) -> YarnSum | Absent:
        names = self._all_pieces()
        rule = self.yarn.rules[size]
        missing = any(numbers[size] for numbers in self.unweighed.values())
        if rule is None or scale is None or missing or self._is_open(names, size):
            return Absent.UNKNOWN
        worked = any(self.pieces[name].census[size] is not None for name in names if name in self.pieces)
        return yarn_sum(weight_of(stitches), scale, rule) if worked else Absent.NOT_WORKED


def _grams(weight: StitchWeight, size: int, words: str) -> tuple[str, Fraction] | None:
    value = weight.grams[size] if weight.grams else None
    return (words, value) if isinstance(value, Fraction) else None
