"""What the preview shows of a pattern at one moment. Frozen, so that a request and a refresh never see half of two."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from msgspec import Struct

from stitchproof.expansion.document import SizeList
from stitchproof.stages import CheckOutcome


class State(Enum):
    """How the page that is shown stands to the source."""

    SOUND = "sound"
    """The page of the source as it is now, without an error."""
    DRAFT = "draft"
    """The page of the source as it is now, with errors, marked at their rows."""
    OLD = "old"
    """The last page that could be made; the source cannot be read, or not be printed, as it is now."""
    NONE = "none"
    """No page yet."""


class ExcerptLine(Struct, frozen=True):
    """A line of the source: what stands before the place, in it, and after it."""

    number: int
    before: str
    marked: str
    after: str


class ExcerptShown(Struct, frozen=True):
    """A place in the source. place: "20_body.md, line 12"."""

    place: str
    label: str
    lines: tuple[ExcerptLine, ...]


class SumShown(Struct, frozen=True):
    """The sum that failed in a size; size: "" where it is the same in all of them."""

    size: str
    expression: str
    note: str


class OfferShown(Struct, frozen=True):
    """A value that would work in a size. change: in cm and inches, or "". name, written: what would be set, and to what."""

    size: str
    value: str
    change: str
    name: str
    written: str


class FindingShown(Struct, frozen=True):
    """A finding beside the page. row: the identity of the row to go to, "" for none; part: the id of the part of the page to go
    to where there is no row. looking: whether values that would work are still to be looked for."""

    severity: str
    code: str
    name: str
    headline: str
    excerpts: tuple[ExcerptShown, ...]
    sums: tuple[SumShown, ...]
    offers: tuple[OfferShown, ...]
    left_out: tuple[str, ...]
    help: tuple[str, ...]
    accepted: str
    row: str
    part: str
    looking: bool = False


class Shown(Struct, frozen=True):
    """version: counts what there was to be seen; frame_since, page_since: the version since which what stands around the page,
    and the page, are as they are. page: HTML, "" where there is none yet. sizes: those of the page.

    outcome: what the source comes to now; page_outcome: what the page was made of. findings: in the order of the text; left_out:
    how many more there are. counted: by severity. seconds: by stage, what this look took.
    """

    version: int
    state: State
    title: str
    page: str
    sizes: SizeList | None
    outcome: CheckOutcome
    page_outcome: CheckOutcome | None
    findings: tuple[FindingShown, ...]
    left_out: int
    counted: Mapping[str, int]
    seconds: Mapping[str, float]
    frame_since: int = 1
    page_since: int = 1
