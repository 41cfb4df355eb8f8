"""The packaged fonts, and a font configuration that knows no others, so that every machine sets the same pages.

Source Sans Pro and Source Serif Pro, under the SIL Open Font License 1.1.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from html import escape  # that of xml.sax would load all that speaks to the network
from importlib.util import find_spec
from pathlib import Path

from stitchproof.editions.own_folder import own_folder

FONT_PACKAGES = ("font_source_sans_pro", "font_source_serif_pro")
LEFT_OUT = ("*.ttf", "*-Black*", "*-ExtraLight*", "*-Light*")
"""Each face is packaged twice, and more weights than a page needs; which file a weight comes from must be certain."""


def font_folders() -> tuple[Path, ...]:
    """The folders of the font files. Raises FileNotFoundError if a font package is not installed."""
    folders = []
    for package in FONT_PACKAGES:
        spec = find_spec(package)
        if spec is None or spec.origin is None:
            raise FileNotFoundError(f"the font package {package} is not installed")
        folders.append(Path(spec.origin).parent / "files")
    return tuple(folders)


@contextmanager
def only_packaged_fonts() -> Iterator[None]:
    """While it lasts, the renderer's font library sees the packaged fonts and nothing else of the machine's."""
    before = os.environ.get("FONTCONFIG_FILE")
    with own_folder() as folder:
        configuration = folder / "fonts.conf"
        configuration.write_text(_configuration(folder), encoding="utf-8")
        os.environ["FONTCONFIG_FILE"] = str(configuration)
        try:
            yield
        finally:
            if before is None:
                del os.environ["FONTCONFIG_FILE"]
            else:
                os.environ["FONTCONFIG_FILE"] = before


def _configuration(cache: Path) -> str:
    folders = "".join(f"<dir>{escape(str(folder), False)}</dir>" for folder in font_folders())
    rejected = "".join(f"<glob>{pattern}</glob>" for pattern in LEFT_OUT)
    return (
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>'
        f"{folders}<cachedir>{escape(str(cache / 'cache'), False)}</cachedir>"
        f"<selectfont><rejectfont>{rejected}</rejectfont></selectfont></fontconfig>\n"
    )
