"""SP180 pieces-do-not-meet

Severity  error
Checks    pieces that are asked for in different sizes still meet: what one is worked on or sewn to has the counts of its size.
Matters   the maker would stand with stitches left over, or with too few, at the place where the pieces come together.
Mend      ask for one of the sizes that meet, or for the whole garment in one size.
Source    common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.expansion.document import SizeList
from stitchproof.measures.dimension import ROWS
from stitchproof.measures.values import Value, exact_text
from stitchproof.simulation.pieces_in_sizes import Mismatch, SharedCount
from stitchproof.simulation.slips import CountWrong, LeftOver, PastEnd
from stitchproof.simulation.worked_pattern import RowFinding
from stitchproof.source import Span

PAGE = read_page(__doc__)
MOST_RELATED = 3


def pieces_do_not_meet(
    asked: Span, piece: str, size: int, main: int, mismatch: Mismatch, sizes: SizeList, fitting: tuple[int, ...]
) -> Diagnostic:
    """asked: the piece and size as they were asked for. main: the size of the others. fitting: sizes that would meet."""
    words = piece.replace("_", " ")
    would = ", ".join(sizes.called(each) for each in fitting)
    return Diagnostic(
        PAGE,
        f"{words} in size {sizes.called(size)} does not meet the other pieces in size {sizes.called(main)}",
        Excerpt(asked),
        piece=words,
        related=tuple(_places(piece, mismatch, sizes))[:MOST_RELATED],
        sums=(*_shared_sums(piece, mismatch.shared, size, main, sizes), *_row_sums(mismatch.slips, sizes)),
        help=(
            f"{words} meets the others in size {would}" if would else f"no other size of {words} meets the others",
            f"or print the whole garment in one size: --size {sizes.names[main]}",
        ),
    )


def _shared_sums(
    piece: str, shared: tuple[SharedCount, ...], size: int, main: int, sizes: SizeList
) -> Iterator[SumLine]:
    """ "divide.held: body 56 sts, sleeve 62 sts   6 apart"."""
    for each in shared:
        if piece not in (each.one, each.other):
            continue
        one, other = (_words(value, each) for value in each.values)
        names = each.one.replace("_", " "), each.other.replace("_", " ")
        left, right = ((value if isinstance(value, Fraction) else None) for value in each.values)
        apart = f"{exact_text(abs(left - right))} apart" if left is not None and right is not None else ""
        between = f"{sizes.called(main)} and {sizes.called(size)}"
        yield SumLine(between, f"{each.written}: {names[0]} {one}, {names[1]} {other}", left, right, apart)


def _row_sums(slips: tuple[RowFinding, ...], sizes: SizeList) -> Iterator[SumLine]:
    """What a row takes, and what is there."""
    for each in slips:
        match each.slip:
            case LeftOver(available=there, taken=taken):
                told = f"{there} sts are there, the row takes {taken}", f"{there - taken} left over"
            case PastEnd(available=there, needed=needed):
                told = f"{there} sts are there, the row takes {needed}", f"{needed - there} missing"
            case CountWrong(stated=stated, worked=worked, noun=noun):
                told = f"the row makes {worked} {noun}, its count says {stated}", f"{abs(stated - worked)} apart"
            case _:
                continue
        yield SumLine(sizes.called(each.size), f"{each.step.identity}: {told[0]}", note=told[1])


def _places(piece: str, mismatch: Mismatch, sizes: SizeList) -> Iterator[Excerpt]:
    for found in mismatch.slips:
        yield Excerpt(
            found.step.place.span, f"does not come out in size {sizes.called(found.size)} on the other pieces"
        )
    for shared in mismatch.shared:
        if piece in (shared.one, shared.other):
            yield Excerpt(shared.number.place.span, "has to be the same in both pieces")


def _words(value: Value, shared: SharedCount) -> str:
    noun = "rows" if shared.number.dimension == ROWS else "sts"
    return f"{exact_text(value)} {noun}" if isinstance(value, Fraction) else "not worked"
