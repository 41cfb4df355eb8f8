"""A change that is tried and not made: what it comes to, the page as it would be, and the lines that it would change."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.editions.style_fault import StyleFault
from stitchproof.effects.effect import CountChanged, Effect
from stitchproof.effects.effect_text import effect_parts, held_text
from stitchproof.effects.sweep_text import sweep_text
from stitchproof.preview.old_and_new import with_old_numbers
from stitchproof.preview.session import Session
from stitchproof.source_edits.edit_source import EditedSource
from stitchproof.what_if import Revised, Sweeped, regauge, written

MOST_HELD = 4
"""Changes that are held so that they can be written; one that is older is tried again first."""
COUNTS = "Counts"
"""The part of an effect that is shown as a table."""


class LineWritten(Struct, frozen=True):
    """A line of a file that would change. old, new: "" on the side that has none."""

    number: int
    old: str
    new: str


class FileWritten(Struct, frozen=True):
    """A file of the pattern that would change, and its lines."""

    name: str
    lines: tuple[LineWritten, ...]


class Tried(Struct, frozen=True):
    """A change. key: by which it is asked for again. page: HTML, "" where it has none. parts: of the effect, the counts left
    out, each a title and lines. counts: those that change. findings: what stood in the way. files: what would be written, ()
    where it cannot be. sweep: what a sweep comes to, as text."""

    key: str
    asked: tuple[str, ...]
    page: str
    parts: tuple[tuple[str, tuple[str, ...]], ...] = ()
    counts: tuple[CountChanged, ...] = ()
    fails: tuple[str, ...] = ()
    held: str = ""
    findings: tuple[Diagnostic, ...] = ()
    files: tuple[FileWritten, ...] = ()
    sweep: str = ""
    only_tried: bool = False


class Tries:
    """The changes that were tried last."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.held: OrderedDict[str, tuple[Tried, Revised]] = OrderedDict()

    def try_out(self, changes: Sequence[str]) -> Tried:
        """Try some changes, each as `regauge` takes it, on the files as they are now."""
        root = self.session.workspace.root
        found = regauge(self.session.folder, list(changes), within=root)
        key = secrets.token_urlsafe(12)
        if isinstance(found, Sweeped):
            steps = [(value, step.effect) for value, step in found.steps if step.effect]
            findings = tuple(dict.fromkeys(each for _, step in found.steps for each in step.findings))
            return Tried(key, tuple(changes), "", findings=findings, sweep=sweep_text(found.name, steps))
        tried = self._tried(key, tuple(changes), found)
        self.held[key] = tried, found
        while len(self.held) > MOST_HELD:
            self.held.popitem(last=False)
        return tried

    def page(self, key: str) -> str:
        """The page of a change that was tried; "" where it is not held any more."""
        return self.held[key][0].page if key in self.held else ""

    def write(self, key: str) -> Revised | None:
        """Write a change that was shown, exactly as it was shown; None where it is not held any more."""
        if key not in self.held:
            return None
        _, revised = self.held.pop(key)
        done = written(revised, self.session.workspace)
        self.held.clear()
        return done

    def _tried(self, key: str, asked: tuple[str, ...], found: Revised) -> Tried:
        effect = found.effect
        if effect is None:
            return Tried(key, asked, "", findings=found.findings or found.before.findings)
        parts = tuple((title, tuple(lines)) for title, lines in effect_parts(effect) if title != COUNTS)
        return Tried(
            key,
            asked,
            self._page(found),
            parts,
            effect.counts,
            tuple(_fails(effect)),
            held_text(effect),
            found.findings,
            tuple(_files(found.edited)) if found.edited else (),
            only_tried=found.tried,
        )

    def _page(self, found: Revised) -> str:
        old = self.session.page
        if found.after is None or old is None:
            return ""
        try:
            made = self.session.page_for(found.after, lambda new: with_old_numbers(old.printed, new))
        except StyleFault:
            return ""
        return made.html if made else ""


def _fails(effect: Effect) -> Iterator[str]:
    for each in effect.comparison.findings_new:
        if each.severity != "note" and not each.accepted:
            sizes = f" ({', '.join(each.sizes)})" if each.sizes else ""
            yield f"{each.severity} {each.code}: {each.headline}{sizes}"


def _files(edited: EditedSource) -> Iterator[FileWritten]:
    for name in edited.changed:
        old, new = (side[name].text.split("\n") for side in (edited.before, edited.after))
        yield FileWritten(name, tuple(_lines(old, new)))


def _lines(old: list[str], new: list[str]) -> Iterator[LineWritten]:
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    for tag, first, last, new_first, new_last in matcher.get_opcodes():
        if tag == "equal":
            continue
        for offset in range(max(last - first, new_last - new_first)):
            was = old[first + offset] if first + offset < last else ""
            now = new[new_first + offset] if new_first + offset < new_last else ""
            yield LineWritten(first + offset + 1, was, now)
