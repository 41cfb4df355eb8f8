"""Runs Jinja once for all sizes. Templates see numbers as handles, the texts of the pattern and the shared ones: no more."""

from __future__ import annotations

import re
import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from jinja2 import StrictUndefined, TemplateNotFound, nodes
from jinja2.exceptions import TemplateError
from jinja2.loaders import FunctionLoader
from jinja2.sandbox import ImmutableSandboxedEnvironment

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.faults.number_in_template import computed_in_template, number_in_template, number_renamed
from stitchproof.expansion.faults.template_cannot_run import template_cannot_run
from stitchproof.expansion.handles import Handle, HandleUsed, handles_for
from stitchproof.reading.marks import SLOT, mark
from stitchproof.reading.pattern_source import PatternSource, TextFile
from stitchproof.source import SourceFile, Span

MOST_ROUNDS = 20_000
MOST_TEXT = 4_000_000
Bindings = tuple[tuple[str, Fraction | str], ...]
"""What a slot was handed: a loop's number, or the full name behind a handle, by the name it has in the slot."""


@dataclass(frozen=True, slots=True)
class Occurrence:
    """One time that a slot or condition came up: which island, and with what at hand."""

    island: int
    bindings: Bindings


class TooMuchText(Exception):
    """The loops of a text go on too long."""


class _Environment(ImmutableSandboxedEnvironment):
    """Jinja, with shared texts cut off from what the pattern's own text sees."""

    def _parse(self, source: str, name: str | None, filename: str | None) -> nodes.Template:
        tree = super()._parse(source, name, filename)
        for node in tree.find_all((nodes.Include, nodes.Import, nodes.FromImport)):
            node.with_context = False  # type: ignore[attr-defined]  # each of the three has it; the stubs know only Node
        return tree


@dataclass
class Renderer:
    """Renders the texts of one pattern; collects the occurrences of their islands."""

    source: PatternSource
    names: tuple[str, ...]
    count_to: Callable[[int, Bindings], range]
    highest: Callable[[str], int]
    report: Report
    occurrences: list[Occurrence] = field(default_factory=list)
    rounds: int = 0

    def rendered(self, text: TextFile) -> str:
        """The unfolded text with its marks; as far as nothing, where it cannot be unfolded (reported)."""
        if not text_is_sound(text, self.names, self.report):
            return ""
        try:
            template = self.environment.get_template(text.name)
            out = template.render(handles_for(self.names))
        except HandleUsed as used:
            span = _line_reached(used, self.files, text.file)
            self.report.add(number_in_template(_word_in(span, used.name), used.name))
        except TemplateNotFound as missing:
            span = _line_reached(missing, self.files, text.file)
            self.report.add(
                template_cannot_run(
                    _word_in(span, str(missing)), f"there is no text `{missing}` here or in shared_text"
                )
            )
        except (
            TemplateError,
            TooMuchText,
            ArithmeticError,
            TypeError,
            ValueError,
            LookupError,
            AttributeError,
            RecursionError,
        ) as error:
            span = _line_reached(error, self.files, text.file)
            name = re.match(r"'([^']+)' is undefined", str(error))
            words = f"`{name[1]}` is not set here" if name else _in_words(error)
            self.report.add(template_cannot_run(_word_in(span, name[1]) if name else span, words))
        else:
            return out if len(out) <= MOST_TEXT else ""
        return ""

    @property
    def files(self) -> Mapping[str, SourceFile]:
        return {each.file.path: each.file for each in (*self.source.texts, *self.source.shared_texts)}

    @property
    def environment(self) -> _Environment:
        held = {text.name: text for text in self.source.shared_texts}
        held |= {f"shared_text/{text.name}": text for text in self.source.shared_texts}
        held |= {text.name: text for text in self.source.texts}

        def load(name: str) -> tuple[str, str, Callable[[], bool]] | None:
            text = held.get(name)
            return (text.template, text.file.path, lambda: True) if text else None

        environment = _Environment(
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
            undefined=StrictUndefined,
            autoescape=False,
            loader=FunctionLoader(load),
        )
        environment.globals = {"slot": self.slot, "each": self.each, "tick": self.tick, "upto": self.upto}
        return environment

    def slot(self, number: int, **names: object) -> str:
        """Called by templates where a slot stands."""
        self.tick()
        self.occurrences.append(Occurrence(number, _bindings(names)))
        return mark(SLOT, len(self.occurrences) - 1)

    def each(self, number: int, **names: object) -> range:
        """Called by templates where a loop block stands: its numbers, up to the largest over the sizes."""
        return self.count_to(number, _bindings(names))

    def tick(self) -> str:
        """Called at each round of a loop; ends what goes on too long."""
        self.rounds += 1
        if self.rounds > MOST_ROUNDS:
            raise TooMuchText
        return ""

    def upto(self, last: object) -> range:
        """Called by templates: 1 to a number, or to the largest value of a named one over the sizes."""
        if isinstance(last, Handle):
            return range(1, min(self.highest(last.full_name), MOST_ROUNDS) + 1)
        if isinstance(last, int) and not isinstance(last, bool):
            return range(1, min(last, MOST_ROUNDS) + 1)
        raise TypeError("upto takes a whole number, or the name of a count")


def _bindings(names: Mapping[str, object]) -> Bindings:
    held: dict[str, Fraction | str] = {}
    for name, value in names.items():
        if isinstance(value, Handle):
            held[name] = value.full_name
        elif isinstance(value, int) and not isinstance(value, bool):
            held[name] = Fraction(value)
    return tuple(held.items())


def text_is_sound(text: TextFile, names: tuple[str, ...], report: Report) -> bool:
    """Whether a text leaves numbers alone. Judged on the template's tree, because ==, `in` and `is` would answer silently."""
    tree = _Environment().parse(text.file.text)
    firsts = {name.split(".")[0] for name in names}
    handed = _handed_on(tree)
    sound = True
    for node in tree.find_all((nodes.Name, nodes.Mul, nodes.Pow, nodes.Div, nodes.FloorDiv)):
        line = text.file.line_span(min(node.lineno, len(text.file.line_starts)))
        if not isinstance(node, nodes.Name):
            report.add(computed_in_template(line))
            sound = False
        elif not text.shared and node.name in firsts and node.ctx != "load":
            report.add(number_renamed(_word_in(line, node.name), node.name))
            sound = False
        elif not text.shared and node.name in firsts and id(node) not in handed:
            report.add(number_in_template(_word_in(line, node.name), node.name))
            sound = False
    return sound


def _handed_on(tree: nodes.Template) -> set[int]:
    """The names that are handed to a macro or to `upto`, which is all that may be done with a number."""
    held = set()
    for call in tree.find_all(nodes.Call):
        for argument in (*call.args, *(keyword.value for keyword in call.kwargs)):
            while isinstance(argument, nodes.Getattr):
                argument = argument.node
            held.add(id(argument))
    return held


def _line_reached(error: BaseException, files: Mapping[str, SourceFile], first: SourceFile) -> Span:
    """The line of a text that was being unfolded when it stopped."""
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        if frame.filename in files and frame.lineno:
            file = files[frame.filename]
            return file.line_span(min(frame.lineno, len(file.line_starts)))
    return first.line_span(1)


def _word_in(line: Span, word: str) -> Span:
    found = re.search(rf"(?<!\w){re.escape(word)}(?!\w)", line.text)
    return line.part(found.start(), found.end()) if found else line


def _in_words(error: BaseException) -> str:
    if isinstance(error, TooMuchText):
        return f"its loops go on for more than {MOST_ROUNDS:,} rounds"
    if isinstance(error, RecursionError):
        return "a macro calls itself without end"
    if isinstance(error, TemplateError | TypeError) and "Fraction" not in str(error):
        words = str(error).split("\n")[0]
        return words[:1].lower() + words[1:]
    return "Jinja cannot work this out"
