"""SP077 body-between-sizes

Severity  error
Checks    a body that is asked for by a measure or an age lies in exactly one size of the body table.
Matters   published ranges leave gaps and overlap: whether such a body gets the smaller or the larger garment is the
          designer's choice, and a machine that chose would choose for a stranger.
Mend      write the size that you choose, or put your own figures for this size in a row of `body`.
Source    Craft Yarn Council, Standard Body Measurements: the bust ranges of Woman do not touch (36-38 in, then 40-42 in).

Fires in L:
    sizes: {names: [M, L]}
    body: {from: head, sizes: [Woman, 54.5 cm]}

Fires in M:
    sizes: {names: [S, M]}
    body: {from: children, sizes: [4, 5]}

Fires in M:
    sizes: {names: [S, M]}
    body: {from: women, sizes: [S, bust 39 in], take: high}

Quiet:
    sizes: {names: [S, M]}
    body: {from: women, sizes: [S, bust 37 in], take: high}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def body_between_sizes(
    span: Span, size: str, what: str, where: str, neighbours: tuple[tuple[str, str], ...], memory: str
) -> Diagnostic:
    """size: of the pattern. what: the body asked for. where: "between Woman and Man". neighbours: (size, what it measures).

    memory: what of the neighbours' figures is from memory, or "".
    """
    choices = " or ".join(f"`{label}` ({given})" for label, given in neighbours)
    if not choices:
        help_text, memory = (
            "the table gives nothing in this unit: write the measure in its other unit, or a size by name",
            "",
        )
    else:
        help_text = f"choose: write {choices}"
    return Diagnostic(
        PAGE,
        f"{what} is {where}" if where else f"{what} cannot be looked up in this table",
        Excerpt(span, "belongs to no one size"),
        sizes=(size,),
        help=(help_text, *((f"these figures: {memory}",) if memory else ())),
    )
