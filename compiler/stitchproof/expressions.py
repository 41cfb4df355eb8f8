"""Regular expressions without the time that compiling takes: those of our modules lie beside this one as Python compiles them.

A check asks a hundred and seventy of them; to compile these took a tenth of it.
"""

from __future__ import annotations

import re
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any

import msgspec

_MATCHER: Any = import_module("_sre")
"""What runs an expression. It looks through all that it is given, and refuses what it could not run."""
_FOLDER = Path(__file__).parent


class Form(msgspec.Struct, frozen=True, array_like=True):
    """An expression as Python compiles it. flags: as asked for; all_flags: with those that the text itself sets or implies."""

    text: str
    flags: int
    all_flags: int
    groups: int
    names: dict[str, int]
    code: msgspec.Raw


def expression(text: str, flags: int = 0) -> re.Pattern[str]:
    """What `re.compile` gives."""
    form = _forms().get((text, int(flags)))
    return re.compile(text, flags) if form is None else pattern_of(form)


def pattern_of(form: Form) -> re.Pattern[str]:
    """The expression itself."""
    names: list[str | None] = [None] * (form.groups + 1)
    for name, number in form.names.items():
        names[number] = name
    code = msgspec.json.decode(form.code, type=list[int])
    pattern: re.Pattern[str] = _MATCHER.compile(form.text, form.all_flags, code, form.groups, form.names, tuple(names))
    return pattern


def file_of_forms() -> Path:
    """Where the forms lie for this Python. One that compiles in another way has none until they are made, and does without."""
    return _FOLDER / f"expressions.{getattr(_MATCHER, 'MAGIC', 0)}.json"


@cache
def _forms() -> dict[tuple[str, int], Form]:
    try:
        forms = msgspec.json.decode(file_of_forms().read_bytes(), type=tuple[Form, ...])
    except (OSError, msgspec.MsgspecError):
        return {}
    return {(form.text, form.flags): form for form in forms}
