"""The plans of pattern.yaml: which kind each is, and its keys. Read, not worked out."""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.formulas.tree import Formula
from stitchproof.plans.kinds import KINDS, Asked
from stitchproof.reading.faults.missing_key import missing_key
from stitchproof.reading.faults.plan_kind_not_known import plan_kind_not_known
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.header_numbers import usable
from stitchproof.reading.pattern_source import PlanEntry, PlanInput
from stitchproof.reading.shape import Shape, formula_of
from stitchproof.reading.yaml_tree import Listing, Scalar, YamlNode


def read_plans(top: Shape) -> Iterator[PlanEntry]:
    """The plans by name; one that cannot be used (reported) has no kind."""
    for key, value in top.entries("plans"):
        if not usable(key, top.report):
            continue
        shape = Shape(value, top.report, f"the plan `{key.text}`", key.span, "plan")
        kind = _kind(shape) if shape.readable else ""
        asked = KINDS[kind].asked if kind else ()
        inputs = [found for each in asked if (found := _input(shape, each)) is not None]
        stitch, why = shape.words("stitch"), shape.words("why")
        if kind:
            shape.close()
        usable_plan = kind and not shape.missing and not shape.refused
        yield PlanEntry(key.text, kind if usable_plan else "", tuple(inputs), stitch, why, key.span, value.span)


def _kind(shape: Shape) -> str:
    written = shape.scalar("kind")
    if written is None:
        if "kind" not in shape.refused:
            shape.report.add(missing_key(shape.span, shape.where, "kind"))
        return ""
    text = " ".join(written.text.split())
    if text in KINDS:
        return text
    shape.report.add(plan_kind_not_known(written.span, text, KINDS))
    return ""


def _input(shape: Shape, asked: Asked) -> PlanInput | None:
    """The value of one key; None where it is absent. One that cannot be read (reported) is kept among those refused."""
    node = shape.take(asked.key, asked.required)
    if node is None:
        return None
    before = len(shape.refused)
    if asked.words is not None or asked.names_rate:
        text = node.text.strip() if isinstance(node, Scalar) else ""
        if not text or (asked.words is not None and text not in asked.words):
            wanted = "the name of a rate" if asked.words is None else "one of: " + ", ".join(asked.words)
            shape.report.add(wrong_kind_of_value(node.span, f"`{asked.key}`", wanted))
            shape.refused.add(asked.key)
        return PlanInput(asked.key, (), False, text, node.span)
    formulas = tuple(_formula(each, asked, shape) for each in (node.items if isinstance(node, Listing) else (node,)))
    by_size = isinstance(node, Listing) and not asked.many
    if not formulas and not asked.many:
        shape.report.add(wrong_kind_of_value(node.span, f"`{asked.key}`", "a number or a formula"))
        shape.refused.add(asked.key)
    if len(shape.refused) > before:
        return None
    return PlanInput(asked.key, formulas, by_size, "", node.span)


def _formula(node: YamlNode, asked: Asked, shape: Shape) -> Formula | None:
    if isinstance(node, Scalar):
        formula = formula_of(node, shape.report)
    else:
        formula = None
        wanted = "a list of numbers" if asked.many else "a number or a formula, or a list with one for each size"
        shape.report.add(wrong_kind_of_value(node.span, f"`{asked.key}`", wanted))
    if formula is None:
        shape.refused.add(asked.key)
    return formula
