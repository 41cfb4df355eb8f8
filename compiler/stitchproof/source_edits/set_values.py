"""Values of pattern.yaml changed by their place in the text. Everything else stays as it is, to the byte.

What a change comes to, by how the value is written:
  one for all sizes           the formula or number is replaced; a number that takes the place of a formula is set by hand in each
                              size beside it, so that the formula stays in sight
  one for all, in one size    the size is set by hand beside it; set to what the formula gives, it follows the formula again
  a list                      the item of the size is replaced, or all of them
  cm and in                   both columns; the second is worked out, to a quarter inch or half a centimetre, unless both are
                              given: `50 cm, 19.75 in`
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.kind import USUAL_NOUNS, Kind
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Amount, Formula, Negative, NotWorked, names_in
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.print_grid import on_cm_grid, on_inch_grid
from stitchproof.measures.units import CM_PER_INCH, UNITS
from stitchproof.measures.values import exact_text
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.source_edits.asked import SetValue, is_list, parts_of
from stitchproof.source_edits.by_formula import follows_its_formula
from stitchproof.source_edits.faults.not_edited_in_place import not_edited_in_place
from stitchproof.source_edits.pattern_tree import Entry, PatternTree
from stitchproof.source_edits.raw_text import TextEdit
from stitchproof.source_edits.scalars import as_scalar, in_style_of, is_plain_text, raw_of, replaced
from stitchproof.source_edits.sizes_by_hand import held_by_hand, size_key, written_by_hand
from stitchproof.source_edits.value_forms import ValueForm, value_form

Wanted = dict[int | None, str]
"""By index of a size (None for all) what is to stand there."""


def value_edits(
    asked: SetValue, entry: Entry, tree: PatternTree, sized: SizedPattern
) -> tuple[TextEdit, ...] | Diagnostic:
    """The edits that one change comes to, or the report of why its place cannot be edited. None where it is so already."""
    return _Change(asked, entry, tree, sized).edits()


class _Change:
    """One change at its place."""

    def __init__(self, asked: SetValue, entry: Entry, tree: PatternTree, sized: SizedPattern) -> None:
        self.asked, self.entry, self.tree, self.sized = asked, entry, tree, sized
        self.quantity = sized.scope.quantities.get(asked.name)
        self.noun = noun_of(self.quantity.kind) if self.quantity else ""
        self.whole_list = parts_of(asked.text) if is_list(asked.text) else None

    def edits(self) -> tuple[TextEdit, ...] | Diagnostic:
        if self.whole_list is not None and len(self.whole_list) != len(self.sized.sizes):
            number = f"{len(self.whole_list)} values for {len(self.sized.sizes)} sizes"
            return self.refused(self.entry.value, number, "give one value for each size")
        if self.asked.k is not None:
            return self.at_k()
        if isinstance(self.entry.value, Listing) and not self.goes_by_size():
            return self.refused(self.entry.value, "its list does not go by size", "change the list in pattern.yaml")
        form = value_form(self.entry, self.tree, _usual_unit(self.asked.name))
        if form is None:
            return self.refused(self.entry.value, "it is written in a way of its own", "change it in pattern.yaml")
        shared = [column.node for column in form.columns if self.tree.is_shared(column.node)]
        if shared:
            why = "another place refers to it by `*`"
            return self.refused(shared[0], why, "write the value out at both places, then change it")
        if self.asked.size is None and self.whole_list is None:
            return self.in_all_sizes(form)
        if form.is_list:
            return self.in_list(form)
        if form.takes_sizes and self.is_definition and not (self.quantity and self.quantity.parameter):
            return self.by_hand(form)
        held = form.columns[0].scalar(0)
        listed = ", ".join([held.text.strip() if held else "…"] * len(self.sized.sizes))
        why = "one value stands for all sizes"
        return self.refused(form.columns[0].node, why, f"write a list with one value for each size, `[{listed}]`")

    def goes_by_size(self) -> bool:
        """Whether a list has one value for each size; one such as the plain rounds of a crown has not."""
        plan, _, key = self.asked.name.removeprefix("plans.").rpartition(".")
        entry = next((each for each in self.sized.source.header.plans if each.name == plan), None)
        if entry is None or not self.asked.name.startswith("plans."):
            return True
        return any(each.key == key and each.by_size for each in entry.inputs)

    @property
    def is_definition(self) -> bool:
        """Whether it is a value with a name of its own, not a number of a gauge, a rate, a plan or a yarn."""
        return not self.asked.name.startswith(("gauges.", "rates.", "plans.", "yarn."))

    def at_k(self) -> tuple[TextEdit, ...] | Diagnostic:
        """The start of a value that goes on step by step; at any other k it is a rule's."""
        start = self.tree.child(self.entry.value, "start")
        if self.asked.k != 0 or self.asked.size is not None or start is None:
            return self.refused(self.entry.value, "a formula gives it at every k", "change the formula")
        return self.scalar_edit(start.value, self.asked.text, start.parent.in_braces, "")

    def in_all_sizes(self, form: ValueForm) -> tuple[TextEdit, ...] | Diagnostic:
        """One value for all sizes: in place of the one that stands there, or of each of a list."""
        first = form.columns[0].scalar(0)
        fixed = _is_fixed(self.asked.text)
        may_be_set = form.takes_sizes and self.is_definition and not (self.quantity and self.quantity.parameter)
        if may_be_set and fixed and first and not _is_fixed(first.text):
            return self.by_hand(form)
        done: list[TextEdit] = []
        for column, text in zip(form.columns, self.in_columns(form), strict=True):
            for scalar in column.scalars or ():
                edits = self.scalar_edit(scalar, text, column.in_brackets, form.unit)
                if isinstance(edits, Diagnostic):
                    return edits
                done += edits
        return tuple(done)

    def in_list(self, form: ValueForm) -> tuple[TextEdit, ...] | Diagnostic:
        done: list[TextEdit] = []
        sizes = range(len(self.sized.sizes)) if self.asked.size is None else (self.asked.size,)
        for size in sizes:
            text = self.whole_list[size] if self.whole_list else self.asked.text
            for column, said in zip(form.columns, self.in_columns(form, text), strict=True):
                scalar = column.scalar(size)
                if scalar is None or (not isinstance(column.node, Listing) and len(self.sized.sizes) > 1):
                    return self.refused(column.node, "its list has no value for each size", "complete the list first")
                edits = self.scalar_edit(scalar, said, column.in_brackets, form.unit)
                if isinstance(edits, Diagnostic):
                    return edits
                done += edits
        return tuple(done)

    def in_columns(self, form: ValueForm, text: str | None = None) -> tuple[str, ...]:
        """What is to stand in each column. Of two, the one that is not given is worked out from the other."""
        text = self.asked.text if text is None else text
        if len(form.columns) == 1:
            return (text,)
        given = parts_of(text)
        length = length_of(given[0], "cm") if len(given) == 1 else None
        if len(given) == 2:
            return tuple(_without_unit(part, column.key) for part, column in zip(given, form.columns, strict=True))
        if length is None:
            return (text, text)
        inches = given[0].endswith(("in", "inch", "inches"))
        cm = exact_text(on_cm_grid(length)) if inches else _without_unit(given[0], "cm")
        return cm, _without_unit(given[0], "in") if inches else exact_text(on_inch_grid(length))

    def scalar_edit(self, node: YamlNode, text: str, in_brackets: bool, unit: str) -> tuple[TextEdit, ...] | Diagnostic:
        if not isinstance(node, Scalar) or not is_plain_text(node):
            why = "its text is folded over lines, or holds escapes"
            return self.refused(node, why, "write it on one line, then change it")
        if self.tree.is_shared(node):
            return self.refused(node, "another place refers to it by `*`", "write the value out at both places")
        new = in_style_of(node.text, text, unit, self.noun)
        return () if new == node.text.strip() else (replaced(node, new, in_brackets),)

    def by_hand(self, form: ValueForm) -> tuple[TextEdit, ...] | Diagnostic:
        """Sizes set by hand beside a formula; one that is set to what the formula gives follows it again."""
        held = held_by_hand(form)
        if held is None or (form.by_hand and self.tree.is_shared(form.by_hand.value)):
            why = "the sizes set by hand are laid out in a way of their own"
            node = form.by_hand.value if form.by_hand else self.entry.value
            return self.refused(node, why, "change it in pattern.yaml, or write `by_hand: {SIZE: VALUE}` on one line")
        before, group = dict(held), form.by_hand.value if form.by_hand else None
        entries = group.entries if isinstance(group, Mapping) else ()
        places = {raw_of(key): self.sized.scope.size_index(key.text.strip()) for key, _ in entries}
        by_size = {size: key for key, size in places.items()}
        sizes = range(len(self.sized.sizes)) if self.asked.size is None else (self.asked.size,)
        for size in sizes:
            text = self.whole_list[size] if self.whole_list else self.asked.text
            key = by_size.get(size, size_key(self.sized.sizes[size]))
            if follows_its_formula(self.asked.name, size, text, self.sized):
                held.pop(key, None)
            else:
                held[key] = as_scalar(in_style_of(before.get(key, ""), text, "", self.noun), in_brackets=True)
                places[key] = size
        if held == before:
            return ()
        ordered = dict(sorted(held.items(), key=lambda each: places[each[0]] or 0))
        edit = written_by_hand(form, ordered)
        if edit is None:
            why = "the way it is laid out leaves no room for a size of its own"
            return self.refused(self.entry.value, why, "write `is:` and `by_hand: {SIZE: VALUE}` below its name")
        return (edit,)

    def refused(self, node: YamlNode, why: str, by_hand: str) -> Diagnostic:
        return not_edited_in_place(node.span, self.asked.named(self.sized.sizes), why, by_hand)


def noun_of(kind: Kind) -> str:
    """The unit word that a number of this kind is written with, or ""."""
    dimension = kind.dimension
    if dimension in (LENGTH, WEIGHT):
        return kind.noun if kind.noun in UNITS else USUAL_NOUNS[dimension]
    if dimension.is_plain:
        return "" if kind.is_ratio else kind.noun
    return (kind.noun if kind.noun in UNITS else USUAL_NOUNS.get(dimension, "")) if dimension.is_count else ""


def length_of(text: str, unit: str) -> Fraction | None:
    """A written length in cm; a bare number is of the unit. None for a formula."""
    formula = read_formula(Span(SourceFile("a length", text), 0, len(text)))
    node = formula.node if isinstance(formula, Formula) else None
    if not isinstance(node, Amount):
        return None
    return node.value * UNITS[unit].size if node.kind.is_bare else node.value


def _without_unit(text: str, unit: str) -> str:
    """The number of a length in the unit of its column, as typed where it is typed in that unit."""
    words = text.split()
    if len(words) == 2 and UNITS.get(words[1]) == UNITS[unit]:
        return words[0]
    length = length_of(text, unit)
    return text if length is None or len(words) < 2 else exact_text(length / (CM_PER_INCH if unit == "in" else 1))


def _is_fixed(text: str) -> bool:
    """Whether a text is a number, or `not worked`, and no formula."""
    formula = read_formula(Span(SourceFile("a value", text), 0, len(text)))
    if not isinstance(formula, Formula):
        return False
    node = formula.node.operand if isinstance(formula.node, Negative) else formula.node
    return isinstance(node, Amount | NotWorked) or not any(True for _ in names_in(node))


def _usual_unit(name: str) -> str:
    """What a bare number of a gauge or a rate counts."""
    last = name.rpartition(".")[2]
    units = {"stitches": "sts", "rows": "rows", "rounds": "rnds", "rows_per_rib": "rows", "sts": "sts"}
    return units.get(last, "") if name.startswith(("gauges.", "rates.")) else ""
