"""Sums that say the same are told together: of sizes, and of rows that come of one line."""

from __future__ import annotations

from stitchproof.diagnostics.sums_told import sums_told


def told(*sums: tuple[str, str, str]) -> list[tuple[str, str]]:
    """(size, row, sum) each, as they are told: (sizes, words)."""
    facts = [
        {"size": size, "expression": f"{row}: {sum_}" if row else sum_, "note": "", **({"row": row} if row else {})}
        for size, row, sum_ in sums
    ]
    return [("all" if each.all else ", ".join(each.sizes), each.expression) for each in sums_told(facts)]


def test_fifteen_equal_sums_are_one() -> None:
    sums = [(size, f"Row {row}", "2 left") for size in ("XS", "S", "M", "L", "XL") for row in (2, 4, 6)]
    assert told(*sums) == [("all", "Rows 2, 4 and 6: 2 left")]


def test_sizes_and_rows_that_differ_keep_their_own_lines() -> None:
    assert told(("S", "", "2 left"), ("M", "", "3 left"), ("L", "", "2 left")) == [("S, L", "2 left"), ("M", "3 left")]
    assert told(("S", "Row 2", "2 left"), ("S", "Row 4", "1 left"), ("S", "Row 6", "2 left")) == [
        ("S", "Rows 2 and 6: 2 left"),
        ("S", "Row 4: 1 left"),
    ]
    assert told(("S", "Row 2", "2 left"), ("S", "Dec Row 1", "2 left")) == [("S", "Row 2 and Dec Row 1: 2 left")]


def test_lines_of_a_size_that_belong_together_stay_together() -> None:
    """The first line is the same in both sizes; what follows from it is not."""
    lines = [("S", "", "10 + 2"), ("S", "", "= 12"), ("M", "", "10 + 2"), ("M", "", "= 13")]
    assert told(*lines) == [("S", "10 + 2"), ("S", "= 12"), ("M", "10 + 2"), ("M", "= 13")]


def test_one_sum_of_one_size_names_it() -> None:
    assert told(("S", "", "2 left")) == [("S", "2 left")]
    assert told(("", "", "2 left")) == [("", "2 left")]
