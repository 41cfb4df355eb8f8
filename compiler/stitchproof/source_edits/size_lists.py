"""Everything in pattern.yaml that goes by size: lists with one value for each, values set by hand, lists of names, brackets."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from stitchproof.reading.pattern_source import Header
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar
from stitchproof.source_edits.pattern_tree import PatternTree, named_entries
from stitchproof.source_edits.value_forms import ValueForm, value_form


class SizeList(Struct, frozen=True, eq=False):
    """A list with one value per size. name: as it is asked for, `plans.band.holes`. key: cm or in, of two columns."""

    name: str
    key: str
    listing: Listing
    unit: str


def size_lists(header: Header, tree: PatternTree) -> Iterator[SizeList]:
    """Every list with one value per size, in the order of the file."""
    found = []
    numbers = {f"plans.{plan.name}.{each.key}" for plan in header.plans for each in plan.inputs if not each.by_size}
    for name, entry in named_entries(header, tree).items():
        form = value_form(entry, tree) if name not in numbers else None
        for column in form.columns if form else ():
            if form and isinstance(column.node, Listing):
                two = len(form.columns) > 1
                found.append(SizeList(name, column.key if two else "", column.node, column.key if two else form.unit))
    yield from sorted(found, key=lambda each: each.listing.span.start)


def forms_by_hand(header: Header, tree: PatternTree) -> Iterator[tuple[str, ValueForm]]:
    """Every value with sizes set by hand beside its formula."""
    for name, entry in named_entries(header, tree).items():
        form = value_form(entry, tree)
        if form and form.by_hand:
            yield name, form


def lists_of_names(tree: PatternTree) -> Iterator[tuple[str, Listing]]:
    """Lists that name some sizes: whom a caution or a piece is for, which sizes an edition prints."""
    cautions = tree.top("cautions")
    if cautions and isinstance(cautions.value, Listing):
        for item in cautions.value.items:
            entry = tree.child(item, "sizes")
            if entry and isinstance(entry.value, Listing):
                yield "cautions", entry.value
    pieces = tree.top("pieces")
    for key, value in pieces.value.entries if pieces and isinstance(pieces.value, Mapping) else ():
        entry = tree.child(value, "sizes")
        if entry and isinstance(entry.value, Listing):
            yield f"pieces.{key.text}", entry.value
    editions = tree.top("editions")
    for key, value in editions.value.entries if editions and isinstance(editions.value, Mapping) else ():
        if isinstance(value, Listing):
            yield f"editions.{key.text}", value


def single_names(tree: PatternTree) -> Iterator[tuple[str, Scalar]]:
    """Places that name one size: the sample's."""
    sizes, yarn = tree.top("sizes"), tree.top("yarn")
    sample = tree.child(sizes.value, "sample") if sizes else None
    if sample and isinstance(sample.value, Scalar):
        yield "sizes.sample", sample.value
    groups = [yarn.value] if yarn else []
    if yarn and isinstance(yarn.value, Mapping):
        groups += [value for _, value in yarn.value.entries]
    for group in groups:
        weighed = tree.child(group, "sample")
        size = tree.child(weighed.value, "size") if weighed else None
        if size and isinstance(size.value, Scalar):
            yield "yarn.sample.size", size.value
