"""What the designer says must hold: each entry of `must_hold` is one sentence, told apart by the word it begins with."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from stitchproof.diagnostics.nearest import nearest
from stitchproof.expressions import expression
from stitchproof.formulas.faults.name_not_usable import name_not_usable
from stitchproof.formulas.reader import KEYWORDS, read_formula
from stitchproof.formulas.tree import Formula
from stitchproof.reading.claim_entries import (
    Assertion,
    Claim,
    EaseEntry,
    EdgeEntry,
    EveryValue,
    OpeningEntry,
    PartsEntry,
    RatioEntry,
    ShapingEntry,
    StepEntry,
)
from stitchproof.reading.faults.key_written_twice import key_written_twice
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.shape import Shape, formula_of
from stitchproof.reading.yaml_tree import Scalar, YamlNode
from stitchproof.source import Span

KINDS_OF_EDGE = ("firm sc", "mesh", "rib")
"""What a line of an opening can be made of, where its stretch is not measured."""
_FOR_EACH = expression(r"\s*(?P<name>[^\W\d]\w*)\s+in\s+(?P<first>\S.*?)\s+to\s+(?P<last>\S.*?)\s*")


def read_claims(top: Shape) -> Iterator[Claim]:
    """The entries that can be read; what is wrong with the others is reported."""
    shapings: dict[str, Span] = {}
    for item in top.listing("must_hold"):
        shape = Shape(item, top.report, "an entry of `must_hold`", item.span, "assertion")
        reader = FORMS[_form(shape)]
        claim = reader(shape)
        shape.close()
        if isinstance(claim, ShapingEntry):
            if claim.name in shapings:
                top.report.add(key_written_twice(claim.name_span, shapings[claim.name]))
            shapings.setdefault(claim.name, claim.name_span)
        if claim and not shape.refused:
            yield claim


def _form(shape: Shape) -> str:
    """The word that says which kind of sentence it is; `that` where there is none."""
    written = [key.text for key, _ in shape.node.entries]
    found = [word for word in FORMS if word in written]
    if len(found) > 1:
        second = next(key for key, _ in shape.node.entries if key.text == found[1])
        wanted = f"one sentence; `{found[1]}` begins another"
        shape.report.add(wrong_kind_of_value(second.span, shape.where, wanted, f"- {found[1]}: …"))
        shape.refused.add(found[1])
        shape.known.update(found)
    # A word that is misspelt is reported with the keys; the rest is read as what it was meant to be.
    meant = (near for word in written if (near := nearest(word, FORMS)))
    return found[0] if found else next(meant, "that")


def _why(shape: Shape) -> str:
    words = shape.words("why")
    return " ".join(words.text.split()) if words else ""


def _assertion(shape: Shape) -> Claim | None:
    that, for_each = shape.formula("that", required=True), _every_value(shape)
    why = _why(shape)
    return Assertion(that, for_each, why, shape.span) if that else None


def _every_value(shape: Shape) -> EveryValue | None:
    scalar = shape.scalar("for_each")
    if scalar is None:
        return None
    found = _FOR_EACH.fullmatch(scalar.span.text)
    if not found:
        wanted = "a letter that counts, and the numbers it counts from and to"
        shape.report.add(wrong_kind_of_value(scalar.span, "`for_each`", wanted, "for_each: k in 1 to inc_rnds"))
        shape.refused.add("for_each")
        return None
    first, last = (_part(scalar.span, found, group, shape) for group in ("first", "last"))
    if found["name"] in KEYWORDS:
        there = scalar.span.part(found.start("name"), found.end("name"))
        shape.report.add(name_not_usable(there, "it has a meaning of its own in formulas", "count with `k`"))
        shape.refused.add("for_each")
    return EveryValue(found["name"], first, last, scalar.span) if first and last else None


def _part(span: Span, found: re.Match[str], group: str, shape: Shape) -> Formula | None:
    formula = read_formula(span.part(found.start(group), found.end(group)))
    if isinstance(formula, Formula):
        return formula
    shape.report.add(formula)
    shape.refused.add("for_each")
    return None


def _parts(shape: Shape) -> Claim | None:
    items = shape.listing("parts")
    parts = tuple(formula for item in items if (formula := _item(item, "each part", shape)))
    make, why = shape.formula("make", required=True), _why(shape)
    if not items or len(parts) < len(items):
        shape.refused.add("parts")
    return PartsEntry(parts, make, why, shape.span) if make else None


def _item(item: YamlNode, what: str, shape: Shape) -> Formula | None:
    if isinstance(item, Scalar) and not item.is_empty:
        return formula_of(item, shape.report)
    shape.report.add(wrong_kind_of_value(item.span, what, "one number or formula", "parts: [back, front]"))
    return None


def _shaping(shape: Shape) -> Claim | None:
    name, mirrors = shape.scalar("shaping", required=True), shape.scalar("mirrors")
    start, end = shape.formula("from", required=True), shape.formula("to", required=True)
    each = _change(shape, required=True)
    times, first_on, within, ends_on = (shape.formula(key) for key in ("times", "first_on", "within", "ends_on"))
    steps = tuple(_steps(shape))
    why = _why(shape)
    if "times" in shape.refused or times is None:
        _needs_schedule(shape, first_on, steps)
    elif first_on or steps or within or ends_on:
        wanted = "either `times` (how many changes in all) or the rows they fall on (`first_on`, `then`)"
        shape.report.add(wrong_kind_of_value(times.span, "a shaping", wanted))
        shape.refused.add("times")
    if name is None or not (start and end and each):
        return None
    return ShapingEntry(
        name.text.strip(),
        name.span,
        start,
        end,
        each,
        times,
        first_on,
        steps,
        within,
        ends_on,
        mirrors.text.strip() if mirrors else "",
        mirrors.span if mirrors else name.span,
        why,
        shape.span,
    )


def _change(shape: Shape, required: bool = False) -> Formula | None:
    """What each change adds. A plus sign in front, which no formula has, is as good as none."""
    scalar = shape.scalar("each", required)
    if scalar is None or not scalar.span.text.startswith("+"):
        return shape.formula("each", required=False) if scalar else None
    formula = read_formula(scalar.span.part(1, len(scalar.span.text)))
    if isinstance(formula, Formula):
        return formula
    shape.report.add(formula)
    shape.refused.add("each")
    return None


def _needs_schedule(shape: Shape, first_on: Formula | None, steps: tuple[StepEntry, ...]) -> None:
    if first_on is None and not steps and not {"times", "first_on", "then"} & shape.refused:
        wanted = "`times` (how many changes in all), or the rows they fall on (`first_on`, `then`)"
        example = "then: [{every: 2 rows, times: 6}]"
        shape.report.add(wrong_kind_of_value(shape.span, "a shaping", wanted, example))
        shape.refused.add("times")


def _steps(shape: Shape) -> Iterator[StepEntry]:
    for item in shape.listing("then"):
        step = Shape(item, shape.report, "a step of `then`", item.span, "then")
        every, times = step.formula("every", required=True), step.formula("times", required=True)
        each = _change(step)
        step.close()
        if every is None or times is None or step.refused:
            shape.refused.add("then")
        else:
            yield StepEntry(every, times, each, item.span)


def _opening(shape: Shape) -> Claim | None:
    line, over = shape.formula("opening", required=True), shape.formula("over", required=True)
    stretch, spare = shape.formula("stretch"), shape.formula("spare")
    of, why = shape.choice("of", KINDS_OF_EDGE, ""), _why(shape)
    return OpeningEntry(line, stretch, of, over, spare, why, shape.span) if line and over else None


def _ease(shape: Shape) -> Claim | None:
    finished, over = shape.formula("ease", required=True), shape.formula("over", required=True)
    low, high, least = (shape.formula(key) for key in ("from", "to", "at_least"))
    why = _why(shape)
    if not (low or high or least or shape.refused):
        wanted = "the ease that the pattern states (`from`, `to`), or the least that can be worn (`at_least`)"
        shape.report.add(wrong_kind_of_value(shape.span, "an ease", wanted, "from: 7 cm"))
        shape.refused.add("from")
    return EaseEntry(finished, over, low, high, least, why, shape.span) if finished and over else None


def _edge(shape: Shape) -> Claim | None:
    edge, meets = shape.formula("edge", required=True), shape.formula("meets", required=True)
    low, high, why = shape.formula("from"), shape.formula("to"), _why(shape)
    return EdgeEntry(edge, meets, low, high, why, shape.span) if edge and meets else None


def _ratio(shape: Shape) -> Claim | None:
    measure, against = shape.formula("ratio", required=True), shape.formula("against", required=True)
    low, high, why = shape.formula("from"), shape.formula("to"), _why(shape)
    return RatioEntry(measure, against, low, high, why, shape.span) if measure and against else None


FORMS: dict[str, Callable[[Shape], Claim | None]] = {
    "that": _assertion,
    "parts": _parts,
    "shaping": _shaping,
    "opening": _opening,
    "ease": _ease,
    "edge": _edge,
    "ratio": _ratio,
}
"""The word that a sentence begins with, and what reads it."""
