"""The forms a comparison is written in besides text: JSON, and a page to read side by side."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import msgspec

from stitchproof.comparison import words
from stitchproof.comparison.comparison import Comparison
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.html import print_page

PAGE = "comparison"


def as_json(comparison: Comparison) -> str:
    """As data; its format and version stand at its head."""
    return msgspec.json.format(msgspec.json.encode(comparison), indent=2).decode() + "\n"


def as_page(comparison: Comparison, style_folders: Sequence[Path]) -> str:
    """One HTML file, old on the left and new on the right. Raises StyleFault where the style cannot be used."""
    folder = find_edition(PAGE, style_folders)
    if folder.screen is None:
        raise AssertionError("find_edition refuses an edition without a template")
    return print_page(folder, folder.screen, comparison=comparison, told=_Told(comparison))


class _Told:
    """The sentences that the template prints."""

    def __init__(self, comparison: Comparison) -> None:
        self.unchanged = words.unchanged_text(comparison)
        self.old_side = words.side_text(comparison.old)
        self.new_side = words.side_text(comparison.new)

    sizes = staticmethod(words.sizes_text)
    causes = staticmethod(words.causes_text)
    inputs = staticmethod(words.input_lines)
    numbers = staticmethod(words.number_lines)
    of_line = staticmethod(words.size_number_lines)
