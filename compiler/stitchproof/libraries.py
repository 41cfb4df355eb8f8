"""Loads the libraries that every command needs, without what they bring with them and no command asks for."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from stitchproof.late_pattern import LatePattern

STAND_IN = "typing_extensions"
"""What the library of values takes in place of Python's own `typing` where it finds it, for Pythons that lack what ours have.
It brings the inspection of source code with it: a third of what the two libraries take to load."""


def load_libraries() -> None:
    """Import PyYAML, msgspec, and Python's fractions and reader of arguments. Whoever needs the stand-in, or an expression of
    theirs, gets it as ever."""
    with _not_there(STAND_IN), _expressions_late():
        import argparse
        import fractions  # noqa: F401

        import msgspec  # noqa: F401
        import yaml  # noqa: F401
    # Its own words stay as they are: to look for them in other languages loads what knows of languages, and there are none.
    argparse._ = str  # type: ignore[attr-defined]


@contextmanager
def _not_there(module: str) -> Iterator[None]:
    """While it lasts, a module that is not loaded yet is taken not to be installed."""
    if module in sys.modules:
        yield
        return
    hidden: dict[str, Any] = sys.modules
    hidden[module] = None
    try:
        yield
    finally:
        del hidden[module]


@contextmanager
def _expressions_late() -> Iterator[None]:
    """While it lasts, what modules compile as they are loaded waits until it is asked. A single one of the YAML reader in Python,
    which stays unused where there is the one in C, takes longer than all its modules."""
    at_once: Any = re.compile
    later: Any = LatePattern
    re.compile = later
    try:
        yield
    finally:
        re.compile = at_once
