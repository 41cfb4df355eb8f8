"""A spreadsheet file read by what its name says it is."""

from __future__ import annotations

from stitchproof.spreadsheets.csv_table import read_csv
from stitchproof.spreadsheets.table import Table, TableUnreadable

WORKBOOK, CSV = ".xlsx", (".csv", ".tsv", ".txt")


def read_tables(content: bytes, name: str) -> tuple[Table, ...]:
    """The tables of a file, by the ending of its name. Raises TableUnreadable."""
    ending = name.lower()[name.rfind(".") :] if "." in name else ""
    if ending in CSV:
        return (read_csv(content),)
    if ending == WORKBOOK:
        from stitchproof.spreadsheets.read_workbook import read_workbook  # a CSV file is read without the library

        return read_workbook(content)
    raise TableUnreadable(f"is no {WORKBOOK} or .csv file; save it as one of the two")
