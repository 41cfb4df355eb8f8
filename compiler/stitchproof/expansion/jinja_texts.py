"""Runs Jinja once for all sizes. Templates see numbers as handles, the texts of the pattern and the shared ones: no more."""

from __future__ import annotations

import re
import traceback
from collections.abc import Callable, Mapping
from functools import cached_property

from jinja2 import TemplateNotFound
from jinja2.exceptions import TemplateError, TemplatesNotFound
from jinja2.loaders import FunctionLoader

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.faults.number_in_template import number_in_template, text_with_number
from stitchproof.expansion.faults.template_cannot_run import template_cannot_run
from stitchproof.expansion.handles import Handle, HandleUsed, full_name, handles_for
from stitchproof.expansion.jinja_words import in_trade_words
from stitchproof.expansion.placed_text import marks_are_whole
from stitchproof.expansion.sandbox import NumberInText, Sandbox
from stitchproof.expansion.soundness import text_is_sound, word_in
from stitchproof.expansion.spent import MOST_ROUNDS, Spent, TooMuchText
from stitchproof.reading.pattern_source import PatternSource, TextFile
from stitchproof.source import SourceFile, Span

CallSlot = Callable[[int, Mapping[str, object]], str]
CallEach = Callable[[int, Mapping[str, object]], range]


class _Unsound(Exception):
    """A text that does what no text may do was asked for (reported)."""


_STOPS = (
    TemplateError,
    TooMuchText,
    NumberInText,
    ArithmeticError,
    TypeError,
    ValueError,
    LookupError,
    AttributeError,
    RecursionError,
    SyntaxError,
    MemoryError,
)
"""What ends a text; the last two where Python cannot hold what Jinja makes of it."""


class JinjaTexts:
    """Jinja with the texts of the pattern and the shared ones.

    call_slot, call_each: called where a slot, or the head of a loop block, stands, with what it is handed. occurrences: how
    many slots came up so far. stopped: whether the bounds of all texts together were met.
    """

    def __init__(
        self,
        source: PatternSource,
        names: tuple[str, ...],
        call_slot: CallSlot,
        call_each: CallEach,
        highest: Callable[[str], int | None],
        occurrences: Callable[[], int],
        spent: Spent,
    ) -> None:
        self.source = source
        self.names = names
        self.call_slot = call_slot
        self.call_each = call_each
        self.highest = highest
        self.occurrences = occurrences
        self.report = Report()
        self.spent = spent
        self.stopped = False

    def rendered(self, text: TextFile, report: Report) -> str | None:
        """The unfolded text with its marks; None where it cannot be unfolded (reported)."""
        self.report = report
        try:
            out = self.environment.get_template(text.name).render(handles_for(self.names))
            if not marks_are_whole(out, len(self.source.marks), self.occurrences()):
                raise NumberInText
        except _Unsound:
            return None  # reported when it was judged
        except HandleUsed as used:
            span = _line_reached(used, self.files, text.file)
            self.report.add(number_in_template(word_in(span, used.name), used.name))
            return None
        except _STOPS as error:
            self.stopped = isinstance(error, TooMuchText)
            self.stop(error, _line_reached(error, self.files, text.file))
            return None
        return out

    def stop(self, error: BaseException, line: Span) -> None:
        """Report what stopped a text, at the line that had been reached."""
        name = re.match(r"'([^']+)' is undefined|.* has no attribute '([^']+)'", str(error))
        if isinstance(error, NumberInText):
            self.report.add(text_with_number(line))
        elif isinstance(error, TemplateNotFound):
            names = ", ".join(map(str, error.templates)) if isinstance(error, TemplatesNotFound) else str(error)
            words = f"there is no text `{names}` here or in shared_text"
            self.report.add(template_cannot_run(word_in(line, names), words))
        elif name:
            word = name[1] or name[2]
            self.report.add(template_cannot_run(word_in(line, word), f"`{word}` is not set here"))
        else:
            self.report.add(template_cannot_run(line, *in_trade_words(error)))

    @cached_property
    def files(self) -> Mapping[str, SourceFile]:
        """The texts by the paths that Jinja knows them by."""
        return {each.file.path: each.file for each in (*self.source.texts, *self.source.shared_texts)}

    @cached_property
    def environment(self) -> Sandbox:
        """Jinja itself, within its bounds."""
        held = {text.name: text for text in self.source.shared_texts}
        held |= {f"shared_text/{text.name}": text for text in self.source.shared_texts}
        held |= {text.name: text for text in self.source.texts}

        def load(name: str) -> tuple[str, str, Callable[[], bool]] | None:
            text = held.get(name)
            if text and not text_is_sound(text, self.source, self.names, self.report):
                raise _Unsound
            return (text.template, text.file.path, lambda: True) if text else None

        return Sandbox(FunctionLoader(load), self.slot, self.each, self.upto, self.spent)

    def slot(self, number: int, /, **names: object) -> str:
        """Called by templates where a slot stands."""
        self.environment.tick(None)
        return self.call_slot(number, names)

    def each(self, number: int, /, **names: object) -> range:
        """Called by templates where a loop block stands: its numbers, up to the largest over the sizes."""
        return self.call_each(number, names)

    def upto(self, last: object) -> range:
        """Called by templates: 1 to a number, or to the largest value of a named one over the sizes."""
        highest = self.highest(full_name(last)) if isinstance(last, Handle) else last
        if isinstance(highest, int) and not isinstance(highest, bool):
            return range(1, min(highest, MOST_ROUNDS) + 1)
        raise TypeError("`upto` takes a whole number, or the name of a count")


def _line_reached(error: BaseException, files: Mapping[str, SourceFile], first: SourceFile) -> Span:
    """The line of a text that was being unfolded when it stopped."""
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        if frame.filename in files and frame.lineno:
            file = files[frame.filename]
            return file.line_span(min(frame.lineno, len(file.line_starts)))
    return first.line_span(1)
