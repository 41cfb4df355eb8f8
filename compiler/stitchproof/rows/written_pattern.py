"""What reading the rows hands on."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.expansion.document import Document, Piece, Served, Step, steps_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.rows.line import Line
from stitchproof.rows.row_tree import Label, Reading
from stitchproof.source import Place
from stitchproof.stitches.facts import StitchFacts
from stitchproof.stitches.lexicon import Lexicon


class ReadPart(Struct, frozen=True, eq=False):
    """A part of a step, read. `line` tells where its words stand."""

    served: Served
    line: Line
    reading: Reading


class ReadStep(Struct, frozen=True, eq=False):
    """A step, read: its label, and its parts. label_line tells where the words of the label stand."""

    step: Step
    label: Label | None
    parts: tuple[ReadPart, ...]
    label_line: Line | None = None


class ChainNote(Struct, frozen=True, eq=False):
    """A sentence of the notes on the chain at the start of a row.

    stitch: the one that the chain is said to be, "" for the stitch of its row.
    piece: the piece in which it stands, "" before the pieces. words: the sentence; place: of the paragraph that holds it.
    """

    chains: int
    stitch: str
    counts: bool
    piece: str
    words: str
    place: Place


class WrittenPattern(Struct, frozen=True, eq=False):
    """A pattern whose words are read: stitch names are Words, numbers in steps know their role, abbreviations are listed.

    readings: what each step says, by its place in the Document. facts: what is known of the stitches it may use. lexicon: the
    words it may use, in its own terms, and those that it defines. chain_notes: what its notes say of starting chains.
    """

    expanded: ExpandedPattern
    document: Document
    readings: tuple[ReadStep, ...]
    facts: dict[str, StitchFacts]
    lexicon: Lexicon
    chain_notes: tuple[ChainNote, ...] = ()

    def steps_of(self, piece: Piece) -> tuple[ReadStep, ...]:
        """The steps of a piece as read, in order."""
        mine = {id(step) for step in steps_of(piece.blocks)}
        return tuple(read for read in self.readings if id(read.step) in mine)
