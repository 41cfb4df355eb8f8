"""SP171 turn-or-join-left-out

Severity  error
Checks    where most rows of a pattern say "turn", each of them does; where most rounds say "join", each of them does. A row
          that ends the yarn, one that no row follows, and rows of slip stitches only are left alone.
          No round is joined to its last stitch.
Matters   a maker who does not turn works the next row on the wrong side; one who does not join works a spiral. Where the other
          rows say it, she takes its absence at its word.
Mend      write the words that the other rows have.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across. — 20 sc
    Row 3: Ch 1, sc in each st across, turn. — 20 sc
    Row 4: Ch 1, sc in each st across. Fasten off. — 20 sc

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches: {fsc: foundation single crochet}
    ---
    Rnd 1: Work 20 fsc, join with sl st in first fsc. — 20 fsc
    Rnd 2: Ch 1, sc in each st around, join with sl st in first sc. — 20 sc
    Rnd 3: Ch 1, sc in each st around. — 20 sc

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: joined rounds}
    special_stitches: {fsc: foundation single crochet}
    ---
    Rnd 1: Work 20 fsc, join with sl st in first fsc. — 20 fsc
    Rnd 2: Ch 1, sc in each st around, join with sl st in last sc. — 20 sc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc
    Row 3: Ch 1, sc in each st across. — 20 sc
"""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Piece
from stitchproof.rows.row_tree import (
    Even,
    FastenOff,
    Item,
    Join,
    JoinYarn,
    Leave,
    Reach,
    Repeat,
    Rework,
    RowTree,
    Shaping,
    Stretch,
    Turn,
    Work,
)
from stitchproof.rows.written_pattern import ReadStep, WrittenPattern

PAGE = read_page(__doc__)
WORDS = {"rows": ("turn",), "joined rounds": ("join",), "turned rounds": ("join", "turn")}
"""What ends a row, by the way its piece is worked."""
LINES_OF_ROWS = (Rework, Even, Shaping)


def ends(written: WrittenPattern, report: Report) -> None:
    """Rows that do not end in the words in which the other rows worked in their way end."""
    worked = {each.entry.name: each.entry.worked for each in written.expanded.sized.pieces}
    for way, words in WORDS.items():
        pieces = [
            list(_rows(piece, written))
            for piece in written.document.pieces
            if (said := worked.get(piece.name)) and said.text.strip() == way
        ]
        for word in words:
            _hold([rows for rows in pieces if not _turns_first(rows, word)], word, written, report)


def to_the_last(written: WrittenPattern, report: Report) -> None:
    """Rounds that are joined to the stitch before the join."""
    names = written.document.sizes.names
    for read in written.readings:
        for part in read.parts if read.label else ():
            for item in part.reading.items if isinstance(part.reading, RowTree) else ():
                if isinstance(item, Join) and item.target and item.target.reach is Reach.LAST:
                    place = part.line.place(item.at)
                    report.add(
                        Diagnostic(
                            PAGE,
                            f"{_row(read)} of {read.step.piece} is joined to its last stitch",
                            Excerpt(place.span, "not the first?"),
                            sizes=tuple(names[size] for size in part.served),
                            in_all_sizes=len(part.served) == len(names),
                            piece=read.step.piece,
                            row=read.step.identity,
                            related=used_from(place),
                            help=("join it to its first stitch",),
                        )
                    )


def _row(read: ReadStep) -> str:
    return read.step.identity.rpartition("/")[2] or read.step.identity


def _hold(pieces: list[list[ReadStep]], word: str, written: WrittenPattern, report: Report) -> None:
    """Report the rows that lack a word, where more of them say it. After the last row of a piece nothing has to be turned."""
    without = [read for rows in pieces for read in rows if not _says(read, word)]
    told = [read for read in without if word == "join" or _goes_on(read, written)]
    if told and 2 * len(without) < sum(len(rows) for rows in pieces):
        for read in told:
            report.add(_report(read, word, written))


def _says(read: ReadStep, word: str) -> bool:
    return any(isinstance(item, Turn if word == "turn" else Join) for item in _items(read))


def _goes_on(read: ReadStep, written: WrittenPattern) -> bool:
    """Whether another row follows in the same piece."""
    steps = [each for each in written.readings if each.step.piece == read.step.piece]
    after = steps[next(index for index, each in enumerate(steps) if each is read) + 1 :]
    follows = (*LINES_OF_ROWS, Work, Repeat)
    return any(isinstance(item, follows) for each in after[:1] for item in _items(each))


def _rows(piece: Piece, written: WrittenPattern) -> Iterator[ReadStep]:
    """The rows of a piece that go on to another one: read, and with stitches other than slip stitches."""
    for read in written.steps_of(piece):
        items = list(_items(read))
        works = [item for item in items if isinstance(item, Work | Repeat)]
        stitches = [item for item in works if not (isinstance(item, Work) and item.stitch == "slst")]
        is_read = all(isinstance(part.reading, RowTree) for part in read.parts)
        stands_alone = any(isinstance(item, (*LINES_OF_ROWS, JoinYarn)) for item in items) or _ends_yarn(items)
        if read.label and is_read and stitches and not stands_alone and not _is_set_aside(read, items):
            yield read


def _ends_yarn(items: list[Item]) -> bool:
    return any(isinstance(item, FastenOff) for item in items)


def _is_set_aside(read: ReadStep, items: list[Item]) -> bool:
    """Whether a row ends in words of its own: one that stops part of the way, or says that it is not joined or turned."""
    said = [item for item in items if isinstance(item, Turn | Join)]
    not_so = any(item.not_turned if isinstance(item, Turn) else item.not_joined for item in said)
    return not_so or (any(isinstance(item, Leave) for item in items) and not said)


def _turns_first(rows: list[ReadStep], word: str) -> bool:
    """Whether rows turn as they begin ("ch 1, turn, sc in each st"): then the first has nothing to turn after."""
    for read in rows:
        items = list(_items(read))
        at = next((index for index, item in enumerate(items) if word == "turn" and isinstance(item, Turn)), len(items))
        if any(isinstance(item, Work | Repeat) for item in items[at:]):
            return True
    return False


def _items(read: ReadStep) -> Iterator[Item]:
    for part in read.parts:
        if isinstance(part.reading, RowTree):
            yield from part.reading.items


def _report(read: ReadStep, word: str, written: WrittenPattern) -> Diagnostic:
    names = written.document.sizes.names
    part = read.parts[-1]
    last = list(_items(read))[-1].at
    place = part.line.place(last if last.end <= len(part.line.text) else Stretch(0, len(part.line.text)))
    return Diagnostic(
        PAGE,
        f"{_row(read)} of {read.step.piece} does not say “{word}”, and the other rows do",
        Excerpt(place.span, f"and {word}?"),
        sizes=tuple(names[size] for size in read.step.served),
        in_all_sizes=len(read.step.served) == len(names),
        piece=read.step.piece,
        row=read.step.identity,
        related=used_from(place),
        help=(f"end the row in “{word}”, as the others" if word == "turn" else "close the round, as the others do",),
    )


CHECKS = (ends, to_the_last)
