"""Checks of the editor's list that hang on rows: for each a line as it slips in print and the line as it should be.

The lines are invented; that the slips happen is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.checks.checklist import checklist
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.page import Example
from tests.checks.smallest_pattern import write_example

SPIRAL = "pieces:\n  piece: {gauge: fabric, worked: spiral rounds}\n"
JOINED = "pieces:\n  piece: {gauge: fabric, worked: joined rounds}\n"
FSC = "special_stitches:\n  fsc: {name: foundation single crochet, how: Sc made with its own ch.}\n"
NOT_PROVED = "SP142"
"""A note: words about the work that are no row."""
OFFSET = """Rnd 1: Work 25 fsc; do not join, work on in a spiral. — 25 fsc
Rnd 2: [Sc in next st, ch 1, sk next st] 12 times, sc in next st. — 13 sc, 12 ch-1 sps
Rnd 3: [Ch 1, sk next sc, sc in next ch-sp] 12 times, ch 1, sk next sc. — 12 sc, 13 ch-1 sps
"""
DEC = "Sc in next ch-sp, sk next sc, sc in next ch-sp, [ch 1, sk next sc, sc in next ch-sp] 11 times. Fasten off."
EVEN = "Rnd 4: [Sc in next ch-sp, ch 1, sk next sc] 12 times, sc in next ch-sp. — 13 sc, 12 ch-1 sps\n"
UNDERARM = "counts:\n  underarm: 10 sts\n"

PLAIN = """Ch 26.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. — 25 sc
"""

LINES = {
    "NU16 a crown": ("SP165", SPIRAL, "Rnd 1: Work 8 sc in a magic ring. — 8 sc{}", "", " Draw up rem 8 sts."),
    "PL4 a rnd too late": ("SP137", SPIRAL + FSC, OFFSET + "{}", EVEN + "Rnd 5: " + DEC, "Rnd 4: " + DEC),
    "PL4 on plain sc": (
        "SP139",
        "",
        PLAIN + "{} Fasten off.",
        "Row 2: Ch 1, sc2tog in next ch-sp, sc in each st across.",
        "Row 2: Ch 1, sc2tog, sc in each st across.",
    ),
    "PL12": (
        "SP114",
        SPIRAL,
        "Rnd 1: Work 60 sc in a magic ring. — 60 sc\nRnd 2: Sc in each st around. — 60 sc\n"
        "Rep Rnd 2 until 40 rnds are complete. {} Fasten off.",
        "The marker is at the left side.",
        "Mark the left side anew, counting from a marked st.",
    ),
    "WO2": (
        "SP044",
        "",
        PLAIN + "Row 2: Ch 1, {} Fasten off. — 25 sts",
        "[3 hdc, 2 sc] 5 times.",
        "[hdc in each of next 3 sts, sc in each of next 2 sts] 5 times.",
    ),
    "WO3": (
        "SP045",
        JOINED + FSC,
        "Rnd 1: Work 60 fsc, join with sl st in first fsc. — 60 fsc\nRnd 2: Ch 1, sc in each st around, {} Fasten off. — 60 sc",
        "join with sl st.",
        "join with sl st in first sc.",
    ),
    "SV9": (
        "SP106",
        UNDERARM,
        PLAIN
        + "Row 2: Ch 1, sc in each st to last <underarm> sts, turn, leaving last <underarm> sts unworked. Fasten off. — 15 sc\n"
        "Sew the {} underarm sts together.",
        "12",
        "10",
    ),
}


def found(folder: Path, yaml: str, text: str) -> list[Diagnostic]:
    return list(check_pattern(write_example(Example(yaml, text, None), folder), within=folder).findings)


@pytest.mark.parametrize(("id_", "line"), [(name.split()[0], line) for name, line in LINES.items()], ids=LINES)
def test_the_failing_line_is_found_and_the_good_one_is_quiet(
    tmp_path: Path, id_: str, line: tuple[str, str, str, str, str]
) -> None:
    code, yaml, text, fails, good = line
    assert code in {each for check in checklist() if check.id == id_ for each in check.codes}
    bad, fine = found(tmp_path / "bad", yaml, text.format(fails)), found(tmp_path / "good", yaml, text.format(good))
    assert {each.page.code for each in bad} - {NOT_PROVED} == {code}
    assert [each.headline for each in fine if each.page.code != NOT_PROVED] == []
