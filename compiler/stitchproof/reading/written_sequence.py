"""A file of published rows as it is written: nothing worked, every value with its place."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.reading.yaml_tree import Scalar

Figures = tuple[int | None, ...]
"""A published number, one value per size; None for a size that has none."""


class Published(Struct, frozen=True, eq=False):
    """A number that the file gives for a row. noun: what is counted ("ch-2 sp"), "" for the row's stitches."""

    figures: Figures
    noun: str = ""


class WrittenRow(Struct, frozen=True, eq=False):
    """A row of a sequence.

    stated: what is printed, by kind where the print counts by kind. printed_as: the printed words. derived: the file's own
    count of the same row, for scoring only; derived_as: what it includes. ok: False for a row that the file holds to be faulty.
    """

    label: Scalar | None
    text: Scalar
    style: str
    stated: tuple[Published, ...]
    printed_as: str
    derived: tuple[Published, ...]
    derived_as: str
    ok: bool


class WrittenSequence(Struct, frozen=True, eq=False):
    """Rows of one published pattern, in order. terms: "US" or "UK". start_count: of the start, where the file gives it."""

    id: Scalar
    title: str
    address: str
    terms: str
    sizes: tuple[str, ...]
    start: Scalar | None
    start_count: Figures | None
    convention: Scalar | None
    rows: tuple[WrittenRow, ...]
