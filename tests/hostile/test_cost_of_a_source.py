"""What a check costs goes by the size of its source: twice as much of it, little more than twice the work and the memory."""

from __future__ import annotations

import gc
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest

from stitchproof import check_pattern
from tests.checks.smallest_pattern import SMALLEST_TEXT
from tests.hostile.attacks import header
from tests.rows.test_cost import calls

MOST = 2.6
"""Twice as much: linear is 2, quadratic 4."""
SIZE = 40


def rows(number: int) -> tuple[str, str]:
    """Different rows, each worked on the one below."""
    lines = (
        f"Row {n}: Ch 1, sc in each of next {n} sts, inc in next st, turn. — {n + 2} sc" for n in range(2, number + 2)
    )
    return header(), "Row 1: Ch 4, sc in 2nd ch from hook and in each ch across, turn. — 3 sc\n" + "\n".join(lines)


def values(number: int) -> tuple[str, str]:
    """Numbers that are worked out from one another."""
    return header("counts:\n  c0: 4 sts\n" + "".join(f"  c{n}: c{n - 1} + {n} sts\n" for n in range(1, number))), ""


def slots(number: int) -> tuple[str, str]:
    """A text of slots."""
    return header("counts: {a: 4 sts}\n"), "Row 1: Sc in next <a> sts.\n" * number


@pytest.mark.parametrize("make", [rows, values, slots])
def test_twice_the_source(make: Callable[[int], tuple[str, str]], tmp_path: Path) -> None:
    def check(number: int) -> None:
        folder = tmp_path / "pattern_sources" / f"p{number}"
        folder.mkdir(parents=True, exist_ok=True)
        head, text = make(number)
        (folder / "pattern.yaml").write_text(head, encoding="utf-8")
        (folder / "text.md").write_text(f"{SMALLEST_TEXT}\n{text}\n", encoding="utf-8")
        check_pattern(folder, within=tmp_path)

    check(SIZE)  # what is made once and kept
    assert calls(lambda: check(2 * SIZE)) < MOST * calls(lambda: check(SIZE))
    assert peak(lambda: check(2 * SIZE)) < MOST * peak(lambda: check(SIZE))


def peak(work: Callable[[], object]) -> int:
    """Bytes that some work holds at most."""
    gc.collect()
    tracemalloc.start()
    try:
        work()
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
