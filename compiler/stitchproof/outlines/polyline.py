"""Lines of straight pieces: halfway points, lines beside them, and what lies inside a closed one."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from math import hypot

from stitchproof.outlines.outline import Point


def distance(point: Point, start: Point, end: Point) -> float:
    """From a point to the nearest place of a straight piece."""
    along = (end[0] - start[0], end[1] - start[1])
    square = along[0] ** 2 + along[1] ** 2
    share = ((point[0] - start[0]) * along[0] + (point[1] - start[1]) * along[1]) / square if square else 0.0
    share = min(1.0, max(0.0, share))
    return hypot(point[0] - start[0] - share * along[0], point[1] - start[1] - share * along[1])


def halfway(line: Sequence[Point]) -> tuple[Point, Point]:
    """The point halfway along a line, and the direction square to it there."""
    pieces = list(itertools.pairwise(line))
    rest = sum(hypot(x - to_x, y - to_y) for (x, y), (to_x, to_y) in pieces) / 2
    for (x, y), (to_x, to_y) in pieces:
        length = hypot(to_x - x, to_y - y)
        if rest <= length and length:
            share = rest / length
            return (x + (to_x - x) * share, y + (to_y - y) * share), ((to_y - y) / length, (x - to_x) / length)
        rest -= length
    return line[-1], (0.0, -1.0)


def beside(line: Sequence[Point], off: float, normal: Point) -> Iterator[Point]:
    """A line moved aside everywhere by the same distance, to the side that `normal` points to at its middle."""
    _, own = halfway(line)
    sign = 1 if own[0] * normal[0] + own[1] * normal[1] > 0 else -1
    for place, point in enumerate(line):
        before, after = line[max(0, place - 1)], line[min(len(line) - 1, place + 1)]
        length = hypot(after[0] - before[0], after[1] - before[1]) or 1.0
        yield (
            point[0] + sign * off * (after[1] - before[1]) / length,
            point[1] - sign * off * (after[0] - before[0]) / length,
        )


def holds(polygon: Sequence[Point], point: Point) -> bool:
    """Whether a point lies inside a polygon: a ray from it crosses the sides an odd number of times."""
    inside = False
    for (x, y), (to_x, to_y) in zip(polygon, [*polygon[1:], polygon[0]], strict=True):
        if (y > point[1]) != (to_y > point[1]) and point[0] < (to_x - x) * (point[1] - y) / (to_y - y) + x:
            inside = not inside
    return inside
