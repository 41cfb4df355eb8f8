"""Loads the PDF renderer, once and quickly, and keeps garbage from being looked for while pages are laid out."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, redirect_stdout
from hashlib import sha256
from importlib import import_module
from importlib.util import LazyLoader, find_spec, module_from_spec
from io import StringIO
from typing import Any

from stitchproof.editions.renderer_declarations import OF, PREPARED

RENDERER = "weasyprint"
SELDOM_NEEDED = ("fontTools.subset", "fontTools.ttLib.woff2")
"""Modules that the renderer loads for fonts which the library that it draws with does not take apart itself. They load once
somebody asks them for something."""


class _OtherDeclarations(Exception):
    """This renderer declares other things than those that were prepared."""


def load_renderer() -> None:
    """Import the renderer. Raises OSError where the libraries that it draws with are not installed.

    It is tried with all that makes it quick first. A renderer of another edition is loaded as ever, as are libraries in other
    places.
    """
    if RENDERER in sys.modules:
        return
    with without_garbage_search():
        try:
            with ExitStack() as quick, redirect_stdout(StringIO()):
                if sys.platform.startswith("linux"):
                    quick.enter_context(_exact_names_alone())
                quick.enter_context(_declarations_prepared())
                _load_late(SELDOM_NEEDED)
                import_module(RENDERER)
        except (OSError, _OtherDeclarations):
            import_module(RENDERER)


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
    """While it lasts, libraries are known by their exact names.

    The renderer's binding looks for each under several names, the last of them exact. On Linux a name that is not exact is looked
    up by starting ldconfig, a compiler and a linker, which takes longer than the rest of the import.
    """
    import ctypes.util  # whoever loads no renderer does without what it loads in turn

    search = ctypes.util.find_library
    ctypes.util.find_library = lambda name: None
    try:
        yield
    finally:
        ctypes.util.find_library = search


@contextmanager
def _declarations_prepared() -> Iterator[None]:
    """While it lasts, the binding's declarations in C are taken as they were prepared, if they are those that were.

    Else a parser of C reads them, and the name of each type that is used for the first time together with all their names: a
    sixth of the way to a PDF. Raises _OtherDeclarations where they are others.
    """
    cffi: Any = import_module("cffi")  # comes with the renderer, as what it runs on
    prepared: Any = import_module("_cffi_backend").FFI

    class Declared(prepared):  # type: ignore[misc]  # has no types
        def cdef(self, text: str) -> None:
            if sha256(text.encode()).hexdigest() != OF:
                raise _OtherDeclarations

    def declared() -> Declared:
        try:
            return Declared(RENDERER, **PREPARED)
        except ImportError as error:  # prepared for another edition of what it runs on
            raise _OtherDeclarations from error

    as_ever, cffi.FFI = cffi.FFI, declared
    try:
        yield
    finally:
        cffi.FFI = as_ever


def _load_late(modules: tuple[str, ...]) -> None:
    """Have modules load when somebody asks them for something, where they are installed and not loaded yet."""
    for name in modules:
        home, _, last = name.rpartition(".")
        spec = None if name in sys.modules else find_spec(name)
        if spec and spec.loader:
            spec.loader = LazyLoader(spec.loader)
            sys.modules[name] = module = module_from_spec(spec)
            spec.loader.exec_module(module)
            setattr(sys.modules[home], last, module)
