"""A table as it was read from a spreadsheet file, whatever the file was."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

MOST_BYTES = 5_000_000
MOST_ROWS, MOST_COLUMNS = 5_000, 300
LONGEST_WORDS = 2_000
FORMULA_SIGNS = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What a cell begins with that a spreadsheet may take for a formula; the full-width ones where it is set to East Asian writing
(OWASP, "CSV Injection")."""


class TableCell(Struct, frozen=True):
    """One cell. address: "C7". value: words, an exact number, or None where it is empty.

    is_formula: value is what the spreadsheet last worked out. is_merged: it is part of a larger cell. is_date: words that
    are a date to the spreadsheet.
    """

    address: str
    value: str | Fraction | None
    is_formula: bool = False
    is_merged: bool = False
    is_date: bool = False

    @property
    def words(self) -> str:
        """As it is to be read: blanks made one."""
        if isinstance(self.value, Fraction):
            return decimal_text(self.value)
        return " ".join((self.value or "").split())


class Table(Struct, frozen=True):
    """title: of its tab, "" of a CSV file. rows: by number from 1, of each row the cells that there are, by column from 1."""

    title: str
    rows: dict[int, dict[int, TableCell]]


class TableUnreadable(Exception):
    """The file is no table that can be read; the message says why, without a capital or a full stop."""


def address_of(row: int, column: int) -> str:
    """`C7` for row 7, column 3."""
    letters = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"{letters}{row}"


def decimal_text(number: Fraction, places: int = 6) -> str:
    """A number in decimals, with a point and a hyphen for minus, rounded to so many places."""
    scaled = round(abs(number) * 10**places)
    whole, rest = divmod(scaled, 10**places)
    tail = f".{rest:0{places}d}".rstrip("0") if rest else ""
    return f"{'-' if number < 0 and scaled else ''}{whole}{tail}"
