"""Where each line is printed, file by file: `pages.json` beside the record. It hangs on fonts and the renderer as well."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
from msgspec import Struct

from stitchproof.record.record import Record

PAGES_FILE = "pages.json"
FORMAT = "stitchproof-pages"
VERSION = 1
MOST_BYTES = 16_000_000


class PrintedFile(Struct, frozen=True):
    """A PDF. sizes: the names of those it has. places: by anchor, the page on which something stands."""

    name: str
    sizes: tuple[str, ...]
    places: dict[str, int]


class FilePages(Struct, frozen=True):
    """The pages of a PDF. sizes: the names of those it has. parts: by the key of a section or piece, where it begins. lines: by
    the identity of a row."""

    sizes: tuple[str, ...]
    parts: dict[str, int]
    lines: dict[str, int]


class Pages(Struct, frozen=True):
    """The pages of a build, by the name of each PDF."""

    format: str
    version: int
    files: dict[str, FilePages]

    def of(self, identity: str, sizes: tuple[str, ...]) -> dict[str, int]:
        """By file, the page of a line, or that on which its part begins; only files that have one of the sizes."""
        part = identity.partition("/")[0]
        found = {}
        for name, file in self.files.items():
            page = file.lines.get(identity) or file.parts.get(part)
            if page and set(sizes) & set(file.sizes):
                found[name] = page
        return found


NO_PAGES = Pages(FORMAT, VERSION, {})


def pages_as_bytes(record: Record, files: tuple[PrintedFile, ...], anchor: Callable[[str], str]) -> bytes:
    """The file. anchor: what the id of a line is on paper."""
    rows = [block.identity for block in record.blocks if block.kind == "row"]
    parts = {block.identity.partition("/")[0]: "piece" if block.piece else "part" for block in record.blocks}
    told = {
        file.name: FilePages(
            file.sizes,
            {part: page for part, kind in parts.items() if (page := file.places.get(anchor(f"{kind} {part}")))},
            {row: page for row in rows if (page := file.places.get(anchor(row)))},
        )
        for file in files
    }
    return msgspec.json.format(msgspec.json.encode(Pages(FORMAT, VERSION, told)), indent=1) + b"\n"


def pages_from_bytes(content: bytes) -> Pages:
    """The pages of a build; none where they cannot be read, as a comparison does without them."""
    try:
        pages = msgspec.json.decode(content[:MOST_BYTES], type=Pages)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return NO_PAGES
    return pages if (pages.format, pages.version) == (FORMAT, VERSION) else NO_PAGES
