"""No file of the project names a folder of the machine that it was written on."""

import re
import shutil
import subprocess
from collections.abc import Iterable
from pathlib import Path

from tests.architecture.code_reader import CLONE

# Put together here, so that this file passes its own test.
MACHINE_PATH = re.compile(r"(?<![\w.:/>*-])/" + r"(?:work|root|home)(?![\w-])")
NOT_OURS = frozenset({".git", ".venv", "__pycache__", ".hypothesis", ".mypy_cache", ".pytest_cache", ".ruff_cache"})
PRODUCTS = frozenset({"build", "dist"})


def project_files() -> list[Path]:
    """The files that git knows or would take; without git, all that lie in the clone except caches and products."""
    places = listed_by_git() or [
        place
        for place in (path.relative_to(CLONE) for path in CLONE.rglob("*"))
        if not NOT_OURS & set(place.parts) and place.parts[0] not in PRODUCTS
    ]
    return [CLONE / place for place in places if (CLONE / place).is_file()]


def listed_by_git() -> list[Path]:
    """What git lists in the clone, from the clone; nothing where there is no git or it will not answer."""
    git = shutil.which("git")
    if git is None or not (CLONE / ".git").exists():
        return []
    listing = subprocess.run(
        [git, "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=CLONE,
        capture_output=True,
        text=True,
        check=False,
    )
    return [Path(place) for place in listing.stdout.split("\0") if place]


def machine_paths(texts: Iterable[tuple[str, str]]) -> list[str]:
    """Each line of (place, text) that names such a folder, as `place:line: the line`."""
    return [
        f"{place}:{number}: {line.strip()}"
        for place, text in texts
        for number, line in enumerate(text.splitlines(), 1)
        if MACHINE_PATH.search(line)
    ]


def text_of(path: Path) -> str:
    """The text of a file, "" for one that is not text."""
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return ""


def test_no_file_names_a_folder_of_a_machine() -> None:
    files = project_files()
    assert CLONE / "pyproject.toml" in files
    assert machine_paths((path.relative_to(CLONE).as_posix(), text_of(path)) for path in files) == []


def test_the_reader_finds_such_a_line() -> None:
    home = "/" + "home"
    text = (
        f"fine\nopen('{home}/ann/hat.md')\nsee https://example.org{home}\nin the house/{home[1:]} corner\ncd {home}\n"
    )
    assert machine_paths([("a.md", text)]) == [f"a.md:2: open('{home}/ann/hat.md')", f"a.md:5: cd {home}"]
