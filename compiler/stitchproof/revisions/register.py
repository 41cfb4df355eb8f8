"""The register of a pattern: which revision went where and when, and who is told when it is corrected.

It stands in `register.yaml` in the pattern's folder, which nothing of a build reads: it names buyers and shops.
"""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.reading.folder import read_alone
from stitchproof.reading.shape import Shape
from stitchproof.reading.yaml_tree import read_yaml

FILE = "register.yaml"


class Copy(Struct, frozen=True):
    """One place a revision went to. tell: whom, and how."""

    revision: str
    date: str
    where: str
    tell: str


class Register(Struct, frozen=True):
    """All copies, in the order written; what could not be read is in findings. there: whether there is such a file at all."""

    copies: tuple[Copy, ...]
    findings: tuple[Diagnostic, ...]
    there: bool

    def with_revision(self, revisions: tuple[str, ...]) -> tuple[Copy, ...]:
        """The copies of some revisions."""
        return tuple(copy for copy in self.copies if copy.revision in revisions)


def read_register(folder: Path, shown: str) -> Register:
    """The register of the pattern in a folder. shown: the folder as the user sees it."""
    path = folder / FILE
    if not path.exists():
        return Register((), (), False)
    report = Report()
    file = read_alone(path, f"{shown}/{FILE}", report)
    tree = read_yaml(file, report) if file else None
    copies = []
    if file and tree:
        top = Shape(tree, report, "register.yaml", file.whole, "register")
        for item in top.listing("copies"):
            shape = Shape(item, report, "a copy", item.span, "copy")
            words = {
                key: shape.words(key, key in ("revision", "where")) for key in ("revision", "date", "where", "tell")
            }
            shape.close()
            copies.append(Copy(**{key: " ".join(each.text.split()) if each else "" for key, each in words.items()}))
        top.close()
    return Register(tuple(copy for copy in copies if copy.revision), report.findings(), True)
