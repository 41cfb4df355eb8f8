"""Puts each slip in alone, works the pattern, and tells what became of it."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Severity
from stitchproof.diagnostics.report import Report
from stitchproof.rows.row_tree import EndOf, RowTree
from stitchproof.rows.written_pattern import ReadStep
from stitchproof.simulation.worked_pattern import WorkedPattern
from stitchproof.stages import Run
from tests.row_faults.make_slips import slips_of
from tests.row_faults.row_slip import TYPED, RowSlip

ROOT = Path(__file__).parents[2]
DEMOS = ("cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top", "thornhollow_waistcoat")
ROWS_AWAY = 2
REWORDED = ("item", "stitch", "row called")
"""Kinds of slips that may leave the pattern as it was. A number, a label, a row or a place is wrong even if no count shows it."""
_ENDS_OR_BEGINS = re.compile(r"\bturn\b|\bjoin\b|\bfasten off\b|^\W*ch \d", re.IGNORECASE)
"""Words of which the same holds, where they are left out."""


class Fate(Enum):
    """What became of a slip."""

    FOUND = "found"
    LATER = "found later"
    """More than two rows after it."""
    RIGHT = "still right"
    """Another way to write the same pattern, with the same stitches in every piece and size; or one that nothing contradicts."""
    MISSED = "missed"
    FAILED = "failed"
    """The compiler itself failed."""


@dataclass(frozen=True)
class Trial:
    """A slip and what was found."""

    slip: RowSlip
    fate: Fate
    findings: tuple[Diagnostic, ...]

    @property
    def rows(self) -> tuple[Diagnostic, ...]:
        """The reports about worked rows."""
        return tuple(found for found in self.findings if found.page.code in row_codes())

    @property
    def doubled(self) -> bool:
        """More than one report about rows for the one root."""
        return len(self.rows) > 1

    def wrong_sizes(self, names: tuple[str, ...]) -> bool:
        """A report about rows in another size than the one with the slip."""
        size = self.slip.size
        return size is not None and any(set(found.sizes) - {names[size]} for found in self.rows)


def row_codes() -> frozenset[str]:
    """The codes of the rules about worked rows."""
    from stitchproof.checks.told_before import row_codes

    return row_codes()


class Bench:
    """A demo, and a copy of it that slips are put into."""

    def __init__(self, demo: str, within: Path) -> None:
        self.demo = demo
        self.folder = within / "pattern_sources" / demo
        shutil.copytree(ROOT / "pattern_sources" / demo, self.folder)
        self.header = (self.folder / "pattern.yaml").read_text("utf-8")
        run = self._run()
        assert run.written is not None and run.worked is not None
        self.written, self.census = run.written, _census(run.worked)
        self.known = {found.cause[0] + found.headline for found in run.report.findings()}
        self.steps = [read.step for read in run.written.readings if not _only_checks(read)]
        self.kept: object = None
        """What must live as long as the copy: a folder that is taken away with it."""

    @property
    def sizes(self) -> tuple[str, ...]:
        return self.written.document.sizes.names

    def slips(self) -> list[RowSlip]:
        return slips_of(self.demo, self.written)

    def try_out(self, slip: RowSlip) -> Trial:
        """The slip put in alone."""
        name = Path(slip.span.file.path).name
        (self.folder / name).write_text(slip.text, encoding="utf-8")
        (self.folder / "pattern.yaml").write_text(slip.header(self.header), encoding="utf-8")
        run = Run(self.folder, f"pattern_sources/{self.demo}", Report())
        try:
            run.all_stages({})
        except Exception:  # our own mistake, which the product reports as such
            return Trial(slip, Fate.FAILED, ())
        finally:
            (self.folder / name).write_text(slip.span.file.text, encoding="utf-8")
            (self.folder / "pattern.yaml").write_text(self.header, encoding="utf-8")
        findings = tuple(found for found in run.report.findings() if self._is_new(found))
        return Trial(slip, self._fate(slip, findings, run.worked), findings)

    def _is_new(self, found: Diagnostic) -> bool:
        """Whether a report is about the slip, and not about the way in which it is put in: a number typed in pattern.yaml."""
        of_the_way = TYPED in found.headline and (
            found.severity is not Severity.ERROR or found.primary.span.file.path.endswith("pattern.yaml")
        )
        return found.cause[0] + found.headline not in self.known and not of_the_way

    def _run(self) -> Run:
        run = Run(self.folder, f"pattern_sources/{self.demo}", Report())
        run.all_stages({})
        return run

    def _fate(self, slip: RowSlip, findings: tuple[Diagnostic, ...], worked: WorkedPattern | None) -> Fate:
        if any(self._near(slip, found) for found in findings):
            return Fate.FOUND
        if findings:
            return Fate.LATER
        same = worked is not None and _census(worked) == self.census
        return Fate.RIGHT if same and not slip.states and not _is_of_words(slip) else Fate.MISSED

    def _near(self, slip: RowSlip, found: Diagnostic) -> bool:
        """Whether a report stands in the row of the slip or in one of the two after it."""
        span = found.primary.span
        if Path(span.file.path).name == "pattern.yaml":
            return True
        here, there = self._step_at(slip.span.file.path, slip.line), self._step_at(span.file.path, _line(span))
        return here - 1 <= there <= here + ROWS_AWAY

    def _step_at(self, shown: str, line: int) -> int:
        """Steps that begin before a line, in the order of the text; the same place counts once.

        Lines that only check the count of a row told before them ("Check at end of V Row 8") are no rows.
        """
        places = dict.fromkeys(
            (step.place.span.file.path, step.place.span.file.line_column(step.place.span.start)[0])
            for step in self.steps
        )
        return sum(place <= (shown, line) for place in places)


def _is_of_words(slip: RowSlip) -> bool:
    """Whether a slip is one of the words, which no count shows, and yet leaves a pattern that is not right."""
    left_out = slip.kind == "item dropped" and _ENDS_OR_BEGINS.search(slip.span.text) is not None
    return left_out or not slip.kind.startswith(REWORDED)


def _only_checks(read: ReadStep) -> bool:
    trees = [part.reading for part in read.parts]
    return any(isinstance(item, EndOf) for tree in trees if isinstance(tree, RowTree) for item in tree.items)


def _line(span: object) -> int:
    return span.file.line_column(span.start)[0]  # type: ignore[attr-defined, no-any-return]


def _census(worked: WorkedPattern) -> tuple[object, ...]:
    return tuple((piece.name, piece.census) for piece in worked.pieces)


def shares(trials: list[Trial]) -> tuple[float, float]:
    """Of the stated counts that were made wrong, and of the other slips that change the pattern: the share found."""
    stated = [trial for trial in trials if trial.slip.states]
    others = [trial for trial in trials if not trial.slip.states and trial.fate is not Fate.RIGHT]
    return _share(stated), _share(others)


def _share(trials: list[Trial]) -> float:
    fates = Counter(trial.fate for trial in trials)
    return fates[Fate.FOUND] / len(trials) if trials else 1.0
