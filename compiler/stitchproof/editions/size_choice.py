"""The sizes that a build is asked for: one or more for the whole garment, or one for each piece."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.nearest import nearest
from stitchproof.editions.faults.size_for_no_piece import size_for_no_piece
from stitchproof.expansion.document import Document, Served
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.source import SourceFile, Span

COMMAND_LINE = "the command line"
"""Where something stands that was asked for and is written in no file."""


class SizeChoice(Struct, frozen=True):
    """chosen: indexes of all sizes that are printed. size_of: where pieces have sizes of their own, the size of every
    piece, those in the main size first. asked: where each own size was asked for, by piece."""

    chosen: Served
    size_of: dict[str, int] = {}
    asked: dict[str, Span] = {}


def choose(document: Document, asked: Sequence[str]) -> SizeChoice | Diagnostic:
    """What `--size 4`, or `--size 4 --size sleeve=6`, asks for; what is not known as a finding.

    The first size that is asked for is the size of every piece that is not named.
    """
    names, pieces = document.sizes.names, [piece.name for piece in document.pieces]
    if not asked:
        return SizeChoice(document.sizes.chosen)
    plain: list[int] = []
    own: dict[str, int] = {}
    spans: dict[str, Span] = {}
    for words in asked:
        written = f"build --size {words}"
        start = len(written) - len(words)
        file = SourceFile(COMMAND_LINE, written)
        piece, equals, size = ("", "", words) if words in names else words.partition("=")
        if equals and piece.strip() not in pieces:
            near = nearest(piece.strip(), pieces)
            return size_for_no_piece(Span(file, start, start + len(piece)), pieces, near)
        size = size.strip() if equals else words
        if size not in names:
            return size_not_in_pattern(Span(file, len(written) - len(size), len(written)), names)
        if equals:
            own[piece.strip()] = names.index(size)
            spans[piece.strip()] = Span(file, start, len(written))
        else:
            plain.append(names.index(size))
    return _choice(pieces, plain, own, spans)


def _choice(pieces: list[str], plain: list[int], own: dict[str, int], spans: dict[str, Span]) -> SizeChoice:
    if not own:
        return SizeChoice(tuple(sorted(set(plain))))
    main = plain[0] if plain else next(iter(own.values()))
    size_of = {piece: own.get(piece, main) for piece in pieces}
    chosen = tuple(sorted(set(size_of.values())))
    if len(chosen) == 1:
        return SizeChoice(chosen)
    main_first = sorted(size_of.items(), key=lambda each: each[1] != main)
    return SizeChoice(chosen, dict(main_first), spans)
