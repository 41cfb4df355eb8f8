"""Whether pieces that are asked for in different sizes meet, told as reports."""

from __future__ import annotations

from collections.abc import Mapping

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.simulation.faults.pieces_do_not_meet import pieces_do_not_meet
from stitchproof.simulation.pieces_in_sizes import Tried
from stitchproof.source import Span


def pieces_apart(written: WrittenPattern, size_of: Mapping[str, int], asked: Mapping[str, Span]) -> list[Diagnostic]:
    """A report for each piece that does not meet the others in the size that it is asked for.

    size_of: the size of every piece, those in the main size first. asked: where each own size was asked for.
    """
    main, tried = next(iter(size_of.values())), Tried(written)
    together = tried.meeting(size_of)
    if together is None:
        return []
    own = [piece for piece in asked if size_of[piece] != main]
    found = []
    for piece in own:
        # Each by itself, so that the report names the piece that stands out.
        alone = {each: size_of[piece] if each == piece else main for each in size_of}
        mismatch = tried.meeting(alone)
        if mismatch:
            fitting = tried.sizes_that_meet(alone, piece)
            found.append(
                pieces_do_not_meet(asked[piece], piece, size_of[piece], main, mismatch, written.document.sizes, fitting)
            )
    if not found:  # each meets the garment in the main size, but they do not meet one another
        piece, mismatch = own[0], together
        fitting = tried.sizes_that_meet(size_of, piece)
        found.append(
            pieces_do_not_meet(asked[piece], piece, size_of[piece], main, mismatch, written.document.sizes, fitting)
        )
    return found
