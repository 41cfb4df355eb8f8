"""What a grading sheet that came back says, for people and for machines."""

from __future__ import annotations

from typing import Any

from stitchproof.grading.read_back import ReadBack


def read_text(read: ReadBack) -> str:
    """Each number that was changed, old and new."""
    if not read.changed:
        return "Nothing was changed in the sheet\n"
    named = [f"{each.name}[{each.size_name}]" for each in read.changed]
    wide = max(map(len, named))
    lines = ["Changed in the sheet"]
    for name, each in zip(named, read.changed, strict=True):
        lines.append(f"  {name:<{wide}}  {each.old} → {each.new} {each.unit}".rstrip() + f"  (cell {each.address})")
    return "\n".join(lines) + "\n"


def read_facts(read: ReadBack) -> list[dict[str, Any]]:
    """The same as plain data."""
    return [
        {
            "name": each.name,
            "size": each.size_name,
            "unit": each.unit,
            "old": each.old,
            "new": each.new,
            "cell": each.address,
        }
        for each in read.changed
    ]
