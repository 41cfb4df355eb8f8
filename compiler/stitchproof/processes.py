"""Processes beside the one that was started: forked where that is safe, and gone when it is."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, ParamSpec, TypeVar

if TYPE_CHECKING:
    from concurrent.futures import Future
    from multiprocessing.context import BaseContext

Asked = ParamSpec("Asked")
Made = TypeVar("Made")


class Workers:
    """So many processes that wait for work. begin: what each of them does first, with its arguments (in `context`).

    Whoever starts them stops them: `stop` ends them without waiting for what they are at.
    """

    def __init__(self, at_once: int, context: BaseContext, begin: Callable[..., None], *arguments: object) -> None:
        from concurrent.futures import ProcessPoolExecutor  # one pattern, or one PDF, does without
        from multiprocessing import active_children

        self.others = set(active_children())
        self.pool = ProcessPoolExecutor(at_once, context, begin, arguments)
        self.submit(int)  # the processes begin with their first job

    def submit(self, work: Callable[Asked, Made], *arguments: Asked.args, **more: Asked.kwargs) -> Future[Made]:
        """Hand out some work. A stop from the keyboard that comes while a process is forked would be passed over."""
        with _uninterrupted():
            return self.pool.submit(work, *arguments, **more)

    def stop(self) -> None:
        """End them all."""
        from multiprocessing import active_children

        for process in set(active_children()) - self.others:
            process.terminate()
        self.pool.shutdown(cancel_futures=True)


class HandedLater:
    """Bytes that every process of a pool asks for when it needs them, and that are made meanwhile. In `folder`, which stays for
    as long as they are asked for."""

    def __init__(self, context: BaseContext, folder: Path) -> None:
        self.there = context.Event()
        self.file = folder / "handed_later"

    def put(self, content: bytes) -> None:
        """Hand them out, once."""
        self.file.write_bytes(content)
        self.there.set()

    def get(self) -> bytes:
        """The bytes; waits until they are there."""
        self.there.wait()
        return self.file.read_bytes()


def own_context() -> BaseContext:
    """How processes are started here."""
    from multiprocessing import get_context

    return get_context("fork" if can_fork() else "spawn")


def can_fork() -> bool:
    """On Linux, from a process without threads."""
    return sys.platform.startswith("linux") and threading.active_count() == 1


def is_a_worker() -> bool:
    """Whether this process is itself one of a pool."""
    if "multiprocessing" not in sys.modules:
        return False
    from multiprocessing import parent_process

    return parent_process() is not None


def processors() -> int:
    """Those that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def end_with_the_build(when_stopped: Callable[..., None] | signal.Handlers = signal.SIG_DFL) -> None:
    """Begin a process of a pool: it ends when the user stops the build, and when the build itself is gone.

    when_stopped: what a signal does; it ends quietly by itself.
    """
    for stop in (signal.SIGINT, signal.SIGTERM):
        if signal.getsignal(stop) != signal.SIG_IGN:  # as a build in the background has it
            signal.signal(stop, when_stopped)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    threading.Thread(target=_wait_for_the_end, daemon=True).start()


def _wait_for_the_end() -> None:
    from multiprocessing import parent_process

    build = parent_process()
    if build:
        build.join()
        os._exit(1)


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """While it lasts the user's stop waits."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
