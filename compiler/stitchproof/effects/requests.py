"""Changes as they are asked for: `gauges.crown.stitches=17`, `hat_sts[Child]=72`, `ease=2 to 4 cm in halves`."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.effects.added_to import added_to
from stitchproof.effects.faults.change_not_understood import change_not_understood
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.source_edits.asked import SetValue, read_set_value
from stitchproof.spreadsheets.table import decimal_text

COMMAND_LINE = "the command line"
MOST_STEPS = 25
STEPS = {
    "ones": Fraction(1),
    "halves": Fraction(1, 2),
    "thirds": Fraction(1, 3),
    "quarters": Fraction(1, 4),
    "fifths": Fraction(1, 5),
    "tenths": Fraction(1, 10),
    "twos": Fraction(2),
    "fives": Fraction(5),
    "tens": Fraction(10),
}
_NUMBER = r"-?[0-9]{1,6}(?:\.[0-9]{1,4})?"
_SWEEP = re.compile(
    rf"(?P<first>{_NUMBER})\s*(?P<unit>[^\W\d]\w*)?\s*(?:\bto\b|\.\.)\s*(?P<last>{_NUMBER})\s*(?P<noun>(?!in\b)[^\W\d]\w*)?"
    rf"\s*(?:in\s+(?P<word>\w+)|(?:/|\bby\b|in steps of)\s*(?P<step>{_NUMBER}))\s*(?P<rest>.*)"
)


class Sweep(Struct, frozen=True):
    """A name and the values that are to be tried for it, one after the other."""

    name: Span
    values: tuple[str, ...]


class Requests(Struct, frozen=True):
    """changes: what is to be changed, that of a sweep left out. for_new: by the name of a size that is added, its values."""

    changes: tuple[SetValue, ...]
    sweep: Sweep | None
    for_new: Mapping[str, Mapping[str, str]]
    faults: tuple[Diagnostic, ...]


def read_requests(
    words: Sequence[str],
    sized: SizedPattern,
    known: tuple[str, ...],
    new_sizes: Sequence[str] = (),
    writes: bool = False,
) -> Requests:
    """words: one for each change. known: the names that can be set. new_sizes: sizes that are to be added, which may be named.

    writes: whether what is asked for is to be written; a sweep is only looked at.
    """
    reader = _Reader(sized, known, {name: {} for name in new_sizes})
    for word in words:
        reader.read(word)
    if reader.sweep and writes:
        help_text = "choose one of its values and write that"
        reader.refuse(reader.sweep.name, "a sweep is looked at, not written", help_text)
    return Requests(tuple(reader.changes), reader.sweep, reader.for_new, tuple(reader.faults))


class _Reader:
    """Takes the changes one by one."""

    def __init__(self, sized: SizedPattern, known: tuple[str, ...], for_new: dict[str, dict[str, str]]) -> None:
        self.sized, self.known, self.for_new = sized, known, for_new
        self.changes: list[SetValue] = []
        self.faults: list[Diagnostic] = []
        self.sweep: Sweep | None = None

    def read(self, word: str) -> None:
        name, equals, value = (part.strip() for part in word.partition("="))
        sign = name[-1:] if name[-1:] in ("+", "-") else ""
        name = name.removesuffix(sign).strip() if sign else name
        whole = Span(SourceFile(COMMAND_LINE, word), 0, len(word))
        if not equals or not name or not value:
            help_text = "write for example `ease=4 cm`, or `hat_sts[M]=72`"
            self.refuse(whole, f"`{word}` does not say what is to be what", help_text)
            return
        size = re.fullmatch(r"(?P<name>.*)\[\s*(?P<size>[^\[\]]+?)\s*\]", name)
        if size and size["size"] in self.for_new:
            self.for_new[size["size"]][_full(size["name"].strip(), self.sized)] = value
            return
        at, begins = word.index(name), word.index(value, word.index("=") + 1)
        name_span, value_span = whole.part(at, at + len(name)), whole.part(begins, begins + len(value))
        if sign:
            self.keep(added_to(name_span, sign, value_span, self.sized, self.known))
        else:
            self.change(whole, name_span, value_span)

    def change(self, whole: Span, name: Span, value: Span) -> None:
        """One value, or a sweep."""
        steps = sweep_values(value)
        if isinstance(steps, Diagnostic):
            self.faults.append(steps)
        elif not steps:
            self.keep(read_set_value(name, value, self.sized, self.known))
        elif self.sweep:
            self.refuse(whole, "two changes are sweeps", "sweep one value, and give the other one")
        else:
            self.sweep = Sweep(name, steps)
            first = read_set_value(name, _span(steps[0]), self.sized, self.known)
            self.faults += [first] if isinstance(first, Diagnostic) else []

    def keep(self, read: SetValue | Diagnostic) -> None:
        if isinstance(read, Diagnostic):
            self.faults.append(read)
        else:
            self.changes.append(read)

    def refuse(self, span: Span, why: str, help_text: str) -> None:
        self.faults.append(change_not_understood(span, why, help_text))


def nothing_asked(pattern: str) -> Diagnostic:
    """The report that a command names no change."""
    help_text = "name a change, such as `ease=4 cm`, or a size by `--add-size` or `--remove-size`"
    return change_not_understood(_span(f"regauge {pattern}"), "nothing is to be changed", help_text)


def sweep_values(value: Span) -> tuple[str, ...] | Diagnostic:
    """The values of a sweep; () where it is none."""
    found = _SWEEP.fullmatch(value.text.strip())
    if found is None:
        return ()
    step = STEPS.get(found["word"]) if found["word"] else Fraction(found["step"])
    if not step or step <= 0 or found["rest"]:
        help_text = f"write for example `17 to 19 in halves`; the steps are {', '.join(STEPS)}, or `by 0.25`"
        return change_not_understood(value, f"`{value.text}` does not say its steps", help_text)
    first, last = Fraction(found["first"]), Fraction(found["last"])
    number = abs(last - first) / step
    if number > MOST_STEPS - 1:
        return change_not_understood(value, f"a sweep of more than {MOST_STEPS} values", "take larger steps")
    unit = found["unit"] or found["noun"] or ""
    signed = step if last >= first else -step
    values = [first + signed * index for index in range(int(number) + 1)]
    return tuple(f"{_written(each)} {unit}".strip() for each in values)


def _written(number: Fraction) -> str:
    """In decimals where they are exact; a third as `52 / 3`."""
    text = decimal_text(number)
    return text if Fraction(text) == number else f"{number.numerator} / {number.denominator}"


def _full(name: str, sized: SizedPattern) -> str:
    column = name.rpartition(".")[2]
    if column in ("cm", "in"):
        return f"{sized.scope.full_name(name.rpartition('.')[0])}.{column}"
    return name if name == "body.sizes" else sized.scope.full_name(name)


def _span(text: str) -> Span:
    return Span(SourceFile(COMMAND_LINE, text), 0, len(text))
