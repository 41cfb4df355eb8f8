"""A regular expression that is compiled when it is first used: the rules hold over a hundred, faults some more."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from stitchproof.once import once

_IGNORES_CASE = int(re.IGNORECASE)
_ODD = ("ſ", "ı", "İ")
"""Letters outside ASCII that match s or i where case is ignored, and are no such letter in small. (The kelvin sign is a k.)"""

_ASKED = ("search", "match", "fullmatch", "finditer", "findall", "split", "sub")


class LatePattern:
    """What `re.compile` takes; compiled once, at the first question.

    needs: words, in small letters where case is ignored, of which one stands in all that the expression matches. A text with
    none of them is answered at once, and most patterns are read without such an expression ever being compiled.
    hint: a small expression that is found in every text in which this one is; it does the same for long ones of common words.
    Tests hold both against the expressions.
    """

    def __init__(self, text: str, flags: int = 0, needs: tuple[str, ...] = (), hint: str = "") -> None:
        self.text = text
        self.flags = int(flags)  # as a set of flags, each question takes Python longer
        self.needs = needs
        self.folds = bool(self.flags & _IGNORES_CASE)
        self.hint = LatePattern(hint, flags) if hint else None

    def __getattr__(self, name: str) -> Any:
        """What else an expression has; the libraries ask for it."""
        return getattr(self.compiled, name)

    @once
    def compiled(self) -> re.Pattern[str]:
        """The expression itself. Once there it is asked without its hint."""
        from stitchproof.expressions import expression  # the libraries are loaded with expressions that wait, before it

        compiled = expression(self.text, self.flags)
        if not self.needs:  # from now on Python's own methods are called, without the way through these here
            self.__dict__ |= {name: getattr(compiled, name) for name in _ASKED}
        return compiled

    def search(self, text: str, start: int = 0, end: int | None = None) -> re.Match[str] | None:
        return self.compiled.search(text, start, len(text) if end is None else end) if self._may_be_in(text) else None

    def match(self, text: str, start: int = 0, end: int | None = None) -> re.Match[str] | None:
        return self.compiled.match(text, start, len(text) if end is None else end) if self._may_be_in(text) else None

    def fullmatch(self, text: str, start: int = 0, end: int | None = None) -> re.Match[str] | None:
        return (
            self.compiled.fullmatch(text, start, len(text) if end is None else end) if self._may_be_in(text) else None
        )

    def finditer(self, text: str, start: int = 0, end: int | None = None) -> Iterator[re.Match[str]]:
        """All matches in a text, or a stretch of it."""
        if not self._may_be_in(text):
            return iter(())
        return self.compiled.finditer(text, start, len(text) if end is None else end)

    def findall(self, text: str) -> list[str]:
        return self.compiled.findall(text)

    def split(self, text: str) -> list[str]:
        return self.compiled.split(text)

    def sub(self, new: str | Callable[[re.Match[str]], str], text: str) -> str:
        return self.compiled.sub(new, text)

    def _may_be_in(self, text: str) -> bool:
        """Whether one of the words that it needs stands in a text, and what hints at it."""
        if self.hint and "compiled" not in self.__dict__ and not self.hint.search(text):
            return False
        if not self.needs:
            return True
        small = text.lower() if self.folds else text
        for word in self.needs:
            if word in small:
                return True
        return not text.isascii() and any(letter in text for letter in _ODD)
