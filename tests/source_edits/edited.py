"""Demos and small patterns, edited in memory, for the tests of edits in place."""

from __future__ import annotations

from pathlib import Path

from stitchproof.diagnostics.report import Report
from stitchproof.reading.folder import read_pattern
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.source_edits.asked import SetValue, read_set_value
from stitchproof.source_edits.edit_source import Asked, EditedSource, edited_source, known_names

HEADER = "pattern.yaml"


def sized_of(folder: Path) -> SizedPattern:
    """A pattern folder, worked out."""
    report = Report()
    source = read_pattern(folder, folder.name, report)
    assert source is not None, report.findings()
    report.names = source.header.sizes.names
    return size_pattern(source, report)


def pattern_with(folder: Path, header: str | bytes, **files: str) -> SizedPattern:
    """A pattern of one text, its pattern.yaml given, worked out."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / HEADER).write_bytes(header if isinstance(header, bytes) else header.encode())
    (folder / "text.md").write_text("## Piece {piece}\n", encoding="utf-8")
    for name, content in files.items():
        (folder / name.replace("_csv", ".csv")).write_bytes(content.encode())
    return sized_of(folder)


def asked_for(sized: SizedPattern, written: str) -> SetValue:
    """`hat_sts[M]=72 sts`."""
    file = SourceFile("asked", written)
    at = written.index("=")
    found = read_set_value(Span(file, 0, at), Span(file, at + 1, len(written)), sized, known_names(sized))
    assert isinstance(found, SetValue), found
    return found


def edit(folder: Path, sized: SizedPattern, *written: str | Asked) -> EditedSource:
    return edited_source(folder, sized, [asked_for(sized, each) if isinstance(each, str) else each for each in written])
