"""Whether an outline crosses itself, and where."""

from __future__ import annotations

import itertools

from stitchproof.outlines.outline import Outline, Point, side_points

HARDLY = 1e-7
"""Square centimetres. Pieces that touch, or lie on each other's ends, turn by less and do not cross."""
Piece = tuple[Point, Point]
Box = tuple[float, float, float, float]
"""Left, low, right and high end."""


def crossing_in(outline: Outline) -> tuple[str, str] | None:
    """The corners that the two sides lead to which are the first to cross, or None. Sides that only touch do not cross."""
    sides = [(end.name, side_points(start, end)) for start, end in outline.sides()]
    boxed = [(name, points, _around(points)) for name, points in sides]
    for place, (name, points, box) in enumerate(boxed):
        for other, other_points, other_box in boxed[place + 1 :]:
            if _near(box, other_box) and _any_cross(_within(points, other_box), _within(other_points, box)):
                return name, other
    return None


def _any_cross(pieces: list[Piece], others: list[Piece]) -> bool:
    boxed = [(other, _around(other)) for other in others]
    for piece in pieces:
        box = _around(piece)
        if any(_near(box, other_box) and _cross(piece, other) for other, other_box in boxed):
            return True
    return False


def _within(points: tuple[Point, ...], box: Box) -> list[Piece]:
    """The straight pieces of a side that come near another side: of a curve, which is of many, only a few."""
    left, low, right, high = box
    return [
        ((x, y), (to_x, to_y))
        for (x, y), (to_x, to_y) in itertools.pairwise(points)
        if (x < right or to_x < right)
        and (x > left or to_x > left)
        and (y < high or to_y < high)
        and (y > low or to_y > low)
    ]


def _around(points: tuple[Point, ...]) -> Box:
    """The box around points."""
    across, up = zip(*points, strict=True)
    return min(across), min(up), max(across), max(up)


def _near(one: Box, two: Box) -> bool:
    """Whether two boxes share more than an edge: where a line parts them, what they hold can touch and not cross. Most do not,
    and that is quickly seen."""
    (left, low, right, high), (other_left, other_low, other_right, other_high) = one, two
    return left < other_right and other_left < right and low < other_high and other_low < high


def _cross(one: Piece, two: Piece) -> bool:
    return _parts(one, two) and _parts(two, one)


def _parts(line: Piece, other: Piece) -> bool:
    """Whether the ends of the other piece lie on either side of a line."""
    first, second = _turn(*line, other[0]), _turn(*line, other[1])
    return min(first, second) < -HARDLY and max(first, second) > HARDLY


def _turn(start: Point, end: Point, point: Point) -> float:
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
