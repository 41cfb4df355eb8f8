"""Finds the modules of the compiler where they lie. A command loads four hundred, and Python would look for each among its own,
in every form that a module may have, and at the folder again."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib.machinery import ModuleSpec, SourceFileLoader
from importlib.util import cache_from_source, spec_from_file_location
from types import ModuleType

PACKAGE = __package__
_ANY = "any_module"


def find_own_modules() -> None:
    """Have them found so from now on. What lies elsewhere, or is no single file, Python finds as ever."""
    if not any(isinstance(finder, OwnModules) for finder in sys.meta_path):
        sys.meta_path.insert(0, OwnModules())


class OwnModules:
    """What Python asks for modules, the first of those that it asks."""

    def __init__(self) -> None:
        self.folders: dict[str, tuple[frozenset[str], str, str]] = {}

    def find_spec(
        self, name: str, path: Sequence[str] | None = None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        """Where a module lies, if it is one of ours. path: the folders of the package that it is in."""
        room, _, module = name.rpartition(".")
        if not path or not (room == PACKAGE or room.startswith(f"{PACKAGE}.")):
            return None
        files, before, after = self.folders.get(path[0]) or self._folder(path[0])
        if f"{module}.py" not in files or module in files:
            return None
        place = f"{path[0]}{os.sep}{module}.py"
        spec = spec_from_file_location(
            name, place, loader=SourceFileLoader(name, place), submodule_search_locations=None
        )
        if spec:
            spec.cached = f"{before}{module}{after}"
        return spec

    def _folder(self, folder: str) -> tuple[frozenset[str], str, str]:
        """The files of a folder, and what stands before and behind the name of a module where Python keeps it translated."""
        before, _, after = cache_from_source(os.path.join(folder, f"{_ANY}.py")).rpartition(_ANY)
        try:
            files = frozenset(os.listdir(folder))
        except OSError:  # inside an archive, where Python finds them by other means
            files = frozenset()
        self.folders[folder] = held = files, before, after
        return held
