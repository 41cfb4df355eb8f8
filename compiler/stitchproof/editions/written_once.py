"""Writes the objects of a PDF once, before the renderer does.

The renderer's writer asks every object for its bytes twice, once for the file and once for the file's identifier, and packs
streams anew each time. What it gets here is ready, and reads the same; a test holds it to that.
"""

from __future__ import annotations

import zlib
from typing import Any

LEVEL = 6
"""Of compression. The renderer's own is 9, which takes two and a half times as long for one byte in fifty."""


def write_once(pdf: Any) -> None:
    """Put bytes in place of what a finished PDF is made of."""
    _write(pdf)
    for each in pdf.objects:
        if getattr(each, "compress", False):
            packer = zlib.compressobj(LEVEL)
            each.stream = [packer.compress(b"\n".join(map(as_written, each.stream))) + packer.flush()]
            each.extra["Filter"] = "/FlateDecode"
            each.compress = False


def _write(pdf: Any) -> None:
    """Dictionaries and lists in the file's table of objects."""
    held = {type(pdf.catalog), type(pdf.pages["Kids"])}

    class Written(type(pdf.objects[0])):  # type: ignore[misc]  # the renderer's object without any data
        def __init__(self, number: int, data: bytes) -> None:
            super().__init__()
            self.number = number
            self.data = data

        data = b""

    for place, each in enumerate(pdf.objects):
        if type(each) in held and not each.generation:
            pdf.objects[place] = Written(each.number, as_written(each))


def as_written(item: Any) -> bytes:
    """An item as it stands in the file. Numbers of drawings are written by the renderer before they get here."""
    if isinstance(item, bytes):
        return item
    if isinstance(item, str):
        return item.encode("ascii")
    if isinstance(item, dict):
        return b"<<%b>>" % b"".join([b"/%b %b" % (as_written(key), as_written(value)) for key, value in item.items()])
    if isinstance(item, list):
        return b"[%b]" % b" ".join(map(as_written, item))
    if isinstance(item, float):
        whole = item.is_integer()
        return str(int(item)).encode() if whole else f"{item:f}".rstrip("0").encode()
    data: bytes | None = getattr(item, "data", None)
    return str(item).encode("ascii") if data is None else data
