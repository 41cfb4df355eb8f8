"""Photos made ready for a page: turned upright, scaled, and freed of all that a camera writes beside the picture."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import TYPE_CHECKING

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.editions.assets import Asset
from stitchproof.editions.faults.photo_not_printed import photo_not_printed
from stitchproof.expansion.document import Block, Document, Figure, blocks_of, blocks_within

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_DOTS = 60_000_000
LONGEST_SIDE = 1400
"""Dots: 216 per inch over the whole width of the printed page, and enough for a screen (common practice, no source)."""
QUALITY = 82
FORMATS = ("JPEG", "PNG", "WEBP")


class Photos(Struct, frozen=True):
    """By name, and what was wrong with those that are not there."""

    by_name: dict[str, Asset]
    findings: tuple[Diagnostic, ...]


def photos_of(document: Document, kept: dict[bytes, Asset | str] | None = None) -> Photos:
    """Every photo that a document shows, made ready once. kept: by content, those that were ready before, or why they were not;
    afterwards those of this document."""
    ready: dict[str, Asset] = {}
    now: dict[bytes, Asset | str] = {}
    findings: list[Diagnostic] = []
    for figure in (each for block in blocks_of(document) for each in figures_in(block)):
        if figure.name in ready:
            continue
        photo = now[figure.content] = (kept or now).get(figure.content) or prepared(figure.content)
        if isinstance(photo, Asset):
            ready[figure.name] = photo
        else:
            findings.append(photo_not_printed(figure.file.span, photo))
    if kept is not None:
        kept.clear()
        kept.update(now)
    return Photos(ready, tuple(dict.fromkeys(findings)))


def figures_in(block: Block) -> list[Figure]:
    """The photos of a block and of the blocks inside it."""
    return [each for each in blocks_within(block) if isinstance(each, Figure)]


def prepared(content: bytes) -> Asset | str:
    """A photo as JPEG in plain colours, nothing but the picture in it; or why there is none."""
    from PIL import Image as Pictures
    from PIL import ImageOps  # only where there is a photo

    try:
        with _whole_files_only(), warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Pictures.open(BytesIO(content), formats=FORMATS) as opened:
                if opened.width * opened.height > MOST_DOTS:
                    return f"is larger than {MOST_DOTS // 1_000_000} million dots ({opened.width} × {opened.height})"
                opened.draft("RGB", (2 * LONGEST_SIDE, 2 * LONGEST_SIDE))
                upright = ImageOps.exif_transpose(opened)
                picture = _in_plain_colours(upright)
    except (OSError, ValueError, SyntaxError, EOFError, OverflowError, MemoryError, Pictures.DecompressionBombError):
        return "is damaged, or cut off"
    picture.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Pictures.Resampling.LANCZOS)
    clean = Pictures.new("RGB", picture.size)
    clean.paste(picture)
    out = BytesIO()
    clean.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=False)
    return Asset(out.getvalue(), "image/jpeg")


@contextmanager
def _whole_files_only() -> Iterator[None]:
    """While it lasts, a picture that is cut off is a fault; the renderer of pages, once loaded, has them pass with grey."""
    from PIL import ImageFile

    before, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def _in_plain_colours(picture: Image) -> Image:
    """In sRGB, by the profile that the picture brings along where it is a usable one; what is clear becomes white."""
    from PIL import Image as Pictures
    from PIL import ImageCms

    profile = picture.info.get("icc_profile")
    if picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info:
        seen = picture.convert("RGBA")
        white = Pictures.new("RGBA", seen.size, "white")
        white.alpha_composite(seen)
        return white.convert("RGB")
    if profile and picture.mode in ("RGB", "CMYK"):
        try:
            own = ImageCms.ImageCmsProfile(BytesIO(profile))
            plain = ImageCms.profileToProfile(picture, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError):
            return picture.convert("RGB")
        return plain if plain is not None else picture.convert("RGB")
    return picture.convert("RGB")
