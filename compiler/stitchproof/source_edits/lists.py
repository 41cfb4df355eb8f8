"""An item put into a list of a YAML file, or taken out; what stands around it keeps its layout."""

from __future__ import annotations

import re

from stitchproof.reading.yaml_tree import Listing, Scalar, YamlNode
from stitchproof.source_edits.pattern_tree import is_bracketed
from stitchproof.source_edits.raw_text import TextEdit
from stitchproof.source_edits.scalars import as_scalar, extent

_DASH = re.compile(r"[ \t]*- +")


def item_put_in(listing: Listing, at: int, text: str) -> TextEdit | None:
    """The edit that puts a text in before the item `at` (or after the last). None where the layout leaves no place."""
    items = listing.items
    if not items:
        return None
    if is_bracketed(listing):
        new = as_scalar(text, in_brackets=True)
        place = _extent(items[at - 1])[1] if at else _extent(items[0])[0]
        return TextEdit(place, place, f", {new}" if at else f"{new}, ")
    new, whole = as_scalar(text, in_brackets=False), listing.span.file.text
    beside = items[at - 1] if at else items[0]
    start, end = _extent(beside)
    line_start = whole.rfind("\n", 0, start) + 1
    dash = whole[line_start:start]
    line_end = whole.find("\n", end)
    line_end = len(whole) if line_end < 0 else line_end
    if not _DASH.fullmatch(dash):
        return None
    if at:
        return TextEdit(line_end, line_end, f"\n{dash}{new}")
    return TextEdit(line_start, line_start, f"{dash}{new}\n")


def item_taken_out(listing: Listing, at: int) -> TextEdit | None:
    """The edit that takes an item out. None where it is the only one, or a comment would go with it."""
    items, whole = listing.items, listing.span.file.text
    if len(items) < 2:
        return None
    start, end = _extent(items[at])
    if is_bracketed(listing):
        region = (_extent(items[at - 1])[1], end) if at else (start, _extent(items[1])[0])
    else:
        line_start = whole.rfind("\n", 0, start) + 1
        line_end = whole.find("\n", end)
        line_end = len(whole) if line_end < 0 else line_end
        if not _DASH.fullmatch(whole[line_start:start]):
            return None
        region = (line_start - 1, line_end) if at else (line_start, line_end + 1)
    removed = whole[region[0] : region[1]].replace(whole[start:end], "", 1)
    return None if "#" in removed else TextEdit(*region, "")


def _extent(node: YamlNode) -> tuple[int, int]:
    return extent(node) if isinstance(node, Scalar) else (node.span.start, node.span.end)
