"""SP003 wrong-parity-for-offset-fabric

Severity  error
Checks    the total of an offset fabric, in which a stitch and a chain space take turns, is odd or even as its way of
          working needs. Even: joined or turned rounds, rows of a one-row repeat, and spirals whose rounds each end with
          a chain. Odd: rows of a two-row repeat, and spirals whose start is kept in place.
Matters   with the wrong total two stitches or two spaces meet at the join, and the fabric cannot go on.
Mend      take the count below or above; or, if the piece is worked in another way, correct `worked` under
          `offset_fabric`.
Source    derived and simulated stitch by stitch; for rows also common practice, no source.

Fires in M:
    counts:
      collar_sts: [84 sts, 91 sts]
    pieces:
      piece: {gauge: fabric, worked: joined rounds, offset_fabric: {total: collar_sts, worked: joined rounds}}
    ---
    Each sc and each ch-1 sp counts as 1 st.
    Rnd 1: [Sc in next ch-sp, ch 1] around. — <collar_sts> sts

Fires in S:
    counts:
      collar_sts: [84 sts, 91 sts]
    pieces:
      piece: {gauge: fabric, worked: rows, offset_fabric: {total: collar_sts, worked: "rows, two-row repeat"}}
    ---
    Row 1: Sc in each st across. — <collar_sts> sts

Quiet:
    counts:
      collar_sts: [85 sts, 91 sts]
    pieces:
      piece:
        gauge: fabric
        worked: spiral rounds
        offset_fabric: {total: collar_sts, worked: "spiral rounds, start kept in place"}
    ---
    Each sc and each ch-1 sp counts as 1 st.
    Rnd 1: [Sc in next ch-sp, ch 1] around. — <collar_sts> sts
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.wrong_counts import follows_from_wrong, formula_follows_from_wrong, is_off_its_multiple
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, Proposal, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import whole
from stitchproof.formulas.tree import Name
from stitchproof.measures.values import exact_text
from stitchproof.sizing.sized_pattern import SizedOffsetFabric, SizedPattern, SizedPiece

PAGE = read_page(__doc__)
OFFERED = 3


def offset_fabrics(sized: SizedPattern, report: Report) -> None:
    """The declared offset fabrics of all pieces."""
    for piece in sized.pieces:
        fabric = piece.offset_fabric
        if fabric is None:
            continue
        for size in piece.served:
            total = fabric.totals[size]
            if _caused_elsewhere(fabric, size, sized):
                continue
            if isinstance(total, Fraction) and whole(total) and total % 2 != fabric.way.remainder:
                report.add(_report(piece, fabric, size, total, sized))


def _caused_elsewhere(fabric: SizedOffsetFabric, size: int, sized: SizedPattern) -> bool:
    """Whether the total, or a count it is worked out from, is reported for itself."""
    node = fabric.total.node
    quantity = sized.scope.quantities.get(sized.scope.full_name(node.name)) if isinstance(node, Name) else None
    if quantity is None:
        return formula_follows_from_wrong(fabric.total, size, sized)
    return is_off_its_multiple(quantity, size) or follows_from_wrong(quantity, size, sized)


def _report(
    piece: SizedPiece, fabric: SizedOffsetFabric, size: int, total: Fraction, sized: SizedPattern
) -> Diagnostic:
    wanted = "odd" if fabric.way.remainder else "even"
    node = fabric.total.node
    quantity = sized.scope.quantities.get(sized.scope.full_name(node.name)) if isinstance(node, Name) else None
    proposals: tuple[Proposal, ...] = ()
    if quantity:
        below = tuple(total - 1 - 2 * step for step in range(OFFERED) if total - 1 - 2 * step > 0)
        above = tuple(total + 1 + 2 * step for step in range(OFFERED))
        noun, per_unit = quantity.kind.noun, quantity.cm_per_unit
        proposals = (Proposal(quantity.name, size, noun, total, below, above, per_unit, by_rows=True),)
    is_now = "odd" if total % 2 else "even"
    half = f"{exact_text(total)} = 2 × {total // 2}" + (f" + {exact_text(total % 2)}" if total % 2 else "")
    return Diagnostic(
        PAGE,
        f"the {piece.entry.name} has an {is_now} total, but worked in {fabric.way.words} it must be {wanted}",
        Excerpt(fabric.total.span, f"must be {wanted}"),
        sizes=(sized.sizes[size],),
        piece=piece.entry.name,
        related=(Excerpt(fabric.way_span, "the declared way of working"),)
        + ((Excerpt(quantity.value_span, "the total comes from here"),) if quantity else ()),
        sums=(SumLine(sized.sizes[size], half, note=f"{wanted} wanted"),),
        proposals=proposals,
        help=(f"make the total {wanted}, or declare the way it is really worked",),
    )


CHECKS = (offset_fabrics,)
