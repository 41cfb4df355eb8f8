"""SP025 template-not-readable

Severity  error
Checks    what stands between {{ }} and {% %} in a text can be read by Jinja, the tool that chooses and repeats
          passages.
Matters   a text whose choice or loop is broken cannot be written out, and the maker would be without its rows.
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

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.late_pattern import LatePattern
from stitchproof.source import Span

PAGE = read_page(__doc__)


def template_not_readable(span: Span, problem: str) -> Diagnostic:
    """span: the line where Jinja stopped. problem: its own words, put into ours where we know them."""
    words = problem.rstrip(".")
    for pattern, ours in _OURS:
        if found := pattern.search(problem):
            said = [_SIGNS.get(each, f"`{each}`") for each in found.groups()]
            words = ours.format(*found.groups(), **dict(zip(("first", "second"), said, strict=False)))
            break
    words = words[:1].lower() + words[1:160]
    return Diagnostic(
        PAGE,
        f"Jinja cannot read this text: {words}",
        Excerpt(span),
        help=("correct the {{ }} or {% %} here, or the one it belongs to",),
    )


_SIGNS = {
    "end of print statement": "`}}`",
    "end of statement block": "`%}`",
    "end of template": "the end of the text",
    "begin of print statement": "`{{`",
    "begin of statement block": "`{%`",
    "name": "a name",
    "integer": "a number",
    "float": "a number",
    "string": "a text",
}
_OURS = tuple(
    (LatePattern(pattern), ours)
    for pattern, ours in (
        (r"innermost block that needs to be closed is '(\w+)'", "`{{% {0} %}}` is not closed with `{{% end{0} %}}`"),
        (r"unexpected char '?[\"']", "a quote is not closed"),
        (r"unexpected char '(.)'", "`{0}` has no meaning here"),
        (r"tag name expected", "a word such as `for`, `if` or `set` is missing after `{{%`"),
        (r"[Uu]nexpected '?end of template", "a `{{{{` or `{{%` is not closed"),
        (r"unexpected '(end of (?:print statement|statement block))'", "something is missing before {first}"),
        (r"expected token '[^']+', got '='", "`=` gives a value to a name; two values are compared by `==`"),
        (r"expected token '([^']+)', got '([^']+)'", "{first} is missing before {second}"),
        (r"unexpected '(.)', expected '(.)'", "{first} stands where {second} should"),
        (r"unexpected '([)\]}}])'", "`{0}` closes nothing"),
        (r"[Uu]nknown tag '(end\w+)'", "`{{% {0} %}}` closes nothing"),
        (r"[Uu]nknown tag '(\w+)'", "it has no `{{% {0} %}}`"),
        (r"Missing end of comment tag", "a `{{#` is not closed with `#}}`"),
        (r"Missing end of raw directive", "`{{% raw %}}` is not closed with `{{% endraw %}}`"),
        (r"unexpected '([^']+)'", "{first} stands where it cannot"),
    )
)
"""What Jinja says, and what we say of it."""
