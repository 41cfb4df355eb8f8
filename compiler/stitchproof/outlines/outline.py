"""The outline of a piece in one size: corners in centimetres, x to the right and y upward, joined by sides.

Places on a drawing are floats: no count depends on one.
"""

from __future__ import annotations

import itertools
from enum import Enum
from functools import lru_cache
from math import atan, cos, hypot, pi, sin

from msgspec import Struct

Point = tuple[float, float]
PIECES_OF_A_CURVE = 32
"""Straight pieces that stand for a quarter turn where a curve is measured; its length is then right to a thousandth."""
MOST_SIDES = 4096
"""Whose points are kept: forty sizes of a garment have half as many."""
ROUNDNESS = 0.5523
"""Where the control points of a cubic curve lie so that it is a quarter of a circle to within 0.03 %: 4/3 (√2 − 1)."""


class Bend(Enum):
    """How a side runs from corner to corner: in which direction it leaves, and in which it arrives."""

    STRAIGHT = "straight"
    ACROSS_UP = "across then up"
    UP_ACROSS = "up then across"
    ACROSS_ACROSS = "across then across"
    UP_UP = "up then up"
    ARC = "arc"

    @property
    def reversed(self) -> Bend:
        """The same side, walked the other way."""
        return {Bend.ACROSS_UP: Bend.UP_ACROSS, Bend.UP_ACROSS: Bend.ACROSS_UP}.get(self, self)


class Corner(Struct, frozen=True):
    """A corner, and how the side that leads to it runs. bulge: of an arc, the tangent of a quarter of the angle it turns
    through, above 0 where it turns left."""

    name: str
    x: float
    y: float
    bend: Bend = Bend.STRAIGHT
    bulge: float = 0

    @property
    def point(self) -> Point:
        return self.x, self.y


class Outline(Struct, frozen=True):
    """A closed outline: the last corner is joined to the first."""

    corners: tuple[Corner, ...]

    def corner(self, name: str) -> Corner:
        """The corner of that name. Raises KeyError if there is none."""
        for corner in self.corners:
            if corner.name == name:
                return corner
        raise KeyError(name)

    def sides(self) -> tuple[tuple[Corner, Corner], ...]:
        """Each side by the corners it joins; the first side leads from the first corner to the second."""
        return tuple(zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True))

    def between(self, start: str, end: str) -> tuple[Point, ...]:
        """The line that runs along the outline from one corner to another, whichever way round has fewer sides."""
        names = [corner.name for corner in self.corners]
        here, there = names.index(start), names.index(end)
        forward = (there - here) % len(names)
        if 2 * forward > len(names):
            return self.between(end, start)[::-1]
        line = [self.corners[here].point]
        for step in range(forward):
            at = (here + step) % len(names)
            line += side_points(self.corners[at], self.corners[(at + 1) % len(names)])[1:]
        return tuple(line)

    def box(self) -> tuple[float, float, float, float]:
        """The least x and y, and the greatest."""
        points = [point for side in self.sides() for point in side_points(*side)]
        across, up = [x for x, _ in points], [y for _, y in points]
        return min(across), min(up), max(across), max(up)


def controls(start: Point, corner: Corner) -> tuple[Point, Point]:
    """The control points of the cubic curve that leads from `start` to a corner by one of the bends that have no arc."""
    (x, y), (to_x, to_y) = start, corner.point
    across, up = (to_x - x) * ROUNDNESS, (to_y - y) * ROUNDNESS
    leaves_across = corner.bend in (Bend.ACROSS_UP, Bend.ACROSS_ACROSS)
    arrives_across = corner.bend in (Bend.UP_ACROSS, Bend.ACROSS_ACROSS)
    first = (x + across, y) if leaves_across else (x, y + up)
    return first, (to_x - across, to_y) if arrives_across else (to_x, to_y - up)


@lru_cache(MOST_SIDES)
def side_points(start: Corner, end: Corner) -> tuple[Point, ...]:
    """Points along a side, both ends included: two of a straight one, more of a curve. Kept, as a drawing is tried at many
    scales."""
    if end.bend is Bend.STRAIGHT:
        return start.point, end.point
    if end.bend is Bend.ARC:
        return _arc_points(start.point, end)
    first, second = controls(start.point, end)
    points = []
    for step in range(PIECES_OF_A_CURVE + 1):
        t = step / PIECES_OF_A_CURVE
        weights = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3)
        around = (start.point, first, second, end.point)
        points.append(
            (
                sum(weight * point[0] for weight, point in zip(weights, around, strict=True)),
                sum(weight * point[1] for weight, point in zip(weights, around, strict=True)),
            )
        )
    return tuple(points)


def radius_of(start: Point, end: Corner) -> float:
    """The radius of the arc that leads to a corner."""
    chord = hypot(end.x - start[0], end.y - start[1])
    return chord * (1 + end.bulge**2) / (4 * abs(end.bulge))


def _arc_points(start: Point, end: Corner) -> tuple[Point, ...]:
    angle, radius = 4 * atan(end.bulge), radius_of(start, end)
    chord = hypot(end.x - start[0], end.y - start[1])
    # From the middle of the chord to the centre, along the chord's left normal.
    rise = radius * cos(angle / 2) * (1 if angle > 0 else -1)
    normal = (-(end.y - start[1]) / chord, (end.x - start[0]) / chord)
    centre = ((start[0] + end.x) / 2 + normal[0] * rise, (start[1] + end.y) / 2 + normal[1] * rise)
    pieces = max(2, int(PIECES_OF_A_CURVE * abs(angle) / (pi / 2)))
    arm = (start[0] - centre[0], start[1] - centre[1])
    turned = []
    for step in range(pieces + 1):
        c, s = cos(angle * step / pieces), sin(angle * step / pieces)
        turned.append((centre[0] + arm[0] * c - arm[1] * s, centre[1] + arm[0] * s + arm[1] * c))
    return (start, *turned[1:-1], end.point)


def length_of(line: tuple[Point, ...]) -> float:
    """The length of a line of straight pieces."""
    return sum(hypot(x - to_x, y - to_y) for (x, y), (to_x, to_y) in itertools.pairwise(line))


def measured(outline: Outline, start: str, end: str, run: str) -> float:
    """What lies between two corners: across, up, straight, or along the outline."""
    (x, y), (to_x, to_y) = outline.corner(start).point, outline.corner(end).point
    if run == "along":
        return length_of(outline.between(start, end))
    return {"across": abs(to_x - x), "up": abs(to_y - y)}.get(run, hypot(to_x - x, to_y - y))
