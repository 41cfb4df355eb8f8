"""Takes a group of pattern.yaml apart by its keys, and reports what does not belong there."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.slot import Slot, slots_in
from stitchproof.formulas.tree import Formula
from stitchproof.reading.faults.missing_key import missing_key
from stitchproof.reading.faults.unknown_key import unknown_key
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.pattern_source import Words
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode
from stitchproof.source import Span

EXAMPLES = {
    "": "title: My Hat",
    "dialect": "dialect: 1",
    "title": "title: My Hat",
    "date": "date: 2026-03-01",
    "texts": "texts: [cuff.md, body.md]",
    "sizes": "sizes: {names: [S, M, L]}",
    "gauge": "fabric: {stitches: 16, rows: 12, over: 10 cm}",
    "rate": "edge: {sts: 5, per: 2 ribs}",
    "plan": "crown_dec: {kind: crown, from: hat_sts, sections: 8}",
    "plans": "crown_dec: {kind: crown, from: hat_sts, sections: 8}",
    "piece": "cuff: {gauge: fabric, worked: rows}",
    "offset_fabric": "offset_fabric: {total: body_sts, worked: joined rounds}",
    "stitch": "puff: {name: puff stitch, how: Yo three times.}",
    "caution": "rules: [small_parts]",
    "assertion": "that: neck >= head",
    "then": "then: [{every: 2 rows, times: 6}]",
    "acceptance": "code: SP030",
    "gauges": "fabric: {stitches: 16, rows: 12, over: 10 cm}",
    "rates": "edge: {sts: 5, per: 2 ribs}",
    "body": "head: 56 cm",
    "ratios": "stretch: 1.15",
    "measures": "body_length: 38 cm",
    "counts": "cuff_rows: 12 rows",
    "yarn": "weights: {sc: 0.024 g}",
    "weights": "sc: 0.024 g",
    "counts_as": "hdc2tog: hdc",
    "sample": "sample: {size: M, weighs: 66 g}",
    "editions": "editions: [all_sizes, one_size]",
    "at_a_glance": "at_a_glance: {difficulty: easy}",
    "revision": "- {revision: 2, date: 2026-05-01, changes: The sleeve of size 3.}",
    "register": "copies: [{revision: 1, where: the shop page, tell: buyers by message}]",
    "copy": "- {revision: 1, where: the shop page, tell: buyers by message}",
    "pieces": "cuff: {gauge: fabric, worked: rows}",
    "finished": "Bust: <bust>",
    "photos": "front: {file: images/front.jpg, alt: The hat from the front}",
    "photo": "front: {file: images/front.jpg, alt: The hat from the front}",
    "tutorials": "fhdc: {words: How to work a foundation, address: https://example.org/fhdc}",
    "tutorial": "fhdc: {words: How to work a foundation, address: https://example.org/fhdc}",
    "schematics": "brim: {panel: {width: brim_around, height: brim_depth}}",
    "schematic": "brim: {panel: {width: brim_around, height: brim_depth}}",
    "panel": "panel: {width: brim_around, height: brim_depth}",
    "tube": "tube: {around: hat_around, height: height}",
    "ring": "ring: {inner: neck, outer: yoke_around, depth: yoke_depth}",
    "circle": "circle: {across: width}",
    "outline": "underarm: {up: side}",
    "corner": "underarm: {up: side}",
    "lines": "lines: [[brim_left, brim_right]]",
    "measure": "- {label: Side, shows: side, from: hem, to: underarm}",
    "special_stitches": "puff: puff stitch",
    "sequence": "- id: hat",
    "row": "- {label: Row 1, text: Sc in each st across}",
    "source": "source: {title: A Hat, address: not recorded}",
}
"""What stands under a key, or in a group of a kind; the top of the file is the group without a name."""


class Shape:
    """One group of keys. What is asked for is known; `close` reports the rest, and what is missing.

    where: the name of the group for people ("a gauge"); "" for the top of the file. kind: its example.
    refused: the keys whose formula cannot be read, or whose value has no entries (reported).
    """

    def __init__(self, node: YamlNode | None, report: Report, where: str, span: Span, kind: str = "") -> None:
        self.report = report
        self.where = where
        self.span = node.span if node else span
        self.known: set[str] = set()
        self.missing: list[str] = []
        self.refused: set[str] = set()
        self.node = node if isinstance(node, Mapping) else Mapping((), self.span, False)
        self.readable = node is None or isinstance(node, Mapping)
        if node is not None and not self.readable:
            report.add(wrong_kind_of_value(node.span, where or "pattern.yaml", "keys with values", EXAMPLES[kind]))

    def take(self, key: str, required: bool = False) -> YamlNode | None:
        """The value of a key, or None; a value left empty, or of blanks only, counts as absent."""
        self.known.add(key)
        value = self.node.get(key)
        if isinstance(value, Scalar) and not value.text.strip():
            value = None
        if value is None and required:
            self.missing.append(key)
        return value

    def scalar(self, key: str, required: bool = False) -> Scalar | None:
        """A single value; None where the key is absent or has several (reported)."""
        value = self.take(key, required)
        if value is None or isinstance(value, Scalar):
            return value
        self.refused.add(key)
        self.report.add(wrong_kind_of_value(value.span, f"`{key}`", "one text or number", EXAMPLES.get(key, "")))
        return None

    def words(self, key: str, required: bool = False) -> Words | None:
        """A text, with the slots that stand in it."""
        value = self.scalar(key, required)
        return words_of(value, self.report) if value else None

    def choice(self, key: str, allowed: tuple[str, ...], usual: str) -> str:
        """One word of a closed list; `usual` where the key is absent."""
        value = self.scalar(key)
        if value is None:
            return usual
        text = value.text.strip()
        found = next((word for word in allowed if word.lower() == text.lower()), None)
        if found is None:
            self.report.add(wrong_kind_of_value(value.span, f"`{key}`", "one of: " + ", ".join(allowed)))
        return found or usual

    def formula(self, key: str, required: bool = False) -> Formula | None:
        """A formula; None where the key is absent or it cannot be read (reported)."""
        value = self.scalar(key, required)
        formula = formula_of(value, self.report) if value else None
        if value and formula is None:
            self.refused.add(key)
        return formula

    def listing(self, key: str) -> tuple[YamlNode, ...]:
        """The items of a list; a single value counts as a list of one."""
        value = self.take(key)
        if value is None:
            return ()
        return value.items if isinstance(value, Listing) else (value,)

    def formulas(self, key: str) -> tuple[Formula, ...]:
        """A list of formulas; what is none is reported and left out."""
        found = []
        for item in self.listing(key):
            formula = formula_of(item, self.report) if isinstance(item, Scalar) and item.text.strip() else None
            if not isinstance(item, Scalar):
                self.report.add(
                    wrong_kind_of_value(item.span, f"an item of `{key}`", "one formula", EXAMPLES.get(key, ""))
                )
            if formula is not None:
                found.append(formula)
        return tuple(found)

    def words_list(self, key: str) -> tuple[Words, ...]:
        """A list of texts; what is no text is reported and left out."""
        found = []
        for item in self.listing(key):
            if isinstance(item, Scalar) and item.text.strip():
                found.append(words_of(item, self.report))
            else:
                self.report.add(
                    wrong_kind_of_value(item.span, f"an item of `{key}`", "one text", EXAMPLES.get(key, ""))
                )
        return tuple(found)

    def entries(self, key: str) -> Iterator[tuple[Scalar, YamlNode]]:
        """The named entries of a group under a key."""
        value = self.take(key)
        if isinstance(value, Mapping):
            yield from value.entries
        elif value is not None:
            self.refused.add(key)
            self.report.add(
                wrong_kind_of_value(value.span, f"`{key}`", "names with values, set in below it", EXAMPLES[key])
            )

    def group(self, key: str, where: str) -> Shape | None:
        """The group of keys under a key, or None where it is absent."""
        value = self.take(key)
        return Shape(value, self.report, where, value.span, key) if value is not None else None

    def close(self) -> None:
        """Report every key that nobody asked for, and every one that is missing, unless it is there misspelt."""
        misspelt = set()
        for key, _ in self.node.entries:
            if key.text not in self.known:
                self.report.add(unknown_key(key.span, key.text, self.where, self.known))
                misspelt.add(nearest(key.text, sorted(self.known)))
        for missing in self.missing if self.readable else ():
            if missing not in misspelt:
                here = self.span if self.where else self.span.part(0, 0)
                self.report.add(missing_key(here, self.where, missing))


def formula_of(scalar: Scalar, report: Report) -> Formula | None:
    """The formula typed as a value; None where it cannot be read (reported)."""
    formula = read_formula(scalar.span)
    if isinstance(formula, Formula):
        return formula
    report.add(formula)
    return None


def words_of(scalar: Scalar, report: Report) -> Words:
    """A text value with its slots. In a folded or escaped text the slots are found again in the text as it reads."""
    slots: list[tuple[int, int, Slot]] = []
    position = 0
    for slot in slots_in(scalar.span):
        if not isinstance(slot, Slot):
            report.add(slot)
            continue
        start = scalar.text.find(slot.span.text, position)
        if start >= 0:
            position = start + len(slot.span.text)
            slots.append((start, position, slot))
    return Words(scalar.text, scalar.span, tuple(slots))
