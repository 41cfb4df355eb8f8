"""SP190 yarn-number-not-usable

Severity  error
Checks    the numbers of `yarn` are what they stand for: stitches, sample, ball and `round_up_to` have a weight above 0,
          `length` is a length to a weight, `margin` is a part of the whole, from 0 up to and below 100%.
Matters   the amounts for every size are worked out from them; one in the wrong unit sends the maker home with too little.
Mend      write it as the help line shows.
Source    common practice, no source.

Fires in S, M:
    yarn:
      weights: {sc: 0.0236 cm}
      ball: 50 g

Fires in S, M:
    yarn:
      weights: {sc: 0.0236 g}
      margin: 10

Fires in S, M:
    yarn:
      weights: {sc: 0.0236 g}
      ball: 0 g

Quiet:
    yarn:
      weights: {sc: 0.0236 g}
      margin: 10%
      length: 220 m per 100 g
      ball: 50 g
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.formulas.kind import Kind
from stitchproof.source import Span

PAGE = read_page(__doc__)
SHOWN = {
    "margin": "write a part of the whole, such as `10%`",
    "sample": "write what the sample weighs, such as `weighs: 66 g`",
    "round_up_to": "write the step that grams are rounded up to, such as `5 g`",
    "ball": "write what a ball weighs, such as `50 g`",
    "length": "write how much yarn there is to a weight, such as `220 m per 100 g`",
    "length_up_to": "write the step that lengths are rounded up to, such as `10 m`",
}
STITCH = "write what one of these stitches weighs, such as `0.0236 g`"


def not_a_yarn_number(name: str, span: Span, wanted: Kind, kind: Kind) -> Diagnostic:
    """name: the dotted name of the number. wanted, kind: what it must be, and what it is."""
    words = "a part of the whole" if wanted.dimension.is_plain else f"a {wanted.in_words()}"
    return _report(name, span, f"`{name}` is {_a(kind)}, and has to be {words}")


def out_of_its_bounds(name: str, span: Span) -> Diagnostic:
    """A weight or length of 0 or less, or a margin that is no part of the whole."""
    said = "is no part of the whole" if name.endswith(".margin") else "has to be more than 0"
    return _report(name, span, f"`{name}` {said}")


def _a(kind: Kind) -> str:
    words = kind.in_words()
    return words if words.startswith(("a ", "an ")) or words.endswith("s") else f"a {words}"


def _report(name: str, span: Span, headline: str) -> Diagnostic:
    group, _, key = name.rpartition(".")
    help_text = STITCH if group.endswith(".weights") else SHOWN[key]
    return Diagnostic(PAGE, headline, Excerpt(span), help=(help_text,))
