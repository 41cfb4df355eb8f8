"""The Record: all that follows from a pattern's source, the compiler and its tables, as plain data. Frozen.

Exact numbers stand as text ("143/2"), lengths in cm, weights in g. What belongs to one size stands under the name of that
size and nowhere else, so that a size more leaves the part of every other size as it is, to the byte.
"""

from __future__ import annotations

from msgspec import Struct, field

FORMAT = "stitchproof-record"
VERSION = 1


class RecordedSlot(Struct, frozen=True, omit_defaults=True):
    """A number in a line. written: its formula; uses: the full names in it; role: as of a Number, "" where it is plain."""

    written: str
    uses: tuple[str, ...] = ()
    role: str = ""


Token = str | RecordedSlot


class RecordedBlock(Struct, frozen=True, omit_defaults=True):
    """A row, a paragraph, an item of a list, a measure of a table or drawing, for all sizes.

    identity: stable over revisions for a row, else its number among the blocks of its kind in its section. under: the title
    of its section or piece. inside: note or caution, where it stands in one. condition: for which sizes it is, as written;
    chosen_by: the names that decide it. parts: its words and numbers, in order: of a row its label first. read_by: the sizes
    that each part is for, () where every size that reads the block reads all of it. proof: of a row, how far it is proved.
    counts: of a row, its stated counts that were held against what is worked.
    """

    identity: str
    kind: str
    under: str
    parts: tuple[tuple[Token, ...], ...]
    read_by: tuple[tuple[str, ...], ...] = ()
    piece: str = ""
    inside: str = ""
    condition: str = ""
    chosen_by: tuple[str, ...] = ()
    proof: str = ""
    counts: int = 0


class RecordedQuantity(Struct, frozen=True, omit_defaults=True):
    """A named value as written. unit: of its exact values. inputs: every name that it hangs on, its bounds left aside.

    formula: as written, "" where every size has its own by hand (then it stands with the size). late: only the worked rows
    give it a value. cm_per_unit: the width or length of one, exact, "" where its gauge does not say.
    """

    name: str
    section: str
    unit: str
    formula: str = ""
    start: str = ""
    by_hand: bool = False
    rounding: str = ""
    multiple: str = ""
    at_least: str = ""
    at_most: str = ""
    should_be: str = ""
    inputs: tuple[str, ...] = ()
    gauge: str = ""
    cm_per_unit: str = ""
    parameter: str = ""
    why: str = ""
    late: bool = False


class RecordedGiven(Struct, frozen=True, omit_defaults=True):
    """A pick-up rate or a plan: what is written under each of its keys, and the names in it. kind: of a plan."""

    name: str
    keys: dict[str, str]
    kind: str = ""
    inputs: tuple[str, ...] = ()


class SizeValue(Struct, frozen=True, omit_defaults=True):
    """A named value in a size. raw: before rounding, "" where that is the same. written: as given for this size by hand.

    at: of a value that takes a k, what it is at each k in use.
    """

    value: str = ""
    raw: str = ""
    written: str = ""
    at: dict[str, str] = field(default_factory=dict)


class SizeRecord(Struct, frozen=True, omit_defaults=True):
    """Everything of one size.

    blocks: by identity, for each part of the block that the size reads the numbers as they print, () where no part has one. A
    block that the size does not read is left out. given: what is written for this size alone under a key of a plan.
    stitches: how many of each, "hdc at crown". ends: by piece, the stitches that it ends in.
    """

    quantities: dict[str, SizeValue]
    blocks: dict[str, tuple[tuple[str, ...], ...]]
    given: dict[str, str] = field(default_factory=dict)
    stitches: dict[str, int] = field(default_factory=dict)
    ends: dict[str, tuple[int, ...]] = field(default_factory=dict)


class RecordedPiece(Struct, frozen=True, omit_defaults=True):
    """A piece and its rows by how far they are proved."""

    name: str
    title: str
    proved: int = 0
    from_stated: int = 0
    at_fault: int = 0
    on_trust: int = 0
    not_proved: int = 0
    counts_held: int = 0


class RecordedFinding(Struct, frozen=True, omit_defaults=True):
    """A report. where: file and line. sums: "Adult  87 = 10 × 8 + 7". accepted: the reason it is accepted for, or ""."""

    code: str
    name: str
    severity: str
    headline: str
    sizes: tuple[str, ...] = ()
    piece: str = ""
    row: str = ""
    where: str = ""
    sums: tuple[str, ...] = ()
    nearest: tuple[str, ...] = ()
    accepted: str = ""


class Record(Struct, frozen=True):
    """A pattern, worked out. title: title, designer, revision, date and the like. standards: which table, in which edition.

    by_size: by the name of each size, in order.
    """

    format: str
    version: int
    compiler: str
    pattern: str
    title: dict[str, str]
    standards: dict[str, str]
    sizes: tuple[str, ...]
    units: tuple[str, ...]
    quantities: tuple[RecordedQuantity, ...]
    rates: tuple[RecordedGiven, ...]
    plans: tuple[RecordedGiven, ...]
    blocks: tuple[RecordedBlock, ...]
    pieces: tuple[RecordedPiece, ...]
    findings: tuple[RecordedFinding, ...]
    by_size: dict[str, SizeRecord]
