"""SP079 body-file-not-readable

Severity  error
Checks    the CSV file that `csv` of `body` names is a body table: a line per size under a line of measures with their
          units, and a figure, a range or – in every cell.
Matters   a figure in the wrong column gives every size another body.
Mend      mend the cell that the report shows, and save the file as CSV in UTF-8.
Source    RFC 4180, for CSV; the layout is this compiler's.

Fires:
    sizes: {names: [S, M]}
    body: {csv: body.csv}
    --- body.csv
    size, bust cm, upper arm cm
    S, 86, 26
    M, 94 cm, 28

Quiet:
    sizes: {names: [S, M]}
    body: {csv: body.csv}
    --- body.csv
    size, bust cm, upper arm cm
    S, 86, 26
    M, 94, 28
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def body_file_not_readable(span: Span, headline: str, help_text: str) -> Diagnostic:
    """span: in the CSV file."""
    return Diagnostic(PAGE, headline, Excerpt(span), help=(help_text,))
