"""What a photo's file is, by its first bytes: names lie."""

from __future__ import annotations

from stitchproof.diagnostics.report import Report
from stitchproof.reading.faults.photo_not_usable import photo_not_usable
from stitchproof.source import Span

LOOKED_AT = 400


def picture_or_reported(data: bytes | None, file: Span, report: Report) -> bytes | None:
    """The file where it is a JPEG, PNG or WebP picture; else None, and why it is not used is reported (unless it could not
    be read, which is reported already)."""
    if data is None or _is_picture(data):
        return data
    drawing = b"<svg" in data[:LOOKED_AT].lower()
    what = "is an SVG drawing, which may hold links and scripts" if drawing else "is not a JPEG, PNG or WebP picture"
    report.add(photo_not_usable(file, what if data else "is empty"))
    return None


def _is_picture(data: bytes) -> bool:
    """Signatures: JPEG (ITU-T T.81, SOI marker), PNG (ISO/IEC 15948, 5.2), WebP (its container specification)."""
    jpeg, png = data.startswith(b"\xff\xd8\xff"), data.startswith(b"\x89PNG\r\n\x1a\n")
    return jpeg or png or (data[:4] == b"RIFF" and data[8:12] == b"WEBP")
