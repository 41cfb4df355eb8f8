"""Whole builds, as a designer starts them, killed or stopped at any moment; and two at the same time.

Usage: python -m tests.kills.builds [--kills N] [--seed SEED]. Prints how many left the old build and how many the new one.
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
from collections import Counter
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from random import Random

from stitchproof.starter import start_pattern

STOPS = (signal.SIGKILL, signal.SIGKILL, signal.SIGINT)
QUICK = ("--edition", "listing", "--edition", "makers_page")
ALL = ("--edition", "all_sizes", "--edition", "listing")
State = str


class Bench:
    """A workspace with a pattern in two versions of its text, and what a build of each comes to."""

    def __init__(self, root: Path, editions: Sequence[str] = QUICK) -> None:
        self.root, self.editions = root, editions
        self.source = root / "pattern_sources" / "first_hat"
        start_pattern(self.source)
        self.header = (self.source / "pattern.yaml").read_text("utf-8")
        self.times: list[float] = []
        self.states = {}
        for version in ("old", "new"):
            self.write(version)
            begun = time.perf_counter()
            self.built()
            self.times.append(time.perf_counter() - begun)
            self.states[self.state()] = version

    def write(self, version: str) -> None:
        """Make this the version of the source."""
        text = re.sub("^summary: .*$", f"summary: The {version} text.", self.header, count=1, flags=re.MULTILINE)
        (self.source / "pattern.yaml").write_text(text, encoding="utf-8")

    def started(self, name: str = "first_hat", before: Callable[[], None] | None = None) -> subprocess.Popen[str]:
        """A build at work, in a group of its own, so that a stop from the keyboard reaches all of it."""
        entries = [os.path.abspath(entry) for entry in sys.path if entry]
        code = f"import sys; sys.path[:0] = {entries!r}; sys.argv[1:] = {['build', name, *self.editions]!r}\n"
        return subprocess.Popen(
            [sys.executable, "-c", f"{code}from stitchproof.command_line import run\nrun()"],
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

    def stopped(self, how: int, moment: float) -> str:
        """Stop a build of the other version at a moment. What lies there then. Raises AssertionError for neither version."""
        before = self.states[self.state()]
        self.write("new" if before == "old" else "old")
        build = self.started()
        time.sleep(moment)
        os.killpg(build.pid, how)
        said = build.communicate(timeout=60)[1]
        # Stopped from the keyboard while Python still loads the compiler, it says so in its own way.
        assert "Traceback" not in said or (how == signal.SIGINT and "stitchproof/__init__.py" in said), said
        state = self.state()
        assert state in self.states, f"neither the old build nor the new one, after {moment:.3f} s"
        if how == signal.SIGINT:
            assert os.listdir(self.root / "build") == ["first_hat"], "something is left beside"
        return "as it was" if self.states[state] == before else "the new one"

    def next_one_works(self) -> None:
        """A build after all that ends well, and clears up."""
        self.write("old")
        self.built()
        assert self.states[self.state()] == "old"
        assert os.listdir(self.root / "build") == ["first_hat"]


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
    with tempfile.TemporaryDirectory() as held:
        bench = Bench(Path(held), ALL)
        told: Counter[str] = Counter()
        for number in range(asked.kills):
            told[bench.stopped(STOPS[number % len(STOPS)], random.random() * max(bench.times) * 1.2)] += 1
        bench.next_one_works()
    print(
        f"{asked.kills} builds stopped: {told['as it was']} left the earlier build, {told['the new one']} the new one; all whole"
    )


if __name__ == "__main__":
    main()
