"""What an earlier build was made from: if nothing has changed it stands as it is, and a PDF whose page is the same is kept.

A build keeps beside its files a list of what they were made from and what they were when it wrote them. A file that is not
what it was then, damaged or changed by hand, is made anew.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from hashlib import sha256
from pathlib import Path

import msgspec
from msgspec import Struct

from stitchproof.plain_file import leads_out, read_plain

MADE_FROM = ".made_from.json"
LARGE = 4_000_000
"""Bytes. A larger file counts by its size and the time of its last change."""


LARGEST = 500_000_000
"""Bytes of a file that a build made; a larger one is none of ours."""


class MadeFile(Struct, frozen=True):
    """digest: of its bytes. made_from: of the page that a PDF was laid out from; "" for what is quickly printed. places: by
    anchor, on which page of a PDF a line stands."""

    digest: str
    made_from: str = ""
    places: dict[str, int] = {}


class EarlierBuild(Struct, frozen=True):
    """inputs: digest of all that the build was made from; "" where it may not stand as it is. files: by name, in order."""

    inputs: str = ""
    files: dict[str, MadeFile] = {}


def read_earlier(folder: Path) -> EarlierBuild:
    """The list of a build folder; an empty one where there is none or it cannot be read."""
    try:
        return msgspec.json.decode(read_plain(folder / MADE_FROM, LARGEST, follow=False), type=EarlierBuild)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError):
        return EarlierBuild()


def list_of(
    files: Mapping[str, bytes], made_from: Mapping[str, str], places: Mapping[str, dict[str, int]], inputs: str
) -> bytes:
    """The list to put beside the files of a build. made_from, places: of its PDFs, by name."""
    made = {
        name: MadeFile(_digest(content), made_from.get(name, ""), places.get(name, {}))
        for name, content in files.items()
    }
    return msgspec.json.encode(EarlierBuild(inputs, made))


def standing(folder: Path, earlier: EarlierBuild, inputs: str) -> tuple[Path, ...]:
    """The files of an earlier build that was made from the same and is whole; none where it was not, or is not."""
    if not inputs or earlier.inputs != inputs or not earlier.files:
        return ()
    try:
        if set(os.listdir(folder)) != {MADE_FROM, *earlier.files}:
            return ()
        whole = all(_digest(_content(folder / name)) == made.digest for name, made in earlier.files.items())
    except OSError:
        return ()
    return tuple(folder / name for name in earlier.files) if whole else ()


def kept(folder: Path, earlier: EarlierBuild) -> dict[str, tuple[bytes, dict[str, int]]]:
    """Those PDFs of an earlier build that are still what they were, by what they were made from; and where their lines stand."""
    found = {}
    for name, made in earlier.files.items():
        if made.made_from and Path(name).name == name:
            try:
                content = _content(folder / name)
            except OSError:
                continue
            if _digest(content) == made.digest:
                found[made.made_from] = content, made.places
    return found


def inputs_of(folders: Iterable[Path], *facts: str) -> str:
    """A digest of all files below some folders, by name and content, and of what else a build was asked for. Hidden folders
    are left out, as nothing is read from them."""
    digest = sha256("\n".join(facts).encode())
    for folder in folders:
        digest.update(b"\n\n")
        if leads_out(folder, folder.parent):
            continue
        for path, below, files in os.walk(folder):
            below[:] = sorted(name for name in below if not name.startswith("."))
            for name in sorted(files):
                file = Path(path, name)
                digest.update(f"\n{file.relative_to(folder).as_posix()} ".encode(errors="surrogateescape"))
                digest.update(_state(file, folder).encode())
    return digest.hexdigest()


def _state(file: Path, folder: Path) -> str:
    try:
        if file.is_symlink() and leads_out(file, folder):
            return "leads out"
        facts = file.stat()
        if facts.st_size > LARGE:
            return f"{facts.st_size} {facts.st_mtime_ns}"
        return _digest(read_plain(file, LARGE)) if file.is_file() else "no file"
    except OSError:
        return "not readable"


def _content(file: Path) -> bytes:
    """Of a file that a build made: no link, and no larger than any build makes one."""
    return read_plain(file, LARGEST, follow=False)


def _digest(content: bytes) -> str:
    return sha256(content).hexdigest()
