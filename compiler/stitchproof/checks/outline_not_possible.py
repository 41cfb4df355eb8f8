"""SP200 outline-not-possible

Severity  error
Checks    the outline of a schematic is a shape in every size: each length goes the way that is written, each side has a
          length, no side crosses another, and the outer edge of a ring is longer than its inner edge.
Matters   a drawing that folds over itself tells the maker of a piece that nobody can work; most often a number behind
          it is wrong in that size.
Mend      correct the number, or let the side go the other way; a corner that lies on the one before it can be left out.
Source    common practice, no source.

Fires in M:
    measures:
      width: {by_hand: [40, 40], unit: cm}
      across_back: {by_hand: [36, 42], unit: cm}
    schematics:
      piece:
        mirrored: yes
        outline:
          hem: {right: width / 2}
          underarm: {up: 30 cm}
          armhole: {left: (width - across_back) / 2, up: 6 cm, curve: across then up}
          shoulder: {up: 14 cm}

Fires in S, M:
    schematics:
      piece:
        outline:
          hem: start
          side: {right: 40 cm}
          shoulder: {left: 10 cm, up: 30 cm}
          neck: {right: 20 cm, down: 20 cm}

Fires in S:
    measures:
      neck: {by_hand: [60, 54], unit: cm}
    schematics:
      piece:
        ring: {inner: neck, outer: 60 cm, depth: 20 cm}

Quiet:
    measures:
      width: {by_hand: [40, 44], unit: cm}
    schematics:
      piece:
        mirrored: yes
        outline:
          hem: {right: width / 2}
          underarm: {up: 30 cm}
          armhole: {left: 3 cm, up: 6 cm, curve: across then up}
          shoulder: {up: 14 cm}
          neck: {left: 0 cm, up: 1 cm}
"""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.checks.claim_sums import number_text, side_text
from stitchproof.checks.wrong_counts import term_follows_from_wrong
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.outlines.crossing import crossing_in
from stitchproof.outlines.outline import Outline
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.sizing.sized_schematics import SizedLength, SizedSchematic
from stitchproof.source import Span

PAGE = read_page(__doc__)
HARDLY = 1e-6
"""Centimetres. A side shorter than this is none."""


def outlines(sized: SizedPattern, report: Report) -> None:
    """Outlines that are no shape, in the sizes that work their pieces."""
    for schematic in sized.schematics:
        for size in schematic.served:
            if not term_follows_from_wrong((each.term for each in schematic.lengths), size, sized):
                report.extend(_faults(schematic, size, sized))


def _faults(schematic: SizedSchematic, size: int, sized: SizedPattern) -> Iterator[Diagnostic]:
    outline = schematic.outlines[size]
    if outline is not None:
        yield from _of_the_shape(schematic, outline, sized.sizes[size])
        return
    wrong = [each for each in schematic.lengths if _is_wrong(each, size)]
    yield from (_wrong_length(schematic, each, size, sized) for each in wrong)
    if not wrong and all(each.term.at(size) is not None for each in schematic.lengths):
        inner, outer = schematic.lengths[0].term, schematic.lengths[1].term
        text = f"the outer edge of a ring is longer than its inner edge; in the drawing of `{schematic.name}` it is not"
        sums = (f"inner {number_text(inner.values[size], inner.kind)}",
                f"outer {number_text(outer.values[size], outer.kind)}")  # fmt: skip
        yield Diagnostic(
            PAGE,
            text,
            Excerpt(outer.formula.span, "this edge"),
            sizes=(sized.sizes[size],),
            sums=(SumLine(sized.sizes[size], ", ".join(sums), inner.at(size), outer.at(size)),),
            help=("draw a piece whose edges are alike as a `tube`, or correct the number",),
        )


def _is_wrong(length: SizedLength, size: int) -> bool:
    value = length.term.at(size)
    return value is not None and (value < 0 or (value == 0 and not length.may_be_none))


def _wrong_length(schematic: SizedSchematic, length: SizedLength, size: int, sized: SizedPattern) -> Diagnostic:
    formula, value = length.term.formula, length.term.at(size)
    what = "less than nothing" if value else "nothing"
    words = side_text(formula.node, sized.scope, size)
    return Diagnostic(
        PAGE,
        f"`{formula.text}` comes to {what}, and is a side of the drawing of `{schematic.name}`",
        Excerpt(formula.span, "this length"),
        sizes=(sized.sizes[size],),
        sums=(SumLine(sized.sizes[size], f"{formula.text} = {words}" if words != formula.text else words),),
        help=(
            "correct a number of this sum; to draw the side the other way, exchange the two it takes away from another",
        ),
    )


def _of_the_shape(schematic: SizedSchematic, outline: Outline, size: str) -> Iterator[Diagnostic]:
    for start, end in outline.sides():
        if max(abs(start.x - end.x), abs(start.y - end.y)) < HARDLY:
            text = f"the corner `{end.name}` of the drawing of `{schematic.name}` lies on the corner before it"
            help_text = "leave the corner out, or give it its way from the one before"
            yield Diagnostic(
                PAGE, text, Excerpt(_span(schematic, end.name), "this corner"), sizes=(size,), help=(help_text,)
            )
            return
    crossing = crossing_in(outline)
    if crossing:
        first, second = crossing
        text = f"the outline of `{schematic.name}` crosses itself: the side to `{first}` and the side to `{second}`"
        yield Diagnostic(
            PAGE,
            text,
            Excerpt(_span(schematic, second), "the side to this corner"),
            sizes=(size,),
            related=(Excerpt(_span(schematic, first), "crosses the side to this one"),),
            help=("write the corners in the order in which one walks around the piece, and correct the lengths",),
        )


def _span(schematic: SizedSchematic, corner: str) -> Span:
    return schematic.spans.get(corner, schematic.span)


CHECKS = (outlines,)
