"""Loads the PDF renderer, once and quickly, and keeps garbage from being looked for while pages are laid out."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stdout
from io import StringIO

RENDERER = "weasyprint"


def load_renderer() -> None:
    """Import the renderer. Raises OSError where the libraries that it draws with are not installed.

    Its binding looks for each library under several names, the last of them exact. On Linux a name that is not exact is
    looked up by starting ldconfig, a compiler and a linker, which takes longer than the rest of the import; so it is tried
    with the exact names alone first, which the loader knows by itself.
    """
    if RENDERER in sys.modules:
        return
    with without_garbage_search():
        if sys.platform.startswith("linux"):
            try:
                with _exact_names_alone(), redirect_stdout(StringIO()):
                    import weasyprint
                return
            except OSError:  # libraries in a place that only a search finds
                pass
        import weasyprint  # noqa: F401


@contextmanager
def without_garbage_search() -> Iterator[None]:
    """While it lasts, no garbage in circles is looked for; what was there before is then not looked through again.

    A layout makes a million things that all live until the page is written, and each look goes through all of them.
    """
    at_work = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if at_work:
            gc.enable()


@contextmanager
def _exact_names_alone() -> Iterator[None]:
    import ctypes.util  # whoever loads no renderer does without what it loads in turn

    search = ctypes.util.find_library
    ctypes.util.find_library = lambda name: None
    try:
        yield
    finally:
        ctypes.util.find_library = search
