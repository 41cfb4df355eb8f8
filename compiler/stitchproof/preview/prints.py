"""PDFs of an edition on demand, made beside the preview: each in processes of its own, with word of how far it is."""

from __future__ import annotations

import threading
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Executor, ThreadPoolExecutor
from enum import Enum
from pathlib import Path

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.editions.assets import Assets
from stitchproof.editions.edition import Beside
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.made_with import KeptPdfs, made_with
from stitchproof.editions.pdf import Pdf
from stitchproof.editions.presses import Asked, Presses, presses_for
from stitchproof.editions.put_out import Order, put_out
from stitchproof.editions.size_choice import SizeChoice
from stitchproof.editions.style_fault import StyleFault
from stitchproof.editions.styles import edition_names
from stitchproof.pipeline import record_file
from stitchproof.stages import CheckOutcome

MOST_JOBS = 6
"""Orders that are held with what was printed; the oldest one goes first."""
MOST_WAITING = 4
MOST_KEPT = 24
"""PDFs that are not made again as long as what they are made from is the same."""


class EditionOffered:
    """An edition that has pages for paper. each_size: a file for each size, unless one is chosen."""

    def __init__(self, name: str, title: str, each_size: bool) -> None:
        self.name, self.title, self.each_size = name, title, each_size


class Stage(Enum):
    """How far an order is."""

    WAITING = "waiting"
    AT_WORK = "at_work"
    DONE = "done"
    FAILED = "failed"


class Job:
    """An order of PDFs. number: its name in an address. size: the index of one size, None for all; size_words: as it is told.
    asked, made: files so far."""

    def __init__(self, number: int, edition: str, title: str, size: int | None, size_words: str) -> None:
        self.number, self.edition, self.title = number, edition, title
        self.size, self.size_words = size, size_words
        self.stage = Stage.WAITING
        self.asked = self.made = 0
        self.draft = False
        self.files: Mapping[str, bytes] = {}
        self.findings: tuple[Diagnostic, ...] = ()


def editions_offered(styles: Sequence[Path]) -> list[EditionOffered]:
    """Those that can be printed. One that cannot be read is left out; making it says why."""
    offered = []
    for name in edition_names(styles):
        try:
            folder = find_edition(name, styles)
        except StyleFault:
            continue
        if folder.paper and folder.holds == "pattern":
            offered.append(EditionOffered(name, folder.title, folder.each_size))
    return offered


class Prints:
    """Makes one order after the other. told: called from the thread at work whenever an order is further."""

    def __init__(self, styles: Sequence[Path], told: Callable[[], None]) -> None:
        self.styles, self.told = styles, told
        self.jobs: list[Job] = []
        self.version = 0
        self.ordered = 0
        self.kept: dict[str, tuple[bytes, dict[str, int]]] = {}
        self.thread: Executor = ThreadPoolExecutor(1, "prints")
        self.presses: Presses | None = None
        self.ended = threading.Event()

    def order(self, edition: EditionOffered, size: int | None, size_words: str, outcome: CheckOutcome) -> bool:
        """Put an order in the line; False where too many wait already. size: an index, None for all."""
        waiting = sum(job.stage in (Stage.WAITING, Stage.AT_WORK) for job in self.jobs)
        if waiting >= MOST_WAITING:
            return False
        self.ordered += 1
        job = Job(self.ordered, edition.name, edition.title, size, size_words)
        self.jobs.append(job)
        finished = [each for each in self.jobs if each.stage in (Stage.DONE, Stage.FAILED)]
        for each in finished[: max(0, len(self.jobs) - MOST_JOBS)]:
            self.jobs.remove(each)
        # The record is made here: what a check keeps is used by one thread at a time.
        self.thread.submit(self._print, job, outcome, record_file(outcome))
        self._tell()
        return True

    def file(self, number: str, name: str) -> bytes | None:
        """A file of an order; None where there is none."""
        for job in self.jobs:
            if str(job.number) == number:
                return job.files.get(name)
        return None

    def close(self) -> None:
        """Give up what is not printed; no process goes on."""
        self.ended.set()
        presses = self.presses
        if presses and presses.pool:
            presses.pool.stop()
        self.thread.shutdown(wait=True, cancel_futures=True)

    def _tell(self) -> None:
        self.version += 1
        self.told()

    def _print(self, job: Job, outcome: CheckOutcome, record: bytes) -> None:
        if self.ended.is_set():
            return
        job.stage = Stage.AT_WORK
        self._tell()
        try:
            self._put_out(job, outcome, record)
        except Exception:  # the last resort: told on the page in a sentence; the preview goes on
            job.stage = Stage.FAILED
        self._tell()

    def _put_out(self, job: Job, outcome: CheckOutcome, record: bytes) -> None:
        document, sized = outcome.document, outcome.sized
        if document is None or sized is None:
            job.stage = Stage.FAILED
            return
        sizes = SizeChoice(document.sizes.chosen if job.size is None else (job.size,))
        order = Order(sizes, (job.edition,))
        with _Elsewhere(job, self._tell, KeptPdfs(made_with(), self.kept)) as presses:
            self.presses = presses
            beside = Beside(record=record, presses=presses)
            out = put_out(document, sized, outcome.findings, order, self.styles, beside)
        self.presses = None
        job.draft = bool(outcome.errors)
        job.findings = out.findings
        job.files = {name: content for name, content in out.files.items() if name.endswith(".pdf")}
        job.stage = Stage.DONE if job.files else Stage.FAILED
        self.kept |= {pdf.made_from: (pdf.content, pdf.places) for pdf in out.pdfs if pdf.made_from}
        while len(self.kept) > MOST_KEPT:
            self.kept.pop(next(iter(self.kept)))


class _Elsewhere(Presses):
    """Presses that never print in this process, which has a page to serve, and tell how far they are."""

    def __init__(self, job: Job, told: Callable[[], None], kept: KeptPdfs) -> None:
        super().__init__(max(2, presses_for(2)), kept)
        self.job, self.told = job, told

    def ask(self, html: str, assets: Assets, record: bytes | None = b"") -> Asked:
        """Put a page in the line; it goes to a press at once."""
        asked = super().ask(html, assets, record)
        self.job.asked += 1
        if asked.kept is None:
            self.submit()
        self.told()
        return asked

    def fetch(self, asked: Asked) -> Pdf:
        """The PDF, counted."""
        pdf = super().fetch(asked)
        self.job.made += 1
        self.told()
        return pdf
