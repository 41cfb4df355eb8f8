"""A pattern as it was at a commit: its files, read out of git's objects. Nothing of git is run: no checkout, hook or filter.

Only plain files are taken. What a file of the repository could make git do (attributes, links, submodules) is left where it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from msgspec import Struct

from stitchproof.revisions.sound_repository import NotSound, bounded_memory, is_plain_name, sound_repository

if TYPE_CHECKING:
    from dulwich.objects import Commit, ObjectID, ShaFile, Tree
    from dulwich.repo import Repo

MOST_FILES = 500
MOST_BYTES = 100_000_000
DEEPEST = 4
MOST_STEPS = 10_000
STEP = re.compile(r"(~|\^)(\d*)")
AT_THE_END = re.compile(r"(?:~\d*|\^)+$")
PLAIN_FILES = (0o100644, 0o100755)
FOLDER = 0o040000


class NotThere(LookupError):
    """What was asked for is not in the repository; the message says what. mend: what would do."""

    def __init__(self, why: str, mend: str) -> None:
        super().__init__(why)
        self.mend = mend


class PastFile(Struct, frozen=True):
    """A file of the past: its path under the folder asked for, and its content."""

    path: PurePosixPath
    content: bytes


def files_at(folder: Path, name: str) -> tuple[PastFile, ...]:
    """The files that a folder held at a commit, tag or branch; the folder itself need not be there any more. Raises NotThere."""
    from stitchproof.revisions.bounded_objects import TooLarge

    root, repo = _repository(folder)
    fault: NotThere | None = None
    try:
        with bounded_memory():
            return _bounded(_files(repo, _folder_at(repo, root, folder, name), PurePosixPath(), DEEPEST))
    except NotThere as found:
        fault = found.with_traceback(None)
    except TooLarge:
        fault = _too_large(name)
    except Exception as error:  # whatever a damaged or odd repository makes of it
        fault = NotThere(f"`{name}` cannot be read: {type(error).__name__}", "the repository may be damaged")
    finally:
        with suppress(BufferError):  # the library's own view of a pack, after a fault in it
            repo.close()
    raise fault


def _repository(folder: Path) -> tuple[Path, Repo]:
    """The repository that a folder lies in, its objects bounded, and its root. Raises NotThere."""
    from dulwich.repo import Repo

    from stitchproof.revisions.bounded_objects import BoundedObjects

    none = NotThere(f"{folder.name} lies in no git repository", "name a folder or a record.json instead")
    try:
        root = sound_repository(_nearest(folder))
        if root is None:
            raise none
        repo = Repo(str(root))
        repo.object_store.close()
        repo.object_store = BoundedObjects(repo.object_store.path)
        repo.object_store.object_format = repo.object_format
    except NotSound as fault:
        mend = "have git check the commit out, and name that folder instead"
        raise NotThere(f"git's data of {folder.name} {fault}", mend) from None
    except NotThere:
        raise
    except Exception:  # whatever a damaged or odd repository makes of it, there is none to read
        raise none from None
    return root, repo


def _folder_at(repo: Repo, root: Path, folder: Path, name: str) -> Tree:
    """The tree of a folder at a commit. Raises NotThere."""
    from dulwich.objects import Tree

    tree = _tree_at(repo, _commit(repo, name).tree, folder.resolve().relative_to(root.resolve()).parts)
    if not isinstance(tree, Tree):
        raise NotThere(f"{folder.name} was not there at `{name}`", "name a commit in which the pattern was there")
    return tree


def _commit(repo: Repo, name: str) -> Commit:
    """The commit of a name. Raises NotThere, and TooLarge."""
    from dulwich.objectspec import parse_commit

    from stitchproof.revisions.bounded_objects import TooLarge

    base, back = _base_and_steps(name)
    try:
        if not is_plain_name(base):
            raise ValueError(base)
        commit = parse_commit(repo, base)
        for steps in back:
            for _ in range(steps):
                commit = parse_commit(repo, commit.parents[0])
    except TooLarge:
        raise
    except Exception:  # whatever a damaged or odd repository makes of it, there is no such commit to read
        raise NotThere(f"git knows no commit, tag or branch `{name}` here", "see `git log` and `git tag`") from None
    return commit


def _too_large(name: str) -> NotThere:
    return NotThere(f"`{name}` holds something that unpacks to more than is read", "check it out, and name that folder")


def _base_and_steps(name: str) -> tuple[str, list[int]]:
    """ "HEAD~2^" as "HEAD" and how often to go to the (first) parent; as in gitrevisions, without the rarer forms."""
    end = AT_THE_END.search(name)
    if end is None:
        return name, []
    steps = [int(count or 1) if sign == "~" else 1 for sign, count in STEP.findall(end[0])]
    return name[: end.start()] or "HEAD", [min(each, MOST_STEPS) for each in steps[:MOST_STEPS]]


def _nearest(folder: Path) -> Path:
    """The folder, or the nearest one above it that is still there."""
    return next(each for each in (folder, *folder.parents) if each.is_dir())


def _tree_at(repo: Repo, root: ObjectID, parts: tuple[str, ...]) -> ShaFile | None:
    """The object at a path below a tree, None where there is none."""
    from dulwich.objects import Tree

    here = repo[root]
    for part in parts:
        entries = {entry.path: entry for entry in here.iteritems()} if isinstance(here, Tree) else {}
        entry = entries.get(part.encode())
        if entry is None or entry.mode != FOLDER or entry.sha is None:
            return None
        here = repo[entry.sha]
    return here


def _files(repo: Repo, tree: ShaFile, under: PurePosixPath, depth: int) -> Iterator[PastFile | None]:
    """All files below a tree; None for each folder, as a folder can hold the same one a thousand times."""
    from dulwich.objects import Tree

    for entry in tree.iteritems() if isinstance(tree, Tree) else ():
        name = entry.path.decode("utf-8", "replace")
        if name in (".", "..", ".git") or any(sign in name for sign in "/\\\0"):
            continue
        if entry.mode in PLAIN_FILES:
            yield PastFile(under / name, repo[entry.sha].as_raw_string())
        elif entry.mode == FOLDER and depth:
            yield None
            yield from _files(repo, repo[entry.sha], under / name, depth - 1)


def _bounded(files: Iterator[PastFile | None]) -> tuple[PastFile, ...]:
    taken: list[PastFile] = []
    size = 0
    for number, file in enumerate(files, start=1):
        if file:
            taken.append(file)
            size += len(file.content)
        if number > MOST_FILES or size > MOST_BYTES:
            raise NotThere(
                f"more than {MOST_FILES} files and folders or {MOST_BYTES // 1_000_000} MB lie there",
                "name the pattern alone",
            )
    return tuple(taken)
