"""Draws the schematics as SVG: black outlines, grey measured lines, letters in the document's own type."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import ceil, hypot, sqrt
from xml.etree import ElementTree

from msgspec import Struct

from stitchproof.editions.drawing_lines import Label, LaidOut, Line, laid_out
from stitchproof.editions.print_document import NO_BREAK, PrintDrawing, PrintSchematics, visible_text
from stitchproof.editions.units_apart import BETWEEN, UNITS
from stitchproof.outlines.outline import Bend, Corner, Outline, Point, controls, radius_of

GREY = "#767676"
"""Of the measured lines: 4.5 : 1 on white, and more than 3 : 1 on the dark page (WCAG 2.2, success criterion 1.4.11)."""
TYPE = "'Source Sans Pro', system-ui, 'Segoe UI', 'Liberation Sans', sans-serif"
SHARES = tuple(share / 40 for share in range(40, 7, -1))
"""Of the largest scale: those that are tried. The best takes little of the page for what it shows."""
SMALLEST = 0.22
"""Of the width of the page: how long the longer side of a usual piece is drawn at least."""
GAP = 9.0
"""Millimetres between drawings that stand side by side, as the style sheets have it, with the space between two words."""
NARROWEST = 36.0
"""Millimetres for a drawing with its title, so that no word of the title stands on a line of its own."""
TITLE_LEADING = 1.5
"""Times the height of a drawing's letters: a line of its title."""
TITLE_FIGURE = 0.54
"""Times the height of a drawing's letters: what a character of its title takes, on average."""
OnPaper = Callable[[Point], Point]


class Drawn(Struct, frozen=True):
    """A drawing ready for the page, all text in it escaped. width: of the drawing and its title, in millimetres.
    title_lines: on how many lines its title stands, about."""

    name: str
    svg: str
    width: float
    title_lines: int


class Room(Struct, frozen=True):
    """What an edition has for drawings, in millimetres: none is wider than `width`, no outline higher than `height`, and all
    together are not higher than `together` where that can be. text: the height of the letters. abreast: whether a line of
    the page is `width` wide, so that they should share it well. titles_only: for a renderer that reads out titles alone.
    units_apart: whether the reader may leave one of two units out."""

    width: float
    height: float
    together: float
    text: float
    abreast: bool
    titles_only: bool
    units_apart: bool = False


def drawn(block: PrintSchematics, room: Mapping[str, float | bool]) -> tuple[Drawn, ...]:
    """The drawings of a pattern as SVG, all at one scale. room: the facts of a Room, as the edition's template sets them.

    Raises TypeError where the template names others.
    """
    return _drawn(block, Room(**room))  # type: ignore[arg-type]  # each is a number or a bool, as Room has them


def _drawn(block: PrintSchematics, room: Room) -> tuple[Drawn, ...]:
    width, height, text, abreast = room.width, room.height, room.text, room.abreast
    largest = min(_largest(each.outline, width, height) for each in block.drawings)
    lengths = sorted(_longest(each.outline) for each in block.drawings)
    usual = (lengths[(len(lengths) - 1) // 2] + lengths[len(lengths) // 2]) / 2
    scales = [largest * share for share in SHARES if share == 1 or largest * share * usual >= SMALLEST * width]
    tried = ([laid_out(each, scale, text) for each in block.drawings] for scale in scales)
    if abreast:
        every = list(tried)
        fitting = [pages for pages in every if _fit(pages, width)] or every[-1:]
        low = [pages for pages in fitting if _height(pages, width) <= room.together] or fitting[-1:]
        pages = min(low, key=lambda pages: _cost(block, pages, room))
    else:  # the largest that fits, and else the smallest
        pages = next(pages for number, pages in enumerate(tried, 1) if _fit(pages, width) or number == len(scales))
    return tuple(
        Drawn(
            each.name,
            _svg(each, page, f"drawing_{number}", room),
            _column(page),
            _title_lines(each, page, text),
        )
        for number, (each, page) in enumerate(zip(block.drawings, pages, strict=True), start=1)
    )


def _fit(pages: list[LaidOut], width: float) -> bool:
    return all(page.width <= width for page in pages)


def title_width(drawing: PrintDrawing, text: float) -> float:
    """How long a title is on one line: semibold, and a little larger than the letters of the drawing."""
    words = f"{visible_text(drawing.title)} {drawing.drawn_for}".strip()
    return len(words) * TITLE_FIGURE * text


def _cost(block: PrintSchematics, pages: list[LaidOut], room: Room) -> float:
    """What these drawings take of the page, titles included, for what they show: half the size may take 0.7 of the height."""
    lines = max(_title_lines(each, page, room.text) for each, page in zip(block.drawings, pages, strict=True))
    title = lines * room.text * TITLE_LEADING
    return _height(pages, room.width, title) / sqrt(pages[0].scale)


def _title_lines(drawing: PrintDrawing, page: LaidOut, text: float) -> int:
    return ceil(title_width(drawing, text) / _column(page))


def _column(page: LaidOut) -> float:
    """The width of a drawing and its title."""
    return max(page.width, NARROWEST)


def _height(pages: list[LaidOut], width: float, title: float = 0.0) -> float:
    """How much of the page drawings take that stand beside each other as far as they can, each below a title so high."""
    high, across, row = 0.0, 0.0, 0.0
    for page in pages:
        if across and across + GAP + _column(page) > width:
            high, across, row = high + row + GAP, 0.0, 0.0
        across += _column(page) + (GAP if across else 0.0)
        row = max(row, page.height + title)
    return high + row


def _largest(outline: Outline, width: float, height: float) -> float:
    left, low, right, high = outline.box()
    return min(width / (right - left), height / (high - low))


def _longest(outline: Outline) -> float:
    left, low, right, high = outline.box()
    return max(right - left, high - low)


def _svg(drawing: PrintDrawing, page: LaidOut, identity: str, room: Room) -> str:
    root = ElementTree.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": f"0 0 {_length(page.width)} {_length(page.height)}",
            "width": f"{_length(page.width)}mm",
            "height": f"{_length(page.height)}mm",
            "role": "img",
            "fill": "none",
            "stroke-linejoin": "round",
        },
    )
    _describe(root, drawing, identity, room.titles_only)
    _outline(root, drawing, page)
    for line in page.leads:
        _path(root, line.points, {"stroke": GREY, "stroke-width": "0.12"})
    for line in page.measures:
        _measure(root, line, room.text)
    for label in page.labels:
        _label(root, label, room)
    return ElementTree.tostring(root, encoding="unicode")


def _describe(root: ElementTree.Element, drawing: PrintDrawing, identity: str, titles_only: bool) -> None:
    title = ElementTree.SubElement(root, "title", {"id": f"{identity}_title"})
    if titles_only:
        title.text = drawing.in_words
        return
    title.text = visible_text(drawing.title)
    ElementTree.SubElement(root, "desc", {"id": f"{identity}_desc"}).text = drawing.in_words
    root.set("aria-labelledby", f"{identity}_title {identity}_desc")


def _outline(root: ElementTree.Element, drawing: PrintDrawing, page: LaidOut) -> None:
    box = drawing.outline.box()

    def on_paper(point: Point) -> Point:
        return page.shift[0] + (point[0] - box[0]) * page.scale, page.shift[1] - (point[1] - box[1]) * page.scale

    ink = {"stroke": "currentColor", "stroke-width": "0.45"}
    path = outline_path(drawing.outline, page.scale, on_paper)
    ElementTree.SubElement(root, "path", {"class": "outline", "d": path, **ink})
    for line in page.inner:
        _path(root, line.points, {"stroke": "currentColor", "stroke-width": "0.2"})


def outline_path(outline: Outline, scale: float, on_paper: OnPaper) -> str:
    """The path of an outline. scale: millimetres on paper for each centimetre."""
    steps = [f"M{_point(on_paper(outline.corners[0].point))}"]
    for start, end in outline.sides():
        steps.append(_side(start, end, scale, on_paper))
    return f"{' '.join(steps)} Z"


def _side(start: Corner, end: Corner, scale: float, on_paper: OnPaper) -> str:
    there = _point(on_paper(end.point))
    if end.bend is Bend.STRAIGHT:
        return f"L{there}"
    if end.bend is Bend.ARC:
        radius = _length(radius_of(start.point, end) * scale)
        # On paper y runs downward: a turn to the left is one against the clock, which SVG writes as 0.
        return f"A{radius} {radius} 0 {int(abs(end.bulge) > 1)} {int(end.bulge < 0)} {there}"
    return "C" + " ".join(_point(on_paper(each)) for each in controls(start.point, end)) + f" {there}"


def _measure(root: ElementTree.Element, line: Line, text: float) -> None:
    """The line, left open where a label stands in it, with an arrow at either end."""
    group = ElementTree.SubElement(root, "g", {"class": "measure", "stroke": GREY, "stroke-width": "0.18"})
    parts = _around_the_gap(line) if line.gap else (line.points,)
    path = " ".join(_run(part) for part in parts)
    ElementTree.SubElement(group, "path", {"d": path, "data-letter": line.letter})
    for tip, towards in ((line.points[0], line.points[1]), (line.points[-1], line.points[-2])):
        _arrow(group, tip, towards, text * 0.6)


def _around_the_gap(line: Line) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """A straight line in two parts, its middle left open."""
    (x, y), (to_x, to_y) = line.points[0], line.points[-1]
    share = line.gap / hypot(to_x - x, to_y - y) / 2

    def at(part: float) -> Point:
        return x + (to_x - x) * part, y + (to_y - y) * part

    return (at(0), at(0.5 - share)), (at(0.5 + share), at(1))


def _arrow(group: ElementTree.Element, tip: Point, towards: Point, long: float) -> None:
    length = hypot(towards[0] - tip[0], towards[1] - tip[1]) or 1.0
    way = (towards[0] - tip[0]) / length, (towards[1] - tip[1]) / length
    back = tip[0] + way[0] * long, tip[1] + way[1] * long
    wings = [(back[0] + sign * way[1] * long * 0.28, back[1] - sign * way[0] * long * 0.28) for sign in (1, -1)]
    ElementTree.SubElement(group, "path", {"d": f"{_run((tip, *wings))} Z", "fill": GREY, "stroke": "none"})


def _label(root: ElementTree.Element, label: Label, room: Room) -> None:
    """The letter bold, what follows it plain; rows under each other."""
    text = room.text
    apart = room.units_apart and {_unit(each) for row in label.rows for each in row.split(" / ")} >= set(UNITS)
    lines = len(label.rows)
    for number, row in enumerate(label.rows):
        x, y = label.at[0], label.at[1] + ((number - (lines - 1) / 2) * 1.25 + 0.34) * text
        letter, _, rest = row.partition(" ")
        bold = not number
        element = ElementTree.SubElement(
            root,
            "text",
            {
                "x": _length(x),
                "y": _length(y),
                "font-family": TYPE,
                "font-size": _length(text),
                "text-anchor": label.anchor,
                "fill": "currentColor",
                **({"font-weight": "600"} if bold else {}),
            },
        )
        element.text = letter if bold else row
        if apart and not bold:
            element.set("data-unit", _unit(row))
        if bold and rest:
            plain = ElementTree.SubElement(element, "tspan", {"font-weight": "400"})
            plain.text = f"\N{NO-BREAK SPACE}{rest.strip()}"
            if apart:
                _units_apart(plain, rest.strip())


def _unit(text: str) -> str:
    return text.rpartition(NO_BREAK)[2]


def _units_apart(element: ElementTree.Element, text: str) -> None:
    """A length in two units, each in a part of its own."""
    one, other = text.split(" / ")
    element.text = NO_BREAK
    for unit, words in ((_unit(one), one), (BETWEEN, " / "), (_unit(other), other)):
        ElementTree.SubElement(element, "tspan", {"data-unit": unit}).text = words


def _path(root: ElementTree.Element, points: tuple[Point, ...], attributes: dict[str, str]) -> None:
    ElementTree.SubElement(root, "path", {"d": _run(points), **attributes})


def _run(points: tuple[Point, ...]) -> str:
    return "M" + " L".join(_point(point) for point in points)


def _point(point: Point) -> str:
    return f"{_length(point[0])} {_length(point[1])}"


def _length(number: float) -> str:
    """To a thousandth of a millimetre, so that every machine writes the same."""
    return f"{number:.3f}".rstrip("0").rstrip(".") if abs(number) >= 0.0005 else "0"
