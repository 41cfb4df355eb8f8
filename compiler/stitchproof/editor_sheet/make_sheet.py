"""Makes the technical editor's worksheet of a pattern that went through all stages."""

from __future__ import annotations

from stitchproof.checks.checklist import Check, checklist
from stitchproof.editor_sheet.quantities import sheet_groups
from stitchproof.editor_sheet.sheet import EditorSheet, SheetCheck, SheetLine
from stitchproof.expansion.k_values import KsInUse
from stitchproof.record.line_labels import beginning
from stitchproof.record.reading import reads
from stitchproof.record.record import Record
from stitchproof.sizing.sized_pattern import SizedPattern


def make_sheet(record: Record, sized: SizedPattern, in_use: KsInUse) -> EditorSheet:
    """sized: with what only the worked rows can tell. in_use: the k at which values that take one are worked with."""
    lines = tuple(
        SheetLine(block, beginning(block), tuple(reads(record, block, size) or "" for size in record.sizes))
        for block in record.blocks
    )
    return EditorSheet(
        record, sheet_groups(record, sized, in_use), lines, tuple(_check(each, record) for each in checklist())
    )


def _check(check: Check, record: Record) -> SheetCheck:
    found = [each for each in record.findings if each.code in check.codes]
    open_codes = dict.fromkeys(each.code for each in found if not each.accepted)
    accepted = dict.fromkeys(each.code for each in found if each.accepted)
    parts = [f"found {', '.join(open_codes)}"] if open_codes else []
    parts += [f"accepted {', '.join(accepted)}"] if accepted else []
    if not check.codes:
        parts = ["for you"]
    elif not parts:
        parts = ["nothing found"]
    if check.codes and check.left_for == "person":
        parts.append("the rest is for you")
    return SheetCheck(check.id, check.group, check.catches, check.codes, "; ".join(parts), check.because)
