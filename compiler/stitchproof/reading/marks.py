"""The marks that carry places through Jinja: a number between two characters that no text may hold.

Line mark: the literal text that follows stood at this place. Open and close: what is between them came from this call.
Back mark: what follows was made by the innermost call that is open, not typed behind the literal text before it.
Slot mark: here goes what a slot evaluates to.
"""

from __future__ import annotations

LINE = "\ue000"
OPEN = "\ue002"
CLOSE = "\ue003"
SLOT = "\ue004"
BACK = "\ue005"
END = "\ue001"
PRIVATE = ("\ue000", "\uf8ff")
"""First and last character of Unicode's private use area: a source that holds one is refused."""

JINJA_SIGNS = ("{{", "{%", "{#")
"""What Jinja looks for in a text: one without them is literal from end to end."""


def mark(kind: str, number: int) -> str:
    """A mark of a kind, with its number."""
    return f"{kind}{number}{END}"
