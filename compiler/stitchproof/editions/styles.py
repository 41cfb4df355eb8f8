"""Finds an edition's folders: the designer's own over the shipped one, file by file, and the shared parts under both."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from pathlib import Path

from stitchproof.editions.style_fault import StyleFault
from stitchproof.plain_file import NoPlainFile, leads_out, read_plain

DESCRIPTION = "edition.yaml"
SHARED_PARTS = "parts"
"""Folder among the styles with what every edition may use: tokens, style sheets, template parts, words."""
_NOT_BUILT = re.compile(r"^holds: (comparison|errata|preview)\b", re.MULTILINE)
LARGEST_FILE = 1_000_000
"""Bytes. A template or style sheet is a few thousand."""


def shipped_styles() -> Path:
    """The styles that come with the product: in the package of an installed one, at the root of the source tree."""
    package = Path(__file__).resolve().parent.parent
    installed = package / "styles"
    return installed if installed.is_dir() else package.parent.parent / "styles"


def layers_of(name: str, style_folders: Sequence[Path]) -> tuple[Path, ...]:
    """The folders of an edition of that name, the nearest first; the shipped one is last.

    Raises StyleFault if none of them describes an edition.
    """
    if not name.isidentifier():
        raise StyleFault(name, "the name of an edition is made of letters, digits and underscores")
    places = _within(style_folders, name)
    if any((place / DESCRIPTION).exists() for place in places):
        return tuple(place for place in places if place.is_dir())
    known = [each for each in edition_names(style_folders) if _is_built(_within(style_folders, each))]
    raise StyleFault(name, f"no edition of this name; there are {', '.join(known)}" if known else "no editions at all")


def _is_built(places: Sequence[Path]) -> bool:
    """Whether `build` makes it: what other commands print is described in the same form."""
    described = (_text(place / DESCRIPTION) for place in places if (place / DESCRIPTION).is_file())
    return not any(_NOT_BUILT.search(text) for text in described)


def parts_of(style_folders: Sequence[Path]) -> tuple[Path, ...]:
    """The folders of shared parts, the nearest first. Raises StyleFault for one that leads out."""
    return _within(style_folders, SHARED_PARTS)


def _within(style_folders: Sequence[Path], name: str) -> tuple[Path, ...]:
    """The folders of a name. Those of a pattern or a workspace are their own: a link that leads out is a fault."""
    places = tuple(place / name for place in style_folders)
    for place in places:
        if leads_out(place, place.parent.parent):
            raise StyleFault(str(place), "is a link that leads out; put the folder itself here")
    return (*places, shipped_styles() / name)


def edition_names(style_folders: Sequence[Path]) -> list[str]:
    """Every edition there is, by name."""
    places = [*(place for place in style_folders if not leads_out(place, place.parent)), shipped_styles()]
    return sorted({found.parent.name for place in places for found in place.glob(f"*/{DESCRIPTION}")})


def read_style_file(layers: Iterable[Path], name: str) -> str:
    """The text of a file of an edition: from the first of its folders that has it.

    Raises StyleFault if it is not there, leads out of the folder, is no plain file, too large, or no UTF-8 text.
    """
    places = tuple(layers)
    for text in _texts(places, name):
        return text
    raise StyleFault(str(places[0] / name), "no such file")


def read_every(layers: Iterable[Path], name: str) -> list[tuple[Path, str]]:
    """The texts of a file in every folder that has it, the nearest first, each with its path. Raises StyleFault."""
    return [(layer / name, text) for layer in layers for text in _texts((layer,), name)]


def _texts(layers: Sequence[Path], name: str) -> Iterable[str]:
    outside = StyleFault(f"{layers[0]}/{name}", "a style's files lie in its own folder")
    if Path(name).name != name:
        raise outside
    for layer in layers:
        path = layer / name
        try:
            if path.resolve().parent != layer.resolve():
                raise outside
            if path.exists():
                yield _text(path)
        except (OSError, ValueError) as error:
            raise StyleFault(str(path), f"cannot be read ({type(error).__name__})") from error


def _text(path: Path) -> str:
    try:
        content = read_plain(path, LARGEST_FILE)
    except NoPlainFile:
        raise StyleFault(str(path), "is not a plain file") from None
    if len(content) > LARGEST_FILE:
        raise StyleFault(str(path), "is larger than 1 MB")
    return content.decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
