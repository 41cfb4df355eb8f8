"""`yarn` of pattern.yaml: what stitches weigh, the sample they are scaled to, how amounts are told. Read, not worked out."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.expressions import expression
from stitchproof.reading.faults.missing_key import missing_key
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.header_numbers import read_definition, usable
from stitchproof.reading.pattern_source import CountsAs, Definition, Words, YarnEntry, YarnStitch
from stitchproof.reading.shape import EXAMPLES, Shape
from stitchproof.reading.yaml_tree import Mapping, Scalar, YamlNode

NUMBERS = ("margin", "round_up_to", "length", "length_up_to", "ball")
YARN_KEYS = frozenset({"weights", "counts_as", "inside_scale", "sample", "pieces", "one_of", *NUMBERS})
_STITCH = expression(r"(?P<stitch>.+?)(?:\s+at\s+(?P<gauge>\S+))?")
_SO_MANY = expression(r"(?:(?P<number>[0-9]{1,4}(?:\.[0-9]{1,4})?)\s+)?(?P<of>\D.*)")
_NO_LETTERS = expression(r"[^0-9A-Za-z]+")


def read_yarns(top: Shape) -> Iterator[YarnEntry]:
    """One yarn where its keys stand under `yarn` themselves, else one for each name."""
    node = top.take("yarn")
    own = next((key for key, _ in top.node.entries if key.text == "yarn"), None)
    if node is None or own is None:
        return
    if not isinstance(node, Mapping) or any(key.text in YARN_KEYS for key, _ in node.entries):
        yield from _yarn("yarn", own, node, top)
        return
    for key, value in node.entries:
        if usable(key, top.report):
            yield from _yarn(f"yarn.{key.text}", key, value, top)


def _yarn(name: str, key: Scalar, node: YamlNode, top: Shape) -> Iterator[YarnEntry]:
    shape = Shape(node, top.report, f"`{name}`", node.span, "yarn")
    if not shape.readable:
        top.refused.add("yarn")
        return
    weights: list[YarnStitch] = []
    numbers: list[Definition] = []
    if shape.take("weights", required=True) is not None:
        for written, value in shape.entries("weights"):
            stitch = _stitch(written, f"{name}.weights.")
            weights.append(stitch)
            numbers.append(read_definition("yarn", stitch.name, "", written, value, top.report))
    counts_as = tuple(_counts_as(shape))
    inside = tuple(_stitch_of(words) for words in shape.words_list("inside_scale"))
    one_of = shape.words_list("one_of")
    size, sample_pieces = _sample(shape, name, numbers, bool(one_of))
    for number in NUMBERS:
        numbers += _number(shape, number, f"{name}.{number}")
    pieces = shape.words_list("pieces")
    shape.close()
    if shape.refused:
        top.refused.add("yarn")
    yield YarnEntry(
        name, tuple(numbers), tuple(weights), counts_as, inside, size, sample_pieces, pieces, one_of, key.span
    )


def _number(shape: Shape, key: str, name: str, required: bool = False) -> Iterator[Definition]:
    value = shape.take(key, required)
    written = next((each for each, _ in shape.node.entries if each.text == key), None)
    if value is not None and written is not None:
        yield read_definition("yarn", name, "", written, value, shape.report)


def _sample(
    shape: Shape, name: str, numbers: list[Definition], one_of_several: bool
) -> tuple[Words | None, tuple[Words, ...]]:
    """The size of the sample and the pieces it has; what it weighs goes to the numbers."""
    sample = shape.group("sample", f"`sample` of `{name}`")
    if sample is None:
        return None, ()
    size, pieces = sample.words("size", required=True), sample.words_list("pieces")
    numbers += _number(sample, "weighs", f"{name}.sample", required=True)
    sample.close()
    if one_of_several and not pieces and sample.readable:
        shape.report.add(missing_key(sample.span, f"`sample` of `{name}`", "pieces"))
    return size, pieces


def _counts_as(shape: Shape) -> Iterator[CountsAs]:
    for key, value in shape.entries("counts_as"):
        said = _SO_MANY.fullmatch(" ".join(value.text.split())) if isinstance(value, Scalar) else None
        if said is None or not isinstance(value, Scalar) or Fraction(said["number"] or 1) == 0:
            wanted = "another stitch, or so many of it, such as `hdc` or `5 dc`"
            shape.report.add(wrong_kind_of_value(value.span, f"`{key.text}`", wanted, EXAMPLES["counts_as"]))
            continue
        of = _STITCH.fullmatch(said["of"].strip())
        target = YarnStitch(of["stitch"] if of else said["of"], (of["gauge"] if of else "") or "", value.span)
        yield CountsAs(_stitch(key), Fraction(said["number"] or 1), target)


def _stitch(key: Scalar, prefix: str = "") -> YarnStitch:
    text = " ".join(key.text.split())
    parts = _STITCH.fullmatch(text)
    name = f"{prefix}{_NO_LETTERS.sub('_', text).strip('_')}" if prefix else ""
    return YarnStitch(parts["stitch"] if parts else text, (parts["gauge"] if parts else "") or "", key.span, name)


def _stitch_of(words: Words) -> YarnStitch:
    parts = _STITCH.fullmatch(" ".join(words.text.split()))
    return YarnStitch(parts["stitch"] if parts else words.text, (parts["gauge"] if parts else "") or "", words.span)
