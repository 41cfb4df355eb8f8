"""How a value is written in pattern.yaml: alone or below keys, one for all sizes or a list, with sizes set by hand."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode
from stitchproof.source_edits.pattern_tree import Entry, PatternTree, is_bracketed


class Column(Struct, frozen=True, eq=False):
    """One key that holds the value ("" where it stands alone): `is`, `by_hand`, `cm` or `in`. in_brackets: of its scalars."""

    key: str
    node: Scalar | Listing
    in_brackets: bool

    @property
    def scalars(self) -> tuple[Scalar, ...] | None:
        """Its values; None where one of them is no single value."""
        nodes = self.node.items if isinstance(self.node, Listing) else (self.node,)
        scalars = tuple(node for node in nodes if isinstance(node, Scalar))
        return scalars if len(scalars) == len(nodes) else None

    def scalar(self, size: int) -> Scalar | None:
        """The value of a size; of one for all sizes that one."""
        scalars = self.scalars or ()
        if not isinstance(self.node, Listing):
            return scalars[0]
        return scalars[size] if size < len(scalars) else None


class ValueForm(Struct, frozen=True, eq=False):
    """columns: one, or two where it is typed in cm and in inches. by_hand: the sizes set by hand beside a formula.

    unit: what a bare number of it means, "" where that would be a fault.
    """

    entry: Entry
    columns: tuple[Column, ...]
    by_hand: Entry | None
    unit: str
    is_list: bool

    @property
    def takes_sizes(self) -> bool:
        """Whether sizes may be set by hand beside it."""
        return len(self.columns) == 1 and self.columns[0].key in ("", "is") and not self.is_list


def value_form(entry: Entry, tree: PatternTree, usual_unit: str = "") -> ValueForm | None:
    """The form of an entry; None where it has none that is known. usual_unit: of a bare number where no key says it."""
    value = entry.value
    if not isinstance(value, Mapping):
        column = _column("", value, entry.in_brackets)
        return _form(entry, [column], None, usual_unit)
    given = [(key, held) for key in ("is", "by_hand", "cm", "in") if (held := tree.child(value, key)) is not None]
    beside = given[1][1] if [key for key, _ in given] == ["is", "by_hand"] else None
    columns = [_column(key, held.value, value.in_braces or entry.in_brackets) for key, held in given]
    stated = tree.child(value, "unit")
    unit = stated.value.text.strip() if stated and isinstance(stated.value, Scalar) else usual_unit
    if given and given[0][0] in ("cm", "in") and not stated:
        unit = given[0][0]
    return _form(entry, columns[:1] if beside else columns, beside, unit)


def _column(key: str, node: YamlNode, in_brackets: bool) -> Column | None:
    if isinstance(node, Mapping):
        return None
    inside = in_brackets or (isinstance(node, Listing) and is_bracketed(node))
    return Column(key, node, inside)


def _form(entry: Entry, columns: list[Column | None], by_hand: Entry | None, unit: str) -> ValueForm | None:
    known = tuple(column for column in columns if column is not None)
    if not known or len(known) < len(columns) or any(column.scalars is None for column in known):
        return None
    return ValueForm(entry, known, by_hand, unit, any(isinstance(column.node, Listing) for column in known))
