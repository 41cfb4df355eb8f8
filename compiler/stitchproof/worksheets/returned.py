"""A tester's worksheet as it comes back, YAML or CSV: what she counted, measured, weighed, and did not understand."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from fractions import Fraction
from io import StringIO
from typing import Any

import yaml
from msgspec import Struct

MOST_BYTES = 1_000_000
COLUMNS = ("what", "line", "value")
ALONE = ("size", "revision", "tester", "grams", "hours")
"""What a line of CSV says by itself; whatever else stands there is left aside, as a key of YAML is."""
LARGEST = 1_000_000
DEEPEST, MOST_EVENTS = 20, 30_000
"""Of lists and maps in one another, and of all that YAML tells apart; a worksheet of a thousand lines has some ten thousand."""
LONGEST = 2_000
LENGTHS = ("cm", "mm", "in", "inch", "inches")
NOTHING = ("~", "null")
"""How YAML writes what was left empty."""


class Measured(Struct, frozen=True):
    """One gauge, stitches and rows over the length that the pattern names: before washing and after; None where left empty."""

    name: str
    before: tuple[Fraction | None, Fraction | None]
    after: tuple[Fraction | None, Fraction | None]


class Reached(Struct, frozen=True):
    """What a tester has at a line: her counts in the order in which the line names them, and centimetres."""

    line: int
    counts: tuple[Fraction, ...]
    cm: Fraction | None


class Returned(Struct, frozen=True):
    """A worksheet, read. What was left empty is "" or None. unclear: line numbers and words."""

    size: str
    revision: str
    tester: str
    grams: Fraction | None
    hours: Fraction | None
    gauges: tuple[Measured, ...]
    reached: tuple[Reached, ...]
    unclear: tuple[tuple[int | None, str], ...]


class WorksheetUnreadable(Exception):
    """The file is no worksheet; the message says why, in one sentence without a capital or a full stop. line: where, from 1; 0
    where no line is the cause. mend: what to write there, "" where the message says it."""

    def __init__(self, message: str, line: int = 0, mend: str = "") -> None:
        super().__init__(message)
        self.line, self.mend = line, mend


def read_returned(content: bytes, is_csv: bool) -> Returned:
    """A worksheet from the bytes of its file. Raises WorksheetUnreadable."""
    if len(content) > MOST_BYTES:
        raise WorksheetUnreadable("is larger than 1 MB")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise WorksheetUnreadable("is no UTF-8 text") from None
    return _from_facts(_from_csv(text) if is_csv else _from_yaml(text))


def _from_yaml(text: str) -> dict[str, Any]:
    try:
        _look_over(yaml.parse(text))
        facts = yaml.BaseLoader(
            text
        ).get_single_data()  # all words: of a long enough number a loader makes a day's work
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        raise _not_yaml(text, min(mark.index, len(text)) if mark else None) from None
    except (yaml.YAMLError, RecursionError):
        raise WorksheetUnreadable("is not readable as YAML") from None
    if not isinstance(facts, dict):
        raise WorksheetUnreadable("is no worksheet: it has no line such as `size: M`")
    return facts


def _not_yaml(text: str, stopped: int | None) -> WorksheetUnreadable:
    """Why YAML cannot be read, as far as the line tells in which it stopped. stopped: where, in signs; None where unknown."""
    if stopped is None:
        return WorksheetUnreadable("is not readable as YAML")
    line = text.count("\n", 0, stopped) + 1
    key, _, answer = text.split("\n")[line - 1].partition(": ")
    if ": " not in f"{answer} " or answer.lstrip().startswith(('"', "'", "[", "{", "|", ">")):
        return WorksheetUnreadable(f"line {line} is not readable as YAML", line)
    name, said = key.strip(" -"), answer.strip()
    mend = f"write `{name}: |` and the answer on the next line, further in"
    if '"' not in said and "\\" not in said:
        mend = f'put the answer in quotes: `{name}: "{said}"`'
    why = f"the answer in line {line} has a colon inside, which YAML reads as a key"
    return WorksheetUnreadable(why, line, mend)


def _look_over(events: Iterator[yaml.Event]) -> None:
    """Stop at what no worksheet holds, before more is read: the library's time goes by the depth, squared."""
    depth = 0
    for number, event in enumerate(events):
        if isinstance(event, yaml.AliasEvent):
            raise WorksheetUnreadable("uses YAML references, which a worksheet does without")
        depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
        if depth > DEEPEST or number > MOST_EVENTS:
            raise WorksheetUnreadable("is not readable as a worksheet: too much stands in it, or too deep")


def _from_csv(text: str) -> dict[str, Any]:
    """Columns what, line, value: `count,12,64`, `cm,16,24`, `grams,,310`, `gauge fabric stitches after,,17`."""
    facts: dict[str, Any] = {"checkpoints": [], "unclear": [], "gauge": {}}
    try:
        rows = list(csv.reader(StringIO(text)))
    except csv.Error:
        raise WorksheetUnreadable("is not readable as CSV") from None
    if not rows or tuple(cell.strip().lower() for cell in rows[0][:3]) != COLUMNS:
        raise WorksheetUnreadable(f"begins with the columns {', '.join(COLUMNS)}")
    for row in rows[1:]:
        what, line, value, *_ = [*(cell.strip() for cell in row), "", "", ""]
        words = what.split()
        if what in ("count", "cm"):
            facts["checkpoints"].append({"line": line, what: value})
        elif what == "unclear":
            facts["unclear"].append({"line": line, "words": value})
        elif len(words) == 4 and words[0] == "gauge":
            _, gauge, noun, when = words
            facts["gauge"].setdefault(gauge, {}).setdefault(when, {})[noun] = value
        elif what in ALONE:
            facts[what] = value
    return facts


def _from_facts(facts: dict[str, Any]) -> Returned:
    return Returned(
        _text(facts.get("size")),
        _text(facts.get("revision")),
        _text(facts.get("tester")),
        _number(facts.get("grams"), "grams"),
        _number(facts.get("hours"), "hours"),
        tuple(_gauges(facts.get("gauge"))),
        tuple(_reached(facts.get("checkpoints"))),
        tuple(_unclear(facts.get("unclear"))),
    )


def _gauges(facts: object) -> Iterator[Measured]:
    for name, said in facts.items() if isinstance(facts, dict) else ():
        times = said if isinstance(said, dict) else {}
        yield Measured(str(name), _counted(times.get("before"), name), _counted(times.get("after"), name))


def _counted(facts: object, name: object) -> tuple[Fraction | None, Fraction | None]:
    said = facts if isinstance(facts, dict) else {}
    rows = next((said[noun] for noun in ("rows", "rounds", "rnds") if said.get(noun)), None)
    return _number(said.get("stitches"), f"the gauge {name}"), _number(rows, f"the gauge {name}")


def _reached(facts: object) -> Iterator[Reached]:
    for entry in facts if isinstance(facts, list) else ():
        said = entry if isinstance(entry, dict) else {}
        line = _number(said.get("line"), "a line number")
        if line is None:
            continue
        what = f"line {line}"
        counts = said.get("count")
        listed = counts if isinstance(counts, list) else str(counts or "").replace("+", ",").split(",")
        numbers = tuple(number for each in listed if (number := _count(each, what)) is not None)
        yield Reached(int(line), numbers, _number(said.get("cm"), what))


def _unclear(facts: object) -> Iterator[tuple[int | None, str]]:
    for entry in facts if isinstance(facts, list) else ():
        said = entry if isinstance(entry, dict) else {"words": entry}
        words, line = _text(said.get("words")), _number(said.get("line"), "a line number")
        if words:
            yield (int(line) if line is not None else None), words


def _text(value: object) -> str:
    words = " ".join(value[:LONGEST].split())[:500] if isinstance(value, str) else ""
    return "" if words in NOTHING else words


def _count(value: object, where: str) -> Fraction | None:
    """A count as typed, with the stitch that was counted or without: 88, "88 hdc"."""
    number, _, stitch = _text(value).partition(" ")
    with_stitch = number.isdigit() and stitch[:1].isalpha() and stitch.replace("-", "").isalnum()
    return _number(number if with_stitch and stitch.lower() not in LENGTHS else value, where)


def _number(value: object, where: str) -> Fraction | None:
    """A number as typed: 24, 24.5, 24,5, with or without its unit; None where nothing was typed."""
    text = _text(value).lower().removesuffix("cm").removesuffix("hours").removesuffix("g").removesuffix("sts").strip()
    if not text:
        return None
    if "," in text and "." not in text:
        text = text.replace(",", ".")
    whole, point, rest = text.partition(".")
    if not (whole + rest).isascii() or not (whole + rest).isdigit() or len(text) > 12:
        raise WorksheetUnreadable(f"{where}: `{_text(value)[:40]}` is no number")
    number = Fraction(f"{whole or '0'}.{rest}" if point and rest else whole or "0")
    if number > LARGEST:
        raise WorksheetUnreadable(f"{where}: {_text(value)[:40]} is too large")
    return number
