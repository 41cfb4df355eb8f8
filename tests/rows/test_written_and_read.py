"""A tree that is written out in plain trade wording is read as the same tree."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.rows.notation import notation

# Each pair is the plain wording of an item, and its notation (see `notation`).
Written = tuple[str, str]
NUMBERS = st.integers(2, 40)
STITCHES = st.sampled_from(["sc", "hdc", "dc", "tr", "fpdc", "esc"])
THINGS = st.sampled_from(
    [("st", "st"), ("sc", "sc"), ("dc", "dc"), ("ch-2 sp", "chsp2"), ("ch-sp", "chsp"), ("ch", "ch")]
)
PLURALS = st.sampled_from([("sts", "st"), ("sc", "sc"), ("dc", "dc"), ("ch-2 sps", "chsp2"), ("ch-sps", "chsp")])


def _one(stitch: str, thing: Written) -> Written:
    return f"{stitch} in next {thing[0]}", f"{stitch}>next {thing[1]}"


def _several(stitch: str, number: int, thing: Written) -> Written:
    return f"{stitch} in each of next {number} {thing[0]}", f"{stitch}>next {number} {thing[1]}"


def _increase(number: int, stitch: str, thing: Written) -> Written:
    return f"{number} {stitch} in next {thing[0]}", f"{number} {stitch}>next {thing[1]}"


def _group(stitch: str, chains: int, thing: Written) -> Written:
    return f"({stitch}, ch {chains}, {stitch}) in next {thing[0]}", f"[{stitch}; ch {chains}; {stitch}]>next {thing[1]}"


WORKED = (
    st.builds(_one, STITCHES, THINGS)
    | st.builds(_several, STITCHES, NUMBERS, PLURALS)
    | st.builds(_increase, NUMBERS, STITCHES, THINGS)
    | st.builds(_group, STITCHES, NUMBERS, THINGS)
    | STITCHES.map(lambda stitch: (stitch, stitch))
    | st.sampled_from([("hdc2tog", "hdc2tog"), ("dc3tog", "dc3tog"), ("inc", "inc"), ("dec", "dec")])
    | NUMBERS.map(lambda number: (f"ch {number}", f"ch {number}"))
    | st.tuples(NUMBERS, PLURALS).map(lambda it: (f"sk next {it[0]} {it[1][0]}", f"sk next {it[0]} {it[1][1]}"))
)


def _bracket(items: list[Written], number: int) -> Written:
    return f"[{_listed(items)[0]}] {number} times", f"[{_listed(items)[1]}]x{number}"


def _around(items: list[Written]) -> Written:
    return f"*{_listed(items)[0]}; rep from * around", f"*{_listed(items)[1]}* around"


def _to_last(items: list[Written], number: int) -> Written:
    return f"*{_listed(items)[0]}; rep from * to last {number} sts", f"*{_listed(items)[1]}* around..-{number} st"


def _listed(items: list[Written]) -> Written:
    return ", ".join(words for words, _ in items), "; ".join(tree for _, tree in items)


LISTS = st.lists(WORKED, min_size=2, max_size=4)
REPEATS = st.builds(_bracket, LISTS, NUMBERS) | st.builds(_around, LISTS) | st.builds(_to_last, LISTS, NUMBERS)
STARTS = st.sampled_from(
    [
        ("ch 1", "ch 1"),
        ("ch 3 (counts as dc)", "ch 3 (dc)"),
        ("ch 1 (does not count as a st here and throughout)", "ch 1 (nothing!)"),
        ("ch 1, turn", "ch 1; turn"),
    ]
)
ENDS = st.sampled_from(
    [
        ("turn", "turn"),
        ("join with sl st in first sc", "join>first sc"),
        ("join with sl st to top of ch 3", "join>top"),
        ("do not join", "not joined"),
        ("fasten off", "fasten off"),
    ]
)
COUNTS = st.none() | st.tuples(NUMBERS, st.sampled_from(["sc", "hdc", "dc"]))


@given(STARTS, st.lists(WORKED | REPEATS, min_size=1, max_size=5), ENDS, COUNTS)
def test_what_is_written_plainly_is_read_as_it_was_meant(
    start: Written, middle: list[Written], end: Written, count: tuple[int, str] | None
) -> None:
    words, tree = _listed([start, *middle, end])
    if count:
        words, tree = f"{words}. — {count[0]} {count[1]}", f"{tree} = {count[0]} {count[1]}"
    assert notation(words) == tree
