"""What is wrong with an edition's folder under styles/."""

from __future__ import annotations


class StyleFault(Exception):
    """An edition's folder is missing or cannot be used. Raised for a designer's mistake: shown to her, no traceback.

    path: the folder or file as shown to the user. message: one sentence without a capital or a full stop.
    """

    def __init__(self, path: str, message: str) -> None:
        super().__init__(f"{path}: {message}")
        self.path = path
        self.message = message
