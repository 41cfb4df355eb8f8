"""Prints the PDFs of a build: one in this process, more of them side by side in processes of their own."""

from __future__ import annotations

import gc
import os
from contextlib import ExitStack, suppress
from types import TracebackType
from typing import TYPE_CHECKING

from stitchproof.editions.assets import Assets
from stitchproof.editions.fonts import only_packaged_fonts
from stitchproof.editions.made_with import NOTHING_KEPT, KeptPdfs
from stitchproof.editions.own_folder import own_folder
from stitchproof.editions.pdf import Pdf, lay_out, make_ready, write_pdf
from stitchproof.processes import (
    HandedLater,
    Workers,
    can_fork,
    end_with_the_build,
    is_a_worker,
    own_context,
    processors,
)

if TYPE_CHECKING:
    from concurrent.futures import Future
    from multiprocessing.synchronize import Semaphore

MOST = 4
"""Presses at once. Each takes 100 MB, and a pattern has few files."""


class PrintingFailed(RuntimeError):
    """A mistake of our own in another process, in one line; a traceback does not come through."""


class Asked:
    """A PDF that is asked for. record: to be attached; None while it is not known. kept: where an earlier build has it."""

    def __init__(self, html: str, assets: Assets, record: bytes | None, earlier: KeptPdfs) -> None:
        self.html, self.assets, self.record, self.earlier = html, assets, record, earlier
        self.kept = earlier.by_key.get(self.key) if earlier.by_key else None
        self.future: Future[Pdf] | None = None

    @property
    def key(self) -> str:
        """What it is made from."""
        return self.earlier.key(self.html, self.assets, self.record or b"")


class Presses:
    """Prints PDFs in the order in which they are asked for; while one is laid out, the next one's HTML can be made.

    To be used in a `with`: what is not printed when it ends is given up, and nothing goes on running. at_once: how many
    PDFs at the same time; 1 starts no process. kept: those of an earlier build, which are not made again.
    """

    def __init__(self, at_once: int, kept: KeptPdfs = NOTHING_KEPT) -> None:
        self.at_once, self.kept = at_once, kept
        self.line: list[Asked] = []
        self.pool: Workers | None = None
        self.at_work: Semaphore | None = None
        self.record: HandedLater | None = None
        self.beside = ExitStack()

    def __enter__(self) -> Presses:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Give up what is not printed, and end all processes."""
        if self.pool:
            self.pool.stop()
        self.beside.close()

    def warm_up(self) -> None:
        """Let one press load the renderer while the pattern is still being checked; where it can be forked, which is quick."""
        if self.at_once > 1 and can_fork():
            self.start()

    @property
    def can_wait(self) -> bool:
        """Whether pages may be asked for before their record is known: it is no part of what they could be kept by."""
        return self.pool is not None and not self.kept.by_key

    def tell_record(self, record: bytes) -> None:
        """The record that pages have been asked for without."""
        waiting = [each for each in self.line if each.record is None]
        for each in waiting:
            each.record = record
        if waiting and self.record:
            self.record.put(record)

    def ask(self, html: str, assets: Assets, record: bytes | None = b"") -> Asked:
        """Put a page in the line. Its PDF is laid out now, or when it is fetched and no other one is asked for. record: to be
        attached where there is one; None where it is told later, if pages `can_wait`."""
        asked = Asked(html, assets, record, self.kept)
        if self.at_once == 1 or asked.kept is not None:
            return asked
        self.line.append(asked)
        if self.pool or len(self.line) > 1:
            self.submit()
        return asked

    def fetch(self, asked: Asked) -> Pdf:
        """The PDF. Raises PrintingFailed for a mistake of ours in another process, OSError where it cannot be written."""
        if asked.kept is not None:
            content, places = asked.kept
            return Pdf(content, (), places)
        return asked.future.result() if asked.future else write_pdf(asked.html, asked.assets, asked.record or b"")

    def submit(self) -> None:
        """Hand out what is in the line, one press going to work for each page."""
        if self.pool is None:
            self.start()
        for number, each in enumerate(self.line):
            if each.future is None and self.pool and self.at_work:
                if number:
                    self.at_work.release()
                each.future = self.pool.submit(_printed, each.html, dict(each.assets), each.record)

    def start(self) -> None:
        """Start the processes. They are forked where that is safe."""
        context = own_context()
        self.beside.enter_context(only_packaged_fonts())
        folder = self.beside.enter_context(own_folder())
        self.record = HandedLater(context, folder)
        self.at_work = context.Semaphore(1)
        self.pool = Workers(self.at_once, context, _ready, self.at_work, self.record)


def presses_for(pdfs: int) -> int:
    """How many of so many PDFs to print at the same time: one in a process that is itself one of a pool."""
    return 1 if is_a_worker() else max(1, min(pdfs, processors(), MOST))


_left_over: list[object] = []
"""What the last page of this press was made of. To take it apart takes a tenth of the time that it took to make; the PDF does
not wait for that, and after the last page nobody does."""


_record: HandedLater | None = None


def _ready(at_work: Semaphore, record: HandedLater) -> None:
    """Begin a process of the pool. at_work: as many as load the renderer now; the others wait until there is a page for them.
    record: the one that is told later."""
    global _record
    _record = record
    end_with_the_build()
    gc.disable()  # looked for between two pages
    at_work.acquire()
    with suppress(OSError):  # told with the first page
        make_ready()


def _printed(html: str, assets: Assets, record: bytes | None) -> Pdf:
    if _left_over:
        _left_over.clear()
        gc.collect()
    try:
        return lay_out(html, assets, _record.get if record is None and _record else record or b"", _left_over)
    except OSError:
        raise
    except Exception as error:  # the last resort: our own mistake, in words that another process can read
        raise PrintingFailed(f"{_place(error)} {type(error).__name__}: {error}") from None


def _place(error: Exception) -> str:
    frame = error.__traceback__
    while frame and frame.tb_next:
        frame = frame.tb_next
    return f"{os.path.basename(frame.tb_frame.f_code.co_filename)}:{frame.tb_lineno}" if frame else ""
