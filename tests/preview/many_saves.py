"""A thousand saves one after the other, and what the preview holds on to: `python -m tests.preview.many_saves [SAVES]`.

In one process: the server, an open page that is told of each, and a designer who breaks and mends her pattern, cuts a file off in
the middle, takes the folder away and puts it back. Memory is what the process holds resident, looked at after a first tenth
and at the end.
"""

from __future__ import annotations

import random
import shutil
import sys
import tempfile
from pathlib import Path
from time import perf_counter

from msgspec import Struct

from stitchproof.preview.serve import Preview
from tests.preview.running import HAT, News, get, running, session_of, soon, workspace_with

PAGE_SIZE = 4096
MOST_GROWTH = 0.1
"""Of what is held after the first tenth: what the end may hold more. A thousand pages that were kept would be twice of it."""


class Held(Struct, frozen=True):
    """What became of it. before, after: megabytes resident. seconds: in all. told: news that the open page got."""

    saves: int
    before: float
    after: float
    seconds: float
    told: int


def resident() -> float:
    """Megabytes of this process. Linux alone tells."""
    return int(Path("/proc/self/statm").read_text().split()[1]) * PAGE_SIZE / 1_000_000


def many_saves(workspace: Path, saves: int, wait_for_each: int = 10) -> Held:
    """Save so often, as fast as a file is written; at each tenth save wait until it is shown. Raises AssertionError where the
    preview does not go on, or does not end with the page of the last save."""
    chance = random.Random(20_261_126)  # noqa: S311
    session = session_of(workspace)
    file = session.folder / "pattern.yaml"
    text = file.read_text("utf-8")
    start, before = perf_counter(), 0.0
    with running(session) as preview:
        page = News(preview)
        version, told = page.next()["shown"], 0
        for number in range(1, saves + 1):
            file.write_text(_save(text, number, chance), encoding="utf-8")
            if number % 97 == 0:
                _taken_away(session.folder)
            if number % wait_for_each == 0:
                file.write_text(text.replace("title: Cobblewick Hat", f"title: Hat {number}", 1), encoding="utf-8")
                version, told = page.until(version + 1)["shown"], told + 1
                assert soon(lambda n=number: f"<h1>Hat {n}</h1>" in get(preview, "page").body), number  # type: ignore[misc]
            if number == saves // 10:
                before = _settled(preview)
        file.write_text(text, encoding="utf-8")
        assert soon(lambda: session.shown is not None and "<h1>Cobblewick Hat</h1>" in get(preview, "page").body)
        after = _settled(preview)
        page.close()
    return Held(saves, before, after, perf_counter() - start, told)


def _save(text: str, number: int, chance: random.Random) -> str:
    """What a save may leave: a number changed, a name that is none, a file cut off, nothing at all."""
    match number % 6:
        case 0:
            return text[: chance.randrange(len(text))]
        case 1:
            return text.replace("stitches: 16", f"stitches: {chance.randrange(12, 24)}", 1)
        case 2:
            return text.replace("brim_sts + 1", f"brim_sts + {'x' * chance.randrange(1, 9)}", 1)
        case 3:
            return text.replace("ease:", f"ease{chance.randrange(9)}:", 1)
        case 4:
            return ""
        case _:
            return text


def _taken_away(folder: Path) -> None:
    elsewhere = folder.with_name("elsewhere")
    shutil.move(folder, elsewhere)
    shutil.move(elsewhere, folder)


def _settled(preview: Preview) -> float:
    """Megabytes once the preview is at rest."""
    get(preview, "page")
    get(preview, "")
    return resident()


def main() -> None:
    """Print what is held; ends with 1 where it grows."""
    saves = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as folder:
        held = many_saves(workspace_with(Path(folder), HAT), saves)
    print(
        f"{held.saves} saves in {held.seconds:.0f} s, {held.told} of them waited for; "
        f"{held.before:.0f} MB after the first tenth, {held.after:.0f} MB at the end"
    )
    sys.exit(held.after > held.before * (1 + MOST_GROWTH))


if __name__ == "__main__":
    main()
