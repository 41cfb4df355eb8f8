"""What is from memory says so: every mark of a data file reaches whoever asks."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from stitchproof.standards.abbreviations import abbreviations
from stitchproof.standards.body import body_table, body_table_keys
from stitchproof.standards.cautions import shipped_cautions
from stitchproof.standards.heights import flat_circles, row_ends, turning_chains
from stitchproof.standards.hooks import hooks
from stitchproof.standards.provenance import FROM_MEMORY, Column, Memory, Recalled, memory_note
from stitchproof.standards.terms import stitch_pairs, word_pairs
from stitchproof.standards.yarn import yarn_weights

ROOM = Path(__file__).resolve().parents[2] / "compiler/stitchproof/standards"
BODY_FILES = ("women", "men", "children", "head", "hand", "foot")


def data(name: str) -> Any:
    """A data file, read by another loader than the compiler's."""
    return yaml.safe_load((ROOM / f"{name}.yaml").read_text("utf-8"))


def test_every_row_of_every_body_table() -> None:
    written = {key: table for name in BODY_FILES for key, table in data(name)["tables"].items()}
    assert written.keys() == set(body_table_keys())
    for key, table in written.items():
        rows = body_table(key).rows
        assert [row.measure for row in rows] == list(table["measurements"])
        for row in rows:
            marks = table["measurements"][row.measure]
            whole = marks.get("from_memory")
            for column, mark in ((Column.CM, "cm_from_memory"), (Column.INCHES, "in_from_memory")):
                recalled = marks.get(mark, whole)
                assert recalled is not None, f"{key} {row.measure} carries no mark"
                assert memory_note(row, column) == (FROM_MEMORY if recalled else "")
            assert list(row.confirmed_by) == marks.get("confirmed_by", [])


def marks_of(rows: Any) -> list[bool]:
    """The mark of each entry of a list or of a mapping's values."""
    return [row["from_memory"] for row in (rows.values() if isinstance(rows, dict) else rows)]


TERMS, HEIGHTS = data("terms"), data("stitch_heights")


@pytest.mark.parametrize(
    ("read", "written"),
    [
        (hooks(), data("hooks")["hooks"]),
        (stitch_pairs(), TERMS["stitches"]),
        (word_pairs(), TERMS["words"]),
        (turning_chains(), HEIGHTS["stitches"]),
        (flat_circles(), HEIGHTS["flat_circles"]["stitches"]),
        (row_ends(), HEIGHTS["row_ends"]["stitches"]),
        (yarn_weights(), data("yarn_weights")["weights"]),
        (
            [basis for caution in shipped_cautions().values() for basis in caution.basis],
            [basis for rule in data("safety")["rules"] for basis in rule["basis"]],
        ),
    ],
)
def test_every_entry_of_the_other_tables(read: list[Recalled], written: Any) -> None:
    assert [bool(memory_note(entry)) for entry in read] == marks_of(written)


def test_abbreviations_not_seen_elsewhere() -> None:
    written = data("abbreviations")
    seen = [row.get("seen", False) for part in ("abbreviations", "measures", "common") for row in written[part]]
    assert [not memory_note(entry) for entry in abbreviations()] == seen


@pytest.mark.parametrize(
    ("memory", "whole", "cm", "inches"),
    [
        (Memory.NONE, "", "", ""),
        (Memory.ALL, FROM_MEMORY, FROM_MEMORY, FROM_MEMORY),
        (Memory.CM, f"centimetres {FROM_MEMORY}", FROM_MEMORY, ""),
        (Memory.INCHES, f"inches {FROM_MEMORY}", "", FROM_MEMORY),
    ],
)
def test_words_for_a_reader(memory: Memory, whole: str, cm: str, inches: str) -> None:
    class Entry:
        """Anything with a mark."""

        def __init__(self) -> None:
            self.memory = memory

    entry = Entry()
    notes = (memory_note(entry), memory_note(entry, Column.CM), memory_note(entry, Column.INCHES))
    assert notes == (whole, cm, inches)


CHECKED = {
    "women": {"bust": Memory.NONE},
    "babies": {"chest": Memory.CM},
    **{
        key: dict.fromkeys(
            ("back_waist_length", "cross_back", "arm_length_to_underarm", "upper_arm", "armhole_depth"), Memory.CM
        )
        for key in ("children", "youth")
    },
    "head_girls": dict.fromkeys([f"head_circumference_{part}" for part in ("p5", "p50", "p95")], Memory.NONE),
    "hand": dict.fromkeys(["hand_circumference", "hand_length"], Memory.NONE),
}


def test_only_these_rows_were_found_on_other_pages() -> None:
    """Typed by hand from our notes on what was checked: in both columns, or in inches alone; all else is recalled."""
    for key in body_table_keys():
        found = {row.measure: row.memory for row in body_table(key).rows if row.memory is not Memory.ALL}
        assert found == CHECKED.get(key, {}), key
