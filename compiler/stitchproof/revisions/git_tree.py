"""A pattern as it was at a commit: its files, read out of git's objects. Nothing of git is run: no checkout, hook or filter.

Only plain files are taken. What a file of the repository could make git do (attributes, links, submodules) is left where it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from msgspec import Struct

from stitchproof.revisions.sound_repository import NotSound, bounded_memory, is_plain_name, sound_repository

if TYPE_CHECKING:
    from dulwich.objects import ObjectID, ShaFile
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
    from dulwich.objects import Tree
    from dulwich.objectspec import parse_commit
    from dulwich.repo import Repo

    base, back = _base_and_steps(name)
    none = NotThere(f"{folder.name} lies in no git repository", "name a folder or a record.json instead")
    try:
        root = sound_repository(_nearest(folder))
        if root is None:
            raise none
        repo = Repo(str(root))
    except NotSound as fault:
        mend = "have git check the commit out, and name that folder instead"
        raise NotThere(f"git's data of {folder.name} {fault}", mend) from None
    except NotThere:
        raise
    except Exception:  # whatever a damaged or odd repository makes of it, there is none to read
        raise none from None
    with repo, bounded_memory():
        try:
            if not is_plain_name(base):
                raise ValueError(base)
            commit = parse_commit(repo, base)
            for steps in back:
                for _ in range(steps):
                    commit = parse_commit(repo, commit.parents[0])
        except Exception:  # whatever a damaged or odd repository makes of it, there is no such commit to read
            raise NotThere(f"git knows no commit, tag or branch `{name}` here", "see `git log` and `git tag`") from None
        try:
            tree = _tree_at(repo, commit.tree, folder.resolve().relative_to(root.resolve()).parts)
            if not isinstance(tree, Tree):
                raise NotThere(
                    f"{folder.name} was not there at `{name}`", "name a commit in which the pattern was there"
                )
            return _bounded(_files(repo, tree, PurePosixPath(), DEEPEST))
        except NotThere:
            raise
        except Exception as error:
            raise NotThere(
                f"`{name}` cannot be read: {type(error).__name__}", "the repository may be damaged"
            ) from None


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


def _files(repo: Repo, tree: ShaFile, under: PurePosixPath, depth: int) -> Iterator[PastFile]:
    from dulwich.objects import Tree

    for entry in tree.iteritems() if isinstance(tree, Tree) else ():
        name = entry.path.decode("utf-8", "replace")
        if name in (".", "..", ".git") or any(sign in name for sign in "/\\\0"):
            continue
        if entry.mode in PLAIN_FILES:
            yield PastFile(under / name, repo[entry.sha].as_raw_string())
        elif entry.mode == FOLDER and depth:
            yield from _files(repo, repo[entry.sha], under / name, depth - 1)


def _bounded(files: Iterator[PastFile]) -> tuple[PastFile, ...]:
    taken: list[PastFile] = []
    size = 0
    for file in files:
        taken.append(file)
        size += len(file.content)
        if len(taken) > MOST_FILES or size > MOST_BYTES:
            raise NotThere(
                f"more than {MOST_FILES} files or {MOST_BYTES // 1_000_000} MB lie there", "name the pattern alone"
            )
    return tuple(taken)
