"""The explanation page that stands at the top of every rule, and is run as its tests.

SP012 repeat-does-not-fit            code and name; `explain` takes either
Severity  error
Checks    one sentence
Matters   ...                        then Mend and Source
Fires in M, XL:                      an example that must be reported, in these sizes ("Fires:" where sizes do not matter)
    sizes: ...                       a fragment of pattern.yaml, or all of it if it has `dialect:`
    ---
    Row 1: ...                       the text
    --- body.csv
    size, bust cm                    another file of the pattern
Quiet:                               a near miss that must pass
"""

from __future__ import annotations

import re
from enum import Enum
from textwrap import dedent

from msgspec import Struct

from stitchproof.expressions import expression


class Severity(Enum):
    """How bad a finding is; only errors keep an edition from being written."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


class Example(Struct, frozen=True):
    """A fragment of pattern.yaml and a text. `fires_in`: the sizes reported, () for any; None if it must stay quiet.

    files: other files of the pattern, each its name and its text.
    """

    yaml: str
    text: str
    fires_in: tuple[str, ...] | None
    files: tuple[tuple[str, str], ...] = ()


class Page(Struct, frozen=True):
    """A rule's explanation. Of its text only what a report needs is read at once: there are two hundred of them, and a check
    shows few."""

    code: str
    name: str
    severity: Severity
    text: str

    @property
    def checks(self) -> str:
        """What it checks."""
        return _field(self.text, "Checks")

    @property
    def matters(self) -> str:
        """Why it matters."""
        return _field(self.text, "Matters")

    @property
    def mend(self) -> str:
        """How to mend it."""
        return _field(self.text, "Mend")

    @property
    def source(self) -> str:
        """Where the rule comes from."""
        return _field(self.text, "Source")

    @property
    def examples(self) -> tuple[Example, ...]:
        """What it reports and what it lets pass."""
        return tuple(_example(match) for match in re.finditer(_EXAMPLE, self.text, re.MULTILINE))


HEADINGS = ("Severity", "Checks", "Matters", "Mend", "Source")
_TITLE = expression(r"(SP\d{3}) ([a-z][a-z-]*)\n\nSeverity  (\w+)\n")
_EXAMPLE = r"^(Fires(?: in [^\n:]+)?|Quiet):\n((?:(?:    .*)?\n)+)"


def read_page(docstring: str | None) -> Page:
    """The page in a module's docstring. Raises ValueError where it does not keep to the form: our own fault."""
    text = (docstring or "") + "\n"
    title = _TITLE.match(text)
    if not title:
        raise ValueError(f"a rule's page begins with its code, its name and its Severity: {text[:40]!r}")
    for heading in HEADINGS:
        if f"\n{heading} " not in text:
            raise ValueError(f"{text[:40]!r} has no {heading}")
    return Page(title[1], title[2], Severity(title[3]), text)


def _field(text: str, heading: str) -> str:
    match = re.search(rf"^{heading} +(\S.*(?:\n {{10}}.*)*)", text, re.MULTILINE)
    if not match:
        raise ValueError(f"{text[:40]!r} has no {heading}")
    return " ".join(match[1].split())


def _example(match: re.Match[str]) -> Example:
    yaml, *parts = re.split(r"^---(?: (\S+))?\n", dedent(match[2]).rstrip("\n"), flags=re.MULTILINE)
    held = list(zip(parts[::2], parts[1::2], strict=True))
    text = next((content for name, content in held if name is None), "")
    fires_in: tuple[str, ...] | None = None if match[1] == "Quiet" else ()
    if " in " in match[1]:
        fires_in = tuple(size.strip() for size in match[1].removeprefix("Fires in ").split(","))
    files = tuple((name, content.rstrip("\n") + "\n") for name, content in held if name is not None)
    return Example(yaml, text.rstrip("\n") + "\n" if text else "", fires_in, files)
