"""A file as it lies on the disk, edited at places of its text as it is read: byte order mark and line ends stay."""

from __future__ import annotations

import re
from collections.abc import Iterable

from msgspec import Struct

MARK = b"\xef\xbb\xbf"
_LINE_END = re.compile("\r\n|\r|\n")


class TextEdit(Struct, frozen=True):
    """A stretch of a text as it is read, offsets from 0, end exclusive, and what is to stand there."""

    start: int
    end: int
    text: str


class RawText(Struct, frozen=True):
    """The content of a file in UTF-8. raw: as on the disk, without the mark at its beginning."""

    raw: str
    marked: bool

    @classmethod
    def of(cls, content: bytes) -> RawText:
        """Raises UnicodeDecodeError."""
        marked = content.startswith(MARK)
        return cls(content.removeprefix(MARK).decode("utf-8"), marked)

    @property
    def text(self) -> str:
        """As it is read, lines ended by \\n."""
        return _LINE_END.sub("\n", self.raw)

    @property
    def content(self) -> bytes:
        return (MARK if self.marked else b"") + self.raw.encode("utf-8")

    def with_edits(self, edits: Iterable[TextEdit]) -> RawText:
        """The file with the edits made; they do not overlap. A new line ends as the first line of the file does."""
        first = _LINE_END.search(self.raw)
        line_end = first[0] if first else "\n"
        # Offsets of \r\n count once as read and twice on the disk.
        pairs = [found.start() - before for before, found in enumerate(re.finditer("\r\n", self.raw))]
        raw, begun = self.raw, len(self.raw) + 1
        for edit in sorted(edits, key=lambda each: (each.start, each.end), reverse=True):
            start, end = (at + sum(pair < at for pair in pairs) for at in (edit.start, edit.end))
            if end > begun:
                raise ValueError("two edits of one place")
            raw, begun = raw[:start] + edit.text.replace("\n", line_end) + raw[end:], start
        return RawText(raw, self.marked)
