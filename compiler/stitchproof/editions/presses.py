"""Prints the PDFs of a build: one in this process, more of them side by side in processes of their own."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from types import TracebackType
from typing import TYPE_CHECKING

from stitchproof.editions.assets import Assets
from stitchproof.editions.fonts import only_packaged_fonts
from stitchproof.editions.made_with import NOTHING_KEPT, KeptPdfs
from stitchproof.editions.pdf import Pdf, lay_out, write_pdf
from stitchproof.editions.renderer import load_renderer

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor
    from multiprocessing.process import BaseProcess
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
        self.pool: ProcessPoolExecutor | None = None
        self.at_work: Semaphore | None = None
        self.others: set[BaseProcess] = set()
        self.fonts = ExitStack()

    def __enter__(self) -> Presses:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self.pool:
            self.stop()
            self.pool.shutdown(cancel_futures=True)
        self.fonts.close()

    def warm_up(self) -> None:
        """Let one press load the renderer while the pattern is still being checked; where it can be forked, which is quick."""
        if self.at_once > 1 and _can_fork():
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
                with _uninterrupted():
                    each.future = self.pool.submit(_printed, each.html, dict(each.assets), each.record)

    def start(self) -> None:
        """Start the processes. They are forked where that is safe."""
        from concurrent.futures import ProcessPoolExecutor  # one PDF does without
        from multiprocessing import active_children, get_context

        self.others = set(active_children())
        self.fonts.enter_context(only_packaged_fonts())
        context = get_context("fork" if _can_fork() else "spawn")
        self.at_work = context.Semaphore(1)
        self.pool = ProcessPoolExecutor(self.at_once, context, _ready, (self.at_work,))
        with _uninterrupted():
            self.pool.submit(int)  # the processes begin with their first job

    def stop(self) -> None:
        """End the processes without waiting for the pages they are at."""
        from multiprocessing import active_children

        for process in set(active_children()) - self.others:
            process.terminate()


def _can_fork() -> bool:
    """On Linux, from a process without threads."""
    return sys.platform.startswith("linux") and threading.active_count() == 1


def presses_for(pdfs: int) -> int:
    """How many of so many PDFs to print at the same time: one in a process that is itself one of a pool."""
    if "multiprocessing" in sys.modules:
        from multiprocessing import parent_process

        if parent_process():
            return 1
    return max(1, min(pdfs, processors(), MOST))


def processors() -> int:
    """Those that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """While it lasts the user's stop waits: one that comes while a process is forked would be passed over."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _ready(at_work: Semaphore) -> None:
    """Begin a process of the pool: it ends quietly when the user stops the build, and when the build itself is gone. at_work:
    as many as load the renderer now; the others wait until there is a page for them."""
    for stop in (signal.SIGINT, signal.SIGTERM):
        if signal.getsignal(stop) != signal.SIG_IGN:  # as a build in the background has it
            signal.signal(stop, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    threading.Thread(target=_end_with_the_build, daemon=True).start()
    at_work.acquire()
    with suppress(OSError):  # told with the first page
        load_renderer()


def _end_with_the_build() -> None:
    from multiprocessing import parent_process

    build = parent_process()
    if build:
        build.join()
        os._exit(1)


def _printed(html: str, assets: Assets, record: bytes) -> Pdf:
    try:
        return lay_out(html, assets, record)
    except OSError:
        raise
    except Exception as error:  # the last resort: our own mistake, in words that another process can read
        raise PrintingFailed(f"{_place(error)} {type(error).__name__}: {error}") from None


def _place(error: Exception) -> str:
    frame = error.__traceback__
    while frame and frame.tb_next:
        frame = frame.tb_next
    return f"{os.path.basename(frame.tb_frame.f_code.co_filename)}:{frame.tb_lineno}" if frame else ""
