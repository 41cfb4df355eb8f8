"""The yoke top as a whole: nothing found, and its tables come out of its formulas and gauges in all nine sizes.

The tables and the counts of the rows are those of our own design, typed from its worksheet; they were computed and walked by
hand before the pattern was written, not copied from a run of the compiler.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

import pytest

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text
from stitchproof.expansion.document import Caution, Number, Role, Step, Table, Text, Word, inlines_of, steps_of
from stitchproof.measures.dimension import LENGTH
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.values import Absent, Value, rounded_text
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.sizing.sized_pattern import SizedPattern

ROOT = Path(__file__).parents[2]
TOP = ROOT / "pattern_sources" / "saltmarrow_yoke_top"
ALL = tuple(range(9))
Increase = tuple[int, int, int, int, int]
"""Longer groups, their plain stitches, shorter groups, their plain stitches, stitches after the round."""

FINISHED = {
    "body.bust": ("80 89 98 108 118 129 140 151 162", "31½ 35 38½ 42½ 46½ 50¾ 55 59½ 63¾"),
    "body.upper_arm": ("26.5 28.5 31 33.5 36.5 40 43.5 46.5 50", None),
    "finished_bust": ("88 96.5 106 116.5 126 136.5 148 159 170.5", "34¾ 38 41¾ 45¾ 49½ 53¾ 58¼ 62½ 67¼"),
    "finished_hip": ("93 101 110.5 123.5 133 143.5 155.5 168 180", "36½ 39¾ 43½ 48¾ 52¼ 56½ 61¼ 66¼ 70¾"),
    "finished_arm": ("33 34 36.5 40 42.5 46 49.5 53 56.5", "13 13½ 14¼ 15¾ 16¾ 18 19½ 20¾ 22¼"),
    "hem_relaxed": ("83 90.5 99 110.5 119 128.5 139 150.5 161", None),
    "cuff_relaxed": ("23 24 25.5 26.5 28.5 29.5 31.5 32.5 34.5", None),
    "yoke_depth": ("21 21.5 23.5 24 25 26.5 28.5 30 31.5", "8¼ 8½ 9¼ 9½ 9¾ 10½ 11¼ 11¾ 12½"),
    "body_length": ("30.5 30.5 31.5 32.5 32.5 33 34 35 35.5", "12 12 12½ 12¾ 12¾ 13 13½ 13¾ 14"),
    "sleeve_length": ("31.5 32.5 32.5 33 33 33 34 34 34", "12½ 12¾ 12¾ 13 13 13 13½ 13½ 13½"),
    "neck.edge": ("53 54 55.5 56.5 57.5 59 60 61 62.5", None),
    "neck.band_relaxed": ("47.5 48.5 48.5 49.5 49.5 50.5 50.5 51.5 51.5", None),
    "neck.band_depth": ("3.5 3.5 3.5 3.5 3.5 3.5 3.5 3.5 3.5", None),
}
COUNTS = {
    "yoke.foundation": "90 92 94 96 98 100 102 104 106",
    "yoke.rnds": "25 26 28 29 30 32 34 36 38",
    "yoke.inc_rnds": "5 5 6 6 6 7 7 8 8",
    "yoke.first_inc": "4 5 4 4 5 4 5 4 5",
    "yoke.every": "4 4 4 4 4 4 4 4 4",
    "yoke.even_rnds": "5 5 4 5 5 4 5 4 5",
    "yoke.increases": "140 156 170 190 204 224 246 266 288",
    "yoke.sts": "230 248 264 286 302 324 348 370 394",
    "divide.back": "67 74 79 86 91 98 105 112 119",
    "divide.front": "67 74 81 88 95 102 111 118 127",
    "divide.held": "48 50 52 56 58 62 66 70 74",
    "underarm": "8 8 10 12 14 16 18 20 22",
    "body_sts": "150 164 180 198 214 232 252 270 290",
    "body_rnds": "30 30 31 32 32 33 34 35 36",
    "hip.inc_rnds": "2 2 2 3 3 3 3 4 4",
    "hip.sts_each": "4 4 4 4 4 4 4 4 4",
    "hip.first_inc": "14 14 14 14 14 14 14 14 14",
    "hip.every": "6 6 6 6 6 6 6 6 6",
    "hem.sts": "158 172 188 210 226 244 264 286 306",
    "sleeve.top": "56 58 62 68 72 78 84 90 96",
    "sleeve.rnds": "31 32 32 33 33 33 34 34 34",
    "sleeve.decs": "6 6 7 9 9 11 12 14 15",
    "sleeve.first_dec": "5 5 5 4 4 3 3 3 3",
    "sleeve.every": "4 4 4 3 3 2 2 2 2",
    "sleeve.more": "2 1 6 6 6 3 5 11 14",
    "cuff.sts": "44 46 48 50 54 56 60 62 66",
    "neckband.decs": "– – 2 2 4 4 6 6 8",
    "neckband.sts": "90 92 92 94 94 96 96 98 98",
}
INCREASES = """
6×3+22×2→118 30×2+1×1→123 10×3+18×2→122 3×3+28×2→127 30×2+4×1→132 4×3+28×2→132 32×2+3×1→137 5×3+28×2→137 34×2+2×1→142
6×4+22×3→146 30×3+1×2→154 10×4+18×3→150 3×4+28×3→158 30×3+4×2→166 4×4+28×3→164 32×3+3×2→172 5×4+28×3→170 34×3+2×2→178
6×5+22×4→174 30×4+1×3→185 10×5+18×4→178 30×4+2×3→190 30×4+4×3→200 4×5+28×4→196 32×4+3×3→207 5×5+28×4→203 34×4+2×3→214
6×6+22×5→202 30×5+1×4→216 10×6+18×5→206 30×5+2×4→222 30×5+4×4→234 4×6+28×5→228 32×5+3×4→242 5×6+28×5→236 34×5+2×4→250
6×7+22×6→230 24×6+8×5→248 3×7+26×6→235 30×6+2×5→254 30×6+4×5→268 4×7+28×6→260 32×6+3×5→277 5×7+28×6→269 34×6+2×5→286
– – 3×8+26×7→264 30×7+2×6→286 30×7+4×6→302 4×8+28×7→292 32×7+3×6→312 5×8+28×7→302 34×7+2×6→322
– – – – – 4×9+28×8→324 24×8+12×7→348 30×8+4×7→336 34×8+2×7→358
– – – – – – – 30×9+4×8→370 34×9+2×8→394
""".strip()
"""Groups × plain stitches of the longer groups + the same of the shorter ones → stitches after the round; a line for each k."""
GROWTH = "3.95 4.24 4.29 4.62 4.80 4.94 5.11 5.22 5.35"
"""What the circumference gains for each cm of depth: below 2π the yoke lies flat or cups, above it ruffles (geometry)."""
YARN = {
    "yarn.grams": ("370 400 440 490 520 570 630 690 760", 1),
    "yarn.metres": ("1190 1280 1410 1570 1670 1830 2020 2210 2440", 100),
    "yarn.balls": ("8 8 9 10 11 12 13 14 16", 1),
}
ABBREVIATIONS = "bphdc, ch, dec, fhdc, fphdc, hdc, hdc2tog, inc, pm, rep, rnd(s), RS, sk, sl st, st(s)"

FOUNDATION = "90 92 94 96 98 100 102 104 106"
UNDERARM, HALF_UNDERARM = "8 8 10 12 14 16 18 20 22", "4 4 5 6 7 8 9 10 11"
HELD, BODY = "48 50 52 56 58 62 66 70 74", "150 164 180 198 214 232 252 270 290"
HEM, SLEEVE = "158 172 188 210 226 244 264 286 306", "56 58 62 68 72 78 84 90 96"
CUFF, BAND = "44 46 48 50 54 56 60 62 66", "90 92 92 94 94 96 96 98 98"
BODY_ROWS = {
    "Body Rnd 1 (divide)": (
        ["67 74 79 86 91 98 105 112 119", UNDERARM, HELD, "67 74 81 88 95 102 111 118 127", UNDERARM, HELD],
        ["134 148 160 174 186 200 216 230 246", "16 16 20 24 28 32 36 40 44"],
    ),
    "Body Rnd 2": ([], [BODY]),
    "Pm after the first": ([HALF_UNDERARM], []),
    "Body Rnd 3": ([], [BODY]),
    "Hip Inc Rnd": ([], ["4 4 4 4 4 4 4 4 4"]),
    "Rep Body Rnd 3,": (
        ["14 14 14 14 14 14 14 14 14", "6 6 6 6 6 6 6 6 6", "1 1 1 2 2 2 2 3 3", "30 30 31 32 32 33 34 35 36"],
        [HEM],
    ),
    "Hem Rnd 1": (["79 86 94 105 113 122 132 143 153"], [HEM]),
    "Hem Rnd 2": ([], [HEM]),
    "Rep Hem Rnd 2": (["8 8 8 8 8 8 8 8 8"], []),
    "Body measures about from": ([], []),
}
SLEEVE_ROWS = {
    "With 4 mm hook": ([HALF_UNDERARM], []),
    "Sleeve Rnd 1": ([HALF_UNDERARM, HELD, HALF_UNDERARM], [SLEEVE]),
    "Sleeve Rnd 2": ([], [SLEEVE]),
    "Sleeve Dec Rnd": ([], []),
    "Rep Sleeve Rnd 2,": (
        ["5 5 5 4 4 3 3 3 3", "4 4 4 3 3 2 2 2 2", "2 1 6 6 6 3 5 11 14", "5 5 – 4 4 3 3 3 –", "3 4 – 2 2 7 6 2 –"],
        [CUFF],
    ),
    "Work rnds even; sleeve": (["3 3 3 3 3 3 3 3 3", "31 32 32 33 33 33 34 34 34"], [CUFF]),
    "Cuff Rnd 1": (["22 23 24 25 27 28 30 31 33"], [CUFF]),
    "Cuff Rnd 2": ([], [CUFF]),
    "Rep Cuff Rnd 2": (["8 8 8 8 8 8 8 8 8"], []),
    "Sleeve measures about from": ([], []),
}
BAND_ROWS = {
    "Along the foundation edge,": ([], []),
    "Band Rnd 1": (
        [
            *("– – 45 46 – 23 15 – –", "– – 2 2 – 4 6 – –"),
            *("– – – – 23 – – 16 12", "– – – – 2 – – 2 2", "– – – – 22 – – 15 11", "– – – – 2 – – 4 6"),
        ],
        ["90 92 – – – – – – –", "– – 92 94 – 96 96 – –", "– – – – 94 – – 98 98"],
    ),
    "Band Rnd 2": (["45 46 46 47 47 48 48 49 49"], [BAND]),
    "Band Rnd 3": ([], [BAND]),
    "Rep Band Rnd 3": (["5 5 5 5 5 5 5 5 5"], []),
}
PIECES = {"body": BODY_ROWS, "sleeve": SLEEVE_ROWS, "neckband": BAND_ROWS}
"""For each row: the counts inside it in reading order, and those it states at its end; a dash is a size it does not serve."""


@pytest.fixture(scope="module")
def top() -> CheckOutcome:
    return check_pattern(TOP, within=ROOT)


@pytest.fixture(scope="module")
def sized(top: CheckOutcome) -> SizedPattern:
    assert top.sized is not None
    return top.sized


@pytest.fixture(scope="module")
def written(top: CheckOutcome) -> WrittenPattern:
    assert top.written is not None
    return top.written


def test_nothing_is_found(top: CheckOutcome) -> None:
    """The demo checks clean: no error, warning or note."""
    assert top.findings == ()


@pytest.mark.parametrize("name", FINISHED)
def test_measurements(sized: SizedPattern, name: str) -> None:
    """Centimetres to a half and inches to a quarter, each from the unrounded value."""
    values = _numbers(sized, name)
    cm, inches = FINISHED[name]
    assert [cm_text(value) for value in values] == cm.split()
    if inches is not None:
        assert [inch_text(value) for value in values] == inches.split()


@pytest.mark.parametrize("name", COUNTS)
def test_counts(sized: SizedPattern, name: str) -> None:
    """Every row of the table of counts; a dash is a size that does not work it."""
    assert _texts(sized.scope.quantities[name].values) == COUNTS[name].split()


@pytest.mark.parametrize("name", YARN)
def test_yarn(sized: SizedPattern, name: str) -> None:
    """Grams, metres and balls of the table of yarn. Source: our own scenario."""
    texts, unit = YARN[name]
    assert [value / unit for value in _numbers(sized, name)] == [int(text) for text in texts.split()]


def test_yarn_predicted(sized: SizedPattern) -> None:
    """Before the margin, in whole grams; the scale is 392 g to 374.0 g. Source: our own scenario."""
    grams = "328 355 392 437 468 514 571 623 683"
    assert [rounded_text(value, 0) for value in _numbers(sized, "yarn.predicted")] == grams.split()
    assert {rounded_text(value, 3) for value in _numbers(sized, "yarn.scale")} == {"1.048"}


def test_increases_from_the_formulas(sized: SizedPattern) -> None:
    """Groups, plain stitches and the count after, for every increase round of every size; each line shows its own sum."""
    for k, cells in enumerate(_increases(), start=1):
        for size, cell in enumerate(cells):
            if cell is not None:
                longer, more, shorter, fewer, after = cell
                assert more == fewer + 1
                assert longer * (more + 2) + shorter * (fewer + 2) == after
                names = {"longer": longer, "between": fewer, "shorter": shorter, "sts_after": after}
                for name, count in names.items():
                    assert sized.scope.value(f"yoke.{name}", size, Fraction(k)) == count, (name, k, size)
        assert [cell is not None for cell in cells] == [k <= int(text) for text in COUNTS["yoke.inc_rnds"].split()]


def test_the_yoke_stays_flat(sized: SizedPattern) -> None:
    """The growth of each size, and that it lies below that of a flat circle."""
    gained, depth = _numbers(sized, "yoke.width_gained"), _numbers(sized, "yoke_depth")
    assert [f"{float(width / down):.2f}" for width, down in zip(gained, depth, strict=True)] == GROWTH.split()
    limits = _numbers(sized, "yoke.flat_circle")
    assert [round(float(limit / down), 2) for limit, down in zip(limits, depth, strict=True)] == [6.28] * 9


def test_yoke_as_written(written: WrittenPattern) -> None:
    """Each increase round serves the sizes that have one, on its round, with the counts of the table."""
    steps = [step for step in _steps(written, "yoke") if step.identity.startswith("yoke/Inc Rnd")]
    first = [int(text) for text in COUNTS["yoke.first_inc"].split()]
    assert len(steps) == 8
    for k, (step, cells) in enumerate(zip(steps, _increases(), strict=True), start=1):
        assert step.served == tuple(size for size, cell in enumerate(cells) if cell is not None)
        for size in step.served:
            cell = cells[size]
            assert cell is not None
            longer, more, shorter, fewer, after = cell
            assert [
                number.values[size]
                for number in inlines_of(step)
                if isinstance(number, Number) and size in number.served
            ] == [k, first[size] + 4 * (k - 1), more, longer, fewer, shorter, after]


def test_other_rounds_of_the_yoke(written: WrittenPattern) -> None:
    """Foundation, plain rounds between the increases and after them; the plain rounds keep the sizes that go on."""
    steps = {step.identity: step for step in _steps(written, "yoke")}
    assert _both(steps["yoke/Rnd 1 (foundation)"]) == ([FOUNDATION], [FOUNDATION])
    assert _both(steps["yoke/Rnd 2"]) == ([], [FOUNDATION])
    assert _both(steps["yoke/Rep Rnd 2 until"]) == (["3 4 3 3 4 3 4 3 4"], [FOUNDATION])
    even = [step for name, step in steps.items() if name.startswith("yoke/Work rnds even") and "k=" in name]
    assert [step.served for step in even] == [ALL, ALL, ALL, ALL, ALL[2:], ALL[5:], ALL[7:]]
    assert all(_both(step)[0][0].replace("–", "3") == "3 3 3 3 3 3 3 3 3" for step in even)
    last = [step for name, step in steps.items() if name.startswith("yoke/Work rnds even") and "k=" not in name]
    assert [_both(step) for step in last] == [
        (["5 5 4 5 5 4 5 4 5", "25 26 28 29 30 32 34 36 38"], ["230 248 264 286 302 324 348 370 394"])
    ]


@pytest.mark.parametrize("piece", PIECES)
def test_rows_as_written(written: WrittenPattern, piece: str) -> None:
    """Every count of every row below the yoke, in reading order and in every size; lengths apart."""
    found = {step.identity.partition("/")[2]: _both(step) for step in _steps(written, piece)}
    assert found == PIECES[piece]


def test_sizes_of_the_parts(written: WrittenPattern) -> None:
    """The second rate of the sleeve leaves out sizes 3 and 9; the neckband has three ways."""
    parts = {step.identity: [part.served for part in step.parts] for step in _steps(written)}
    assert parts["sleeve/Rep Sleeve Rnd 2,"] == [ALL, (0, 1, 3, 4, 5, 6, 7), ALL]
    assert parts["neckband/Band Rnd 1"] == [(0, 1), (2, 3, 5, 6), (4, 7, 8)]


def test_lengths_in_the_text(written: WrittenPattern) -> None:
    """Yoke, body and sleeve say what they measure, with the values of the table of sizes."""
    said = [
        [cm_text(value) for value in number.values if isinstance(value, Fraction)]
        for step in _steps(written)
        for number in inlines_of(step)
        if isinstance(number, Number) and number.dimension == LENGTH
    ]
    assert said == [FINISHED[name][0].split() for name in ("yoke_depth", "body_length", "sleeve_length")]


def test_identities_are_unique(written: WrittenPattern) -> None:
    """Each step can be named."""
    steps = _steps(written)
    assert len({step.identity for step in steps}) == len(steps)


def test_abbreviations_are_exactly_those_used(written: WrittenPattern) -> None:
    """No abbreviation is missing and none is listed in vain."""
    section = next(section for section in written.document.front if section.key == "abbreviations")
    table = section.blocks[0]
    assert isinstance(table, Table)
    listed = [
        "".join(
            inline.text if isinstance(inline, Text) else inline.as_written
            for inline in row[0]
            if isinstance(inline, Text | Word)
        )
        for row in table.rows
    ]
    assert ", ".join(listed) == ABBREVIATIONS


def test_no_caution_but_the_one_for_the_hands(written: WrittenPattern) -> None:
    """An adult's top can hurt nobody but its maker."""
    document = written.document
    sections = (*document.front, *document.finishing, *document.back)
    assert not [block for section in sections for block in section.blocks if isinstance(block, Caution)]
    assert "hands" in [section.key for section in document.back]


PLANTED = {
    "held stitches two too many in size 7, two short in size 9": (
        "held: sleeve.top - underarm",
        "held: {by_hand: [48, 50, 52, 56, 58, 62, 68, 70, 72], unit: sts}",
        ("SP085", "7", "9"),
        "7 68 sts + 18 sts = 86 sts, not 84 sts 2 sts too many 9 72 sts + 22 sts = 94 sts, not 96 sts 2 sts too few",
    ),
    "two underarm chains too many in size 6": (
        "ch: 2 * underarm",
        "ch: {by_hand: [16, 16, 20, 24, 28, 34, 36, 40, 44], unit: sts}",
        ("SP085", "6"),
        "98 sts + 102 sts + 34 sts = 234 sts, not 232 sts 2 sts too many",
    ),
    "one slower decrease of size 6 forgotten": (
        "is: sleeve.shaped_rnds - sleeve.every * sleeve.decs",
        "by_hand: [3, 4, 0, 2, 2, 6, 6, 2, 0]",
        ("SP088", "6"),
        "= row 29, not 33 rnds − 3 rnds = 30 rnds",
    ),
    "odd neckband in size 5": (
        "taken_in:\n      by_hand: [0, 0, 2, 2, 4, 4,",
        "taken_in:\n      by_hand: [0, 0, 2, 2, 3, 4,",
        ("SP002", "5"),
        "nearest: 5 94 sts (−0.5 cm / −0.2 in) or 96 sts (+0.5 cm / +0.2 in)",
    ),
    "neck of size 1 too narrow for the head": (
        "is: neck.wanted * fabric.stitches\n      round: nearest",
        "by_hand: [78, 92, 94, 96, 98, 100, 102, 104, 106]\n      unit: sts",
        ("SP090", "1"),
        "41.05 cm × 1.25 = 51.32 cm; 57 cm + 1 cm = 58 cm needed 6.68 cm short, the tightest line",
    ),
}
"""As made, as planted, code and sizes, and the sum shown: faults of the design, planted where a number is made."""


@pytest.mark.parametrize("name", PLANTED)
def test_planted_faults(name: str, tmp_path: Path) -> None:
    """One report each, in the right sizes, with the sum that shows it."""
    as_made, as_planted, where, said = PLANTED[name]
    folder = tmp_path / "pattern_sources" / "saltmarrow_yoke_top"
    shutil.copytree(TOP, folder)
    header = folder / "pattern.yaml"
    text = header.read_text("utf-8")
    assert text.count(as_made) == 1
    header.write_text(text.replace(as_made, as_planted), encoding="utf-8")
    found = check_pattern(folder, within=tmp_path).findings
    report = as_text(facts_of(each) for each in found)
    assert [(each.page.code, *each.sizes) for each in found] == [where], report
    assert said in " ".join(report.split())


def _increases() -> list[list[Increase | None]]:
    """The table of increases, a line for each round and a cell for each size."""
    return [[_increase(cell) for cell in line.split()] for line in INCREASES.splitlines()]


def _increase(cell: str) -> Increase | None:
    match = re.fullmatch(r"(\d+)×(\d+)\+(\d+)×(\d+)→(\d+)", cell)
    assert match or cell == "–"
    return (int(match[1]), int(match[2]), int(match[3]), int(match[4]), int(match[5])) if match else None


def _steps(written: WrittenPattern, *names: str) -> list[Step]:
    """The steps of the pieces named, or of all."""
    pieces = [piece for piece in written.document.pieces if piece.name in names or not names]
    return [step for piece in pieces for step in steps_of(piece.blocks)]


def _both(step: Step) -> tuple[list[str], list[str]]:
    """The counts inside a step, and those it states; each as a text with a value or a dash for every size."""
    numbers = [
        token for part in step.parts for token in part.tokens if isinstance(token, Number) and token.dimension != LENGTH
    ]
    stated = [number for number in numbers if number.role is Role.STATED_COUNT]
    inside = [number for number in numbers if number.role is not Role.STATED_COUNT]
    return [_line(number) for number in inside], [_line(number) for number in stated]


def _line(number: Number) -> str:
    served = [value if size in number.served else Absent.NOT_WORKED for size, value in enumerate(number.values)]
    return " ".join(_texts(served))


def _numbers(sized: SizedPattern, name: str) -> list[Fraction]:
    return [value for value in sized.scope.quantities[name].values if isinstance(value, Fraction)]


def _texts(values: Iterable[Value]) -> list[str]:
    return ["–" if value is Absent.NOT_WORKED else str(value) for value in values]


def test_every_increase_round_is_explained() -> None:
    """What `explain` tells of a value with a k covers every increase round that a size works, and no other."""
    found = check_pattern(TOP, within=ROOT)
    assert found.sized is not None and found.written is not None
    in_use = found.written.expanded.in_use["yoke.between"]
    rounds = found.sized.scope.quantities["yoke.inc_rnds"].values
    assert {size: tuple(range(1, int(each) + 1)) for size, each in enumerate(rounds) if isinstance(each, Fraction)} == {
        size: tuple(int(k) for k in ks) for size, ks in in_use.items()
    }


def test_the_hem_and_the_cuff_lie_at_the_gauge_of_the_rib() -> None:
    found = check_pattern(TOP, within=ROOT)
    assert found.written is not None
    pieces = found.written.document.pieces
    gauges = {piece.name: [step.gauge for step in steps_of(piece.blocks)] for piece in pieces}
    assert set(gauges["yoke"]) == {"fabric"}
    assert set(gauges["neckband"]) == {"rib"}
    assert gauges["body"] == sorted(gauges["body"]) and set(gauges["body"]) == {"fabric", "rib"}
    assert gauges["sleeve"] == sorted(gauges["sleeve"]) and set(gauges["sleeve"]) == {"fabric", "rib"}
