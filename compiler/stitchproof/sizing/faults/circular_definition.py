"""SP021 circular-definition

Severity  error
Checks    no value is worked out from itself, be it by way of others. Only a value with a k may go back to its own at k
          - 1, if it has a `start`.
Matters   two numbers that wait for each other cannot be worked out in any size.
Mend      give one of the names in the circle a value of its own.
Source    arithmetic.

Fires:
    counts:
      body_sts: sleeve_sts + 10
      sleeve_sts: body_sts - 10

Fires:
    counts:
      body(k): body(k - 1) + 4 sts

Quiet:
    counts:
      body_sts: 60 sts
      sleeve_sts: body_sts - 10
      yoke(k): {is: yoke(k - 1) + 8 sts, start: body_sts}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


SHOWN = 5
"""How many names of a longer circle are told."""


def circular_definition(names: tuple[str, ...], spans: tuple[Span, ...], help_text: str) -> Diagnostic:
    """names: the circle, the first name again at the end. spans: where each is defined, in the same order."""
    more = len(spans) - SHOWN
    shown = names if more <= 1 else (*names[:SHOWN], f"{more} more", names[-1])
    spans = spans if more <= 1 else spans[:SHOWN]
    return Diagnostic(
        PAGE,
        f"{names[0]} is worked out from itself: {' → '.join(shown)}",
        Excerpt(spans[0], "the circle begins here"),
        related=tuple(Excerpt(span, "and goes through here") for span in spans[1:]),
        help=(help_text,),
    )
