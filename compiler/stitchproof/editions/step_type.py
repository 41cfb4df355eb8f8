"""A step set in type: its label with the sizes it is for, and its parts as lines."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.editions.line_type import LineType, stripped
from stitchproof.editions.no_break import held
from stitchproof.editions.print_document import NO_BREAK, PlainText, PrintInline, PrintStep, StepLine, visible_text
from stitchproof.editions.size_tags import ALL_SIZES, as_line, only_sizes
from stitchproof.expansion.document import Number, Part, Role, Served, Step, Tag, Text

LONGEST_HELD_LABEL = 24
"""Characters. A longer label may break, also before the line that follows it."""


def set_step(step: Step, around: Served, line_type: LineType, opens_all: bool = False) -> PrintStep:
    """A step as printed. around: the sizes that the page has already announced for this place, so that no tag is needed
    for just these. opens_all: a passage for all sizes begins here and has no line of its own to say so.

    One part: its tag goes into the label ("Dec Rnd 11, size 5 only:"). Several: the label, then a line for each part; where
    one size is printed they run on as one.
    """
    if len(step.parts) == 1:
        part = step.parts[0]
        tag = _tag(part.tag, part.served, around, line_type) or (ALL_SIZES if opens_all else "")
        label = _label(step, tag, line_type)
        return PrintStep(step.identity, label, (StepLine("", _after(label, line_type.row(part.tokens))),))
    if len(line_type.sizes.chosen) == 1:
        step = replace(step, parts=tuple(_run_on(step.parts)))
        if len(step.parts) == 1:
            return set_step(step, around, line_type, opens_all)
    tag = _tag(Tag.NONE, step.served, around, line_type) or (ALL_SIZES if opens_all else "")
    label = _label(step, tag, line_type)
    first, *others = [_line(part, step.served, line_type) for part in step.parts]
    if not first.tag:
        first = StepLine("", _after(label, first.inlines))
    return PrintStep(step.identity, label, (first, *others))


def _run_on(parts: tuple[Part, ...]) -> list[Part]:
    """The parts without their tags, each on the line of the one before it unless that closes with a count."""
    lines: list[Part] = []
    for part in parts:
        closed = bool(lines) and any(
            isinstance(token, Number) and token.role is Role.STATED_COUNT for token in lines[-1].tokens
        )
        if lines and not closed and part.tokens:
            blank = Text(" ", part.tokens[0].place)
            lines[-1] = replace(lines[-1], tokens=(*lines[-1].tokens, blank, *part.tokens))
        else:
            lines.append(replace(part, tag=Tag.NONE))
    return lines


def _line(part: Part, around: Served, line_type: LineType) -> StepLine:
    return StepLine(as_line(_tag(part.tag, part.served, around, line_type)), line_type.row(part.tokens))


def _tag(tag: Tag, served: Served, around: Served, line_type: LineType) -> str:
    """Whatever serves fewer sizes than its surroundings says so, also if nobody asked for a tag."""
    if tag is Tag.ALL:
        return ALL_SIZES
    if tag is Tag.NONE and served == around:
        return ""
    return only_sizes(served, line_type.sizes)


def _after(label: tuple[PrintInline, ...], line: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
    """The line with a blank before it, which keeps its first word beside a short label."""
    if not label:
        return line
    blank = NO_BREAK if len(visible_text(label)) <= LONGEST_HELD_LABEL else " "
    return (PlainText(blank), *line)


def _label(step: Step, tag: str, line_type: LineType) -> tuple[PrintInline, ...]:
    """The label with the tag before its colon."""
    label = list(stripped(line_type.row(step.label)))
    if not label:
        return (PlainText(as_line(tag)),) if tag else ()
    if len(visible_text(tuple(label))) <= LONGEST_HELD_LABEL:
        label = [PlainText(held(inline.text)) if isinstance(inline, PlainText) else inline for inline in label]
    if tag:
        last = label[-1]
        if isinstance(last, PlainText):
            label[-1] = PlainText(last.text.removesuffix(":"))
        label.append(PlainText(f", {tag}:"))
    return tuple(label)
