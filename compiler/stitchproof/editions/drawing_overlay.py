"""A piece in all its sizes over each other, at one scale: the chosen size drawn through, each other one with a line of its own
and its name."""

from __future__ import annotations

from xml.etree import ElementTree

from msgspec import Struct

from stitchproof.editions.drawing import TYPE, outline_path
from stitchproof.expansion.document import Schematic, SizeList
from stitchproof.outlines.outline import Outline, Point

WIDTH, HEIGHT = 88.0, 80.0
"""Millimetres that the outlines have."""
TEXT = 4.0
"""Height of the letters, in millimetres."""
COLUMN = 26.0
"""Millimetres for the names beside the outlines, with the lines that lead there."""
DASHES = ("2 1", "0.5 1", "3 1 0.5 1", "1 1", "4 1.5", "3 1 0.5 1 0.5 1", "1.5 0.6", "0.5 0.6")
"""Lines that are told apart without colour; the chosen size is drawn through."""


class _Lies(Struct, frozen=True):
    """Where on the paper a point of any of the outlines lies."""

    left: float
    high: float
    scale: float

    def __call__(self, point: Point) -> Point:
        return (point[0] - self.left) * self.scale + 1, (self.high - point[1]) * self.scale + TEXT / 2


def overlaid(schematic: Schematic, sizes: SizeList, chosen: int, in_words: str) -> str:
    """The SVG. in_words: for those who do not see it. The outlines keep the places that they have to one another in the source:
    what is mirrored lies about one middle line."""
    outlines = {size: outline for size in schematic.served if (outline := schematic.outlines[size]) is not None}
    boxes = [outline.box() for outline in outlines.values()]
    left, low = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, high = max(box[2] for box in boxes), max(box[3] for box in boxes)
    scale = min(WIDTH / (right - left), HEIGHT / (high - low))
    lies = _Lies(left, high, scale)
    width = (right - left) * scale + COLUMN
    height = max((high - low) * scale, len(outlines) * TEXT * 1.3) + TEXT + 2
    root = _root(width, height, in_words)
    names = _names(outlines, lies, height)
    for place, (size, outline) in enumerate(outlines.items()):
        is_chosen = size == chosen
        line = {"stroke": "currentColor", "stroke-width": "0.6" if is_chosen else "0.3"}
        if not is_chosen:
            line["stroke-dasharray"] = DASHES[place % len(DASHES)]
        path = outline_path(outline, scale, lies)
        ElementTree.SubElement(root, "path", {"class": "outline", "data-size": str(size + 1), "d": path, **line})
        x, y = lies(_named_at(outline))
        at = (width - COLUMN + 6, names[size])
        lead = {**line, "stroke-width": "0.6" if is_chosen else "0.25"}
        ElementTree.SubElement(root, "path", {"d": f"M{x:.2f} {y:.2f} L{at[0]:.2f} {at[1]:.2f} h5", **lead})
        text = ElementTree.SubElement(root, "text", _letters(at[0] + 6, at[1] + TEXT * 0.34, is_chosen))
        text.text = sizes.called(size)
    return ElementTree.tostring(root, encoding="unicode")


def _root(width: float, height: float, in_words: str) -> ElementTree.Element:
    return ElementTree.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"0 0 {width:.2f} {height:.2f}",
            "width": f"{width:.2f}mm",
            "height": f"{height:.2f}mm",
            "role": "img",
            "aria-label": in_words,
            "fill": "none",
            "stroke-linejoin": "round",
        },
    )


def _letters(x: float, y: float, is_chosen: bool) -> dict[str, str]:
    return {
        "x": f"{x:.2f}",
        "y": f"{y:.2f}",
        "font-family": TYPE,
        "font-size": f"{TEXT:.2f}",
        "font-weight": "700" if is_chosen else "400",
        "fill": "currentColor",
    }


def _named_at(outline: Outline) -> Point:
    """The corner farthest to the right and up, from which a line leads to the size's name."""
    return max((corner.point for corner in outline.corners), key=lambda point: (round(point[0] + point[1], 6), point))


def _names(outlines: dict[int, Outline], lies: _Lies, height: float) -> dict[int, float]:
    """How far down the name of each size stands: beside its corner, none on another."""
    wanted = sorted((lies(_named_at(outline))[1], -size) for size, outline in outlines.items())
    apart = TEXT * 1.3
    found: dict[int, float] = {}
    down = TEXT / 2
    for place, (y, negative) in enumerate(wanted):
        last = height - TEXT / 2 - apart * (len(wanted) - 1 - place)
        down = min(max(down, y), last)
        found[-negative] = down
        down += apart
    return found
