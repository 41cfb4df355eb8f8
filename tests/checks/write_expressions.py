"""Writes the forms of the expressions of our modules anew, as this Python compiles them: `make quick-forms`."""

from __future__ import annotations

import fractions
import pkgutil
import re
from importlib import import_module
from typing import Any

import msgspec

import stitchproof
from stitchproof import expressions
from stitchproof.expressions import Form, file_of_forms
from stitchproof.late_pattern import LatePattern

# How Python compiles an expression; there is no public way to see it.
parser: Any = import_module("re._parser")
compiler: Any = import_module("re._compiler")


def of_our_modules() -> list[tuple[str, int]]:
    """The text and flags of each expression that is made while a module is loaded, and of the lexicon: of no pattern's words.

    In a Python that has loaded none of these modules yet.
    """
    asked: set[tuple[str, int]] = set()
    at_once, later = expressions.expression, LatePattern.__init__

    def made_at_once(text: str, flags: int = 0) -> re.Pattern[str]:
        asked.add((text, int(flags)))
        return at_once(text, flags)

    def made_later(self: LatePattern, text: str, flags: int = 0, *more: Any, **named: Any) -> None:
        asked.add((text, int(flags)))
        later(self, text, flags, *more, **named)

    expressions.expression, LatePattern.__init__ = made_at_once, made_later  # type: ignore[method-assign]
    try:
        for module in pkgutil.walk_packages(stitchproof.__path__, "stitchproof."):
            if not module.name.endswith("__main__"):
                import_module(module.name)
        for terms in ("US", "UK"):
            import_module("stitchproof.stitches.lexicon").lexicon_for(terms, ())
    finally:
        expressions.expression, LatePattern.__init__ = at_once, later  # type: ignore[method-assign]
    of_fractions: re.Pattern[str] = fractions._RATIONAL_FORMAT  # type: ignore[attr-defined]  # nobody gets past it
    return sorted(asked | {(of_fractions.pattern, of_fractions.flags & ~re.UNICODE)})


def form_of(text: str, flags: int) -> Form:
    """An expression as this Python compiles it."""
    tree = parser.parse(text, flags)
    code = [int(each) for each in compiler._code(tree, flags)]
    names = dict(tree.state.groupdict)
    return Form(
        text, flags, int(flags | tree.state.flags), tree.state.groups - 1, names, msgspec.Raw(msgspec.json.encode(code))
    )


if __name__ == "__main__":
    forms = [msgspec.json.encode(form_of(*each)) for each in of_our_modules()]
    file_of_forms().write_bytes(b"[\n" + b",\n".join(forms) + b"\n]\n")
