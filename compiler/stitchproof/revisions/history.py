"""The revision history in pattern.yaml: whether a revision is told there, and a line for it if not."""

from __future__ import annotations

import json
from pathlib import Path

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.reading.folder import read_pattern
from stitchproof.reading.yaml_tree import Listing, Mapping, YamlNode, read_yaml
from stitchproof.revisions.errata import ErrataSheet
from stitchproof.source import SourceFile
from stitchproof.source_edits.edit_source import EditedSource
from stitchproof.source_edits.raw_text import RawText, TextEdit
from stitchproof.source_edits.write_files import write_files
from stitchproof.workspace import HEADER

MOST_ROWS_NAMED = 4


class Entered(Struct, frozen=True):
    """What became of the line. line: as it is or would be written. written: whether it stands there now. findings: what stood
    in the way."""

    line: str
    written: bool
    findings: tuple[Diagnostic, ...] = ()


def history_line(sheet: ErrataSheet) -> str:
    """The entry for a sheet, as YAML in one line."""
    return "{" + ", ".join(f"{key}: {text}" for key, text in _fields(sheet).items()) + "}"


def _fields(sheet: ErrataSheet) -> dict[str, str]:
    rows = [f"{each.part}, {each.label} ({each.sizes})" for each in sheet.rows if each.is_row]
    rest = len(sheet.rows) + len(sheet.measures) - len(rows)
    more = len(rows) - MOST_ROWS_NAMED
    told = [
        *rows[:MOST_ROWS_NAMED],
        *([f"{more} more {'row' if more == 1 else 'rows'}"] if more > 0 else []),
    ]
    told += [f"{rest} other {'place' if rest == 1 else 'places'}"] if rest else []
    changes = f"Corrected: {'; '.join(told)}." if told else "Nothing that a maker would notice."
    fields = {"revision": _scalar(sheet.corrected)}
    return {
        **fields,
        **({"date": _scalar(sheet.date)} if sheet.date else {}),
        "changes": json.dumps(changes, ensure_ascii=False),
    }


def _scalar(text: str) -> str:
    """A word of YAML: plain where it is a plain word or date, else in quotes."""
    plain = text.replace("-", "").replace(".", "").isalnum() and text.isascii()
    return text if plain else json.dumps(text, ensure_ascii=False)


def enter(folder: Path, shown: str, sheet: ErrataSheet) -> Entered:
    """Write the line behind the others in pattern.yaml, unless the revision is told there already."""
    line = history_line(sheet)
    report = Report()
    source = read_pattern(folder, shown, report)
    if source is None:
        return Entered(line, False, report.findings())
    told = [entry.revision.text.strip() for entry in source.header.revisions]
    if sheet.corrected in told:
        return Entered(line, False)
    before = RawText.of((folder / HEADER).read_bytes())
    edit = _edit(source.header_file, line)
    after = before.with_edits([edit])
    edited = EditedSource({HEADER: before}, {HEADER: after}, source, ())
    findings = write_files(folder, edited, {HEADER: f"{shown}/{HEADER}"})
    return Entered(line, not findings, findings)


def _edit(file: SourceFile, line: str) -> TextEdit:
    """The line behind the last one, begun and written as that is; a list of its own where there is none."""
    text, tree = file.text, read_yaml(file, Report())
    held = tree.get("revisions") if isinstance(tree, Mapping) else None
    if not isinstance(held, Listing) or not held.items:
        gap = "" if text.endswith("\n") else "\n"
        return TextEdit(len(text), len(text), f"{gap}\nrevisions:\n  - {line}\n")
    last = held.items[-1].span
    stop = _end_of(held.items[-1])
    before = text[: last.start].rpartition("\n")[2]
    if before.strip() != "-":  # in one line with the others
        return TextEdit(last.end, last.end, f", {line}")
    end = text.find("\n", stop)
    return (
        TextEdit(end, end, f"\n{before}{line}") if end >= 0 else TextEdit(len(text), len(text), f"\n{before}{line}\n")
    )


def _end_of(node: YamlNode) -> int:
    """Where the last word of a value ends: a group without brackets reaches to what follows it, comments included."""
    inside = [value for _, value in node.entries] if isinstance(node, Mapping) else []
    inside = list(node.items) if isinstance(node, Listing) else inside
    in_brackets = node.span.text.startswith(("{", "["))
    return node.span.end if in_brackets or not inside else _end_of(inside[-1])
