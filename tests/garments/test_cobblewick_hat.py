"""The hat as a whole: nothing found, and its two tables come out of its formulas and gauges in every size.

The tables are those of our own design, typed from its worksheet; they were computed and walked by hand before the pattern was
written, not copied from a run of the compiler.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from stitchproof import CheckOutcome, check_pattern
from stitchproof.expansion.document import Inline, Number, Role, Step, Table, Text, Word, inlines_of, steps_of
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.values import Absent, rounded_text
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.sizing.sized_pattern import SizedPattern

ROOT = Path(__file__).parents[2]
SIZES = ("Baby", "Toddler", "Child", "Adult", "Large")

FINISHED = {
    "body.head": ("42 47 52 57 62", "16½ 18½ 20½ 22½ 24½"),
    "hat_around": ("40 45 50 55 60", "15¾ 17¾ 19¾ 21¾ 23½"),
    "brim_depth": ("5 5.5 6.5 7 7", "2 2¼ 2½ 2¾ 2¾"),
    "height": ("17.5 18.5 21 22.5 24", "6¾ 7¼ 8¼ 8¾ 9½"),
    "body_depth": ("10 10.5 12 12.5 13.5", "3¾ 4 4¾ 5 5¼"),
}
UNROUNDED = {
    "brim_relaxed": ("33.33", "38.67", "42.67", "46.67", "50.67"),
    "brim_depth": ("5.000", "5.625", "6.250", "6.875", "6.875"),
}
COUNTS = {
    "brim_chain": "9 10 11 12 12",
    "brim_sts": "8 9 10 11 11",
    "brim_rows": "50 58 64 70 76",
    "brim_ribs": "25 29 32 35 38",
    "brim_groups": "12 14 16 17 19",
    "ribs_left_over": "1 1 – 1 –",
    "pick_up": "62 72 80 87 95",
    "rnd_2_increases": "2 – – 1 1",
    "hat_sts": "64 72 80 88 96",
    "body_rnds": "6 6 7 7 8",
    "dec_rnds": "7 8 9 10 11",
    "crown_rnds": "9 10 11 12 13",
    "rnds_in_all": "15 16 18 19 21",
}
CROWN = """
6>56 7>64 8>72 9>80 10>88
5>48 6>56 7>64 8>72 9>80
4>40 5>48 6>56 7>64 8>72
3>32 4>40 5>48 6>56 7>64
2>24 3>32 4>40 5>48 6>56
1>16 2>24 3>32 4>40 5>48
0>8 1>16 2>24 3>32 4>40
– 0>8 1>16 2>24 3>32
– – 0>8 1>16 2>24
– – – 0>8 1>16
– – – – 0>8
""".strip()
YARN = {"yarn.grams": "45 50 65 75 90", "yarn.metres": "100 110 150 170 200", "yarn.balls": "1 1 2 2 2"}
GRAMS_PREDICTED = "37.3 45.4 56.8 66 77.7"
ABBREVIATIONS = ["ch", "dec", "hdc", "hdc2tog", "rem", "rep", "rnd(s)", "RS", "sc", "sc-blo", "sl st", "st(s)"]


@pytest.fixture(scope="module")
def hat() -> CheckOutcome:
    return check_pattern(ROOT / "pattern_sources" / "cobblewick_hat", within=ROOT)


@pytest.fixture(scope="module")
def sized(hat: CheckOutcome) -> SizedPattern:
    assert hat.sized is not None
    return hat.sized


@pytest.fixture(scope="module")
def written(hat: CheckOutcome) -> WrittenPattern:
    assert hat.written is not None
    return hat.written


def test_nothing_is_found(hat: CheckOutcome) -> None:
    """The demo checks clean: no error, warning or note."""
    assert hat.findings == ()


@pytest.mark.parametrize("name", FINISHED)
def test_finished_measurements(sized: SizedPattern, name: str) -> None:
    """Centimetres to a half and inches to a quarter, each from the unrounded value."""
    values = [value for value in _values(sized, name) if isinstance(value, Fraction)]
    cm, inches = FINISHED[name]
    assert [cm_text(value) for value in values] == cm.split()
    if inches is not None:
        assert [inch_text(value) for value in values] == inches.split()


@pytest.mark.parametrize("name", UNROUNDED)
def test_unrounded_measurements(sized: SizedPattern, name: str) -> None:
    """The relaxed brim and its depth before they are put on the print grid."""
    values = [value for value in _values(sized, name) if isinstance(value, Fraction)]
    digits = [len(text.split(".")[1]) for text in UNROUNDED[name]]
    assert tuple(f"{float(value):.{places}f}" for value, places in zip(values, digits, strict=True)) == UNROUNDED[name]


@pytest.mark.parametrize("name", COUNTS)
def test_counts(sized: SizedPattern, name: str) -> None:
    """Every row of the table of counts; a dash is a size that does not work it."""
    assert _texts(_values(sized, name)) == COUNTS[name].split()


@pytest.mark.parametrize("name", YARN)
def test_yarn(sized: SizedPattern, name: str) -> None:
    """Grams, metres and balls of the table of yarn. Source: our own scenario."""
    metres = 100 if name == "yarn.metres" else 1
    values = [value / metres if isinstance(value, Fraction) else value for value in _values(sized, name)]
    assert _texts(values) == YARN[name].split()


def test_yarn_predicted(sized: SizedPattern) -> None:
    """Before the margin; the scale is 66 g to 61.0 g. Source: our own scenario."""
    values = [value for value in _values(sized, "yarn.predicted") if isinstance(value, Fraction)]
    assert [rounded_text(value, 1) for value in values] == GRAMS_PREDICTED.split()
    (scale,) = {value for value in _values(sized, "yarn.scale") if isinstance(value, Fraction)}
    assert rounded_text(scale, 3) == "1.082"


def test_crown_from_the_formulas(sized: SizedPattern) -> None:
    """Stitches before each decrease and count after the round, for every decrease round of every size."""
    for k, line in enumerate(CROWN.splitlines(), start=1):
        for size, cell in enumerate(line.split()):
            if cell != "–":
                before, after = map(int, cell.split(">"))
                assert sized.scope.value("crown_dec.before", size, Fraction(k)) == before
                assert sized.scope.value("crown_dec.after", size, Fraction(k)) == after
        assert [cell != "–" for cell in line.split()] == [k <= int(count) for count in COUNTS["dec_rnds"].split()]


def test_crown_as_written(written: WrittenPattern) -> None:
    """The steps of the crown state the same counts, and each decrease round serves the sizes that still have one."""
    crown = next(piece for piece in written.document.pieces if piece.name == "crown")
    decreases = [step for step in steps_of(crown.blocks) if step.identity.startswith("crown/Dec Rnd")]
    assert len(decreases) == 11
    for step, line in zip(decreases, CROWN.splitlines(), strict=True):
        cells = line.split()
        assert step.served == tuple(size for size, cell in enumerate(cells) if cell != "–")
        for part in step.parts:
            count = next(
                token for token in part.tokens if isinstance(token, Number) and token.role is Role.STATED_COUNT
            )
            assert [count.values[size] for size in part.served] == [
                int(cells[size].split(">")[1]) for size in part.served
            ]


def test_sizes_of_round_one_and_two(written: WrittenPattern) -> None:
    """The left-over rib is worked in sizes 1, 2 and 4; Rnd 2 grows by two, by one, or stays."""
    body = next(piece for piece in written.document.pieces if piece.name == "body")
    steps = {step.identity: step for step in steps_of(body.blocks)}
    assert [part.served for part in steps["body/Rnd 1"].parts] == [(0, 1, 2, 3, 4), (0, 1, 3), (0, 1, 2, 3, 4)]
    assert [part.served for part in steps["body/Rnd 2"].parts] == [(0,), (3, 4), (1, 2)]


def test_identities_are_unique(written: WrittenPattern) -> None:
    """Each step can be named."""
    steps = [step for piece in written.document.pieces for step in steps_of(piece.blocks)]
    assert len({step.identity for step in steps}) == len(steps)


def test_abbreviations_are_exactly_those_used(written: WrittenPattern) -> None:
    """No abbreviation is missing and none is listed in vain."""
    section = next(section for section in written.document.front if section.key == "abbreviations")
    table = section.blocks[0]
    assert isinstance(table, Table)
    texts = [_text_of(row[0]) for row in table.rows]
    assert texts == ABBREVIATIONS


def test_every_count_of_a_step_is_whole(written: WrittenPattern) -> None:
    """No step asks for part of a stitch in a size that it serves."""
    for piece in written.document.pieces:
        for step in steps_of(piece.blocks):
            assert _fractions(step) == []


def _text_of(inlines: tuple[Inline, ...]) -> str:
    return "".join(
        inline.text if isinstance(inline, Text) else inline.as_written
        for inline in inlines
        if isinstance(inline, Text | Word)
    )


def _fractions(step: Step) -> list[str]:
    return [
        inline.written
        for inline in inlines_of(step)
        if isinstance(inline, Number) and inline.dimension.is_count
        for size in inline.served
        if isinstance(value := inline.values[size], Fraction) and value.denominator != 1
    ]


def _values(sized: SizedPattern, name: str) -> list[Fraction | Absent]:
    return [value for value in sized.scope.quantities[name].values if not isinstance(value, bool)]


def _texts(values: list[Fraction | Absent]) -> list[str]:
    return ["–" if value is Absent.NOT_WORKED else str(value) for value in values]
