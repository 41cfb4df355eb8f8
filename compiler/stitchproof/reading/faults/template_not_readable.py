"""SP025 template-not-readable

Severity  error
Checks    what stands between {{ }} and {% %} in a text can be read by Jinja, which chooses and repeats text.
Matters   a text with a broken choice or loop cannot be unfolded.
Mend      close every {% for %} with {% endfor %} and every {% if %} with {% endif %}; plain loops can be written as ::: blocks.
Source    the Jinja template language, palletsprojects.com.

Fires:
    title: Hat
    ---
    {% for k in upto(3) %}
    Row 1: Sc in each st across.

Quiet:
    title: Hat
    ---
    {% for k in [1, 2] %}
    Row {{ k }}: Sc in each st across.
    {% endfor %}
"""

from __future__ import annotations

import re

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def template_not_readable(span: Span, problem: str) -> Diagnostic:
    """span: the line where Jinja stopped. problem: its own words."""
    unclosed = re.search(r"innermost block that needs to be closed is '(\w+)'", problem)
    words = (
        f"`{{% {unclosed[1]} %}}` is not closed with `{{% end{unclosed[1]} %}}`" if unclosed else problem.rstrip(".")
    )
    words = words[:1].lower() + words[1:160]
    return Diagnostic(
        PAGE,
        f"Jinja cannot read this text: {words}",
        Excerpt(span),
        help=("correct the {{ }} or {% %} here, or the one it belongs to",),
    )
