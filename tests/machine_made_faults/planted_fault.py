"""One change to one pattern.yaml, as a slip of the pen would make it."""

from __future__ import annotations

from dataclasses import dataclass

from stitchproof.source import SourceFile, Span


@dataclass(frozen=True)
class PlantedFault:
    """kind: the sort of slip. name: the named value, or key, that it concerns. size: the one size it touches, or None.

    edits: places and what is put there, in the order of the file, none over another.
    """

    pattern: str
    kind: str
    name: str
    edits: tuple[tuple[Span, str], ...]
    size: int | None = None

    @property
    def text(self) -> str:
        """The file with the fault in it."""
        text = self.file.text
        for span, put in reversed(self.edits):
            text = text[: span.start] + put + text[span.end :]
        return text

    @property
    def file(self) -> SourceFile:
        """The file without the fault."""
        return self.edits[0][0].file

    @property
    def line(self) -> int:
        """Where it stands, from 1."""
        return self.file.line_column(self.edits[0][0].start)[0]

    @property
    def in_words(self) -> str:
        """What was typed for what: `rib.rows: 15 → 14`."""
        changes = ", ".join(f"{_short(span.text)} → {_short(put) or 'nothing'}" for span, put in self.edits)
        return f"{self.pattern}:{self.line} {self.name}: {changes}"


def _short(text: str) -> str:
    return " ".join(text.split())
