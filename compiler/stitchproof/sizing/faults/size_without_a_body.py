"""SP076 size-without-a-body

Severity  error
Checks    each size of the pattern is one size of its body table: by its name, or by its place in the list `sizes` of `body`.
Matters   a size that took the figures of its neighbour would be made for another body.
Mend      list under `body`, in `sizes`, the table's size for each of yours, in your order.
Source    the source dialect of this compiler.

Fires in 1, 2:
    sizes: {names: [1, 2]}
    body: {from: women, take: high}

Fires in L:
    sizes: {names: [S, M, L]}
    body: {from: women, sizes: [S, M], take: high}

Quiet:
    sizes: {names: [1, 2]}
    body: {from: women, sizes: [S, M], take: high}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)
SHOWN = 12
"""How many sizes a help line lists."""


def sizes_not_the_tables(span: Span, unknown: tuple[str, ...], labels: tuple[str, ...]) -> Diagnostic:
    """span: where the table is named. unknown: sizes of the pattern that it does not have. labels: the sizes it has."""
    listed = ", ".join(labels[:SHOWN]) + (" and so on" if len(labels) > SHOWN else "")
    return Diagnostic(
        PAGE,
        "no size of the body table has this name",
        Excerpt(span, f"this table has {listed}"),
        sizes=unknown,
        help=(
            f"say under `body` which of its sizes yours are, in your order, such as `sizes: [{', '.join(labels[:3])}]`",
        ),
    )


def wrong_number_of_sizes(span: Span, given: int, names: tuple[str, ...]) -> Diagnostic:
    """given: how many sizes of the table are listed. names: the sizes of the pattern."""
    missing = names[given:]
    over = given - len(names)
    label = f"{over} too many" if over > 0 else f"{', '.join(missing)} {'has' if len(missing) == 1 else 'have'} none"
    help_text = f"take {over} out" if over > 0 else f"add {len(missing)}"
    headline = f"`sizes` of `body` lists {given} for the {len(names)} sizes of the pattern"
    return Diagnostic(
        PAGE, headline, Excerpt(span, label), sizes=missing, help=(f"{help_text}: one for each size, in order",)
    )
