"""All the slips that are made in the rows of a demo, in the order of its text: the same ones each time."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from stitchproof.expansion.document import Number, Role, Step
from stitchproof.measures.values import Absent
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.source import Span
from tests.row_faults.row_slip import TYPED, RowSlip

CHANGES = (1, -1, 2, -2)
WORDS = (
    ("next st", "same st"),
    ("next st,", "last st,"),
    ("same st", "next st"),
    ("in first", "in last"),
    ("last 2 sts", "last 3 sts"),
    ("last 2 sts", "last st"),
    ("to 1 st before", "to 2 sts before"),
    ("in each st", "in next st"),
    ("in next ch-sp", "in next sc"),
    ("next sc", "next ch-sp"),
    ("in each sc", "in each ch-sp"),
    ("next 2 sts", "next st"),
    ("2nd ch", "3rd ch"),
)
STITCHES = (
    ("hdc2tog", "hdc"),
    ("hdc in each", "sc in each"),
    ("Hdc in each", "Sc in each"),
    ("sc in each", "hdc in each"),
    ("2 hdc in", "3 hdc in"),
    ("2 hdc in", "hdc in"),
    ("2 sc in", "sc in"),
    ("sc in next", "2 sc in next"),
    ("fphdc around next st", "bphdc around next st"),
    ("fphdc around next fphdc", "fphdc around next bphdc"),
    ("ch 1, sk", "ch 2, sk"),
    ("Ch 1, sk", "Ch 2, sk"),
    ("sk next sc", "sc in next sc"),
)
TURNS = ((", turn.", "."), (", join with sl st in first", ", sl st in first"))
NO_ROW = ("#", ":::", "-", "|")


def slips_of(demo: str, written: WrittenPattern) -> list[RowSlip]:
    """Every slip, told apart by kind."""
    steps = [read.step for read in written.readings]
    found = [*_numbers(demo, steps)]
    for lines in _lines(steps):
        found += [*_in_line(demo, lines)]
    return [slip for slip in found if slip.text != slip.span.file.text]


def _numbers(demo: str, steps: list[Step]) -> Iterator[RowSlip]:
    """Slots: one more or less, two figures or two sizes swapped, in one size."""
    turn = 0
    for step in steps:
        for part in step.parts:
            for token in part.tokens:
                if isinstance(token, Number) and not token.dimension.length and not token.place.calls:
                    turn += 1
                    yield from _in_number(demo, step, token, turn)


def _in_number(demo: str, step: Step, number: Number, turn: int) -> Iterator[RowSlip]:
    sizes = [size for size in number.served if size in step.served and isinstance(number.values[size], Fraction)]
    if not sizes:
        return
    size = sizes[turn % len(sizes)]
    now = number.values[size]
    states = number.role is Role.STATED_COUNT
    before = "stated count" if states else ("repeat" if number.noun in ("times", "groups") else "number")
    assert isinstance(now, Fraction)
    change = CHANGES[turn % 4]
    if now + change >= 0:
        yield _typed(demo, f"{before} {change:+}", step, number, size, now + change, states)
    if now + CHANGES[(turn + 1) % 4] >= 0:
        more = CHANGES[(turn + 1) % 4]
        yield _typed(demo, f"{before} {more:+}", step, number, size, now + more, states)
    figures = str(now)
    if len(figures) > 1 and figures[-1] != figures[-2] and figures[-1] != "0":
        swapped = Fraction(figures[:-2] + figures[-1] + figures[-2])
        yield _typed(demo, f"{before}, figures swapped", step, number, size, swapped, states)
    for other in sizes:
        held = number.values[other]
        if other == size + 1 and held != now and isinstance(held, Fraction):
            values = list(_values(number, step))
            values[size], values[other] = held, now
            yield _slip(demo, f"{before}, sizes swapped", step, number, None, tuple(values), states)


def _values(number: Number, step: Step) -> tuple[Fraction | Absent, ...]:
    return tuple(
        value if isinstance(value, Fraction) and size in number.served else Absent.NOT_WORKED
        for size, value in enumerate(number.values)
    )


def _typed(demo: str, kind: str, step: Step, number: Number, size: int, value: Fraction, states: bool) -> RowSlip:
    values = list(_values(number, step))
    values[size] = value
    return _slip(demo, kind, step, number, size, tuple(values), states)


def _slip(
    demo: str,
    kind: str,
    step: Step,
    number: Number,
    size: int | None,
    values: tuple[Fraction | Absent, ...],
    states: bool,
) -> RowSlip:
    loops = [part for part in step.identity.split("/")[2:] if "=" in part]
    condition = " and ".join(part.replace("=", " = ") for part in loops)
    slot = f"<{TYPED} if {condition} else {number.written}>" if condition else f"<{TYPED}>"
    return RowSlip(demo, kind, number.place.span, slot, size, values, number.noun or "sts", states)


def _lines(steps: list[Step]) -> Iterator[Span]:
    """The lines of the text in which steps stand, each once."""
    seen: set[tuple[str, int, int]] = set()
    for step in steps:
        span = step.place.span
        start = span.file.text.rfind("\n", 0, span.start) + 1
        end = span.file.text.find("\n", span.end)
        # A step goes on in the lines that are set in below it.
        while (after := re.compile(r"\n(?=  )[^\n]*").match(span.file.text, end)) is not None:
            end = after.end()
        key = (span.file.path, start, end)
        if key not in seen:
            seen.add(key)
            yield Span(span.file, start, end)


def _in_line(demo: str, line: Span) -> Iterator[RowSlip]:
    text = line.text
    if text.lstrip().startswith(NO_ROW):
        return
    for kind, pairs in (("where", WORDS), ("stitch", STITCHES), ("turn or join", TURNS)):
        for old, new in pairs:
            at = text.find(old)
            if at >= 0 and (at == 0 or not text[at - 1].isalnum()):
                yield RowSlip(demo, kind, _part(line, at, at + len(old)), new)
    yield from _turn_added(demo, line)
    yield from _typed_numbers(demo, line)
    yield from _items(demo, line)
    label = re.match(r"((?:[A-Z][a-z]+ )*(?:Row|Rnd) )(\d+)", text)
    if label:
        for change in (1, -1):
            number = int(label[2]) + change
            yield RowSlip(
                demo,
                "row called" if text.startswith("Rep ") else "label",
                _part(line, label.start(2), label.end(2)),
                str(number),
            )
    if re.match(r"(?:[A-Z][\w<>]* )*(?:Row|Rnd|Rows|Rnds)\b|Work |Rep ", text):
        yield RowSlip(demo, "row dropped", Span(line.file, line.start, min(line.end + 1, len(line.file.text))), "")


def _turn_added(demo: str, line: Span) -> Iterator[RowSlip]:
    at = line.text.find(". — ")
    if at >= 0 and "Rnd" in line.text.split(":")[0]:
        yield RowSlip(demo, "turn or join", _part(line, at, at), ", turn")


def _typed_numbers(demo: str, line: Span) -> Iterator[RowSlip]:
    """Numbers written out in the text, the same in all sizes."""
    body = line.text.find(":") + 1
    slots = [range(match.start(), match.end()) for match in re.finditer(r"<[^>]*>|\{[^}]*\}", line.text)]
    stated = [match.start() for match in re.finditer("— ", line.text)]
    for match in re.finditer(r"(?<![\w.-])\d+(?=[ ,])", line.text):
        if match.start() < body or any(match.start() in slot for slot in slots):
            continue
        after = line.text[match.end() :].split()[0].rstrip(".,") if line.text[match.end() :].split() else ""
        if after in ("cm", "mm", "m", "in"):
            continue
        states = any(0 < match.start() - at <= 4 for at in stated)
        kind = "stated count" if states else ("repeat" if after == "times" else "number")
        for change in (1, -1):
            if int(match[0]) + change > 0:
                span = _part(line, match.start(), match.end())
                yield RowSlip(demo, f"{kind} {change:+}", span, str(int(match[0]) + change), states=states)


def _items(demo: str, line: Span) -> Iterator[RowSlip]:
    """Items between commas, dropped or doubled."""
    body = line.text.find(":") + 1
    end = line.text.find(" — ") if " — " in line.text else len(line.text)
    depth, start = 0, body
    spans: list[tuple[int, int]] = []
    for at in range(body, end):
        character = line.text[at]
        depth += (character in "[(<") - (character in "])>")
        if character == "," and line.text[at : at + 2].strip() == "," and depth <= 1:
            spans.append((start, at))
            start = at + 1
    spans.append((start, end - (line.text[end - 1 : end] == ".")))
    for first, last in spans:
        item = line.text[first:last]
        if (
            not item.strip()
            or len(spans) < 2
            or item.count("[") != item.count("]")
            or "sizes" in item
            or "\n" in item.strip()
        ):
            continue
        whole = last + 1 if line.text[last : last + 1] == "," else last
        yield RowSlip(demo, "item dropped", _part(line, first, whole), "")
        yield RowSlip(demo, "item doubled", _part(line, last, last), f",{item}")


def _part(line: Span, start: int, end: int) -> Span:
    return Span(line.file, line.start + start, line.start + end)
