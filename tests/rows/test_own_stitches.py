"""Stitches that a pattern defines: what they take, make and are worked as, known to the rows at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from stitchproof.rows.row_tree import NotRead, RowTree
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.stitches.facts import StitchFacts
from tests.checks.smallest_pattern import write_example
from tests.rows.notation import shown

DEFINED = """
special_stitches:
  puffle: {name: puffle stitch, how: Yo three times., takes: 2, makes: 1}
  fern: {name: fern stitch, as: "(dc, ch 1, 2 dc) in next st"}
  sc-blo: {name: single crochet in the back loop, how: In the back loop.}
  wisp: wisp stitch
"""


def written(text: str, yaml: str, folder: Path) -> tuple[WrittenPattern | None, list[str]]:
    """A pattern of one text, and the codes found."""
    pattern = write_example(Example(yaml, text, None), folder)
    outcome = check_pattern(pattern, within=folder)
    return outcome.written, [found.page.code for found in outcome.findings]


def test_a_stitch_of_the_patterns_own_is_read(tmp_path: Path) -> None:
    rows = "Row 1: Puffle in next st, 2 fern in next ch-1 sp, sc-blo in next 2 sts, wisp in each st across.\n"
    found, _ = written(rows, DEFINED, tmp_path)
    assert found is not None
    ((part,),) = [read.parts for read in found.readings if read.label]
    assert shown(part.reading) == "puffle>next st; 2 fern>next chsp1; sc.blo>next 2 st; wisp>each st"


def test_what_it_takes_and_makes(tmp_path: Path) -> None:
    found, _ = written("Row 1: Puffle in next st.\n", DEFINED, tmp_path)
    assert found is not None
    assert found.facts["puffle"] == StitchFacts("puffle", 2, 1, "puffle")
    assert found.facts["fern"] == StitchFacts("fern", 1, 3, "fern", parts=("dc", "chsp1", "dc", "dc"))
    assert found.facts["wisp"] == StitchFacts("wisp", 1, 1, "wisp")
    assert "sc-blo" not in found.facts


@pytest.mark.parametrize("number", ["two", "1.5", "-1", "1000", "1_0"])
def test_what_it_takes_is_a_whole_number(number: str, tmp_path: Path) -> None:
    yaml = f"special_stitches:\n  puffle: {{name: puffle stitch, how: Yo., takes: {number!r}}}\n"
    found, codes = written("Row 1: Puffle in next st.\n", yaml, tmp_path)
    assert "SP018" in codes
    assert found is not None


def test_an_unknown_stitch_is_not_read(tmp_path: Path) -> None:
    found, _ = written("Row 1: Zwirl in next st.\n", "", tmp_path)
    assert found is not None
    readings = [part.reading for read in found.readings for part in read.parts]
    assert any(isinstance(reading, NotRead) and reading.words.startswith("Zwirl") for reading in readings)
    assert not all(isinstance(reading, RowTree) for reading in readings)
