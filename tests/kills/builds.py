"""Whole builds, as a designer starts them, killed or stopped at any moment; and two at the same time.

Usage: python -m tests.kills.builds [--kills N] [--seed SEED]. Prints how many left the old build and how many the new one; then
the same of three patterns in one command, with a fifth as many kills.
"""

from __future__ import annotations

import argparse
import os
import re
import resource
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from random import Random

from stitchproof.starter import start_pattern

STILL_STARTING = ("stitchproof/__init__.py", "init_import_site")
STOPS = (signal.SIGKILL, signal.SIGKILL, signal.SIGINT)
QUICK = ("--edition", "listing", "--edition", "makers_page")
ALL = ("--edition", "all_sizes", "--edition", "listing")
State = str


class Bench:
    """A workspace with patterns in two versions of their text, and what a build of each comes to."""

    def __init__(self, root: Path, editions: Sequence[str] = QUICK, names: Sequence[str] = ("first_hat",)) -> None:
        self.root, self.editions, self.names = root, editions, names
        self.sources = [root / "pattern_sources" / name for name in names]
        for source in self.sources:
            start_pattern(source)
        self.header = (self.sources[0] / "pattern.yaml").read_text("utf-8")
        self.times: list[float] = []
        self.states = {}
        for version in ("old", "new"):
            self.write(version)
            begun = time.perf_counter()
            self.built()
            self.times.append(time.perf_counter() - begun)
            self.states.update(dict.fromkeys(self.all_states(), version))

    def write(self, version: str) -> None:
        """Make this the version of the sources."""
        text = re.sub("^summary: .*$", f"summary: The {version} text.", self.header, count=1, flags=re.MULTILINE)
        for source in self.sources:
            (source / "pattern.yaml").write_text(text, encoding="utf-8")

    def started(self, name: str = "", before: Callable[[], None] | None = None) -> subprocess.Popen[str]:
        """A build at work, in a group of its own, so that a stop from the keyboard reaches all of it."""
        names = [name] if name else self.names
        entries = [os.path.abspath(entry) for entry in sys.path if entry]
        code = f"import sys; sys.path[:0] = {entries!r}; sys.argv[1:] = {['build', *names, *self.editions]!r}\n"
        return subprocess.Popen(
            [sys.executable, "-c", f"{code}from stitchproof.__main__ import start\nstart()"],
            cwd=self.root,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            start_new_session=True,
            preexec_fn=before,
        )

    def built(self) -> None:
        """A build that ends well."""
        build = self.started()
        said = build.communicate(timeout=120)[1]
        assert build.returncode == 0, said

    def state(self, name: str = "first_hat") -> State:
        """All files of a build folder in one word, "" where it is not there."""
        folder = self.root / "build" / name
        if not folder.exists():
            return ""
        files = sorted(folder.iterdir())
        return sha256(b"".join(file.name.encode() + b"\0" + file.read_bytes() for file in files)).hexdigest()

    def all_states(self) -> list[State]:
        """Of each pattern."""
        return [self.state(name) for name in self.names]

    def stopped(self, how: int, moment: float) -> int:
        """Stop a build of the other version at a moment. How many are there in the new one then. Raises AssertionError for
        neither version."""
        held = [self.states[state] for state in self.all_states()]
        version = "new" if held[0] == "old" else "old"
        self.write(version)
        build = self.started()
        time.sleep(moment)
        os.killpg(build.pid, how)
        said = build.communicate(timeout=60)[1]
        # Stopped from the keyboard while Python starts, or still loads the compiler, it says so in its own way.
        in_its_own_way = how == signal.SIGINT and any(each in said for each in STILL_STARTING)
        assert "Traceback" not in said or in_its_own_way, said
        states = self.all_states()
        assert set(states) <= set(self.states), f"neither the old build nor the new one, after {moment:.3f} s"
        if how == signal.SIGINT:
            assert sorted(os.listdir(self.root / "build")) == sorted(self.names), "something is left beside"
        return [self.states[state] for state in states].count(version)

    def next_one_works(self) -> None:
        """A build after all that ends well, and clears up."""
        self.write("old")
        self.built()
        assert [self.states[state] for state in self.all_states()] == ["old"] * len(self.names)
        assert sorted(os.listdir(self.root / "build")) == sorted(self.names)


def small_files() -> None:
    """What a full disk does to a process: no file grows over 20,000 bytes."""
    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))


def main() -> None:
    """The kills that are asked for."""
    parser = argparse.ArgumentParser(prog="python -m tests.kills.builds")
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    random = Random(asked.seed)  # noqa: S311  # moments
    for names, kills in ((("first_hat",), asked.kills), (("ash", "beech", "cedar"), asked.kills // 5)):
        with tempfile.TemporaryDirectory() as held:
            bench = Bench(Path(held), ALL, names)
            new = 0
            for number in range(kills):
                new += bench.stopped(STOPS[number % len(STOPS)], random.random() * max(bench.times) * 1.2)
            bench.next_one_works()
        old = kills * len(names) - new
        print(
            f"{kills} builds of {len(names)} stopped: {old} folders with the earlier build, {new} with the new one; all whole"
        )


if __name__ == "__main__":
    main()
