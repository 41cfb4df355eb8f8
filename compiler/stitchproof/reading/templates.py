"""Makes a Jinja template of a text: marks before its literal text, island calls in place of its slots and conditions.

Jinja knows lines only and a slot looks like HTML to Markdown, so places are carried by marks and slots by numbers. Without
the marks the template gives exactly what the text would have given.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator

from msgspec import Struct, field

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.expressions import expression
from stitchproof.formulas.reader import KEYWORDS, read_formula
from stitchproof.formulas.slot import PrintAs, Slot, slots_in
from stitchproof.formulas.tree import Formula, names_in
from stitchproof.reading.faults.block_not_closed import block_not_closed
from stitchproof.reading.marks import CLOSE, JINJA_SIGNS, LINE, OPEN, mark
from stitchproof.reading.nesting import FENCE, JinjaToken, nested_too_deeply
from stitchproof.reading.pattern_source import Island
from stitchproof.source import SourceFile, Span

LOOP_END = '{{ "\\n" }}{% endfor %}'
_LOOP = expression(r"for\s+each\s+(?P<variable>[^\W\d]\w*)\s+in\s+(?P<first>.+?)\s+to\s+(?P<last>.+)")
_PLAN_LOOP = expression(r"for\s+each\s+(?P<what>[^\W\d]\w*(?:\s+[^\W\d]\w*)?)\s+of\s+(?P<plan>[^\W\d][\w.]*)")
_SIZES_WITH = expression(r"^(?:[ \t]*:::[ \t]*|[ \t]+)sizes[ \t]+with[ \t]+", re.MULTILINE | re.IGNORECASE)

WORDS_FOR_K = ("rnd", "round", "row", "hole", "buttonhole", "dec", "inc")
"""Single words that name what a plan counts, and no counter."""
_FIRST_SIGNS = expression(r"(?:\A|(?<=\n))[ \t]*(?=[^\s])")


class Registry(Struct):
    """The marks and islands of the texts of a pattern, numbered through. first_mark, first_island: where the numbers begin, for
    a text that is read by itself."""

    marks: list[Span] = field(default_factory=list)
    islands: list[Island] = field(default_factory=list)
    first_mark: int = 0
    first_island: int = 0

    def mark(self, span: Span) -> int:
        """Keep a place; its number."""
        self.marks.append(span)
        return self.first_mark + len(self.marks) - 1

    def stretch_mark(self, number: int, end: Span) -> None:
        """Let the place of a mark reach to the end of another."""
        at = number - self.first_mark
        self.marks[at] = self.marks[at].to(end)

    def island(self, island: Island) -> int:
        """Keep an island; its number."""
        self.islands.append(island)
        return self.first_island + len(self.islands) - 1

    def for_next_text(self) -> Registry:
        """An empty one whose numbers go on from here."""
        return Registry([], [], self.first_mark + len(self.marks), self.first_island + len(self.islands))

    def take_in(self, other: Registry) -> None:
        """What the registry of a text holds, behind what is held."""
        self.marks += other.marks
        self.islands += other.islands


class _Change(Struct, frozen=True):
    """Replace a stretch of literal text."""

    start: int
    end: int
    text: str


def make_template(file: SourceFile, shared: bool, registry: Registry, report: Report) -> str | None:
    """The template of a text, or None where Jinja cannot read it (reported)."""
    if not any(sign in file.text for sign in JINJA_SIGNS):
        tokens = [JinjaToken("data", Span(file, 0, len(file.text)))] if file.text else []
        too_deep = nested_too_deeply(tokens)
    else:
        from stitchproof.reading.jinja_tokens import jinja_tokens  # most texts have none

        read = jinja_tokens(file)
        too_deep, tokens = (read, []) if isinstance(read, Diagnostic) else (None, read)
    if too_deep:
        report.add(too_deep)
        return None
    return _TemplateMaker(file, shared, registry, report).made_of(tokens)


class _TemplateMaker:
    """Goes through the tokens of one text and writes the template."""

    def __init__(self, file: SourceFile, shared: bool, registry: Registry, report: Report) -> None:
        self.file = file
        self.shared = shared
        self.registry = registry
        self.report = report
        self.out: list[str] = []
        self.at = 0
        self.fences: list[tuple[bool, Span]] = []
        self.raw = False

    def made_of(self, tokens: list[JinjaToken]) -> str:
        block_word = ""
        in_block = False
        for token in tokens:
            kind, span = token.kind, token.span
            if kind == "data":
                self.copy_to(span.start)
                self.literal(span)
            elif kind in ("raw_begin", "raw_end"):
                self.raw = kind == "raw_begin"
            elif kind == "variable_begin":
                self.copy_to(span.end)
                opened = self.registry.mark(span)
                self.out.append(f' "{mark(OPEN, opened)}" ~ (')
            elif kind == "variable_end":
                self.copy_to(span.start)
                self.registry.stretch_mark(opened, span)
                self.out.append(f') ~ "{mark(CLOSE, opened)}" ')
            elif kind == "block_begin":
                in_block, block_word, block = True, "", span
            elif kind == "name" and in_block and not block_word:
                block_word = span.text
            elif kind == "block_end":
                in_block = False
                if block_word == "filter":
                    self.copy_to(span.start)
                    self.out.append(f"|placed({self.registry.mark(block.to(span))}) ")
        self.copy_to(len(self.file.text))
        for loop, span in self.fences:
            self.report.add(block_not_closed(span, "this block is opened and not closed", "close it with a line `:::`"))
            if loop:
                self.out.append(LOOP_END)
        return "".join(self.out)

    def copy_to(self, end: int) -> None:
        self.out.append(self.file.text[self.at : end])
        self.at = max(self.at, end)

    def literal(self, span: Span) -> None:
        """A stretch of literal text: fences and slots replaced, marks put in."""
        changes = [] if self.raw else [*self.fence_changes(span)]
        covered = sorted((change.start, change.end) for change in changes)
        if not self.raw:
            changes += self.slot_changes(span, covered)
        changes += self.line_marks(
            span, [(change.start, change.end) for change in changes if change.end > change.start]
        )
        for change in sorted(changes, key=lambda each: (each.start, each.end)):
            self.copy_to(change.start)
            self.out.append(change.text)
            self.at = max(self.at, change.end)
        self.copy_to(span.end)

    def line_marks(self, span: Span, replaced: list[tuple[int, int]]) -> Iterator[_Change]:
        """A mark before the first sign of each line, and behind each replaced stretch, where literal text counts on."""
        starts = {span.start + match.end() for match in _FIRST_SIGNS.finditer(span.text)}
        starts |= {end for _, end in replaced if end < span.end and self.file.text[end] != "\n"}
        replaced = sorted(replaced)
        for start in sorted(starts):
            before = bisect_left(replaced, (start,))
            if before and start < replaced[before - 1][1]:
                continue
            line_end = self.file.text.find("\n", start)
            whole = Span(self.file, start, span.end if line_end < 0 else min(line_end, span.end))
            yield _Change(start, start, mark(LINE, self.registry.mark(whole)))

    def fence_changes(self, span: Span) -> Iterator[_Change]:
        """Loops and conditions: `::: for each k in 1 to n`, `::: sizes with …`, `  sizes with …:` inside a step."""
        for match in FENCE.finditer(span.text):
            whole = span.part(match.start(), match.end())
            if self.file.line_column(whole.start)[1] != 1 or self.file.text[whole.end : whole.end + 1] not in (
                "",
                "\n",
            ):
                continue  # a part of its line comes from Jinja; expansion judges it as text
            words = span.part(match.start("words"), match.end("words"))
            loop = _LOOP.fullmatch(words.text) or _PLAN_LOOP.fullmatch(words.text)
            if words.text:
                self.fences.append((bool(loop), whole))
            elif not self.fences:
                self.report.add(
                    block_not_closed(whole, "this `:::` closes no block", "take it out, or open a block before it")
                )
            elif self.fences.pop()[0]:
                # Jinja drops the newline behind the tag, so the one that belongs to the line is printed before it.
                yield _Change(whole.end, whole.end, LOOP_END)
            if loop:
                yield self.loop_change(words, loop)
        for match in _SIZES_WITH.finditer(span.text):
            if self.file.line_column(span.start + match.start())[1] == 1:
                yield from self.condition_change(span, match)

    def loop_change(self, words: Span, loop: re.Match[str]) -> _Change:
        if "plan" in loop.re.groupindex:
            return self.plan_loop_change(words, loop)
        first = self.formula(words.part(loop.start("first"), loop.end("first")))
        last_span = words.part(loop.start("last"), loop.end("last"))
        last = self.formula(last_span)
        slot = Slot(last, PrintAs.USUAL, last_span) if last and first else None
        variable = loop["variable"]
        number = self.registry.island(Island(slot, first, variable, words, self.shared))
        return self.loop_of(words, number, variable, self.handed(*(formula for formula in (first, last) if formula)))

    def plan_loop_change(self, words: Span, loop: re.Match[str]) -> _Change:
        """`for each dec rnd of crown_dec` counts k; `for each n of crown_dec` a name of the designer's."""
        plan = words.part(loop.start("plan"), loop.end("plan"))
        what = words.part(loop.start("what"), loop.end("what"))
        variable = what.text if re.fullmatch(r"\w+", what.text) and what.text not in WORDS_FOR_K else "k"
        number = self.registry.island(Island(None, None, variable, words, self.shared, plan, what))
        return self.loop_of(words, number, variable, "")

    def loop_of(self, words: Span, number: int, variable: str, outer: str) -> _Change:
        start = self.file.line_starts[self.file.line_column(words.start)[0] - 1]
        place = mark(LINE, self.registry.mark(words))
        this_round = f"::: each {{{{ {number}|slot({outer}{variable}={variable}) }}}}"
        text = f"{{% for {variable} in {number}|each({outer}) %}}{place}{this_round}"
        return _Change(start, words.end, text)

    def condition_change(self, span: Span, match: re.Match[str]) -> Iterator[_Change]:
        start = match.end()
        in_fence = ":::" in match[0]
        line_end = span.text.find("\n", start)
        line = span.text[start : line_end if line_end >= 0 else len(span.text)]
        length = len(line.rstrip()) if in_fence else line.find(":")
        if length <= 0:
            return
        condition = span.part(start, start + length)
        formula = self.formula(condition)
        slot = Slot(formula, PrintAs.USUAL, condition) if formula else None
        number = self.registry.island(Island(slot, None, "", condition, self.shared))
        yield _Change(
            condition.start, condition.end, f"{{{{ {number}|slot({self.handed(formula) if formula else ''}) }}}}"
        )

    def slot_changes(self, span: Span, covered: list[tuple[int, int]]) -> Iterator[_Change]:
        edges = [span.start, *(edge for pair in covered for edge in pair), span.end]
        for start, end in zip(edges[::2], edges[1::2], strict=True):
            for slot in slots_in(Span(self.file, start, max(start, end))):
                if not isinstance(slot, Slot):
                    self.report.add(slot)
                    continue
                number = self.registry.island(Island(slot, None, "", slot.span, self.shared))
                call = f"{{{{ {number}|slot({self.handed(slot.formula)}) }}}}"
                yield _Change(slot.span.start, slot.span.end, call)

    def formula(self, span: Span) -> Formula | None:
        formula = read_formula(span)
        if isinstance(formula, Formula):
            return formula
        self.report.add(formula)
        return None

    def handed(self, *formulas: Formula) -> str:
        """The Jinja variables that a formula may speak of, handed along: a slot is a closure."""
        names = {
            node.name: None
            for formula in formulas
            for node in names_in(formula.node)
            if "." not in node.name and node.name not in KEYWORDS
        }
        return "".join(f"{name}={name}|default(none)," for name in names)
