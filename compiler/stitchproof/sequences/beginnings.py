"""How a sequence begins: what its first row is worked into, in rows or rounds, and of which stitch."""

from __future__ import annotations

from stitchproof.reading.written_sequence import WrittenSequence
from stitchproof.rows.row_tree import Chain, Join, RowTree, Work
from stitchproof.rows.row_words import RowWords
from stitchproof.sequences.conventions import flat_items
from stitchproof.sequences.read_rows import ReadRow
from stitchproof.sequences.start_words import Start, read_start
from stitchproof.simulation.ways import Course


def start_of(sequence: WrittenSequence) -> Start:
    """What the first row is worked into."""
    return read_start(sequence, RowWords(sequence.terms), "")


def usual_course(rows: tuple[ReadRow, ...], joined: bool) -> Course:
    """Rounds where the start is a ring or the first label says so; joined where a row joins or begins with chains."""
    in_rounds = joined or bool(rows and rows[0].label and rows[0].label.in_rounds)
    if not in_rounds:
        return Course.ROWS
    trees = [row.reading for row in rows if isinstance(row.reading, RowTree)]
    joins = any(isinstance(item, Join) and not item.not_joined for tree in trees for item in flat_items(tree.items))
    chains = any(isinstance(tree.items[0], Chain) for tree in trees if tree.items)
    return Course.JOINED if joins or chains else Course.SPIRAL


def usual_stitch(rows: tuple[ReadRow, ...]) -> str:
    """The stitch that "inc" and "dec" are made of where the row names none: the first that the sequence names."""
    for row in rows:
        for item in flat_items(row.reading.items) if isinstance(row.reading, RowTree) else ():
            if isinstance(item, Work) and item.stitch not in ("", "inc", "dec", "slst"):
                return item.stitch
    return "sc"
