"""Where things are: the folder that holds pattern_sources/, the patterns in it, and where the products go."""

from __future__ import annotations

import os
from pathlib import Path

from msgspec import Struct

SOURCES = "pattern_sources"
PRODUCTS = "build"
STYLES = "styles"
HEADER = "pattern.yaml"


class Workspace(Struct, frozen=True):
    """root: the nearest folder upward that holds pattern_sources/, else the current folder."""

    root: Path

    @property
    def products(self) -> Path:
        return self.root / PRODUCTS

    def folder_of(self, pattern: str | os.PathLike[str]) -> Path | None:
        """The folder of a pattern, given as a path or by its name under pattern_sources/; None where there is none.

        A link inside the workspace that leads out of it is none.
        """
        for folder in (Path(pattern), self.root / SOURCES / pattern):
            if _is_folder(folder):
                found = folder.resolve()
                leads_out = Path(os.path.abspath(folder)).is_relative_to(self.root) and not found.is_relative_to(
                    self.root
                )
                return None if leads_out else found
        return None

    def shown(self, path: Path) -> str:
        """A path as the user sees it: relative to the workspace where it lies inside, with forward slashes."""
        try:
            return path.resolve().relative_to(self.root).as_posix()
        except ValueError:
            return Path(os.path.relpath(path, self.root)).as_posix() if not path.is_absolute() else path.as_posix()

    def pattern_names(self) -> tuple[str, ...]:
        """The patterns under pattern_sources/, by name."""
        folder = self.root / SOURCES
        if not folder.is_dir():
            return ()
        return tuple(sorted(each.name for each in folder.iterdir() if (each / HEADER).is_file()))

    def style_folders(self, pattern: Path) -> tuple[Path, ...]:
        """Where styles are looked for before the shipped ones: with the pattern, then in the workspace."""
        return (pattern / STYLES, self.root / STYLES)


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except (OSError, ValueError):  # a name that no file system takes
        return False


def workspace_at(folder: Path) -> Workspace:
    """The workspace that a folder lies in."""
    here = folder.resolve()
    for each in (here, *here.parents):
        if (each / SOURCES).is_dir():
            return Workspace(each)
    return Workspace(here)
