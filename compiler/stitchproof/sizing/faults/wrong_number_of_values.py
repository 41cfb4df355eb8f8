"""SP006 wrong-number-of-values

Severity  error
Checks    a value given by hand has one number for each size. Where all such lists agree with one another, the list of sizes
          is the one that is wrong.
Matters   with one too few every size after the gap gets its neighbour's number.
Mend      give one value per size, in the order of the sizes; `not worked` for a size that does without.
Source    common practice, no source.

Fires:
    sizes: {names: [S, M, L]}
    counts:
      cuff_rows: [12 rows, 14 rows]

Fires:
    sizes: {names: [S, L]}
    body:
      bust: {cm: [80, 90, 100]}
    counts:
      cuff_rows: [12 rows, 14 rows, 16 rows]

Fires:
    sizes: {names: [S, M, L]}
    measures:
      cuff_depth: {cm: [5, 5,5, 6]}

Quiet:
    sizes: {names: [S, M, L]}
    counts:
      cuff_rows: [12 rows, 14 rows, not worked]
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.late_pattern import LatePattern
from stitchproof.source import Span

PAGE = read_page(__doc__)
_DECIMAL_COMMA = LatePattern(r"(?<![\d.,])\d+,\d+(?![\d.,]*\d)")
"""Two figures with a comma and no space between them, in a list that has spaces."""


def wrong_number_of_values(name: str, span: Span, values: int, sizes: tuple[str, ...]) -> Diagnostic:
    """values: how many there are. sizes: the names of all sizes."""
    missing, over = sizes[values:], values - len(sizes)
    halved = _DECIMAL_COMMA.search(span.text)
    if over > 0 and halved:
        right = halved[0].replace(",", ".")
        label = f"{over} too many"
        help_text = (
            f"a comma stands between two values: if `{halved[0]}` is one number, write `{right}`; else take {over} out"
        )
    elif over > 0:
        label, help_text = f"{over} too many", f"take {over} out, or give one value for all sizes with `is`"
    else:
        label = f"{', '.join(missing)} {'has' if len(missing) == 1 else 'have'} none"
        help_text = f"add {len(missing)}, or give one value for all sizes with `is`"
    numbers = f"{values} value{'' if values == 1 else 's'} for {len(sizes)} size{'' if len(sizes) == 1 else 's'}"
    return Diagnostic(PAGE, f"{name} has {numbers}", Excerpt(span, label), help=(help_text,))


def wrong_number_of_sizes(span: Span, list_span: Span, values: int, sizes: tuple[str, ...]) -> Diagnostic:
    """All lists have the same number of values, and the sizes another. span: the sizes; list_span: one of the lists."""
    named = f"{len(sizes)} size{' is' if len(sizes) == 1 else 's are'} named"
    return Diagnostic(
        PAGE,
        f"{named}, and every list has {values} values",
        Excerpt(span, "one too few" if len(sizes) == values - 1 else f"{len(sizes)}, not {values}"),
        related=(Excerpt(list_span, f"{values} values"),),
        help=("correct the names of the sizes, or all the lists",),
    )
