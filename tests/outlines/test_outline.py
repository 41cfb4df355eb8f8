"""Outlines: what is measured on them, against the geometry of circles and polygons (Euclid; no other source is needed)."""

from __future__ import annotations

from math import cos, isclose, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.outlines.crossing import crossing_in
from stitchproof.outlines.outline import Bend, Corner, Outline, length_of, measured, radius_of, side_points
from stitchproof.outlines.shapes import Step, ready, walked

LENGTHS = st.floats(min_value=1, max_value=200)
STRAIGHT, ACROSS_UP, UP_ACROSS = Bend.STRAIGHT, Bend.ACROSS_UP, Bend.UP_ACROSS


@given(radius=LENGTHS)
def test_a_curve_across_then_up_is_a_quarter_of_a_circle(radius: float) -> None:
    """Its length is π r / 2, and every point of it lies at the radius from the centre."""
    start, end = Corner("a", 0, 0), Corner("b", radius, radius, ACROSS_UP)
    line = side_points(start, end)
    assert isclose(length_of(line), pi * radius / 2, rel_tol=1e-3)
    for x, y in line:
        assert isclose(x**2 + (y - radius) ** 2, radius**2, rel_tol=2e-3)


@given(across=LENGTHS)
def test_a_circle_is_as_long_around_as_pi_says(across: float) -> None:
    circle = ready("circle", {"across": across})
    around = sum(length_of(side_points(start, end)) for start, end in circle.sides())
    assert isclose(around, pi * across, rel_tol=1e-3)
    assert all(isclose(radius_of(start.point, end), across / 2) for start, end in circle.sides())
    assert measured(circle, "left", "right", "across") == pytest.approx(across)


@given(inner=LENGTHS, more=LENGTHS, depth=LENGTHS)
def test_a_ring_keeps_both_edges_and_its_depth(inner: float, more: float, depth: float) -> None:
    """One half of it is drawn, so the arcs are half as long as the edges. A whole ring cannot turn more than once."""
    if more / depth / 2 > 2 * pi:
        return
    ring = ready("ring", {"inner": inner, "outer": inner + more, "depth": depth})
    assert measured(ring, "inner_left", "inner_right", "along") == pytest.approx(inner / 2, rel=1e-3)
    assert measured(ring, "outer_left", "outer_right", "along") == pytest.approx((inner + more) / 2, rel=1e-3)
    assert measured(ring, "outer_right", "inner_right", "straight") == pytest.approx(depth, rel=1e-6)


def test_a_ring_that_grows_as_a_flat_circle_does_is_half_of_one() -> None:
    """Between circles of radius 8 and 18 the edges are 16π and 36π around: drawn, its two ends lie in one line."""
    ring = ready("ring", {"inner": 16 * pi, "outer": 36 * pi, "depth": 10})
    assert [ring.corner(name).y for name in ("outer_left", "inner_left", "inner_right")] == pytest.approx([18] * 3)


def test_a_tube_is_seen_at_half_of_what_goes_around() -> None:
    tube = ready("tube", {"bottom": 50, "top": 60, "height": 20})
    assert measured(tube, "bottom_left", "bottom_right", "across") == 25
    assert measured(tube, "top_left", "top_right", "across") == 30


@given(width=LENGTHS, height=LENGTHS, loss=st.floats(min_value=0.01, max_value=0.4))
def test_the_image_of_a_half_is_its_equal(width: float, height: float, loss: float) -> None:
    """Every side of the left half is as long as its image, curves included, and the whole does not cross itself."""
    half = (
        Step("hem", width / 2, 0, STRAIGHT),
        Step("underarm", 0, height, STRAIGHT),
        Step("armhole", -loss * width, height / 3, ACROSS_UP),
        Step("neck", -(0.5 - loss) * width, height / 5, UP_ACROSS),
    )
    piece = walked(half, mirrored=True)
    assert [corner.name for corner in piece.corners] == [
        "hem", "underarm", "armhole", "neck", "other armhole", "other underarm", "other hem",
    ]  # fmt: skip
    for one, two in (("hem", "underarm"), ("underarm", "armhole"), ("armhole", "neck")):
        start, end = (f"other {name}" if name != "neck" else name for name in (one, two))
        assert measured(piece, one, two, "along") == pytest.approx(measured(piece, start, end, "along"))
    assert crossing_in(piece) is None


@given(corners=st.integers(3, 12), turn=st.floats(0, 6), radius=LENGTHS)
def test_corners_around_a_circle_make_an_outline_that_does_not_cross_itself(
    corners: int, turn: float, radius: float
) -> None:
    places = [turn + 2 * pi * number / corners for number in range(corners)]
    named = tuple(Corner(str(n), radius * cos(place), radius * sin(place)) for n, place in enumerate(places))
    assert crossing_in(Outline(named)) is None
    if corners > 3:  # two neighbours exchanged: the sides that lead to and from them cross
        assert crossing_in(Outline((named[1], named[0], *named[2:]))) is not None


def test_the_way_along_the_outline_is_the_one_with_fewer_sides() -> None:
    square = Outline(tuple(Corner(name, x, y) for name, x, y in (("a", 0, 0), ("b", 3, 0), ("c", 3, 4), ("d", 0, 4))))
    assert measured(square, "a", "b", "along") == 3
    assert measured(square, "a", "d", "along") == 4
    assert measured(square, "a", "c", "along") == 7
    assert measured(square, "a", "c", "straight") == 5
