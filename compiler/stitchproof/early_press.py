"""A press that makes ready while the rest of the command is being loaded: the renderer takes longer to load than the compiler.

The words of the command are only glanced at. Whoever reads them properly takes the press, or gives it up.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from itertools import pairwise
from pathlib import Path

from stitchproof.earlier_build import MADE_FROM
from stitchproof.editions.made_with import KeptPdfs
from stitchproof.editions.presses import MOST, Presses, presses_for
from stitchproof.workspace import workspace_at

_waiting: list[Presses] = []


def start_early(words: Sequence[str]) -> None:
    """Start one where a single pattern is to be built that was not built before. words: what stands behind `build`."""
    with suppress(OSError, ValueError):  # told by whoever does the same again, properly
        if _is_new(words):
            presses = Presses(presses_for(MOST))
            presses.warm_up()
            _waiting.append(presses)


def take_early(kept: KeptPdfs) -> Presses | None:
    """The presses that were started, if any; not where something is kept, which they were not started for."""
    if kept.by_key or not kept.made_with:
        give_up()
    if not _waiting:
        return None
    presses = _waiting.pop()
    presses.kept = kept
    return presses


def give_up() -> None:
    """End what nobody has taken."""
    while _waiting:
        _waiting.pop().close()


def _is_new(words: Sequence[str]) -> bool:
    pattern, *more = words or ("-",)
    if pattern.startswith("-") or (more and not more[0].startswith("-")):
        return False
    workspace = workspace_at(Path.cwd())
    folder = workspace.folder_of(pattern)
    if folder is None:
        return False
    products = workspace.products
    for word, value in pairwise((*more, "")):
        if word == "--to":
            products = Path(value)
        elif word.startswith("--to="):
            products = Path(word.removeprefix("--to="))
    return not (products / folder.name / MADE_FROM).exists()
