"""Outlines made from a few lengths: written corner by corner, in halves, or one of the shapes that pieces often have."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, pi, sin, tan

from msgspec import Struct

from stitchproof.outlines.outline import Bend, Corner, Outline

OTHER = "other "
"""Before the name of a corner: its mirror image on the other half."""


class Step(Struct, frozen=True):
    """How one gets to a corner from the corner before it; to the first, from the middle of the lower edge."""

    name: str
    across: float
    up: float
    bend: Bend


class ReadyShape(Struct, frozen=True):
    """A shape that pieces often have. keys: the lengths it is made of, each a choice of sets. measured: what is measured by
    the same word, as the corners it runs between. folded: the lengths that go around, and are seen at half."""

    keys: tuple[tuple[str, ...], ...]
    measured: dict[str, tuple[str, str, str]]
    folded: tuple[str, ...] = ()


_UPRIGHT = {
    "width": ("bottom_left", "bottom_right", "across"),
    "around": ("bottom_left", "bottom_right", "across"),
    "bottom": ("bottom_left", "bottom_right", "across"),
    "top": ("top_left", "top_right", "across"),
    "height": ("bottom_right", "top_right", "up"),
}
SHAPES = {
    "panel": ReadyShape((("width", "height"), ("bottom", "top", "height")), _UPRIGHT),
    "tube": ReadyShape((("around", "height"), ("bottom", "top", "height")), _UPRIGHT, ("around", "bottom", "top")),
    "ring": ReadyShape(
        (("inner", "outer", "depth"),),
        {
            "inner": ("inner_left", "inner_right", "along"),
            "outer": ("outer_left", "outer_right", "along"),
            "depth": ("outer_right", "inner_right", "straight"),
        },
        ("inner", "outer"),
    ),
    "circle": ReadyShape((("across",),), {"across": ("left", "right", "across")}),
}
"""By their names in pattern.yaml. A tube is seen flat, at half of what goes around it. A ring is a round yoke or crown, cut
along its start and laid flat, one half of it seen: both edges and the depth are true, and the width of its angle follows."""


def walked(steps: tuple[Step, ...], mirrored: bool) -> Outline:
    """The outline of corners written one after the other. mirrored: they are the right half, from the middle of the lower
    edge to the middle of the upper one; the left half is their image."""
    x = y = 0.0
    corners = []
    for step in steps:
        x, y = x + step.across, y + step.up
        corners.append(Corner(step.name, x, y, step.bend))
    return _with_image(corners) if mirrored else Outline(tuple(corners))


def _with_image(half: list[Corner]) -> Outline:
    """Corners in the middle are their own image. The side to an image runs as that to the corner after it, the other way."""
    image = [
        Corner(OTHER + corner.name, -corner.x, corner.y, following.bend.reversed if following else Bend.STRAIGHT)
        for corner, following in reversed(list(zip(half, [*half[1:], None], strict=True)))
        if not _in_the_middle(corner)
    ]
    first = half[0]
    if _in_the_middle(first) and len(half) > 1:
        first = Corner(first.name, first.x, first.y, half[1].bend.reversed)
    return Outline((first, *half[1:], *image))


def _in_the_middle(corner: Corner) -> bool:
    return abs(corner.x) < 1e-9


def ready(kind: str, lengths: Mapping[str, float]) -> Outline:
    """One of the ready shapes from its lengths in cm, all above 0.

    Raises ValueError where a ring's outer edge is not longer than its inner one.
    """
    if kind == "circle":
        return _circle(lengths["across"])
    if kind == "ring":
        return _ring(lengths["inner"], lengths["outer"], lengths["depth"])
    seen = 0.5 if kind == "tube" else 1.0
    bottom = lengths.get("bottom") or lengths.get("width") or lengths["around"]
    top = lengths.get("top", bottom)
    corners = (("bottom_left", -bottom, 0), ("bottom_right", bottom, 0), ("top_right", top, 1), ("top_left", -top, 1))
    return Outline(tuple(Corner(name, x * seen / 2, up * lengths["height"]) for name, x, up in corners))


def _circle(across: float) -> Outline:
    radius, quarter = across / 2, tan(pi / 8)
    places = (("bottom", 0, 0), ("right", radius, radius), ("top", 0, across), ("left", -radius, radius))
    return Outline(tuple(Corner(name, x, y, Bend.ARC, quarter) for name, x, y in places))


def _ring(inner: float, outer: float, depth: float) -> Outline:
    """Half of a ring that was cut open: the arcs are half of the edges, the sides the depth.

    The whole ring turns through (outer − inner) / depth, as any ring between two circles does.
    """
    if outer <= inner:
        raise ValueError("the outer edge of a ring is longer than its inner edge")
    turn = (outer - inner) / depth / 2
    small, large = inner / 2 / turn, outer / 2 / turn
    bulge, aside, down = tan(turn / 4), sin(turn / 2), cos(turn / 2)
    corners = (
        Corner("outer_left", -large * aside, large - large * down),
        Corner("outer_right", large * aside, large - large * down, Bend.ARC, bulge),
        Corner("inner_right", small * aside, large - small * down),
        Corner("inner_left", -small * aside, large - small * down, Bend.ARC, -bulge),
    )
    return Outline(corners)
