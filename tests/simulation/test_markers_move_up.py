"""Markers in stitches move up with the fabric, and the start moves with a round that stops part of the way."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Severity
from stitchproof.rows.row_tree import Item, RowTree
from stitchproof.simulation.hook import Hook, Marker
from stitchproof.simulation.live_row import row_of
from stitchproof.simulation.position import stitch
from stitchproof.simulation.walk import walk
from stitchproof.simulation.ways import Course, Ways
from tests.checks.smallest_pattern import SMALLEST
from tests.simulation.trees import FACTS, next_, work

KINDS: dict[str, tuple[int, int]] = {"plain": (1, 1), "two in one": (1, 2), "two together": (2, 1)}
"""What each takes and makes."""


def item(kind: str, number: int) -> Item:
    if kind == "plain":
        return work("sc", next_(number))
    return work("sc", next_(number), into_each=2) if kind == "two in one" else work("sc2tog", next_(number))


@given(st.lists(st.tuples(st.sampled_from(list(KINDS)), st.integers(1, 6)), min_size=1, max_size=8), st.data())
def test_a_marked_stitch_goes_up_into_the_first_stitch_made_on_it(
    parts: list[tuple[str, int]], data: st.DataObject
) -> None:
    takes = [kind for kind, number in parts for _ in range(number)]
    below: list[int] = []  # for each stitch made, the first and last stitch below it, laid down one by one
    made: list[tuple[int, ...]] = []
    for kind in takes:
        bite, leaves = KINDS[kind]
        begin = len(below)
        below += range(begin, begin + bite)
        made += [tuple(range(begin, begin + bite))] * leaves
    marked = data.draw(st.integers(0, len(below) - 1))
    hook = Hook(row_of((stitch("sc"), len(below))), True, False, marks=(Marker(marked, "a", in_stitch=True),))
    walked = walk(RowTree(tuple(item(*part) for part in parts), ()), hook, Ways(Course.JOINED, FACTS), 0)
    assert not walked.slips
    assert [mark.before for mark in walked.marks] == [next(at for at, on in enumerate(made) if marked in on)]


@given(st.integers(2, 60), st.data())
def test_a_turn_keeps_the_marker_in_its_stitch(places: int, data: st.DataObject) -> None:
    marked = data.draw(st.integers(0, places - 1))
    order = list(range(places))
    turned = Marker(marked, "a", in_stitch=True).turned(places)
    assert list(reversed(order))[turned.before] == marked
    assert turned.turned(places).before == marked


YAML = (
    "".join(text for key, text in SMALLEST.items() if key != "pieces")
    + """pieces:
  body: {gauge: fabric, worked: joined rounds}
special_stitches:
  fsc: {name: foundation single crochet, how: Sc made with its own ch.}
"""
)


@settings(max_examples=100)
@given(st.integers(20, 90), st.data(), st.sampled_from([0, 0, -1, 1]))
def test_after_two_part_rounds_the_marker_is_found_from_the_new_start(ring: int, data: st.DataObject, off: int) -> None:
    """The stitches lie in a list; each part round takes its first ones off and puts them at the end."""
    first, second = data.draw(st.integers(4, ring - 6)), data.draw(st.integers(4, ring - 6))
    marked = data.draw(st.integers(1, first))
    order = [*range(ring)]
    order = order[first:] + order[:first]
    place = order[len(order) - first + marked - 1]
    order = order[second:] + order[:second]
    ahead = order.index(place)
    assume(ring - ahead - 1 + off > 0)  # "in each of next 0 sts" is a fault of its own
    text = f"""## Body {{body}}

Rnd 1: Work {ring} fsc, join with sl st in first fsc. — {ring} fsc
Half rnd: Ch 1 (does not count as a st here and throughout), sc in each of next {first} sts; do not join. — {first} sc
Marker A in st {marked} of the half rnd.
Part rnd: Sc in each of next {second} sts; do not join. — {second} sc
Rnd 2: Sc in each st around, join with sl st in first sc. — {ring} sc
Rnd 3: Ch 1, sc in each st to marker A, 2 sc in next st, sc in each of next {ring - ahead - 1 + off} sts,
  join with sl st in first sc. Fasten off.
"""
    with tempfile.TemporaryDirectory() as folder:
        pattern = Path(folder) / "body"
        pattern.mkdir()
        (pattern / "pattern.yaml").write_text(YAML, encoding="utf-8")
        (pattern / "text.md").write_text(text, encoding="utf-8")
        found = [each.page.code for each in check_pattern(pattern).findings if each.severity is Severity.ERROR]
    assert found == {0: [], -1: ["SP136"], 1: ["SP137"]}[off]
