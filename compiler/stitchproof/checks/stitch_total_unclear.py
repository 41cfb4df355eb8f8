"""SP108 stitch-total-unclear

Severity  error
Checks    where chains stand among the stitches, the pattern says whether they count as stitches. A piece in an offset
          fabric, in which a stitch and a chain space take turns, needs a sentence that says so. So do two neighbouring
          rows, where one counts "sts" and the other stitches and chains.
Matters   a maker who counts 153 where the row says 77 may have counted the chains, or made a mistake; without the
          sentence she cannot tell which.
Mend      add to the notes "each sc and each ch-1 sp counts as 1 st", or "chains do not count".
Source    common practice, no source.

Fires:
    counts:
      total: {by_hand: [80 sts, 90 sts]}
    pieces:
      piece:
        gauge: fabric
        worked: joined rounds
        offset_fabric: {total: total, worked: joined rounds}
    ---
    Rnd 1: Ch 1, [sc in next ch-sp, ch 1, sk next sc] around, join with sl st in first sc.

Fires in S, M:
    counts:
      sc: {by_hand: [40 sts, 45 sts]}
      sps: {by_hand: [40 sts, 45 sts]}
      total: sc + sps
    ---
    Row 1: Ch 1, [sc in next st, ch 1, sk next st] across, turn. — <sc> sc, <sps> ch-1 sps
    Row 2: Ch 1, [sc in next ch-sp, ch 1, sk next sc] across, turn. — <total> sts

Quiet:
    counts:
      sc: {by_hand: [40 sts, 45 sts]}
      sps: {by_hand: [40 sts, 45 sts]}
      total: sc + sps
    ---
    Row 1: Each sc and each ch-1 sp counts as 1 st. [Sc in next st, ch 1, sk next st] across, turn. — <sc> sc, <sps> ch-1 sps
    Row 2: Ch 1, [sc in next ch-sp, ch 1, sk next sc] across, turn. — <total> sts

Quiet:
    ---
    Row 1: Ch 1, sc in each of next 10 sts, ch 8, turn. — 10 sc, 8 ch
    Row 2: Ch 1, sc in each of next 20 sts, turn. — 20 sts
"""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from stitchproof.checks.parts import lines_of, lines_of_piece
from stitchproof.checks.pattern_lines import PART_END, Kind, Line
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import PerSize, exact_text
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.source import Span

PAGE = read_page(__doc__)
_CHAIN = r"(?:ch(?:ain)?s?(?:-\d+)?(?:[\s-]sp(?:ace)?s?)?|spaces?|sps?)"
_CONVENTION = LatePattern(
    rf"(?<!turning )(?<!turning-)\b{_CHAIN}\b[^.;\n]{{0,40}}\b(?:counts?|is|are|counted|make|makes)\b"
    r"[^.;\n]{0,30}\b(?:sts?|stitch(?:es)?|place|total|not|never)\b"
    rf"|\bcount(?:s|ing|ed)?\b[^.;\n]{{0,40}}\b{_CHAIN}\b|\b{_CHAIN}\b[^.;\n]{{0,20}}\bincluded\b",
    re.IGNORECASE,
)
_TURNING = LatePattern(rf"\b(?:turning\s+ch|{_CHAIN}\s+\d|ch(?:ain)?\s+at\s+the\s+(?:start|beg))", re.IGNORECASE)
_COUNT = LatePattern(r"(?<![\w.,–-])(?P<number>\d+)\s+(?P<noun>[a-z][\w-]*(?:\s+sps?\b)?)", re.IGNORECASE)
_ALL = LatePattern(r"(?:sts?|stitch(?:es)?)", re.IGNORECASE)
_OF_CHAINS = LatePattern(_CHAIN, re.IGNORECASE)


class Total(Struct, frozen=True):
    """What a row says it comes to: its stitches and its chains, or all in one number (`chains` is None). One value per size."""

    line: Line
    start: int
    stitches: PerSize
    chains: PerSize | None


def totals(written: WrittenPattern, report: Report) -> None:
    """Chains that may or may not count: all the offset fabrics of a pattern in one report, else one for a piece."""
    offset = {each.entry.name: each.offset_fabric for each in written.expanded.sized.pieces}
    found: list[Diagnostic] = []
    fabrics: list[tuple[str, Span]] = []
    for piece in written.document.pieces:
        fabric = offset.get(piece.name)
        lines = [line for line in lines_of_piece(piece) if line.kind is Kind.STEP]
        if fabric is not None and any(word.entry == "ch" for line in lines for _, word in line.words()):
            fabrics.append((piece.name.replace("_", " "), fabric.total.span))
        else:
            found += _two_ways_of_counting(lines, written)
    if fabrics:
        found.append(_offset_report(fabrics))
    if found and not (_gauge_says(written) or any(_says(line) for line in lines_of(written.document))):
        for each in found:
            report.add(each)


def _two_ways_of_counting(lines: list[Line], written: WrittenPattern) -> list[Diagnostic]:
    found = [total for line in lines if (total := _total(line, len(written.expanded.sized.sizes)))]
    for one, other in pairwise(found):
        parted, whole = (one, other) if one.chains is not None else (other, one)
        if parted.chains is not None and whole.chains is None and (sums := _sums(parted, whole, written)):
            return [_report(parted, whole, sums)]
    return []


def _offset_report(fabrics: list[tuple[str, Span]]) -> Diagnostic:
    (_, span), *others = fabrics
    names = [name for name, _ in fabrics]
    pieces = " and the ".join(filter(None, (", the ".join(names[:-1]), names[-1])))
    return Diagnostic(
        PAGE,
        f"nothing says whether a chain counts as a stitch in the {pieces}",
        Excerpt(span, "stitches, or stitches and chains?"),
        related=tuple(Excerpt(each, "and here") for _, each in others),
        help=('add to the notes "each sc and each ch-1 sp counts as 1 st"',),
    )


def _says(line: Line) -> bool:
    """Whether a line says what chains count as, and not only those at the start of a row."""
    return any(not _TURNING.search(match[0]) for match in _CONVENTION.finditer(line.text))


def _gauge_says(written: WrittenPattern) -> bool:
    gauges = written.expanded.sized.source.header.gauges
    return any(gauge.stitch and _CONVENTION.search(gauge.stitch.text) for gauge in gauges)


def _total(line: Line, sizes: int) -> Total | None:
    """The closing count of a row, where it is a number of sts, or of named stitches and chains."""
    dash = line.text.rfind("—")
    if dash < 0 or PART_END in line.text[line.label_end + 1 :]:
        return None
    counts = [(match, _values(line, match, sizes)) for match in _COUNT.finditer(line.text, dash)]
    chains = [values for match, values in counts if _OF_CHAINS.fullmatch(match["noun"])]
    start = dash + len(line.text[dash + 1 :]) - len(line.text[dash + 1 :].lstrip()) + 1
    if len(counts) == 1 and _ALL.fullmatch(counts[0][0]["noun"]):
        return Total(line, start, counts[0][1], None)
    if len(counts) == 2 and len(chains) == 1:
        return Total(line, start, next(values for _, values in counts if values is not chains[0]), chains[0])
    return None


def _values(line: Line, match: re.Match[str], sizes: int) -> PerSize:
    number = line.number_at(match.start("number"))
    return number.values if number else (Fraction(match["number"]),) * sizes


def _sums(parted: Total, whole: Total, written: WrittenPattern) -> tuple[SumLine, ...]:
    """The sizes in which the one number is the other two together, or the stitches alone; () where it is so in some only."""
    found = []
    for size, name in enumerate(written.expanded.sized.sizes):
        sts, chains, total = parted.stitches[size], (parted.chains or ())[size], whole.stitches[size]
        if (
            not (isinstance(sts, Fraction) and isinstance(chains, Fraction) and isinstance(total, Fraction))
            or not chains
        ):
            return ()
        if total not in (sts, sts + chains):
            return ()
        counted = "the chains counted" if total != sts else "the chains not counted"
        found.append(
            SumLine(
                name,
                f"{exact_text(sts)} stitches and {exact_text(chains)} chains",
                note=f"{exact_text(total)}: {counted}",
            )
        )
    return tuple(found)


def _report(parted: Total, whole: Total, sums: tuple[SumLine, ...]) -> Diagnostic:
    line, end = whole.line, len(whole.line.text.rstrip())
    place = line.place(whole.start, end)
    other = parted.line.place(parted.start, len(parted.line.text.rstrip()))
    return Diagnostic(
        PAGE,
        "two rows count in different ways, and nothing says whether a chain counts as a stitch",
        Excerpt(place.span, "sts: with the chains or without?"),
        sizes=tuple(each.size for each in sums),
        piece=line.piece,
        row=line.row,
        related=(Excerpt(other.span, "stitches and chains apart"), *used_from(place)),
        sums=sums,
        help=('add to the notes "each sc and each ch-1 sp counts as 1 st", or "chains do not count"',),
    )


CHECKS = (totals,)
