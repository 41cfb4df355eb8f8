"""A size added to a pattern, or taken away: every list with one value per size goes along."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.size_names import size_index
from stitchproof.measures.print_grid import CM_GRID, INCH_GRID
from stitchproof.measures.rounding import Direction, Multiple, round_to
from stitchproof.measures.values import exact_text
from stitchproof.reading.yaml_tree import Listing, Scalar
from stitchproof.reading.yaml_tree import Mapping as Group
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import Span
from stitchproof.source_edits.faults.not_edited_in_place import not_edited_in_place
from stitchproof.source_edits.faults.size_list_needs_a_value import size_list_needs_a_value
from stitchproof.source_edits.faults.size_still_named import size_still_named
from stitchproof.source_edits.lists import item_put_in, item_taken_out
from stitchproof.source_edits.pattern_tree import PatternTree
from stitchproof.source_edits.raw_text import TextEdit
from stitchproof.source_edits.scalars import in_style_of, is_plain_text, raw_of, replaced
from stitchproof.source_edits.set_values import noun_of
from stitchproof.source_edits.size_lists import SizeList, forms_by_hand, lists_of_names, single_names, size_lists
from stitchproof.source_edits.sizes_by_hand import held_by_hand, written_by_hand

MOST_SIZES = 60
_NUMBER = re.compile(r"(-?[0-9]+(?:\.[0-9]+)?)(?: *[^\W\d]+)?")


class AddSize(Struct, frozen=True):
    """A size to be added. at: its place among the sizes, from 0. values: by name, what its lists get.

    span: where it was asked for. draw_on: whether a list without a value goes on as its neighbours do.
    """

    name: str
    at: int
    values: Mapping[str, str]
    span: Span
    draw_on: bool = False


class RemoveSize(Struct, frozen=True):
    """A size to be taken away, by its index. span: where it was asked for."""

    at: int
    span: Span


def size_edits(
    asked: AddSize | RemoveSize, tree: PatternTree, sized: SizedPattern
) -> tuple[tuple[TextEdit, ...], tuple[Diagnostic, ...], tuple[str, ...]]:
    """The edits that a size more, or one less, comes to; what stands in the way, for then there are none; and the values that
    were drawn on from their neighbours, each as it would be asked for."""
    change = _SizeChange(tree, sized)
    if isinstance(asked, AddSize):
        change.add(asked)
    else:
        change.remove(asked)
    return ((), tuple(change.faults), ()) if change.faults else (tuple(change.edits), (), tuple(change.drawn))


class _SizeChange:
    """Gathers the edits of one size, and the faults."""

    def __init__(self, tree: PatternTree, sized: SizedPattern) -> None:
        self.tree, self.sized = tree, sized
        self.sizes = sized.source.header.sizes
        self.edits: list[TextEdit] = []
        self.faults: list[Diagnostic] = []
        self.drawn: list[str] = []

    def add(self, asked: AddSize) -> None:
        names = self.names()
        if names is None:
            return
        if self.index_of(asked.name) is not None or len(self.sizes.names) >= MOST_SIZES:
            why = f"there is a size {asked.name} already" if self.index_of(asked.name) is not None else "too many sizes"
            self.faults.append(size_still_named(names.span, asked.name, why, "give the new size another name"))
            return
        self.put_in("sizes.names", names, asked.at, asked.name)
        self.groups(asked.at, 1)
        for each in size_lists(self.sized.source.header, self.tree):
            self.value_for(asked, each)
        table_sizes = self.table_sizes()
        if table_sizes:
            self.put_in("body.sizes", table_sizes, asked.at, asked.values.get("body.sizes", asked.name))

    def value_for(self, asked: AddSize, each: SizeList) -> None:
        """The value of the new size in one list."""
        items = tuple(item for item in each.listing.items if isinstance(item, Scalar))
        if len(items) != len(self.sizes.names) or self.tree.is_shared(each.listing):
            self.by_hand(each.name, each.listing.span)
            return
        text = asked.values.get(f"{each.name}.{each.key}" if each.key else each.name)
        if text is None and each.key:
            columns = asked.values.get(each.name, "").split(",")
            text = next((part.strip() for part in columns if _unit_of(part) == each.key), None)
            text = (
                columns[0].strip() if text is None and len(columns) == 1 and columns[0] and each.key == "cm" else text
            )
        if not text:
            name = f"{each.name}.{each.key}" if each.key else each.name
            text = self.proposal(each, items, asked.at)
            if not asked.draw_on or not text:
                self.faults.append(size_list_needs_a_value(each.listing.span, name, asked.name, text))
                return
            self.drawn.append(f"{name}[{asked.name}]={text}")
        quantity = self.sized.scope.quantities.get(each.name)
        noun = noun_of(quantity.kind) if quantity else ""
        neighbour = items[asked.at - 1 if asked.at else 0].text
        self.put_in(each.name, each.listing, asked.at, in_style_of(neighbour, text, each.unit, noun))

    def proposal(self, each: SizeList, items: tuple[Scalar, ...], at: int) -> str:
        """The neighbours drawn on in a line: halfway between two, or one step beyond the last; kept to whole counts."""
        numbers = [number_of(item.text) for item in items]
        near = [number for number in (numbers[max(0, at - 2) : at + 2]) if number is not None]
        if None in numbers or len(near) < 2:
            return ""
        if 0 < at < len(numbers):
            drawn = (_held(numbers[at - 1]) + _held(numbers[at])) / 2
        else:
            one, two = (numbers[1], numbers[0]) if at == 0 else (numbers[-2], numbers[-1])
            drawn = 2 * _held(two) - _held(one)
        quantity = self.sized.scope.quantities.get(each.name)
        step = Multiple()
        if quantity and not quantity.kind.dimension.is_count:
            step = INCH_GRID if each.key == "in" or each.unit == "in" else CM_GRID
        if quantity and quantity.multiples and quantity.multiples[0]:
            step = quantity.multiples[0]
        return exact_text(round_to(drawn, Direction.NEAREST, step)).replace("\N{MINUS SIGN}", "-")

    def remove(self, asked: RemoveSize) -> None:
        names, name = self.names(), self.sizes.names[asked.at]
        if names is None:
            return
        if len(self.sizes.names) == 1:
            why = f"{name} is the only size"
            self.faults.append(size_still_named(names.span, name, why, "a pattern has one size at least"))
            return
        self.take_out("sizes.names", names, asked.at)
        self.groups(asked.at, -1)
        for each in size_lists(self.sized.source.header, self.tree):
            if len(each.listing.items) != len(self.sizes.names) or self.tree.is_shared(each.listing):
                self.by_hand(each.name, each.listing.span)
            else:
                self.take_out(each.name, each.listing, asked.at)
        table_sizes = self.table_sizes()
        if table_sizes:
            self.take_out("body.sizes", table_sizes, asked.at)
        self.names_of(asked.at, name)

    def names_of(self, at: int, name: str) -> None:
        """Where the size is named: taken out of lists and of what is set by hand; a place for one size alone is in the way."""
        for where, form in forms_by_hand(self.sized.source.header, self.tree):
            group = form.by_hand.value if form.by_hand else None
            keys = (
                [raw_of(key) for key, _ in group.entries if self.index_of(key.text.strip()) == at]
                if isinstance(group, Group)
                else []
            )
            held = held_by_hand(form)
            if keys and held is not None:
                edit = written_by_hand(form, {key: text for key, text in held.items() if key not in keys})
                self.keep(edit, where, form.entry.value.span)
            elif keys:
                self.by_hand(where, form.entry.value.span)
        for where, listing in lists_of_names(self.tree):
            for index, item in enumerate(listing.items):
                if isinstance(item, Scalar) and self.index_of(item.text.strip()) == at:
                    self.take_out(where, listing, index)
        for where, scalar in single_names(self.tree):
            if self.index_of(scalar.text.strip()) == at:
                why = f"`{where}` names {name}, which is to go"
                self.faults.append(size_still_named(scalar.span, name, why, "name another size there first"))

    def groups(self, at: int, more: int) -> None:
        """How many sizes stand in each bracket after the first: one more, or one less, in the bracket where the size stands."""
        top = self.tree.top("sizes")
        entry = self.tree.child(top.value, "groups") if top else None
        if entry is None or not isinstance(entry.value, Listing):
            return
        items = [item for item in entry.value.items if isinstance(item, Scalar) and item.text.strip().isdecimal()]
        if not items or len(items) < len(entry.value.items) or not all(map(is_plain_text, items)):
            self.by_hand("sizes.groups", entry.value.span)
            return
        numbers = [int(item.text) for item in items]
        # A new size stands in the bracket of the one before it; where the first goes, the second stands alone in its place.
        group = bracket_of(max(at - 1, 0) if more > 0 else at, numbers)
        if numbers[group] + more == 0 and len(items) > 1:
            self.take_out("sizes.groups", entry.value, group)
        else:
            self.edits.append(replaced(items[group], str(numbers[group] + more), in_brackets=True))

    def table_sizes(self) -> Listing | None:
        """The list that says which size of the body table each size is; None where there is none."""
        body = self.tree.top("body")
        entry = self.tree.child(body.value, "sizes") if body and self.sized.source.header.body else None
        if entry is None or not isinstance(entry.value, Listing):
            return None
        if len(entry.value.items) == len(self.sizes.names):
            return entry.value
        self.by_hand("body.sizes", entry.value.span)
        return None

    def names(self) -> Listing | None:
        top = self.tree.top("sizes")
        entry = self.tree.child(top.value, "names") if top else None
        if entry and isinstance(entry.value, Listing) and len(entry.value.items) == len(self.sizes.names):
            return entry.value
        self.faults.append(
            size_still_named(self.sizes.span, "", "the sizes are not written as a list", "write `names: [S, M]`")
        )
        return None

    def index_of(self, name: str) -> int | None:
        return size_index(name, self.sizes.names, self.sizes.called_by_number)

    def put_in(self, name: str, listing: Listing, at: int, text: str) -> None:
        self.keep(item_put_in(listing, at, text), name, listing.span)

    def take_out(self, name: str, listing: Listing, at: int) -> None:
        self.keep(item_taken_out(listing, at), name, listing.span)

    def keep(self, edit: TextEdit | None, name: str, span: Span) -> None:
        if edit is None:
            self.by_hand(name, span)
        else:
            self.edits.append(edit)

    def by_hand(self, name: str, span: Span) -> None:
        why = "the way its list is laid out allows no size more or less"
        self.faults.append(not_edited_in_place(span, name, why, "change the list by hand"))


def bracket_of(size: int, groups: list[int]) -> int:
    """The bracket, from 0, in which a size stands; the first size, which stands alone, is told to the first bracket."""
    before = 1
    for group, held in enumerate(groups):
        before += held
        if size < before:
            return group
    return len(groups) - 1


def number_of(text: str) -> Fraction | None:
    """The number that a value begins with, without its unit; None for a formula."""
    found = _NUMBER.fullmatch(text.strip())
    return Fraction(found[1]) if found else None


def _unit_of(text: str) -> str:
    return text.split()[-1] if len(text.split()) > 1 else ""


def _held(number: Fraction | None) -> Fraction:
    return number if number is not None else Fraction(0)
