"""Reads the drawings of a page back: the coordinates of outlines and measured lines, the boxes of labels."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from math import hypot
from xml.etree import ElementTree

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.editions.edition_folder import Leaf, find_edition
from stitchproof.editions.html import print_html
from stitchproof.editions.print_document import PrintDocument, PrintSchematics

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = r"-?\d+(?:\.\d+)?"
Box = tuple[float, float, float, float]


class Page(Struct, frozen=True):
    """A drawing as a page shows it, in millimetres."""

    root: ElementTree.Element

    @property
    def size(self) -> tuple[float, float]:
        _, _, width, height = map(float, self.root.attrib["viewBox"].split())
        return width, height

    @property
    def outline(self) -> list[tuple[str, list[float]]]:
        """The commands of the outline's path with their numbers."""
        (path,) = [each for each in self.root.iter(f"{SVG}path") if each.get("class") == "outline"]
        commands = re.findall(r"([MLCAZ])([^MLCAZ]*)", path.attrib["d"])
        return [(letter, [float(each) for each in re.findall(NUMBER, numbers)]) for letter, numbers in commands]

    @property
    def lines(self) -> dict[str, float]:
        """By letter, how far apart the ends of its line lie."""
        found = {}
        for path in self.root.iter(f"{SVG}path"):
            if "data-letter" in path.attrib:
                numbers = [float(each) for each in re.findall(NUMBER, path.attrib["d"])]
                found[path.attrib["data-letter"]] = hypot(numbers[0] - numbers[-2], numbers[1] - numbers[-1])
        return found

    @property
    def bent(self) -> Iterator[Box]:
        """The short pieces of every measured line that follows a curve, each as its box."""
        for path in self.root.iter(f"{SVG}path"):
            numbers = (
                [float(each) for each in re.findall(NUMBER, path.attrib["d"])] if "data-letter" in path.attrib else []
            )
            points = list(zip(numbers[::2], numbers[1::2], strict=True))
            if len(points) > 4:
                for (x, y), (to_x, to_y) in pairwise(points):
                    yield min(x, to_x), min(y, to_y), max(x, to_x), max(y, to_y)

    @property
    def labels(self) -> list[str]:
        """The words of the labels, row by row."""
        return ["".join(text.itertext()) for text in self.root.iter(f"{SVG}text")]

    def boxes(self) -> list[tuple[str, Box]]:
        """Each row of each label with the box that it takes up in the document's type, upright letters at 0.7 em."""
        found = []
        for text in self.root.iter(f"{SVG}text"):
            words, size = "".join(text.itertext()), float(text.attrib["font-size"])
            wide = sum(advance(each) for each in words) * size
            x, y = float(text.attrib["x"]), float(text.attrib["y"])
            left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[text.attrib["text-anchor"]]
            found.append((words, (left, y - 0.7 * size, left + wide, y)))
        return found


def advance(character: str) -> float:
    """Ems that a character takes in Source Sans, semibold capitals and figures (its own widths, rounded up)."""
    if character in "MW":
        return 0.86
    if character.isupper() or character in "mw¼½¾":
        return 0.82 if character in "m¼½¾" else 0.66
    return 0.2 if character in " .\N{NO-BREAK SPACE}" else 0.52


def drawings_on(document: PrintDocument, leaf: str = "paper", edition: str = "all_sizes") -> list[Page]:
    """The drawings that an edition shows on paper or on the screen."""
    folder = find_edition(edition, ())
    found: Leaf | None = getattr(folder, leaf)
    assert found is not None
    drawn = [each for each in document.sections if any(isinstance(block, PrintSchematics) for block in each.blocks)]
    html = print_html(replace(document, sections=tuple(drawn)), folder, found)  # a page of nothing else is the quicker
    return [Page(ElementTree.fromstring(svg)) for svg in re.findall(r"<svg.*?</svg>", html, re.DOTALL)]  # noqa: S314


def schematics_of(document: PrintDocument) -> PrintSchematics:
    """The one block with drawings."""
    (block,) = [each for section in document.sections for each in section.blocks if isinstance(each, PrintSchematics)]
    return block


def overlapping(boxes: list[tuple[str, Box]]) -> Iterator[tuple[str, str]]:
    """Labels that lie on each other."""
    for place, (words, one) in enumerate(boxes):
        for other, two in boxes[place + 1 :]:
            if one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]:
                yield words, other
