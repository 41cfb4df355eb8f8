"""The putting in place alone, in processes that are killed in the middle of it: there hundreds of moments cost a few seconds.

Runs in a process of its own, which has no threads and may be forked. Usage: python -m tests.kills.deliveries FOLDER KILLS SEED
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
import time
from pathlib import Path
from random import Random

from stitchproof import delivery

FILES, LENGTH = 12, 4_000
LONGEST_WAIT = 0.004
"""Seconds until the kill: a delivery takes about a quarter of that, so that most moments lie inside one."""
AT_ONCE = 6


def files(version: int) -> dict[str, bytes]:
    """A build of a version: each file tells it, and ends with a mark."""
    return {f"{number}.txt": f"{version}\n".encode() + b"x" * LENGTH + b"end" for number in range(FILES)}


def version_of(folder: Path) -> int | None:
    """The version that a folder holds whole, None where it is not there. Raises AssertionError where it is not whole."""
    if not folder.exists():
        return None
    names = sorted(os.listdir(folder))
    assert names == sorted(files(0)), names
    contents = [(folder / name).read_bytes() for name in names]
    assert all(content.endswith(b"end") and len(content) == len(contents[0]) for content in contents), (
        "a file is cut off"
    )
    versions = {int(content.split(b"\n")[0]) for content in contents}
    assert len(versions) == 1, f"versions {versions} together"
    return versions.pop()


def deliver_until_killed(folder: Path, first: int) -> int:
    """A process that delivers one version after another. Its number."""
    child = os.fork()
    if child == 0:
        version = first
        while True:
            delivery.deliver(folder, files(version))
            version += 1
    return child


def kills(folder: Path, number: int, random: Random) -> tuple[int, int]:
    """Kill so many deliveries. How many left something beside, and how many folders were there."""
    left, there = 0, 0
    for turn in range(number):
        child = deliver_until_killed(folder, 1000 * (turn + 1))
        time.sleep(random.random() * LONGEST_WAIT)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        there += version_of(folder) is not None
        left += len(os.listdir(folder.parent)) > 1
        if turn % 10 == 9:  # the next build works, and clears up
            delivery.deliver(folder, files(turn))
            assert version_of(folder) == turn
            assert os.listdir(folder.parent) == [folder.name], os.listdir(folder.parent)
    return left, there


def at_once(folder: Path, turns: int) -> None:
    """Several first deliveries into the same folder at the same time: all end well, and one of them is there whole."""
    for _ in range(turns):
        for name in os.listdir(folder.parent):
            shutil.rmtree(folder.parent / name)
        children = []
        for version in range(AT_ONCE):
            child = os.fork()
            if child == 0:
                try:
                    delivery.deliver(folder, files(version))
                except BaseException:  # whatever it is, this process must not go on as its parent
                    os._exit(1)
                os._exit(0)
            children.append(child)
        assert [os.waitpid(child, 0)[1] for child in children] == [0] * AT_ONCE
        assert version_of(folder) in range(AT_ONCE)
        assert os.listdir(folder.parent) == [folder.name], os.listdir(folder.parent)


def main() -> None:
    """Both, in both ways of changing places."""
    root, number, seed = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
    exchanged = delivery._exchanged
    for way in ("in one step", "by two renames"):
        folder = root / way / "hat"
        folder.parent.mkdir(parents=True)
        delivery._exchanged = exchanged if way == "in one step" else lambda *_: False
        left, there = kills(folder, number, Random(f"{way} {seed}"))  # noqa: S311  # moments
        at_once(folder, 10)
        print(f"{way}: {number} kills, {there} with a build there, {left} with something left beside, all whole")


if __name__ == "__main__":
    main()
