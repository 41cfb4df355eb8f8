"""Working on runs comes to the same as working stitch by stitch, on any row."""

from __future__ import annotations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from stitchproof.rows.row_tree import Item
from stitchproof.simulation.live_row import LiveRow, RowBuilder
from stitchproof.simulation.position import Position, space, stitch
from stitchproof.simulation.ways import Course
from tests.simulation.one_by_one import DoesNotClose, OneByOne
from tests.simulation.trees import around, ch, each, next_, sk, times, walked, work

SC, HDC, SPACE = stitch("sc"), stitch("hdc"), space(1)


@st.composite
def rows(draw: st.DrawFn) -> LiveRow:
    """A plain row, a mesh, or a mixture."""
    building = RowBuilder()
    for _ in range(draw(st.integers(1, 4))):
        unit = draw(st.sampled_from((((SC, 1),), ((SC, 1), (SPACE, 1)), ((HDC, 3), (SC, 2)), ((SC, 2), (SPACE, 1)))))
        building.add_unit(unit, draw(st.integers(1, 30)))
    return building.row()


def simple() -> st.SearchStrategy[Item]:
    number = st.integers(1, 6)
    return st.one_of(
        st.builds(lambda n: work("sc", next_(n)), number),
        st.builds(lambda n: work("hdc", next_(1), into_each=n), number),
        st.just(work("sc2tog", next_(1))),
        st.just(work("sc", next_(1, "chsp"))),
        st.builds(lambda n: ch(n), number),
        st.builds(lambda n: sk(n), number),
    )


def items() -> st.SearchStrategy[list[Item]]:
    passes = st.lists(simple(), min_size=1, max_size=4)
    repeated = st.builds(lambda n, inner: times(n, *inner), st.integers(1, 40), passes)
    fitted = st.builds(lambda inner: around(*inner), passes)
    rest = st.just(work("sc", each("st")))
    return st.lists(st.one_of(simple(), repeated, fitted, rest), min_size=1, max_size=5)


@settings(max_examples=400)
@given(rows(), items())
@example(LiveRow(), [work("sc", next_(1))])
def test_runs_and_single_stitches_agree(below: LiveRow, written: list[Item]) -> None:
    start = work("sc", next_(1))  # so that a chain after it is a space
    slow = _slowly(list(below), [start, *written])
    fast = walked(below, start, *written, course=Course.JOINED, lenient=True)
    if slow is None:
        return
    assert not fast.slips or fast.cut_short, fast.slips
    if not fast.cut_short:
        assert list(fast.made) == slow
        assert fast.taken == len(below)


def _slowly(below: list[Position], written: list[Item]) -> list[Position] | None:
    try:
        return OneByOne(below).row(written)
    except DoesNotClose:
        return None


@given(rows(), st.integers(0, 200), st.integers(0, 200))
def test_a_part_of_a_row_is_those_places(row: LiveRow, start: int, length: int) -> None:
    assert list(row.part(start, start + length)) == list(row)[start : start + length]


@given(rows())
def test_turned_twice_is_the_row_again(row: LiveRow) -> None:
    assert list(row.turned()) == list(reversed(list(row)))
    assert list(row.turned().turned()) == list(row)


@given(rows(), rows())
def test_rows_joined_are_their_places_one_after_the_other(one: LiveRow, other: LiveRow) -> None:
    assert list(one + other) == [*one, *other]
    assert len(one + other) == len(one) + len(other)
