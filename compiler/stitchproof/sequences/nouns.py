"""What a noun of a published count stands for."""

from __future__ import annotations

from stitchproof.rows.line import line_of_text
from stitchproof.rows.reader import Reader, Stopped
from stitchproof.rows.row_tree import Thing
from stitchproof.rows.row_words import RowWords
from stitchproof.rows.things import at_thing, read_thing
from stitchproof.source import SourceFile

NOWHERE = SourceFile("", "").whole


def noun_of(text: str, words: RowWords, sizes: tuple[str, ...] = ()) -> Thing | None:
    """The thing that a noun names ("ch-2 sps", "dc", "shells"); None where it is none. sizes: those of the sequence."""
    reader = Reader(line_of_text(text, sizes, NOWHERE), words)
    if not at_thing(reader):
        return None
    try:
        thing = read_thing(reader)
    except Stopped:
        return None
    return thing if reader.kind == "end" else None
