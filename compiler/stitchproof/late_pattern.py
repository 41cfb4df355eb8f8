"""A regular expression that is compiled when it is first used: the rules hold over a hundred, faults some more."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cached_property


class LatePattern:
    """What `re.compile` takes; compiled once, at the first question."""

    def __init__(self, text: str, flags: int = 0) -> None:
        self.text = text
        self.flags = flags

    @cached_property
    def compiled(self) -> re.Pattern[str]:
        return re.compile(self.text, self.flags)

    def search(self, text: str, start: int = 0, end: int | None = None) -> re.Match[str] | None:
        return self.compiled.search(text, start, len(text) if end is None else end)

    def match(self, text: str, start: int = 0, end: int | None = None) -> re.Match[str] | None:
        return self.compiled.match(text, start, len(text) if end is None else end)

    def fullmatch(self, text: str, start: int = 0, end: int | None = None) -> re.Match[str] | None:
        return self.compiled.fullmatch(text, start, len(text) if end is None else end)

    def finditer(self, text: str, start: int = 0, end: int | None = None) -> Iterator[re.Match[str]]:
        return self.compiled.finditer(text, start, len(text) if end is None else end)

    def findall(self, text: str) -> list[str]:
        return self.compiled.findall(text)

    def split(self, text: str) -> list[str]:
        return self.compiled.split(text)

    def sub(self, new: str | Callable[[re.Match[str]], str], text: str) -> str:
        return self.compiled.sub(new, text)
