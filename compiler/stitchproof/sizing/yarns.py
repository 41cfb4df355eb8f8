"""The yarns of a pattern as far as sizing can tell: their numbers judged, their stitches named, their amounts still open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import RATIO, Kind
from stitchproof.measures.dimension import LENGTH, PLAIN, WEIGHT
from stitchproof.measures.rounding import Direction
from stitchproof.measures.values import Absent, PerSize
from stitchproof.measures.yarn_sum import BuyingRule
from stitchproof.reading.pattern_source import Header, Words, YarnEntry, YarnStitch
from stitchproof.sizing.faults.word_not_known import word_not_known
from stitchproof.sizing.faults.yarn_number_not_usable import out_of_its_bounds
from stitchproof.sizing.faults.yarn_stitch_not_known import (
    gauge_not_known,
    stitch_not_known,
    stitch_told_twice,
    target_without_weight,
)
from stitchproof.sizing.pieces import size_indexes
from stitchproof.sizing.sized_pattern import PatternScope, Quantity
from stitchproof.sizing.sized_yarns import SizedSample, SizedYarn, StandsFor, StitchKey, StitchWeight
from stitchproof.stitches.stitch_names import names_of_stitches, stitch_called

METRES = Kind(LENGTH, "m")
KINDS = {
    "counted": Kind(WEIGHT, "g"),
    "scale": Kind(PLAIN, RATIO),
    "predicted": Kind(WEIGHT, "g"),
    "grams": Kind(WEIGHT, "g"),
    "metres": METRES,
    "balls": Kind(PLAIN, "balls"),
}
ROUNDED = ("grams", "metres", "balls")
MADE_FROM = {"metres": "length", "balls": "ball"}
"""Amounts that a yarn has only where it says how much yarn there is to a weight, or what a ball weighs."""
WHY = "from the stitches of the rows, once they are worked"


def late_quantities(header: Header) -> Iterator[Quantity]:
    """The amounts of each yarn, open in every size: only the worked rows can tell them."""
    sizes = len(header.sizes.names)
    unknown: PerSize = (Absent.UNKNOWN,) * sizes
    for entry in header.yarns:
        given = {each.name.rpartition(".")[2] for each in entry.numbers}
        for key, kind in KINDS.items():
            if key in MADE_FROM and MADE_FROM[key] not in given:
                continue
            yield Quantity(
                f"{entry.name}.{key}",
                "yarn",
                kind,
                (None,) * sizes,
                False,
                unknown,
                unknown,
                Direction.UP if key in ROUNDED else None,
                (None,) * sizes,
                unknown,
                unknown,
                (),
                "",
                None,
                WHY,
                entry.span,
                entry.span,
            )


def sized_yarns(header: Header, scope: PatternScope, report: Report) -> tuple[SizedYarn, ...]:
    """The yarns with their numbers and stitches; what is wrong with them is reported."""
    return tuple(_YarnSizer(entry, header, scope, report).sized() for entry in header.yarns)


class _YarnSizer:
    """Takes one yarn up."""

    def __init__(self, entry: YarnEntry, header: Header, scope: PatternScope, report: Report) -> None:
        self.entry = entry
        self.header = header
        self.scope = scope
        self.report = report
        self.sound = "yarn" not in header.unreadable
        self.own = {" ".join(each.abbreviation.lower().split()): each for each in header.special_stitches}
        self.gauges = [gauge.name for gauge in header.gauges]
        self.told: dict[tuple[tuple[str, ...], str], YarnStitch] = {}

    def sized(self) -> SizedYarn:
        entry = self.entry
        self._judge_numbers()
        weights = tuple(
            StitchWeight(key, stitch.name, self.values(stitch.name) or ())
            for stitch in entry.weights
            if (key := self._told(stitch))
        )
        stands_for = tuple(self._stands_for([weight.key for weight in weights]))
        inside = tuple(key for stitch in entry.inside_scale if (key := self._told(stitch)))
        pieces, one_of = self._pieces(entry.pieces), self._pieces(entry.one_of)
        whole = pieces or tuple(each.name for each in self.header.pieces)
        sample = self._sample()
        rules = tuple(self._rule(size) for size in range(len(self.report.names)))
        always = tuple(each for each in whole if each not in one_of)
        return SizedYarn(entry.name, weights, stands_for, inside, sample, always, one_of, rules, entry.span, self.sound)

    def values(self, name: str) -> PerSize | None:
        """The values of a number, by its full name; None where it has none."""
        quantity = self.scope.quantities.get(name)
        return quantity.values if quantity and quantity.values else None

    def _judge_numbers(self) -> None:
        for definition in self.entry.numbers:
            values = self.values(definition.name)
            if values is None:
                self.sound = False
                continue
            is_margin = definition.name == f"{self.entry.name}.margin"
            for size, value in enumerate(values):
                in_bounds = isinstance(value, Fraction) and (0 <= value < 1 if is_margin else value > 0)
                self.sound = self.sound and in_bounds
                if not in_bounds and value is not Absent.UNKNOWN:
                    found = out_of_its_bounds(definition.name, definition.value_span)
                    self.report.add(replace(found, sizes=(self.report.names[size],)))

    def _told(self, stitch: YarnStitch) -> StitchKey | None:
        """A stitch by its ids, told once; None where it or its gauge is not known (reported)."""
        key = self._key(stitch)
        before = self.told.get((key.ids, key.gauge)) if key else None
        if before:
            self._fault(stitch_told_twice(stitch.span, stitch.words, before.span))
            return None
        if key:
            self.told[key.ids, key.gauge] = stitch
        return key

    def _key(self, stitch: YarnStitch) -> StitchKey | None:
        terms = self.header.identity.terms
        own = self.own.get(stitch.stitch.lower())
        ids = [" ".join(own.abbreviation.split())] if own else []
        called = stitch_called(stitch.stitch, terms)
        ids += [called] if called and called not in ids else []
        if not ids:
            known = {" ".join(name) for name in names_of_stitches(terms)}
            self._fault(stitch_not_known(stitch.span, stitch.stitch, {*known, *self.own, "ch"}))
            return None
        if stitch.gauge and stitch.gauge not in self.gauges:
            if "gauges" not in self.header.unreadable:
                self._fault(gauge_not_known(stitch.span, stitch.gauge, self.gauges))
            return None
        return StitchKey(tuple(ids), stitch.gauge, stitch.words)

    def _stands_for(self, weighed: list[StitchKey]) -> Iterator[StandsFor]:
        for each in self.entry.counts_as:
            key, of = self._told(each.stitch), self._key(each.of)
            if key is None or of is None:
                continue
            if not any(set(of.ids) & set(other.ids) and of.gauge in ("", other.gauge) for other in weighed):
                names = [other.words for other in weighed]
                self._fault(target_without_weight(each.of.span, each.of.words, names))
                continue
            yield StandsFor(key, each.number, of)

    def _pieces(self, written: Iterable[Words]) -> tuple[str, ...]:
        known = [each.name for each in self.header.pieces]
        found = []
        for words in written:
            if words.text.strip() in known:
                found.append(words.text.strip())
            elif "pieces" not in self.header.unreadable:
                self._fault(word_not_known(words.span, "a piece of this pattern", known))
        return tuple(found)

    def _sample(self) -> SizedSample | None:
        size = self.entry.sample_size
        weighs = self.values(f"{self.entry.name}.sample")
        pieces = self._pieces(self.entry.sample_pieces)
        if size is None or weighs is None:
            return None
        if self.entry.one_of and not pieces:
            self.sound = False  # reported: which of them the sample is
        index = self.scope.size_index(size.text.strip())
        if index is None:
            size_indexes((size,), self.header.sizes.names, self.report)
            self.sound = False
            return None
        return SizedSample(index, weighs, pieces)

    def _rule(self, size: int) -> BuyingRule | None:
        usual = BuyingRule()
        found: dict[str, Fraction | None] = {}
        for key, otherwise in (
            ("margin", usual.margin),
            ("round_up_to", usual.step),
            ("length", None),
            ("length_up_to", usual.length_step),
            ("ball", None),
        ):
            values = self.values(f"{self.entry.name}.{key}")
            value = values[size] if values else otherwise
            if value is not None and not isinstance(value, Fraction):
                return None
            found[key] = value
        margin, step, length_step = found["margin"], found["round_up_to"], found["length_up_to"]
        if not self.sound or margin is None or step is None or length_step is None:
            return None
        return BuyingRule(margin, step, found["length"], length_step, found["ball"])

    def _fault(self, diagnostic: Diagnostic) -> None:
        self.report.add(diagnostic)
        self.sound = False
