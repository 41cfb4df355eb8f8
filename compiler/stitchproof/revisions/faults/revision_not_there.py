"""SP231 revision-not-there

Severity  error
Checks    `PATTERN@NAME` names a commit, tag or branch of the git repository that the pattern lies in, and the pattern was there
          then.
Matters   there is nothing to compare with.
Mend      look the name up with `git log` or `git tag`; a pattern that was called otherwise then is named as it was.
Source    how git names commits (gitrevisions).
"""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.page import read_page
from stitchproof.source import Span

PAGE = read_page(__doc__)


def revision_not_there(asked: Span, why: str, mend: str) -> Diagnostic:
    """asked: what was asked for, on the command line. why: what is not there, as a sentence without its end."""
    return Diagnostic(PAGE, why, Excerpt(asked), help=(mend,))
