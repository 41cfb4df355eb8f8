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
from stitchproof.editions.pdf import Pdf, lay_out, write_pdf
from stitchproof.editions.renderer import load_renderer
from stitchproof.processes import Workers, can_fork, end_with_the_build, is_a_worker, own_context, processors

if TYPE_CHECKING:
    from concurrent.futures import Future
    from multiprocessing.synchronize import Semaphore

MOST = 4
"""Presses at once. Each takes 100 MB, and a pattern has few files."""


class PrintingFailed(RuntimeError):
    """A mistake of our own in another process, in one line; a traceback does not come through."""


class Asked:
    """A PDF that is asked for. record: to be attached. key: what it is made from. kept: where an earlier build has it."""

    def __init__(self, html: str, assets: Assets, record: bytes, kept: KeptPdfs) -> None:
        self.html, self.assets, self.record = html, assets, record
        self.key = kept.key(html, assets, record)
        self.kept = kept.by_key.get(self.key)
        self.future: Future[Pdf] | None = None


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
        self.fonts = ExitStack()

    def __enter__(self) -> Presses:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self.pool:
            self.pool.stop()
        self.fonts.close()

    def warm_up(self) -> None:
        """Let one press load the renderer while the pattern is still being checked; where it can be forked, which is quick."""
        if self.at_once > 1 and can_fork():
            self.start()

    def ask(self, html: str, assets: Assets, record: bytes = b"") -> Asked:
        """Put a page in the line. Its PDF is laid out now, or when it is fetched and no other one is asked for. record: to be
        attached where there is one."""
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
        return asked.future.result() if asked.future else write_pdf(asked.html, asked.assets, asked.record)

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
        self.fonts.enter_context(only_packaged_fonts())
        self.at_work = context.Semaphore(1)
        self.pool = Workers(self.at_once, context, _ready, self.at_work)


def presses_for(pdfs: int) -> int:
    """How many of so many PDFs to print at the same time: one in a process that is itself one of a pool."""
    return 1 if is_a_worker() else max(1, min(pdfs, processors(), MOST))


_left_over: list[object] = []
"""What the last page of this press was made of. To take it apart takes a tenth of the time that it took to make; the PDF does
not wait for that, and after the last page nobody does."""


def _ready(at_work: Semaphore) -> None:
    """Begin a process of the pool. at_work: as many as load the renderer now; the others wait until there is a page for them."""
    end_with_the_build()
    gc.disable()  # looked for between two pages
    at_work.acquire()
    with suppress(OSError):  # told with the first page
        load_renderer()


def _printed(html: str, assets: Assets, record: bytes) -> Pdf:
    if _left_over:
        _left_over.clear()
        gc.collect()
    try:
        return lay_out(html, assets, record, _left_over)
    except OSError:
        raise
    except Exception as error:  # the last resort: our own mistake, in words that another process can read
        raise PrintingFailed(f"{_place(error)} {type(error).__name__}: {error}") from None


def _place(error: Exception) -> str:
    frame = error.__traceback__
    while frame and frame.tb_next:
        frame = frame.tb_next
    return f"{os.path.basename(frame.tb_frame.f_code.co_filename)}:{frame.tb_lineno}" if frame else ""
