"""The printed page as the renderer lays it out: where each line stands, and how wide it really is."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from weasyprint import HTML
from weasyprint.formatting_structure.boxes import LineBox, TableCellBox, TextBox
from weasyprint.text.fonts import FontConfiguration

from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.fonts import only_packaged_fonts
from stitchproof.editions.html import print_html
from stitchproof.editions.set_type import set_type
from stitchproof.expansion.document import Document

NEARLY = 0.5
"""CSS pixels. Less than this cannot be seen."""


@dataclass(frozen=True)
class Line:
    """One line of text. left, right: where it begins and ends; bounds: those of the page, or of its cell in a table.

    column: the number of the cell in its row, or None outside a table. In CSS pixels.
    """

    text: str
    page: int
    left: float
    right: float
    bounds: tuple[float, float]
    column: int | None

    @property
    def is_inside(self) -> bool:
        return self.bounds[0] - NEARLY <= self.left and self.right <= self.bounds[1] + NEARLY


def lines_of(document: Document) -> list[Line]:
    """Every line of the printed edition in all sizes, in reading order; heads and feet of pages left out."""
    folder = find_edition("all_sizes", ())
    assert folder.paper is not None
    html = print_html(set_type(document), folder, folder.paper)
    with only_packaged_fonts():
        pages = HTML(string=html, base_url="asset:").render(font_config=FontConfiguration()).pages
    lines: list[Line] = []
    for number, page in enumerate(pages):
        box = page._page_box
        bounds = (box.content_box_x(), box.content_box_x() + box.width)
        lines.extend(_lines(box.children[0], number, bounds, None))
    return lines


def _lines(box: Any, page: int, bounds: tuple[float, float], column: int | None) -> Iterator[Line]:
    if isinstance(box, LineBox):
        texts = [each for each in box.descendants() if isinstance(each, TextBox) and each.text.strip()]
        if texts:
            right = max(each.position_x + each.width for each in texts)
            text = "".join(each.text for each in texts).replace("\N{WORD JOINER}", "")
            yield Line(text.replace("\N{NO-BREAK SPACE}", " "), page, texts[0].position_x, right, bounds, column)
        return
    for child in getattr(box, "children", ()):
        if isinstance(child, TableCellBox):
            # A cell must keep inside the page and inside itself.
            left, right = child.position_x, child.position_x + child.border_width()
            yield from _lines(child, page, (max(left, bounds[0]), min(right, bounds[1])), child.grid_x)
        else:
            yield from _lines(child, page, bounds, column)
