"""Lays a drawing out on paper: its outline at a scale, the measured lines beside it, in lanes that keep clear of each other.

Millimetres from the upper left corner, y downward. Every text is measured generously, as no font is loaded for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import hypot

from msgspec import Struct

from stitchproof.editions.print_document import PrintDrawing, PrintMeasure
from stitchproof.outlines.outline import Point, side_points
from stitchproof.outlines.polyline import beside, distance, halfway, holds

FIGURE = 0.53
"""Ems that a character takes, on average and a little over; a third of an em more makes up for a lone wide letter."""
CLEAR = 0.9
"""Millimetres between the outline and a line that leads from it to a measure."""

AWAY = 1.4
"""Millimetres beyond the height of a letter from a piece to the first measured line at most: large letters need no more."""
BETWEEN_LANES = 2.5
"""Millimetres from one lane of measures to the next at most."""


class Line(Struct, frozen=True):
    """A line of points. letter: of the measure that it shows, or "". gap: how much of a straight one is left open around
    its middle, for its label."""

    points: tuple[Point, ...]
    letter: str = ""
    gap: float = 0


class Label(Struct, frozen=True):
    """Words around a place: their first, the letter, in bold. anchor: start, middle or end. at: the middle of the block."""

    at: Point
    rows: tuple[str, ...]
    anchor: str


class LaidOut(Struct, frozen=True):
    """A drawing on paper. shift: where the outline's own lower left corner lies; scale: millimetres for a centimetre."""

    width: float
    height: float
    scale: float
    shift: Point
    inner: tuple[Line, ...]
    leads: tuple[Line, ...]
    measures: tuple[Line, ...]
    labels: tuple[Label, ...]


@dataclass
class _Sheet:
    """A drawing while it is laid out, in millimetres around the outline's own upper left corner."""

    drawing: PrintDrawing
    scale: float
    text: float
    leads: list[Line] = field(default_factory=list)
    measures: list[Line] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.left, self.low, right, self.high = self.drawing.outline.box()
        self.width, self.height = (right - self.left) * self.scale, (self.high - self.low) * self.scale
        sides = self.drawing.outline.sides()
        self.polygon = [self.on_paper(point) for start, end in sides for point in side_points(start, end)[:-1]]

    def on_paper(self, point: Point) -> Point:
        return (point[0] - self.left) * self.scale, (self.high - point[1]) * self.scale

    def corner(self, name: str) -> Point:
        return self.on_paper(self.drawing.outline.corner(name).point)

    @property
    def arrow(self) -> float:
        return self.text * 0.6


def laid_out(drawing: PrintDrawing, scale: float, text: float) -> LaidOut:
    """A drawing at a scale (millimetres for a centimetre), its letters `text` millimetres high."""
    sheet = _Sheet(drawing, scale, text)
    beside: dict[str, list[tuple[PrintMeasure, Point, Point]]] = {"below": [], "above": [], "left": [], "right": []}
    for measure in drawing.measures:
        start, end = sheet.corner(measure.start), sheet.corner(measure.end)
        place = _place(measure, start, end, sheet)
        if place in beside:
            beside[place].append((measure, start, end))
        else:
            _along(measure, start, end, sheet)
    for place, held in beside.items():
        _in_lanes(place, held, sheet)
    inner = tuple(Line((sheet.corner(start), sheet.corner(end))) for start, end in drawing.lines)
    return _cropped(sheet, inner)


def _place(measure: PrintMeasure, start: Point, end: Point, sheet: _Sheet) -> str:
    """Beside which edge a measure stands, or "" where it follows its own line."""
    level = measure.run == "across" or (measure.run == "straight" and abs(start[1] - end[1]) < 1e-6)
    upright = measure.run == "up" or (measure.run == "straight" and abs(start[0] - end[0]) < 1e-6)
    if not (level or upright) or (measure.beside == "inside" and not _too_wide(measure, start, end, level, sheet)):
        return ""
    if level:
        if measure.beside in ("above", "below"):
            return measure.beside
        return "below" if (start[1] + end[1]) / 2 >= sheet.height / 2 else "above"
    if measure.beside in ("left", "right"):
        return measure.beside
    return "right" if (start[0] + end[0]) / 2 >= sheet.width / 2 - 1e-6 else "left"


def _too_wide(measure: PrintMeasure, start: Point, end: Point, level: bool, sheet: _Sheet) -> bool:
    """Whether the label of a level line inside the piece would run over its edges."""
    return level and _wide(_rows(measure, False), sheet.text) > 0.9 * abs(start[0] - end[0])


def _in_lanes(place: str, held: list[tuple[PrintMeasure, Point, Point]], sheet: _Sheet) -> None:
    """The measures beside one edge: the shortest nearest to the piece, no two on top of each other."""
    upright, sign = place in ("left", "right"), 1 if place in ("below", "right") else -1
    axis = 1 if upright else 0
    edge = {"below": sheet.height, "above": 0.0, "right": sheet.width, "left": 0.0}[place]
    lanes: list[list[tuple[PrintMeasure, Point, Point]]] = []
    for each in sorted(held, key=lambda one: abs(one[1][axis] - one[2][axis])):
        lane = next((lane for lane in lanes if not any(_overlap(each, other, axis, sheet) for other in lane)), None)
        if lane is None:
            lanes.append([each])
        else:
            lane.append(each)
    away = min(sheet.text * 1.5, sheet.text + AWAY)
    for lane in lanes:
        deepest = 0.0
        for measure, start, end in lane:
            rows = _rows(measure, upright)
            deepest = max(deepest, _depth(rows, abs(start[axis] - end[axis]), upright, sheet))
        for measure, start, end in lane:
            centred = upright and _fits(_rows(measure, True), abs(start[1] - end[1]), True, sheet)
            at = away + deepest / 2 if centred else away
            _beside(measure, start, end, edge + sign * at, upright, sign, sheet)
        away += deepest + min(sheet.text * 0.75, BETWEEN_LANES)


def _overlap(
    one: tuple[PrintMeasure, Point, Point], two: tuple[PrintMeasure, Point, Point], axis: int, sheet: _Sheet
) -> bool:
    low, high = _reach(one, axis, sheet)
    other_low, other_high = _reach(two, axis, sheet)
    return low < other_high - 0.01 and other_low < high - 0.01


def _reach(one: tuple[PrintMeasure, Point, Point], axis: int, sheet: _Sheet) -> tuple[float, float]:
    """From where to where a measure and its label stand along the edge."""
    measure, start, end = one
    low, high = sorted((start[axis], end[axis]))
    rows = _rows(measure, axis == 1)
    needs = len(rows) * sheet.text * 1.25 if axis == 1 else _wide(rows, sheet.text)
    short = max(0.0, needs - (high - low)) / 2
    return low - short, high + short


def _rows(measure: PrintMeasure, upright: bool) -> tuple[str, ...]:
    """The rows of a label: letter and number one under the other beside an upright line, else on one."""
    if not measure.shown:
        return (measure.letter,)
    return (measure.letter, *measure.shown) if upright else (f"{measure.letter}  {' / '.join(measure.shown)}",)


def _wide(rows: Iterable[str], text: float) -> float:
    return (max(len(row) for row in rows) * FIGURE + 0.35) * text


def _gap(rows: tuple[str, ...], upright: bool, text: float) -> float:
    """How much of a line its label takes up."""
    return len(rows) * text * 1.25 if upright else _wide(rows, text) + text * 0.5


def _fits(rows: tuple[str, ...], span: float, upright: bool, sheet: _Sheet) -> bool:
    """Whether a label stands in a gap of its line, with room for both arrows."""
    return span >= _gap(rows, upright, sheet.text) + 3.2 * sheet.arrow


def _depth(rows: tuple[str, ...], span: float, upright: bool, sheet: _Sheet) -> float:
    """How far a measure reaches away from the piece."""
    if upright:
        return _wide(rows, sheet.text) + (0 if _fits(rows, span, True, sheet) else sheet.text * 0.55)
    return sheet.text * (0.9 if _fits(rows, span, False, sheet) else 1.9)


def _beside(
    measure: PrintMeasure, start: Point, end: Point, at: float, upright: bool, sign: int, sheet: _Sheet
) -> None:
    """A line parallel to an edge, the leads to it, and its label in a gap, or on its far side where it is too short."""
    axis = 1 if upright else 0
    (low, high), rows = sorted((start[axis], end[axis])), _rows(measure, upright)

    def point(along: float, away: float) -> Point:
        return (away, along) if upright else (along, away)

    for corner in (start, end):
        off = corner[1 - axis]
        if abs(at - off) > 2 * CLEAR:
            sheet.leads.append(Line((point(corner[axis], off + sign * CLEAR), point(corner[axis], at + sign * CLEAR))))
    middle = (low + high) / 2
    fits = _fits(rows, high - low, upright, sheet)
    gap = _gap(rows, upright, sheet.text) if fits else 0
    sheet.measures.append(Line((point(low, at), point(high, at)), measure.letter, gap))
    if fits:
        sheet.labels.append(Label(point(middle, at), rows, "middle"))
    elif upright:
        anchor = "start" if sign > 0 else "end"
        sheet.labels.append(Label((at + sign * sheet.text * 0.55, middle), rows, anchor))
    else:
        sheet.labels.append(Label((middle, at + sign * sheet.text * 0.95), rows, "middle"))


def _along(measure: PrintMeasure, start: Point, end: Point, sheet: _Sheet) -> None:
    """A line that runs beside its own side, or straight through the piece."""
    if measure.run == "along":
        line = [sheet.on_paper(point) for point in sheet.drawing.outline.between(measure.start, measure.end)]
    elif measure.run == "across":
        line = [start, (end[0], start[1])]
    elif measure.run == "up":
        line = [(end[0], start[1]), end]
    else:
        line = [start, end]
    inside = measure.beside == "inside"
    place, normal = halfway(line)
    if holds(sheet.polygon, (place[0] + normal[0] * 0.05, place[1] + normal[1] * 0.05)) is not inside:
        normal = -normal[0], -normal[1]
    on_it = inside and measure.run != "along" and not _on_a_drawn_line(line, sheet)
    off = 0.0 if on_it else sheet.text * 1.1
    moved = tuple(beside(line, off, normal))
    for corner, target in ((line[0], moved[0]), (line[-1], moved[-1])):
        if off:
            way = (target[0] - corner[0]) / off, (target[1] - corner[1]) / off
            near = corner[0] + way[0] * CLEAR, corner[1] + way[1] * CLEAR
            sheet.leads.append(Line((near, (target[0] + way[0] * CLEAR, target[1] + way[1] * CLEAR))))
    level = abs(line[0][1] - line[-1][1]) < 1e-6 and len(line) == 2
    span = hypot(line[0][0] - line[-1][0], line[0][1] - line[-1][1])
    rows = _rows(measure, not level)
    centre, _ = halfway(moved)
    fits = on_it and _fits(rows, span, not level, sheet)
    sheet.measures.append(Line(moved, measure.letter, _gap(rows, not level, sheet.text) if fits else 0))
    if fits:
        sheet.labels.append(Label(centre, rows, "middle"))
        return
    beyond = sheet.text * (0.55 + 0.35 * abs(normal[1]) + (len(rows) - 1) * 0.62 * abs(normal[1]))
    beyond += _bulge(moved, centre, normal, _wide(rows, sheet.text) / 2 + sheet.arrow)
    anchor = "middle" if abs(normal[0]) < 0.4 else "start" if normal[0] > 0 else "end"
    sheet.labels.append(Label((centre[0] + normal[0] * beyond, centre[1] + normal[1] * beyond), rows, anchor))


def _bulge(line: tuple[Point, ...], centre: Point, normal: Point, near: float) -> float:
    """How far a bent line comes towards its label within `near` of its middle: the arms of a neckline stand up beside it."""
    off = [(x - centre[0], y - centre[1]) for x, y in line]
    towards = [x * normal[0] + y * normal[1] for x, y in off if abs(x * normal[1] - y * normal[0]) < near]
    return max(0.0, *towards) if towards else 0.0


def _on_a_drawn_line(line: list[Point], sheet: _Sheet) -> bool:
    """Whether a straight line lies on a side of the outline or on a line inside it: then it needs a place of its own."""
    (x, y), (to_x, to_y) = line[0], line[-1]
    middle = (x + to_x) / 2, (y + to_y) / 2
    sides = list(zip(sheet.polygon, [*sheet.polygon[1:], sheet.polygon[0]], strict=True))
    sides += [(sheet.corner(start), sheet.corner(end)) for start, end in sheet.drawing.lines]
    return any(distance(middle, *side) < 0.05 for side in sides)


def label_box(label: Label, text: float) -> tuple[float, float, float, float]:
    """The least x and y of a label, and the greatest."""
    wide, high = _wide(label.rows, text), len(label.rows) * text * 1.25
    left = label.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return left, label.at[1] - high / 2, left + wide, label.at[1] + high / 2


def _clear_of(line: Line, boxes: list[tuple[float, float, float, float]]) -> list[Line]:
    """A level or upright line without the parts of it that would run through a label."""
    (x, y), (to_x, to_y) = line.points
    axis = 0 if abs(y - to_y) < 1e-6 else 1
    if axis and abs(x - to_x) > 1e-6:
        return [line]
    across, (low, high) = line.points[0][1 - axis], sorted((line.points[0][axis], line.points[1][axis]))
    hidden = sorted(
        (box[axis] - CLEAR / 2, box[axis + 2] + CLEAR / 2) for box in boxes if box[1 - axis] < across < box[3 - axis]
    )
    parts = []
    for start, end in (*hidden, (high, high)):
        if start > low:
            parts.append((low, min(start, high)))
        low = max(low, end)
    at = [((a, across), (b, across)) if not axis else ((across, a), (across, b)) for a, b in parts if b - a > CLEAR / 2]
    return [Line(points) for points in at]


def _cropped(sheet: _Sheet, inner: tuple[Line, ...]) -> LaidOut:
    """Everything moved so that nothing lies above or to the left of the paper, and the paper is no larger than it needs."""
    points = [*sheet.polygon, *(point for line in (*sheet.leads, *sheet.measures) for point in line.points)]
    boxes = [label_box(label, sheet.text) for label in sheet.labels]
    points += [corner for box in boxes for corner in (box[:2], box[2:])]
    margin = 0.6
    left, top = min(x for x, _ in points) - margin, min(y for _, y in points) - margin
    width, height = max(x for x, _ in points) + margin - left, max(y for _, y in points) + margin - top

    def moved(lines: Iterable[Line]) -> tuple[Line, ...]:
        return tuple(Line(tuple((x - left, y - top) for x, y in line.points), line.letter, line.gap) for line in lines)

    leads = [part for line in sheet.leads for part in _clear_of(line, boxes)]
    labels = tuple(Label((each.at[0] - left, each.at[1] - top), each.rows, each.anchor) for each in sheet.labels)
    return LaidOut(
        width,
        height,
        sheet.scale,
        (-left, sheet.height - top),
        moved(inner),
        moved(leads),
        moved(sheet.measures),
        labels,
    )
