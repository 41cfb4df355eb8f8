"""Finds and reads an edition's folder: what it prints, in which order, with which templates and style sheets."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from stat import S_ISREG

import yaml
from msgspec import Struct

from stitchproof.editions.style_fault import StyleFault

DESCRIPTION = "edition.yaml"
SHARED_PARTS = "parts"
"""Folder among the shipped styles with the template parts that every edition may include."""
LARGEST_FILE = 1_000_000
"""Bytes. A template or style sheet is a few thousand."""
LINE = 72
"""Figures. What a line of the shipped printed page holds, for a style that does not say."""
SHORTEST_LINE = 12


class Leaf(Struct, frozen=True):
    """One way an edition is put out: its template and its style sheet, file names inside the edition's folder.

    line: how many figures the narrowest line of a row holds, as the style sheet sets it.
    """

    template: str
    style: str
    line: int


class EditionFolder(Struct, frozen=True):
    """An edition as its folder describes it.

    parts: keys of sections, and "pieces", "finishing", "back" for all of a kind, in the order they print.
    screen: for the HTML file; paper: for the PDF. At least one is there.
    """

    name: str
    path: Path
    title: str
    parts: tuple[str, ...]
    screen: Leaf | None
    paper: Leaf | None


def shipped_styles() -> Path:
    """The styles that come with the product: in the package of an installed one, at the root of the source tree."""
    package = Path(__file__).resolve().parent.parent
    installed = package / "styles"
    return installed if installed.is_dir() else package.parent.parent / "styles"


def find_edition(name: str, style_folders: Sequence[Path]) -> EditionFolder:
    """The edition of that name from the first folder that has it; the shipped styles are looked through last.

    Raises StyleFault if there is none, if its edition.yaml cannot be read, or if a file it names is missing.
    """
    places = [*style_folders, shipped_styles()]
    if not name.isidentifier():
        raise StyleFault(name, "the name of an edition is made of letters, digits and underscores")
    for place in places:
        if (place / name / DESCRIPTION).exists():
            return _read(name, place / name)
    known = sorted({found.parent.name for place in places for found in place.glob(f"*/{DESCRIPTION}")})
    raise StyleFault(name, f"no edition of this name; there are {', '.join(known)}" if known else "no editions at all")


def read_style_file(folder: Path, name: str) -> str:
    """The text of a file of an edition, from its folder or else from the shipped parts.

    Raises StyleFault if it is not there, leads out of the folder, is no plain file, too large, or no UTF-8 text.
    """
    outside = StyleFault(f"{folder}/{name}", "a style's files lie in its own folder")
    if Path(name).name != name:
        raise outside
    for place in (folder, shipped_styles() / SHARED_PARTS):
        path = place / name
        try:
            if path.resolve().parent != place.resolve():
                raise outside
            if path.exists():
                return _text(path)
        except (OSError, ValueError) as error:
            raise StyleFault(str(path), f"cannot be read ({type(error).__name__})") from error
    raise StyleFault(str(folder / name), "no such file")


def _text(path: Path) -> str:
    facts = path.stat()
    if not S_ISREG(facts.st_mode):
        raise StyleFault(str(path), "is not a plain file")
    if facts.st_size > LARGEST_FILE:
        raise StyleFault(str(path), "is larger than 1 MB")
    return path.read_text(encoding="utf-8")


def _read(name: str, path: Path) -> EditionFolder:
    described = path / DESCRIPTION
    try:
        facts = yaml.safe_load(read_style_file(path, DESCRIPTION))
    except (yaml.YAMLError, RecursionError) as error:
        raise StyleFault(str(described), "is not readable as YAML") from error
    if not isinstance(facts, dict):
        raise StyleFault(str(described), "does not say title, parts and templates")
    parts = facts.get("parts", [])
    if not isinstance(parts, list) or not all(isinstance(part, str) for part in parts):
        raise StyleFault(str(described), "parts is a list of section names")
    screen, paper = (_leaf(path, facts.get(medium), medium) for medium in ("screen", "print"))
    if screen is None and paper is None:
        raise StyleFault(str(described), "names neither a screen nor a print template")
    return EditionFolder(name, path, str(facts.get("title", name)), tuple(parts), screen, paper)


def _leaf(path: Path, facts: object, medium: str) -> Leaf | None:
    if facts is None:
        return None
    described = str(path / DESCRIPTION)
    if not isinstance(facts, dict) or not all(isinstance(facts.get(key), str) for key in ("template", "style")):
        raise StyleFault(described, f"{medium} names a template and a style")
    line = facts.get("line", LINE)
    if type(line) is not int or line < SHORTEST_LINE:
        raise StyleFault(described, f"{medium}: line is a whole number of figures, {SHORTEST_LINE} or more")
    leaf = Leaf(facts["template"], facts["style"], line)
    for name in (leaf.template, leaf.style):
        read_style_file(path, name)
    return leaf
