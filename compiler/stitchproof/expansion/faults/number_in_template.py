"""SP026 number-in-template

Severity  error
Checks    what stands in {{ }} and {% %} chooses and repeats words, and never works with a number that differs by size.
          Such a number is printed by a slot, compared in a `::: sizes with` block, and worked out in pattern.yaml.
Matters   {{ }} and {% %} are gone through once for all sizes; what they made of a number would be wrong in all but one,
          and unproved.
Mend      write the slot `<name>` or the block `::: sizes with name > 3`; or hand the name to a macro, a passage that
          you have named with {% macro %}.
Source    how the texts of a pattern are written for stitchproof.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    Rep Row 2 until there are {{ cuff_rows }} rows in all.

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    {% if cuff_rows == 12 %}
    Row 1: Sc in each st across.
    {% endif %}

Fires:
    counts:
      cuff_rows: 12 rows
    ---
    {% set cuff_rows = 3 %}
    Row 1: Sc in each st across.

Quiet:
    counts:
      cuff_rows: 12 rows
    ---
    {% macro until(rows) %}Rep Row 2 until there are <rows> rows in all.{% endmacro %}
    {{ until(cuff_rows) }}
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def number_in_template(span: Span, name: str) -> Diagnostic:
    """A template uses a sized number other than by handing it on."""
    return Diagnostic(
        PAGE,
        f"Jinja cannot work with `{name}`, which has one value per size",
        Excerpt(span, "used by Jinja here"),
        help=(f"print it with `<{name}>`, choose by it with `::: sizes with {name} > …`, or hand it to a macro",),
    )


def number_renamed(span: Span, name: str) -> Diagnostic:
    """A template sets a variable that has the name of a number."""
    return Diagnostic(
        PAGE,
        f"`{name}` is a number of this pattern and cannot also be a variable of the text",
        Excerpt(span, "set by Jinja here"),
        help=("choose another name for the variable",),
    )


def computed_in_template(span: Span) -> Diagnostic:
    """A template multiplies or divides."""
    return Diagnostic(
        PAGE,
        "Jinja does not compute counts",
        Excerpt(span, "computed by Jinja here"),
        help=("give the number a name in pattern.yaml and print it with a slot",),
    )


def text_with_number(span: Span) -> Diagnostic:
    """A template looks into a text, or changes one, that holds a number."""
    return Diagnostic(
        PAGE,
        "Jinja cannot look into a text that holds a number",
        Excerpt(span, "taken apart by Jinja here"),
        help=("print the text as it is, or take the number out of it",),
    )


def last_round_in_template(span: Span) -> Diagnostic:
    """A template asks for the last round of a loop that goes up to a number."""
    return Diagnostic(
        PAGE,
        "the last round of this loop is another one in each size",
        Excerpt(span, "asked by Jinja here"),
        help=("choose by the loop's own number: `::: sizes with k = …`",),
    )
