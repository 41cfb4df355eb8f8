"""How an amount of yarn came about, per size, as text: stitches by their weights, the scale, the margin and each rounding."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from stitchproof.formulas.kind import amount_text
from stitchproof.measures.values import Absent, exact_text, rounded_text
from stitchproof.measures.yarn_sum import BuyingRule, StitchesWeighed, YarnSum, weight_of
from stitchproof.sizing.body_derivation import place_text
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.sizing.sized_yarns import SizedYarn, YarnUse
from stitchproof.sizing.yarns import METRES

GRAMS_DIGITS = 2
STITCH_DIGITS = 5
NOT_KNOWN = "not known: the rows it is counted from are not all proved, or a stitch has no weight"


def use_of(name: str, sized: SizedPattern) -> YarnUse | None:
    """The yarn that a name is an amount of; None for any other name, and before the rows are worked."""
    return next(
        (use for use in sized.uses if name.rpartition(".")[0] == use.yarn.name and name in sized.scope.late), None
    )


def yarn_text(quantity: Quantity, use: YarnUse, sized: SizedPattern, sizes: tuple[int, ...]) -> str:
    """The derivation of an amount of yarn in the sizes asked for."""
    facts = [("written", place_text(use.yarn.span)), *_facts(use, sized)]
    key = quantity.name.rpartition(".")[2]
    lines = [
        f"{quantity.name}  {quantity.kind.in_words()}, counted from the rows",
        *(f"{title:<9} {text}" for title, text in facts),
        "",
        *_sums(key, use, sized, sizes),
    ]
    return "\n".join(lines) + "\n"


def _facts(use: YarnUse, sized: SizedPattern) -> list[tuple[str, str]]:
    yarn = use.yarn
    weights = [f"{each.key.words} {_first(each.grams)}" for each in yarn.weights]
    facts = [("weights", ", ".join(weights))]
    facts += [("counts as", ", ".join(_stands(yarn)))] if yarn.stands_for else []
    inside = ", ".join(key.words for key in yarn.inside_scale)
    facts += [("inside", f"{inside}: not weighed, in the weight of the sample")] if inside else []
    facts += [("one of", ", ".join(yarn.one_of))] if yarn.one_of else []
    if yarn.sample:
        pieces = f", {' and '.join(yarn.sample.pieces)}" if yarn.sample.pieces else ""
        facts.append(("sample", f"size {sized.sizes[yarn.sample.size]}{pieces}, weighed {_first(yarn.sample.weighs)}"))
    if use.weighed is not None and use.scale is not None:
        counted = weight_of(use.sample)
        facts.append(
            ("scale", f"{_grams(use.weighed)} ÷ {_grams(counted)} by its stitches = {rounded_text(use.scale, 3)}")
        )
    return facts


def _stands(yarn: SizedYarn) -> Iterable[str]:
    for each in yarn.stands_for:
        yield f"{each.key.words} as {each.of.words if each.number == 1 else f'{exact_text(each.number)} {each.of.words}'}"


def _first(values: tuple[object, ...]) -> str:
    """A number that is mostly the same in all sizes, and otherwise all of them."""
    texts = [_weight(each) if isinstance(each, Fraction) else "?" for each in values]
    return texts[0] if len(set(texts)) == 1 else ", ".join(texts)


def _sums(key: str, use: YarnUse, sized: SizedPattern, sizes: tuple[int, ...]) -> list[str]:
    if key == "scale" and use.scale is not None:
        return [f"all sizes  {rounded_text(use.scale, 3)}"]
    width = max(len(sized.sizes[size]) for size in sizes)
    lines = []
    for size in sizes:
        found = use.sums[size]
        if isinstance(found, Absent):
            words = [NOT_KNOWN if found is Absent.UNKNOWN else found.value]
        else:
            words = _worked(key, use, found, size)
        lines += [f"{sized.sizes[size] if number == 0 else '':<{width}}  {text}" for number, text in enumerate(words)]
    return lines


def _worked(key: str, use: YarnUse, found: YarnSum, size: int) -> list[str]:
    """The lines of one size, from the stitches to the amount that was asked for."""
    rule = use.yarn.rules[size] or BuyingRule()
    most = f"  ({use.one_of[size]} takes most)" if use.one_of[size] else ""
    lines = [f"{_stitches(use.stitches[size])} = {_grams(found.counted)}{most}"]
    if key == "counted":
        return lines
    lines.append(f"× scale {rounded_text(found.scale, 3)} = {_grams(found.predicted)}")
    if key == "predicted":
        return lines
    rounded = f" → {_grams(found.grams)}, up to a multiple of {_grams(rule.step)}"
    lines.append(f"+ {exact_text(rule.margin * 100)} % = {_grams(found.with_margin)}{rounded}")
    if key == "metres" and rule.cm_per_gram is not None and found.cm_of_yarn is not None:
        exact = found.grams * rule.cm_per_gram
        up = f"up to a multiple of {amount_text(rule.length_step, METRES)}"
        per = amount_text(rule.cm_per_gram * 100, METRES)
        lines.append(
            f"× {per} per 100 g = {amount_text(exact, METRES)} → {amount_text(found.cm_of_yarn, METRES)}, {up}"
        )
    if key == "balls" and rule.ball is not None and found.balls is not None:
        exact = found.grams / rule.ball
        lines.append(f"÷ {_grams(rule.ball)} = {rounded_text(exact)} → {exact_text(found.balls)}, up to a whole number")
    return lines


def _stitches(stitches: tuple[StitchesWeighed, ...]) -> str:
    return " + ".join(f"{exact_text(each.number)} {each.words} × {_weight(each.grams)}" for each in stitches) or "0"


def _weight(grams: Fraction) -> str:
    """What one stitch weighs: exact where that is short, else to a hundredth of a milligram."""
    text = exact_text(grams)
    return f"{text if '/' not in text else rounded_text(grams, STITCH_DIGITS)} g"


def _grams(number: Fraction) -> str:
    return f"{rounded_text(number, GRAMS_DIGITS)} g"
