"""Judges, before it runs, whether the template of a text keeps to what templates may do."""

from __future__ import annotations

import re
from collections.abc import Iterator
from unicodedata import category

from jinja2 import Environment, nodes

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.faults.number_in_template import (
    computed_in_template,
    last_round_in_template,
    number_in_template,
    number_renamed,
)
from stitchproof.expansion.faults.template_cannot_run import template_cannot_run
from stitchproof.expansion.sandbox import FILTERS
from stitchproof.reading.pattern_source import PatternSource, TextFile
from stitchproof.source import TURNS_THE_LINE, SourceFile, Span

SYNTAX = Environment(trim_blocks=True, lstrip_blocks=True)  # noqa: S701  # only its parser is used


def text_is_sound(text: TextFile, source: PatternSource, names: tuple[str, ...], report: Report) -> bool:
    """Whether a text leaves numbers alone. Judged on the template's tree, because ==, `in` and `is` would answer silently."""
    found = _faults_of(text, () if text.shared else tuple(name.split(".")[0] for name in names))
    if not text.shared:
        found += [number_renamed(span, span.text) for span in _loop_variables(text, source) if span.text in names]
    report.extend(found)
    return not found


def _faults_of(text: TextFile, numbers: tuple[str, ...]) -> list[Diagnostic]:
    tree = SYNTAX.parse(text.file.text)
    handed = _handed_on(tree)
    found: list[Diagnostic] = []
    for node in tree.find_all((nodes.Expr, nodes.Stmt)):
        line = text.file.line_span(min(node.lineno or 1, len(text.file.line_starts)))
        found += [number_renamed(word_in(line, name), name) for name in _names_set(node) if name in numbers]
        match node:
            case nodes.Name() if node.name in numbers and node.ctx == "load" and id(node) not in handed:
                found.append(number_in_template(word_in(line, node.name), node.name))
            case nodes.Mul() | nodes.Pow() | nodes.Div() | nodes.FloorDiv():
                if not any(name.name in numbers for name in node.find_all(nodes.Name)):
                    found.append(computed_in_template(line))
            case nodes.For() if _up_to_a_name(node.iter):
                found += [last_round_in_template(word_in(line, asked)) for line, asked in _last_rounds(node, text.file)]
            case nodes.Filter() if node.name not in FILTERS:
                found.append(template_cannot_run(word_in(line, node.name), f"texts have no filter `{node.name}`"))
            case nodes.EvalContextModifier():
                found.append(template_cannot_run(line, "a text is not HTML, nothing in it is escaped"))
            case nodes.Const() if isinstance(node.value, str) and (refused := _refused(node.value)):
                what = f"an escape stands for a character that does not print (U+{ord(refused):04X})"
                found.append(template_cannot_run(line, what, "take it out"))
    return found


def _refused(text: str) -> str:
    """The first sign of a text that only an escape can bring in: one that does not print, or that no text may hold."""
    return next((sign for sign in text if _is_refused(sign)), "")


def _is_refused(sign: str) -> bool:
    return (category(sign) in ("Cc", "Cs", "Co") and sign not in "\n\t") or sign in TURNS_THE_LINE


def _names_set(node: nodes.Node) -> list[str]:
    """The names that a template gives to what is its own."""
    match node:
        case nodes.Name():
            return [node.name] if node.ctx != "load" else []
        case nodes.Macro():
            return [node.name]
        case nodes.Import():
            return [node.target]
        case nodes.FromImport():
            return [name if isinstance(name, str) else name[1] for name in node.names]
        case _:
            return []


def _up_to_a_name(node: nodes.Node) -> bool:
    """Whether a loop runs up to what may be a number of the pattern."""
    if not isinstance(node, nodes.Call) or not isinstance(node.node, nodes.Name) or node.node.name != "upto":
        return False
    return not all(isinstance(argument, nodes.Const) for argument in node.args)


def _last_rounds(loop: nodes.For, file: SourceFile) -> Iterator[tuple[Span, str]]:
    """Where the body of a loop asks how far the end is: each size has another one."""
    for node in (found for part in loop.body for found in part.find_all(nodes.Getattr)):
        if isinstance(node.node, nodes.Name) and node.node.name == "loop" and node.attr in _ENDS:
            yield file.line_span(min(node.lineno, len(file.line_starts))), f"loop.{node.attr}"


_ENDS = frozenset({"last", "length", "revindex", "revindex0", "nextitem"})


def _loop_variables(text: TextFile, source: PatternSource) -> Iterator[Span]:
    """The names that the loop blocks of a text count by."""
    for island in source.islands:
        if island.variable and island.span.file is text.file:
            yield word_in(island.span, island.variable)


def _handed_on(tree: nodes.Template) -> set[int]:
    """The names that are handed to a macro or to `upto`, which is all that may be done with a number."""
    held = set()
    for call in tree.find_all(nodes.Call):
        called = call.node.node if isinstance(call.node, nodes.Getattr) else call.node
        if not isinstance(called, nodes.Name) or called.name == "loop":
            continue
        for argument in (*call.args, *(keyword.value for keyword in call.kwargs)):
            while isinstance(argument, nodes.Getattr):
                argument = argument.node
            held.add(id(argument))
    return held


def word_in(line: Span, word: str) -> Span:
    """The word in a line; all of the line where it does not stand there."""
    found = re.search(rf"(?<!\w){re.escape(word)}(?!\w)", line.text)
    return line.part(found.start(), found.end()) if found else line
