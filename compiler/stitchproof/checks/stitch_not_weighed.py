"""SP193 stitch-not-weighed

Severity  error
Checks    every stitch that the rows make with a yarn has a weight under `yarn`, counts as another, or is left inside the
          scale; and every piece has a yarn. Stitches made in one place, or worked together, count as what they leave.
Matters   what is not weighed is not bought, and the maker runs out.
Mend      weigh a swatch of it; or say what it counts as; or leave it to the weight of the sample, if it is as frequent in
          every size.
Source    common practice, no source.

Fires in S, M:
    yarn:
      weights: {sc: 0.02 g}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc2tog, sc in each st across. Fasten off. — 19 sts

Fires in S, M:
    pieces:
      piece: {gauge: fabric, worked: rows}
      trim: {gauge: fabric, worked: rows}
    yarn:
      main: {weights: {sc: 0.02 g}, pieces: [piece]}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. — 20 sc

    ## Trim {trim}

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. — 10 sc

Quiet:
    yarn:
      weights: {sc: 0.02 g}
      counts_as: {sc2tog: sc}
    ---
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 20 sc
    Row 2: Ch 1, sc2tog, sc in each st across. Fasten off. — 19 sts
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.simulation.complete_pattern import CompletePattern
from stitchproof.sizing.sized_yarns import Unweighed, YarnUse
from stitchproof.source import Span

PAGE = read_page(__doc__)


def unweighed(complete: CompletePattern, report: Report) -> None:
    """Stitches of each yarn that nothing is said of. Errors come first: a stitch is often there because of them."""
    if report.has_errors:
        return
    for use in complete.sized.uses:
        if use.unweighed and use.yarn.sound:
            report.add(_report(use, complete.sized.sizes))


def without_yarn(complete: CompletePattern, report: Report) -> None:
    """Pieces with stitches that no yarn is named for."""
    if report.has_errors:
        return
    uses = complete.sized.uses
    named = {name for use in uses for name in (*use.yarn.pieces, *use.yarn.one_of)}
    entries = {each.entry.name: each.entry for each in complete.sized.pieces}
    for piece in complete.worked.pieces:
        if piece.name in named or piece.name not in entries or not all(use.yarn.sound for use in uses):
            continue
        names = complete.sized.sizes
        sums = tuple(
            SumLine(names[size], f"{sum(census.values()) * piece.times} stitches without a yarn")
            for size, census in enumerate(piece.census)
            if census
        )
        if sums:
            report.add(_no_yarn(piece.name, entries[piece.name].span, sums, uses[0].yarn.name))


def _no_yarn(piece: str, span: Span, sums: tuple[SumLine, ...], yarn: str) -> Diagnostic:
    return Diagnostic(
        PAGE,
        f"no yarn is named for the piece `{piece}`",
        Excerpt(span, "worked, and not counted"),
        sizes=tuple(each.size for each in sums),
        piece=piece,
        sums=sums,
        help=(f"add it to `pieces` of a yarn, such as `{yarn}`",),
    )


def _report(use: YarnUse, names: tuple[str, ...]) -> Diagnostic:
    words = [_words(each) for each in use.unweighed]
    sums = tuple(
        SumLine(name, ", ".join(f"{each.numbers[size]} {_words(each)}" for each in use.unweighed if each.numbers[size]))
        for size, name in enumerate(names)
        if any(each.numbers[size] for each in use.unweighed)
    )
    stitch = use.unweighed[0].stitch
    known = use.yarn.weights[0].key.words if use.yarn.weights else "sc"
    return Diagnostic(
        PAGE,
        f"`{use.yarn.name}` has no weight for {' and '.join(words)}",
        Excerpt(use.yarn.span, "weighs other stitches only"),
        sizes=tuple(each.size for each in sums),
        sums=sums,
        help=(f"add `{stitch}` to `weights`, or `{stitch}: {known}` to `counts_as`, or `{stitch}` to `inside_scale`",),
        about=use.yarn.name,
    )


def _words(each: Unweighed) -> str:
    return f"{each.stitch} at {each.gauge}" if each.gauge else each.stitch


CHECKS = (unweighed, without_yarn)
