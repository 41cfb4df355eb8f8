"""SP165 last-stitches-left-live

Severity  error
Checks    the text says what becomes of the last stitches of a piece before another one is begun or the pattern ends: the yarn is
          fastened off, the next piece goes on with it, or the stitches are drawn up, sewn, joined or held.
Matters   the maker stands there with a loop on the hook and open stitches, and has to guess: a crown that is not drawn up keeps a
          hole, and an edge that was to be held comes undone.
Mend      write what becomes of them after the last row.
Source    common practice, no source.

Fires in S, M:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across, turn. — 20 sc

Fires in S, M:
    pieces:
      brim: {gauge: fabric, worked: rows}
      crown: {gauge: fabric, worked: spiral rounds}
    ---
    ## Crown {crown}

    Rnd 1: Work 8 sc in a magic ring. — 8 sc
    Rnd 2: 2 sc in each st around. — 16 sc

    ## Brim {brim}

    Ch 9.
    Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. — 8 sc

Quiet:
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc in each st across. Fasten off. — 20 sc

Quiet:
    pieces:
      brim: {gauge: fabric, worked: rows}
      edging: {gauge: fabric, worked: rows}
    ---
    ## Brim {brim}

    Ch 9.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 8 sc

    ## Edging {edging}

    Row 1: Ch 1, sc in each st across, turn. — 8 sc
    Draw up the rem sts, secure and trim.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import lines_of, lines_of_piece
from stitchproof.checks.pattern_lines import Kind, Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Piece, Step
from stitchproof.late_pattern import LatePattern
from stitchproof.simulation.worked_pattern import Proof, WorkedPattern, WorkedPiece

PAGE = read_page(__doc__)
_CUT = (
    r"fasten\w*|finish(?:ed)?\s+off|finish\s+(?:the\s+)?yarn|end\s+off|break\s+(?:off|(?:the\s+)?(?:yarn|wool|thread))"
    r"|(?:cut|break|snip|trim|tie|knot|bind|cast)\s+(?:off|(?:the\s+)?(?:yarn|wool|thread|tail))|\bFO\b"
)
_AT_END = LatePattern(rf"\b(?:{_CUT})", re.IGNORECASE)
_IN_ROW = LatePattern(
    rf"\b(?:{_CUT}|draw(?:ing)?\s+(?:up|through)|pull(?:ing)?\s+through|thread\w*|gather\w*|tail|h[eo]ld\w*|sew\w*|graft\w*"
    r"|(?:next|last)\s+piece)\b",
    re.IGNORECASE,
)
"""What the last row itself says of its stitches; "join" and "loop" are words of the row."""
_FATE = LatePattern(
    rf"\b(?:{_CUT}|cut|leav\w+|tail|thread|draw\w*|pull\w*|gather\w*|cinch\w*|close\w*|clos(?:e|ing)|sew\w*|seam\w*"
    r"|graft\w*|stitch(?:es)?\s+together|join\w*|attach\w*|secur\w+|h[eo]ld\w*|keep|rest|aside|drop|loop|continu\w*|cont"
    r"|work\s+on|go\s+on|next\s+piece|unravel\w*|pick\w*|cross\w*|weave\w*\s+through)\b",
    re.IGNORECASE,
)


def last_stitches(worked: WorkedPattern, report: Report) -> None:
    """Pieces whose last stitches are live, and nothing says what becomes of them; one report for a piece."""
    pieces = {piece.name: piece for piece in worked.written.document.pieces}
    for index, piece in enumerate(worked.pieces):
        sizes = [size for size, live in enumerate(piece.left_live) if live is not None]
        after = worked.pieces[index + 1 : index + 2]
        if not sizes or (after and not after[0].begins_anew) or _is_started_from(piece, worked):
            continue
        last = _last_row(piece)
        if last is None or _is_told(piece, last, pieces[piece.name], worked):
            continue
        if not any(finding.step.piece == piece.name for finding in worked.findings):
            report.add(_report(piece, last, sizes, worked))


def _is_started_from(piece: WorkedPiece, worked: WorkedPattern) -> bool:
    return any(
        words.text.strip() == piece.name
        for each in worked.written.expanded.sized.pieces
        for words in each.entry.starts_from
    )


def _last_row(piece: WorkedPiece) -> Step | None:
    """The last step that works stitches; None where a step of the piece is not known."""
    if any(step.proof in (Proof.NOT_READ, Proof.TRUSTED) for step in piece.steps):
        return None
    return next((step.step for step in reversed(piece.steps) if step.proof is not Proof.TOLD), None)


def _is_told(worked: WorkedPiece, last: Step, piece: Piece, pattern: WorkedPattern) -> bool:
    """Whether words from the last row on, or in another place that speaks of the piece, say what becomes of its stitches."""
    for line, is_last in _lines_from(last, piece):
        if (_IN_ROW if is_last else _FATE).search(line.text, line.label_end):
            return True
    names = LatePattern(rf"\b(?:{'|'.join(map(re.escape, _called(worked.name)))})s?\b", re.IGNORECASE)
    for line in lines_of(pattern.written.document):
        is_general = line.kind is not Kind.STEP and line.kind is not Kind.HEADING and line.piece in ("", worked.name)
        if is_general and _AT_END.search(line.text):
            return True
        if line.piece != worked.name and _FATE.search(line.text) and names.search(line.text):
            return True
    return False


def _lines_from(last: Step, piece: Piece) -> Iterator[tuple[Line, bool]]:
    """The last row and what follows it, each with whether it is that row; of a loop it is the one that was written for all."""
    begun = False
    for line in lines_of_piece(piece):
        is_last = line.kind is Kind.STEP and line.row == last.identity
        begun = begun or is_last
        if begun and line.kind is not Kind.HEADING:
            yield line, is_last


def _called(name: str) -> Iterator[str]:
    """What lines may call a piece: its name, and the words of it that are not about left and right."""
    yield name.replace("_", " ")
    yield from (word for word in name.split("_") if len(word) > 2)


def _report(piece: WorkedPiece, last: Step, sizes: list[int], worked: WorkedPattern) -> Diagnostic:
    names = worked.written.document.sizes.names
    place = last.place
    return Diagnostic(
        PAGE,
        f"nothing is told of the last stitches of {piece.name}",
        Excerpt(place.span, "the last row"),
        sizes=tuple(names[size] for size in sizes),
        piece=piece.name,
        row=last.identity,
        related=used_from(place),
        sums=tuple(
            SumLine(names[size], f"{piece.left_live[size]} sts are left, the yarn still on them") for size in sizes
        ),
        help=("write `Fasten off.`, or what else becomes of them: drawn up, sewn, held or worked on",),
    )


CHECKS = (last_stitches,)
