"""Sizes set by hand beside a formula, `{is: hat_around * crown.stitches, by_hand: {M: 72 sts}}`: put there, and taken away.

What is put there can be taken away to the byte. Whether a formula stood alone before is told by the order of the two keys: one
that stood alone stands first afterwards, one that stood below `is:` by itself stands last.
"""

from __future__ import annotations

import re
from collections.abc import Mapping as Sizes

from stitchproof.reading.yaml_tree import Mapping, Scalar
from stitchproof.source_edits.pattern_tree import Entry
from stitchproof.source_edits.raw_text import TextEdit
from stitchproof.source_edits.scalars import as_scalar, extent, raw_of
from stitchproof.source_edits.value_forms import ValueForm

_ONE_BLANK = re.compile(r":( *)$")


def flow_map(held: Sizes[str, str]) -> str:
    """`{M: 72 sts}`: keys and values as they are typed."""
    return "{" + ", ".join(f"{key}: {value}" for key, value in held.items()) + "}"


def held_by_hand(form: ValueForm) -> dict[str, str] | None:
    """The sizes set by hand, as typed; None where they are laid out so that they cannot be written anew without a loss."""
    if form.by_hand is None:
        return {}
    node = form.by_hand.value
    if not isinstance(node, Mapping) or not all(isinstance(value, Scalar) for _, value in node.entries):
        return None
    held = {raw_of(key): raw_of(value) for key, value in node.entries if isinstance(value, Scalar)}
    return held if flow_map(held) == node.span.text else None


def written_by_hand(form: ValueForm, held: Sizes[str, str]) -> TextEdit | None:
    """The edit that leaves these sizes set by hand; None where the layout does not allow it. held: as typed."""
    if form.by_hand is not None:
        node = form.by_hand.value
        return TextEdit(node.span.start, node.span.end, flow_map(held)) if held else _without(form, form.by_hand)
    if not held:
        return None
    value = form.entry.value
    if isinstance(value, Scalar):
        return _made_a_group(form, value, held)
    if not isinstance(value, Mapping):
        return None
    return _beside(form, value, held)


def size_key(name: str) -> str:
    """A size as a key in `{ }`."""
    return as_scalar(name, in_brackets=True)


def _made_a_group(form: ValueForm, value: Scalar, held: Sizes[str, str]) -> TextEdit | None:
    """A formula that stands alone, with sizes beside it: in braces, or, if a comma of its own forbids that, on lines."""
    start, end = extent(value)
    text = value.span.file.text
    gap = _ONE_BLANK.search(text[:start].rpartition("\n")[2])
    if gap is None or "\n" in text[start:end]:
        return None
    raw = text[start:end]
    if form.entry.in_brackets or value.quoted or as_scalar(value.text.strip(), True) == raw:
        return TextEdit(start, end, f"{{is: {raw}, by_hand: {flow_map(held)}}}")
    indent = _indent(form.entry.key) + "  "
    lines = f"\n{indent}is: {raw}\n{indent}by_hand: {flow_map(held)}"
    return TextEdit(start - 1 if gap[1] == " " else start, end, lines)


def _beside(form: ValueForm, group: Mapping, held: Sizes[str, str]) -> TextEdit | None:
    """Sizes beside the `is:` of a group."""
    key, value = next((key, value) for key, value in group.entries if key.text == "is")
    if not isinstance(value, Scalar):
        return None
    text, (start, _) = value.span.file.text, extent(key)
    alone = len(group.entries) == 1
    if group.in_braces:
        end = extent(value)[1]
        put = f"by_hand: {flow_map(held)}, " if alone else f", by_hand: {flow_map(held)}"
        return TextEdit(start, start, put) if alone else TextEdit(end, end, put)
    indent = _indent(key)
    if indent.strip():  # after the dash of a list, or another sign
        return None
    if alone:
        return TextEdit(start, start, f"by_hand: {flow_map(held)}\n{indent}")
    line_end = text.find("\n", extent(value)[1])
    line_end = len(text) if line_end < 0 else line_end
    return TextEdit(line_end, line_end, f"\n{indent}by_hand: {flow_map(held)}")


def _without(form: ValueForm, by_hand: Entry) -> TextEdit | None:
    """The edit that takes all sizes away again."""
    group, text = by_hand.parent, by_hand.key.span.file.text
    keys = [key for key, _ in group.entries]
    at = keys.index(by_hand.key)
    start, end = extent(by_hand.key)[0], by_hand.value.span.end
    is_value = next(value for key, value in group.entries if key.text == "is")
    if not isinstance(is_value, Scalar):
        return None
    if len(keys) == 2 and at == 1:
        return _alone_again(form, group, is_value)
    if at == 0:
        return TextEdit(start, extent(keys[1])[0], "")
    if group.in_braces:
        before = group.entries[at - 1][1]
        return TextEdit(extent(before)[1] if isinstance(before, Scalar) else before.span.end, end, "")
    line_start = text.rfind("\n", 0, start)
    rest = text[end:].partition("\n")[0]
    # What stands behind it on its line, or before it, would be lost or would join another line.
    return None if rest.strip() or text[line_start + 1 : start].strip() else TextEdit(line_start, end + len(rest), "")


def _alone_again(form: ValueForm, group: Mapping, formula: Scalar) -> TextEdit | None:
    text = group.span.file.text
    if group.in_braces:
        return TextEdit(group.span.start, group.span.end, raw_of(formula))
    key_end = text.find(":", extent(form.entry.key)[1]) + 1
    by_hand = group.entries[1][1]
    gap = text[key_end : group.span.start]
    comment = text[extent(formula)[1] : by_hand.span.start]
    if "#" in gap or "#" in comment:
        return None
    blanks = gap.partition("\n")[0]
    return TextEdit(key_end, by_hand.span.end, f"{blanks or ' '}{raw_of(formula)}")


def _indent(key: Scalar) -> str:
    text, start = key.span.file.text, extent(key)[0]
    return text[text.rfind("\n", 0, start) + 1 : start]
