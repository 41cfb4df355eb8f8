"""How one value prints: grids, units, number words, the dash and the minus. It decides no value."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache

from msgspec import Struct

from stitchproof.editions.print_document import DASH
from stitchproof.expansion.document import Number
from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.dimension import LENGTH, WEIGHT
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.published import figure_text
from stitchproof.measures.units import CM_PER_INCH, GRAMS_PER_OUNCE
from stitchproof.measures.values import Absent, Value, exact_text, rounded_text

NOT_KNOWN = "?"
MINUS = "\N{MINUS SIGN}"
MOST_VALUES = 8192
CM_PER_METRE = 100
MM_PER_CM = 10
CM_PER_YARD = 36 * CM_PER_INCH
WORDS = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"),
)


class Setting(Struct, frozen=True):
    """One way of printing a number: how a value is written, and the unit that follows the whole vector."""

    written: Callable[[Fraction], str]
    unit: str


def settings_of(number: Number, units: tuple[str, ...]) -> tuple[Setting, ...]:
    """The settings a number prints in, one after the other: a length in each of the document's units, else one."""
    if number.dimension == LENGTH:
        if number.print_as in _LENGTHS:
            return (_LENGTHS[number.print_as],)
        return tuple(_LENGTHS[PrintAs(unit)] for unit in units)
    if number.dimension == WEIGHT:
        return (Setting(_ounces, "oz") if number.print_as is PrintAs.OUNCES else Setting(_whole, "g"),)
    return (_PLAIN.get(number.print_as, Setting(exact, "")),)


def size_text(number: Number, setting: Setting, size: int) -> str:
    """The number of one size as printed: where a body table publishes it in this unit, as published."""
    figure = number.published.figure(setting.unit, size) if number.published else None
    return value_text(number.values[size], setting) if figure is None else figure_text(figure, setting.unit)


def value_text(value: Value, setting: Setting) -> str:
    """A value as printed: a dash where the size does not work it, a question mark where it could not be determined."""
    if isinstance(value, Absent):
        return DASH if value is Absent.NOT_WORKED else NOT_KNOWN
    if isinstance(value, bool):
        return "yes" if value else "no"
    return _written(setting.written, value)


@lru_cache(MOST_VALUES)
def _written(way: Callable[[Fraction], str], value: Fraction) -> str:
    """A number stands in several editions, in the record and in the words of a drawing; sums of fractions are slow."""
    return way(value)


def times_text(value: Value) -> str | None:
    """Once and twice, where a number of times stands alone; else None."""
    return {1: "once", 2: "twice"}.get(int(value)) if isinstance(value, Fraction) and value.denominator == 1 else None


def exact(number: Fraction) -> str:
    """A count, exactly: "62", "62.5", "40/3", "−2"."""
    return _with_sign(number, exact_text)


def _with_sign(number: Fraction, written: Callable[[Fraction], str]) -> str:
    text = written(abs(number))
    return MINUS + text if number < 0 and text != "0" else text


def _whole(number: Fraction) -> str:
    return rounded_text(number, 0)


def _in_words(number: Fraction) -> str:
    whole = number.denominator == 1 and 1 <= number < len(WORDS)
    return WORDS[int(number)] if whole else exact(number)


def ordinal(number: Fraction) -> str:
    """ "1st", "2nd", "11th"; a number that is not whole as it is."""
    if number.denominator != 1:
        return exact(number)
    last = 0 if 10 < abs(number) % 100 < 14 else int(abs(number) % 10)
    return exact(number) + {1: "st", 2: "nd", 3: "rd"}.get(last, "th")


def _percent(number: Fraction) -> str:
    """To a tenth of a percent, an exact half away from 0."""
    return f"{_with_sign(number * 100, lambda share: rounded_text(share, 1))}%"


def _decimal(number: Fraction) -> str:
    return _with_sign(number, rounded_text)


def _ounces(grams: Fraction) -> str:
    return rounded_text(grams / GRAMS_PER_OUNCE, 1)


def _millimetres(cm: Fraction) -> str:
    """To a hundredth: hooks are made in 2.25 and 3.25 mm."""
    return _with_sign(cm * MM_PER_CM, rounded_text)


def _long(number: Fraction) -> str:
    """Metres and yards: whole ones from ten upwards, tenths below (common practice, no source)."""
    return rounded_text(number, 0 if abs(number) >= 10 else 1)


def _cm(cm: Fraction) -> str:
    return _with_sign(cm, cm_text)


def _inches(cm: Fraction) -> str:
    return _with_sign(cm, inch_text)


def _metres(cm: Fraction) -> str:
    return _long(cm / CM_PER_METRE)


def _yards(cm: Fraction) -> str:
    return _long(cm / CM_PER_YARD)


_PLAIN = {
    PrintAs.WORDS: Setting(_in_words, ""),
    PrintAs.TIMES: Setting(exact, "times"),
    PrintAs.ORDINAL: Setting(ordinal, ""),
    PrintAs.PERCENT: Setting(_percent, ""),
    PrintAs.DECIMAL: Setting(_decimal, ""),
}
_LENGTHS = {
    PrintAs.MM: Setting(_millimetres, "mm"),
    PrintAs.CM: Setting(_cm, "cm"),
    PrintAs.INCHES: Setting(_inches, "in"),
    PrintAs.METRES: Setting(_metres, "m"),
    PrintAs.YARDS: Setting(_yards, "yd"),
}
