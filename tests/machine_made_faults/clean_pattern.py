"""A demo as it stands: its tree of located text, its numbers, and every scalar with the keys that lead to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Formula, Node, inside, names_in
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode, read_yaml
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile
from tests.machine_made_faults.printed_page import Page, printed_page

ROOT = Path(__file__).parents[2]
DEMOS = tuple(sorted(folder.name for folder in (ROOT / "pattern_sources").iterdir() if folder.is_dir()))
NUMBERS = ("body", "measures", "counts")
"""The groups of pattern.yaml that hold named values."""
FORMULA_KEYS = frozenset({"is", "at_least", "at_most", "start", "that", "total"})
WORD_KEYS = frozenset({"by_hand", "cm", "in", "unit", "round", "multiple", "gauge", "why"})
NAMING_KEYS = frozenset({"kind", "why", "shaping", "stitch", "of", "mirrors", "for_each", "gauge", "rate"})
"""The keys of plans and of what must hold at which a word stands and no formula."""


@dataclass(frozen=True)
class Leaf:
    """A scalar. path: the keys that lead to it, and a number for the place in a list. key: the last key, as typed."""

    path: tuple[str | int, ...]
    scalar: Scalar
    key: Scalar | None

    @property
    def last(self) -> str:
        """The key that the scalar, or the list it stands in, belongs to."""
        return next(str(part) for part in reversed(self.path) if isinstance(part, str))

    @property
    def name(self) -> str:
        """The named value that it belongs to, dotted, without its parameter; of anything else the key of its entry."""
        keys = [part for part in self.path if isinstance(part, str)]
        if keys[0] not in NUMBERS:
            return ".".join(map(str, self.path[:2]))
        named = [key for key in keys[1:] if key not in (FORMULA_KEYS | WORD_KEYS) - {"total"}]
        return ".".join(named).partition("(")[0]

    @property
    def is_formula(self) -> bool:
        """Whether a formula stands here."""
        group, last = self.path[0], self.path[-1]
        if group in NUMBERS:
            return last in FORMULA_KEYS or not (isinstance(last, int) or last in WORD_KEYS)
        if group in ("plans", "must_hold"):
            return self.last not in NAMING_KEYS
        return last in FORMULA_KEYS


@dataclass(frozen=True)
class CleanPattern:
    """A demo without a fault."""

    name: str
    outcome: CheckOutcome

    @cached_property
    def file(self) -> SourceFile:
        """The file that faults are put into."""
        return SourceFile("pattern.yaml", (self.outcome.folder / "pattern.yaml").read_text("utf-8"))

    @cached_property
    def tree(self) -> Mapping:
        """What it says, every value located."""
        tree = read_yaml(self.file, Report())
        assert isinstance(tree, Mapping)
        return tree

    @cached_property
    def sized(self) -> SizedPattern:
        """Its numbers in every size."""
        assert self.outcome.sized is not None
        return self.outcome.sized

    @cached_property
    def page(self) -> Page:
        """What it prints."""
        page = printed_page(self.outcome)
        assert page is not None
        return page

    @cached_property
    def leaves(self) -> tuple[Leaf, ...]:
        """Every scalar, in the order written."""
        return tuple(_leaves(self.tree, (), None))

    @cached_property
    def listings(self) -> tuple[tuple[tuple[str | int, ...], Listing], ...]:
        """Every list of scalars, with the keys that lead to it."""
        return tuple(_listings(self.tree, ()))

    @cached_property
    def entries(self) -> tuple[tuple[tuple[str | int, ...], Mapping, int], ...]:
        """Every key: the keys that lead to it, the mapping it stands in, and which of its entries it is."""
        return tuple(_entries(self.tree, ()))

    @cached_property
    def uses(self) -> dict[str, frozenset[str]]:
        """Each named value, and the names that its formulas and bounds use."""
        full = self.sized.scope.full_name
        used = {
            full(each.name): frozenset(
                full(part.name)
                for formula in (*each.formulas, each.at_least, each.at_most, each.start, each.multiple)
                if formula
                for part in names_in(formula.node)
            )
            for each in self.sized.source.header.definitions
        }
        for plan, names in self._plan_inputs.items():
            used[f"plans.{plan}"] = names
            parts = (name for name in self.sized.scope.quantities if name.startswith(f"{plan}."))
            used.update({name: frozenset({f"plans.{plan}"}) for name in parts})
        return used

    @cached_property
    def _plan_inputs(self) -> dict[str, frozenset[str]]:
        """Each plan, and the names that the numbers it starts from use."""
        full = self.sized.scope.full_name
        found: dict[str, set[str]] = {}
        for leaf in self.leaves:
            if leaf.path[0] == "plans":
                formula = read_formula(leaf.scalar.span) if leaf.is_formula else None
                names = names_in(formula.node) if isinstance(formula, Formula) else ()
                found.setdefault(str(leaf.path[1]), set()).update(full(each.name) for each in names)
        return {plan: frozenset(names) for plan, names in found.items()}

    def reached_from(self, name: str) -> frozenset[str]:
        """A named value, or all numbers of a gauge, and every value that is worked out from them; as they are written."""
        group, _, rest = name.partition(".")
        entry = rest.partition(".")[0]
        found = {self.sized.scope.full_name(name), name}
        if group in ("gauges", "rates"):
            found |= {f"gauges.{entry}.stitches", f"gauges.{entry}.rows", f"gauges.{entry}.rounds", entry}
        while more := {each for each, used in self.uses.items() if each not in found and used & found}:
            found |= more
        return frozenset(each.removeprefix("gauges.").removeprefix("body.") for each in found)


def clean_pattern(name: str) -> CleanPattern:
    """A demo by its name; it has to be clean."""
    outcome = check_pattern(ROOT / "pattern_sources" / name, within=ROOT)
    assert not outcome.findings, name
    return CleanPattern(name, outcome)


def parts_of(formula: Formula) -> Iterator[Node]:
    """Every part of a formula, the whole first."""
    waiting = [formula.node]
    while waiting:
        node = waiting.pop(0)
        yield node
        waiting += inside(node)


def _leaves(node: YamlNode, path: tuple[str | int, ...], key: Scalar | None) -> Iterator[Leaf]:
    match node:
        case Scalar():
            yield Leaf(path, node, key)
        case Listing():
            for place, item in enumerate(node.items):
                yield from _leaves(item, (*path, place), key)
        case Mapping():
            for inner, value in node.entries:
                yield from _leaves(value, (*path, inner.text), inner)


def _listings(node: YamlNode, path: tuple[str | int, ...]) -> Iterator[tuple[tuple[str | int, ...], Listing]]:
    if isinstance(node, Listing):
        if node.items and all(isinstance(item, Scalar) for item in node.items):
            yield path, node
        for place, item in enumerate(node.items):
            yield from _listings(item, (*path, place))
    if isinstance(node, Mapping):
        for key, value in node.entries:
            yield from _listings(value, (*path, key.text))


def _entries(node: YamlNode, path: tuple[str | int, ...]) -> Iterator[tuple[tuple[str | int, ...], Mapping, int]]:
    if isinstance(node, Listing):
        for place, item in enumerate(node.items):
            yield from _entries(item, (*path, place))
    if isinstance(node, Mapping):
        for place, (key, value) in enumerate(node.entries):
            yield (*path, key.text), node, place
            yield from _entries(value, (*path, key.text))
