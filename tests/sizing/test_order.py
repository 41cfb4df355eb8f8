"""What a number comes to depends on no order: not of the names in the file, and not on what other sizes there are."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.measures.values import PerSize
from tests.sizing.written_pattern import Sized, faultless

MEASURES = (
    "around: head - ease",
    "ease: head * 4%",
    "depth: brim.sts / fabric.stitches + body_rows / fabric.rows",
    "brim_around: brim.rows / fabric.rows",
)
COUNTS = (
    "hat_sts: {is: around * fabric.stitches, round: nearest, multiple: repeat_sts plus edge_sts}",
    "repeat_sts: 6 sts",
    "edge_sts: [1 st, 3 sts, 1 st]",
    "ribs: edge_for(edge, hat_sts)",
    "searched: largest(n, 1 ribs, 90 ribs, picked_up(edge, n) <= hat_sts)",
    "brim: {rows: ribs * 2 rows per rib, sts: {by_hand: [8, 9, not worked], unit: sts}}",
    "body_rows: {is: 20 rows, at_least: least, at_most: 2 * least}",
    "least: [10 rows, 12 rows, 14 rows]",
    "after(k): hat_sts - 8 * k",
    "yoke(k): {is: yoke(k - 1) + 4, start: left}",
    "left: after(3)",
    "end: yoke(5) if brim.sts > 8 else left",
)


def pattern(measures: list[str], counts: list[str], sizes: tuple[int, ...] = (0, 1, 2)) -> Sized:
    """The pattern with its names in these orders, and with these of its sizes."""
    names, heads = ("S", "M", "L"), ("42", "47", "52")
    lines = [
        f"sizes: {{names: [{', '.join(names)}]}}",
        "body:",
        f"  head: {{cm: [{', '.join(heads)}]}}",
        "rates:",
        "  edge: {sts: 5, per: 2 ribs, left_over: 2 sts}",
        "measures:",
        *(f"  {each}" for each in measures),
        "counts:",
        *(f"  {each}" for each in counts),
    ]
    return faultless("\n".join(_with_sizes(line, sizes) for line in lines) + "\n")


def _with_sizes(line: str, sizes: tuple[int, ...]) -> str:
    """A list of one value per size with only the values of these sizes."""
    start = line.find("[")
    if start < 0:
        return line
    end = line.index("]")
    values = line[start + 1 : end].split(", ")
    return f"{line[: start + 1]}{', '.join(values[size] for size in sizes)}{line[end:]}"


def all_values(found: Sized) -> dict[str, tuple[PerSize, PerSize, PerSize]]:
    return {quantity.name: (quantity.values, quantity.raw, quantity.at_least) for quantity in found.pattern.quantities}


AS_WRITTEN = all_values(pattern(list(MEASURES), list(COUNTS)))


def test_the_pattern_by_hand() -> None:
    """42 cm less 4 % at 16 sts per 10 cm is 64.5: 61 or 67 are multiples of 6 plus 1, and 67 is nearer."""
    assert AS_WRITTEN["hat_sts"][0] == tuple(map(Fraction, (67, 75, 79)))
    assert AS_WRITTEN["ribs"][0] == AS_WRITTEN["searched"][0] == tuple(map(Fraction, (27, 30, 31)))
    assert AS_WRITTEN["end"][0][:2] == (Fraction(67 - 24), Fraction(75 - 24 + 20))


@settings(max_examples=40)
@given(st.permutations(MEASURES), st.permutations(COUNTS))
def test_the_order_of_the_names_changes_no_value(measures: list[str], counts: list[str]) -> None:
    assert all_values(pattern(measures, counts)) == AS_WRITTEN


def test_names_are_kept_in_the_order_written() -> None:
    backwards = pattern(list(reversed(MEASURES)), list(reversed(COUNTS)))
    counts = [quantity.name for quantity in backwards.pattern.quantities if quantity.section == "counts"]
    assert counts[:3] == ["end", "left", "yoke"]
    assert counts[-1] == "hat_sts"


@given(st.lists(st.sampled_from([0, 1, 2]), min_size=1, unique=True).map(tuple))
def test_a_size_more_or_less_leaves_the_others_alone(sizes: tuple[int, ...]) -> None:
    """In any order of the sizes."""
    found = all_values(pattern(list(MEASURES), list(COUNTS), sizes))
    for name, columns in AS_WRITTEN.items():
        for column, now in zip(columns, found[name], strict=True):
            assert now == tuple(column[size] for size in sizes if column), name
