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
    sides = [(end.name, _pieces(side_points(start, end))) for start, end in outline.sides()]
    boxed = [(name, pieces, _around(pieces)) for name, pieces in sides if pieces]
    for place, (name, pieces, box) in enumerate(boxed):
        for other, others, other_box in boxed[place + 1 :]:
            if _near(box, other_box) and _any_cross(_within(pieces, other_box), _within(others, box)):
                return name, other
    return None


def _any_cross(pieces: list[tuple[Piece, Box]], others: list[tuple[Piece, Box]]) -> bool:
    return any(_near(one[1], two[1]) and _cross(one[0], two[0]) for one in pieces for two in others)


def _within(pieces: list[tuple[Piece, Box]], box: Box) -> list[tuple[Piece, Box]]:
    """The pieces of a side that come near another side: of a curve, which is of many, only a few."""
    return [piece for piece in pieces if _near(piece[1], box)]


def _around(pieces: list[tuple[Piece, Box]]) -> Box:
    """The box around all pieces of a side."""
    lefts, lows, rights, highs = zip(*(box for _, box in pieces), strict=True)
    return min(lefts), min(lows), max(rights), max(highs)


def _pieces(points: tuple[Point, ...]) -> list[tuple[Piece, Box]]:
    """The straight pieces of a side, each with its box."""
    pieces = []
    for one, two in itertools.pairwise(points):
        across, up = sorted((one[0], two[0])), sorted((one[1], two[1]))
        pieces.append(((one, two), (across[0], up[0], across[1], up[1])))
    return pieces


def _near(one: Box, two: Box) -> bool:
    """Whether two boxes meet; most do not, and that is quickly seen."""
    (left, low, right, high), (other_left, other_low, other_right, other_high) = one, two
    return left <= other_right and other_left <= right and low <= other_high and other_low <= high


def _cross(one: Piece, two: Piece) -> bool:
    return _parts(one, two) and _parts(two, one)


def _parts(line: Piece, other: Piece) -> bool:
    """Whether the ends of the other piece lie on either side of a line."""
    first, second = _turn(*line, other[0]), _turn(*line, other[1])
    return min(first, second) < -HARDLY and max(first, second) > HARDLY


def _turn(start: Point, end: Point, point: Point) -> float:
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
