"""Follows the folders of a pattern: says when to look again, also where a folder is taken away and put back."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncGenerator, Sequence
from pathlib import Path

from watchfiles import Change, awatch

STEP = 5
"""Milliseconds. Writes that follow one another as closely as that are one save: an editor empties a file and fills it again."""
MOST_WAITED = 100
"""Milliseconds. After so long there is a look even if the writing goes on."""
LOOK_ROUND = 500
"""Milliseconds between looks whether a folder has come, gone, or been put in the place of another."""
Folders = tuple[tuple[Path, int], ...]


def _is_save(_: Change, path: str) -> bool:
    """Not what editors put beside a file while they write it."""
    name = Path(path).name
    return not name.startswith(".") and not name.endswith("~")


async def saves(folders: Sequence[Path], step: int = STEP, look_round: int = LOOK_ROUND) -> AsyncGenerator[None, None]:
    """One for each save in some folders, and for each folder that comes or goes. Goes on until it is no longer asked."""
    there = _there(folders)
    while True:
        async for _ in _within(there, folders, step, look_round):
            yield
        there = _there(folders)
        yield


async def _within(there: Folders, folders: Sequence[Path], step: int, look_round: int) -> AsyncGenerator[None, None]:
    """The saves as long as the same folders are there. One more look once the watch stands: what was saved before is in it."""
    if not there:
        while not _there(folders):
            await asyncio.sleep(look_round / 1000)
        return
    first_look = True
    try:
        async for changes in awatch(
            *(path for path, _ in there),
            watch_filter=_is_save,
            debounce=MOST_WAITED,
            step=step,
            rust_timeout=look_round,
            yield_on_timeout=True,
        ):
            if _there(folders) != there:
                return
            if changes or first_look:
                first_look = False
                yield
    except (OSError, RuntimeError):  # a folder went while the watch was set up
        await asyncio.sleep(look_round / 1000)


def _there(folders: Sequence[Path]) -> Folders:
    """The folders that are there, each with what tells it from another of the same name."""
    found = []
    for folder in folders:
        try:
            if folder.is_dir():
                found.append((folder, folder.stat().st_ino))
        except OSError:
            continue
    return tuple(found)
