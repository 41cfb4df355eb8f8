"""The numbers of pattern.yaml: gauges, rates and named values. Read, not worked out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.diagnostics.report import Report
from stitchproof.expressions import expression
from stitchproof.formulas.faults.name_not_usable import name_not_usable
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Amount, Formula
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.header_body import TABLE_KEYS
from stitchproof.reading.pattern_source import Column, Definition, Gauge, RateEntry, Words
from stitchproof.reading.shape import Shape, formula_of, words_of
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode

DEFINITION_KEYS = {
    "is",
    "by_hand",
    "cm",
    "in",
    "unit",
    "round",
    "multiple",
    "at_least",
    "at_most",
    "start",
    "gauge",
    "why",
    "should_be",
}
_NAME = expression(r"([^\W\d]\w*)(?:\(([^\W\d]\w*)\))?")
_OF_PLUS = expression(r"(?P<of>.+?)(?:\s+plus\s+(?P<plus>.+))?")


def read_gauges(top: Shape) -> Iterator[Gauge]:
    """The gauges by name. `rounds` says that the gauge was worked in rounds, `rows` in rows."""
    for key, value in top.entries("gauges"):
        if not usable(key, top.report):
            continue
        shape = Shape(value, top.report, f"the gauge `{key.text}`", key.span, "gauge")
        if not shape.readable:
            top.refused.add("gauges")
            continue
        rounds, rows = shape.formula("rounds"), shape.formula("rows")
        stitches, over = shape.formula("stitches", required=True), shape.formula("over", required=True)
        yield Gauge(
            key.text,
            stitches,
            rounds or rows,
            "rnds" if rounds else "rows",
            over,
            shape.formula("rows_per_rib"),
            shape.words("stitch"),
            shape.words("worked"),
            shape.words("hook"),
            shape.words("state"),
            key.span,
            tuple(sorted(shape.refused)),
        )
        shape.close()


def read_rates(top: Shape) -> Iterator[RateEntry]:
    """The pick-up rates by name."""
    for key, value in top.entries("rates"):
        if not usable(key, top.report):
            continue
        shape = Shape(value, top.report, f"the rate `{key.text}`", key.span, "rate")
        yield RateEntry(
            key.text,
            shape.formula("sts", required=True),
            shape.formula("per", required=True),
            shape.formula("left_over"),
            shape.words("along"),
            key.span,
        )
        shape.close()


def read_definitions(top: Shape) -> Iterator[Definition]:
    """Every named value: body, ratios, measures and counts, in the order written; groups give dotted names."""
    for section in ("body", "ratios", "measures", "counts"):
        for key, value in top.entries(section):
            if section != "body" or key.text not in TABLE_KEYS:
                yield from _definitions(section, "", key, value, top.report)


def values_listed(definitions: tuple[Definition, ...]) -> int:
    """How many values the lists with one for each size have; 0 where they differ, or where there are fewer than two lists."""
    lengths = [
        len(definition.formulas) for definition in definitions if definition.by_hand and len(definition.formulas) > 1
    ]
    return lengths[0] if len(lengths) > 1 and len(set(lengths)) == 1 else 0


def _definitions(section: str, prefix: str, key: Scalar, value: YamlNode, report: Report) -> Iterator[Definition]:
    name = _NAME.fullmatch(key.text)
    if not name:
        report.add(name_not_usable(key.span, "a name is letters, digits and underscores", _name_help(key.text)))
        return
    if (
        isinstance(value, Mapping)
        and not any(entry.text in DEFINITION_KEYS for entry, _ in value.entries)
        and value.entries
    ):
        for inner_key, inner in value.entries:
            yield from _definitions(section, f"{prefix}{key.text}.", inner_key, inner, report)
        return
    yield read_definition(section, f"{prefix}{name[1]}", name[2] or "", key, value, report)


def read_definition(
    section: str, name: str, parameter: str, key: Scalar, value: YamlNode, report: Report
) -> Definition:
    """One named value under its full name; what is wrong with it is reported."""
    node: YamlNode = value
    shape = Shape(value if isinstance(value, Mapping) else None, report, f"`{name}`", key.span)
    unit = shape.words("unit")
    given = [(each, node_) for each in ("is", "by_hand", "cm", "in") if (node_ := shape.take(each)) is not None]
    if isinstance(value, Mapping):
        node = given[0][1] if given else value
        if not _go_together(given, parameter):
            report.add(
                wrong_kind_of_value(
                    value.span,
                    f"`{name}`",
                    "one of `is` (a formula), `by_hand` (one value per size), `cm` or `in` (or both columns), "
                    "or `is` with `by_hand: {SIZE: VALUE}`",
                )
            )
    formulas, by_hand = _values(node, name, report)
    multiple, plus = _multiple(shape.scalar("multiple"), report)
    if given and given[0][0] in ("cm", "in") and not unit:
        unit = Words(given[0][0], node.span)
    definition = Definition(
        name,
        section,
        parameter,
        formulas,
        by_hand,
        unit,
        shape.words("round"),
        multiple,
        plus,
        shape.formula("at_least"),
        shape.formula("at_most"),
        shape.formula("start"),
        shape.words("gauge"),
        shape.words("why"),
        key.span,
        node.span,
        _inches(given, name, report),
        shape.formula("should_be"),
        _in_size(given, name, report),
    )
    shape.close()
    return definition


def _go_together(given: list[tuple[str, YamlNode]], parameter: str) -> bool:
    """Whether a value is said in one way: one key, two columns, or a formula with some sizes set by hand."""
    keys = [each for each, _ in given]
    if keys == ["is", "by_hand"]:
        return isinstance(given[1][1], Mapping) and not parameter
    return keys == ["cm", "in"] or (len(keys) == 1 and not isinstance(given[0][1], Mapping))


def _in_size(given: list[tuple[str, YamlNode]], name: str, report: Report) -> tuple[tuple[Words, Formula | None], ...]:
    """The sizes whose value is set by hand beside a formula."""
    node = given[1][1] if [each for each, _ in given] == ["is", "by_hand"] else None
    entries = node.entries if isinstance(node, Mapping) else ()
    return tuple((words_of(key, report), _item(value, name, report)) for key, value in entries)


def _inches(given: list[tuple[str, YamlNode]], name: str, report: Report) -> Column | None:
    """The second column of a value that is typed in cm and in inches."""
    if [each for each, _ in given] != ["cm", "in"]:
        return None
    node = given[1][1]
    return Column(_values(node, name, report)[0], node.span)


def _values(node: YamlNode, name: str, report: Report) -> tuple[tuple[Formula | None, ...], bool]:
    """The formulas of a value, and whether there is one for each size."""
    if isinstance(node, Scalar) and not node.is_empty:
        return (formula_of(node, report),), False
    if isinstance(node, Listing):
        return tuple(_item(item, name, report) for item in node.items), True
    if not isinstance(node, Mapping):
        report.add(wrong_kind_of_value(node.span, f"`{name}`", "a formula, or a list with one value per size"))
    return (None,), False


def _item(item: YamlNode, name: str, report: Report) -> Formula | None:
    if isinstance(item, Scalar):
        return formula_of(item, report)
    report.add(wrong_kind_of_value(item.span, f"each value of `{name}`", "one number or formula"))
    return None


def _multiple(scalar: Scalar | None, report: Report) -> tuple[Formula | None, Formula | None]:
    """`8`, `4 plus 2`, `even` or `odd`: the multiple and what is added to it."""
    if scalar is None:
        return None, None
    if scalar.text.strip() in ("even", "odd"):
        two, one = (Formula(scalar.text, Amount(Fraction(n), Kind(), scalar.span), scalar.span) for n in (2, 1))
        return two, one if scalar.text.strip() == "odd" else None
    parts = _OF_PLUS.fullmatch(scalar.span.text)
    if not parts:
        report.add(wrong_kind_of_value(scalar.span, "`multiple`", "a number, `even`, `odd`, or two: `4 plus 2`"))
        return None, None
    found: list[Formula | None] = []
    for group in ("of", "plus"):
        if parts[group] is None:
            found.append(None)
            continue
        formula = read_formula(scalar.span.part(parts.start(group), parts.end(group)))
        if not isinstance(formula, Formula):
            report.add(formula)
        found.append(formula if isinstance(formula, Formula) else None)
    return found[0], found[1]


def usable(key: Scalar, report: Report) -> bool:
    """Whether a key can be the name of a gauge, a rate or a plan (reported if not)."""
    if _NAME.fullmatch(key.text) and "(" not in key.text:
        return True
    report.add(name_not_usable(key.span, "a name is letters, digits and underscores", _name_help(key.text)))
    return False


def _name_help(text: str) -> str:
    group = re.fullmatch(r"([^\W\d]\w*)\.(\S+)", text)
    if group:
        return f"make a group of it: `{group[1]}:` with `{group[2]}:` set in below it"
    joined = "_".join(re.findall(r"\w+", text))
    return f"join the words by underscores, `{joined if _NAME.fullmatch(joined) else 'cuff_rows'}`"
