"""Where the named values of a pattern.yaml stand in its tree, and which of its nodes several places share."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from msgspec import Struct

from stitchproof.diagnostics.report import Report
from stitchproof.reading.pattern_source import Header
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode, read_yaml
from stitchproof.source import SourceFile


class Entry(Struct, frozen=True, eq=False):
    """A key and its value. in_brackets: whether it stands in a `{ }` or `[ ]`, where a comma ends a value."""

    key: Scalar
    value: YamlNode
    parent: Mapping
    in_brackets: bool


@dataclass
class PatternTree:
    """The tree of a pattern.yaml, its entries by where their key begins, and the nodes that are referred to again."""

    root: Mapping
    entries: dict[int, Entry] = field(default_factory=dict)
    shared: set[int] = field(default_factory=set)

    def is_shared(self, node: YamlNode) -> bool:
        """Whether a reference (`*name`) makes it stand at another place as well."""
        return node.span.start in self.shared

    def top(self, key: str) -> Entry | None:
        """The entry of a key at the top of the file."""
        return self.child(self.root, key)

    def child(self, mapping: YamlNode, key: str) -> Entry | None:
        """The entry of a key of a mapping; None where there is none."""
        held = mapping.entries if isinstance(mapping, Mapping) else ()
        return next((self.entries[name.span.start] for name, _ in held if name.text == key), None)

    def below(self, key_start: int, *keys: str) -> Entry | None:
        """The entry whose key begins there, or, going down by keys, one below it."""
        entry = self.entries.get(key_start)
        for key in keys:
            entry = self.child(entry.value, key) if entry else None
        return entry


def pattern_tree(file: SourceFile) -> PatternTree | None:
    """The tree of a file that was read without a fault before; None where it has no keys."""
    root = read_yaml(file, Report())
    if not isinstance(root, Mapping):
        return None
    tree = PatternTree(root)
    seen: set[int] = set()
    _walk(root, False, tree, seen)
    return tree


def _walk(node: YamlNode, in_brackets: bool, tree: PatternTree, seen: set[int]) -> None:
    """Depth is bounded by the reader. A node that is met again came by a reference; so did all that lies in it."""
    if id(node) in seen:
        tree.shared.update(each.span.start for each in _all(node))
        return
    seen.add(id(node))
    if isinstance(node, Mapping):
        inside = in_brackets or node.in_braces
        for key, value in node.entries:
            tree.entries[key.span.start] = Entry(key, value, node, inside)
            _walk(value, inside, tree, seen)
    elif isinstance(node, Listing):
        for item in node.items:
            _walk(item, in_brackets or is_bracketed(node), tree, seen)


def _all(node: YamlNode) -> Iterator[YamlNode]:
    yield node
    parts: tuple[YamlNode, ...] = ()
    if isinstance(node, Mapping):
        parts = tuple(value for _, value in node.entries)
    elif isinstance(node, Listing):
        parts = node.items
    for part in parts:
        yield from _all(part)


def is_bracketed(listing: Listing) -> bool:
    """Whether a list is written `[a, b]` and not with a dash before each item."""
    return listing.span.text.startswith("[")


def named_entries(header: Header, tree: PatternTree) -> dict[str, Entry]:
    """By full name, the entry of every value that can be changed: definitions, and numbers of gauges, rates and plans."""
    found: dict[str, Entry | None] = {}
    for definition in (*header.definitions, *(each for yarn in header.yarns for each in yarn.numbers)):
        full = f"body.{definition.name}" if definition.section == "body" else definition.name
        found[full] = tree.below(definition.span.start)
    for gauge in header.gauges:
        for word in ("stitches", "rows", "rounds", "rows_per_rib"):
            found[f"gauges.{gauge.name}.{word}"] = tree.below(gauge.span.start, word)
    for rate in header.rates:
        for word in ("sts", "per", "left_over"):
            found[f"rates.{rate.name}.{word}"] = tree.below(rate.span.start, word)
    for plan in header.plans:
        for each in plan.inputs:
            if each.formulas:
                found[f"plans.{plan.name}.{each.key}"] = tree.below(plan.span.start, each.key)
    return {name: entry for name, entry in found.items() if entry is not None}
