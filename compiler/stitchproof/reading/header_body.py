"""The keys of `body` that name a table; every other key of it is a row of the designer's own."""

from __future__ import annotations

from stitchproof.reading.faults.missing_key import missing_key
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.pattern_source import BodySource, Words
from stitchproof.reading.shape import Shape, words_of
from stitchproof.reading.yaml_tree import Mapping, Scalar, YamlNode

TABLE_KEYS = frozenset({"from", "csv", "sizes", "rows", "take"})


def read_body(top: Shape) -> BodySource | None:
    """The table that `body` names; None where it names none, or not so that it can be understood (reported)."""
    value = top.take("body")
    if not isinstance(value, Mapping) or not any(key.text in TABLE_KEYS for key, _ in value.entries):
        return None
    shape = Shape(value, top.report, "`body`", value.span)
    shape.refused.update(_empty(shape, value))
    key, csv = _word(shape, "from"), _word(shape, "csv")
    sizes, rows = (_words_list(shape, name) for name in ("sizes", "rows"))
    take = _take(shape)
    if not shape.refused and key and csv:
        top.report.add(
            wrong_kind_of_value(csv.span, "`body`", "one table: a shipped one by `from`, or your own by `csv`")
        )
    elif not shape.refused and (named := key or csv):
        return BodySource(named, named is csv, sizes, rows, take)
    elif not shape.refused:
        first = next(entry for entry, _ in value.entries if entry.text in TABLE_KEYS)
        top.report.add(missing_key(first.span, "`body`", "from"))
    top.refused.add("body")
    return None


def _empty(shape: Shape, value: Mapping) -> list[str]:
    """The keys that are there and say nothing (reported): the table would be passed over in silence."""
    empty = [key for key, _ in value.entries if key.text in TABLE_KEYS and shape.take(key.text) is None]
    for key in empty:
        shape.report.add(wrong_kind_of_value(key.span, f"`{key.text}`", "a value", _EXAMPLES[key.text]))
    return [key.text for key in empty]


def _word(shape: Shape, key: str) -> Words | None:
    value = shape.take(key)
    if value is None or isinstance(value, Scalar):
        return words_of(value, shape.report) if value else None
    _refuse(shape, key, value)
    return None


def _words_list(shape: Shape, key: str) -> tuple[Words, ...]:
    items = shape.listing(key)
    for item in items:
        if not isinstance(item, Scalar) or not item.text.strip():
            _refuse(shape, key, item)
    return tuple(words_of(item, shape.report) for item in items if isinstance(item, Scalar))


def _refuse(shape: Shape, key: str, value: YamlNode) -> None:
    """Report a value of the wrong kind, with an example of the right one."""
    shape.refused.add(key)
    wanted = "a list of names" if key in ("sizes", "rows") else "one word"
    shape.report.add(wrong_kind_of_value(value.span, f"`{key}` under `body`", wanted, _EXAMPLES[key]))


def _take(shape: Shape) -> tuple[tuple[Words | None, Words], ...]:
    """One word for all rows, or a word for each row: `take: {bust: high, upper_arm: middle}`."""
    if not isinstance(shape.take("take"), Mapping):
        whole = _word(shape, "take")
        return ((None, whole),) if whole else ()
    found: list[tuple[Words | None, Words]] = []
    for row, word in shape.entries("take"):
        if isinstance(word, Scalar) and word.text.strip():
            found.append((words_of(row, shape.report), words_of(word, shape.report)))
        else:
            shape.refused.add("take")
            shape.report.add(wrong_kind_of_value(word.span, f"`take` for `{row.text}`", "one of: low, middle, high"))
    return tuple(found)


_EXAMPLES = {
    "from": "from: women",
    "csv": "csv: body.csv",
    "sizes": "sizes: [S, M, L]",
    "rows": "rows: [bust, upper_arm]",
    "take": "take: high",
}
