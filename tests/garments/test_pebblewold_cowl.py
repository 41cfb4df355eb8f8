"""The cowl as a whole: nothing found, its table comes out of formulas and gauges, its three ways read as they were written.

The table and the lines are those of our own design, typed from its worksheet; they were computed and walked stitch by stitch
before the pattern was written, not copied from a run of the compiler. That a joined ring is even, a spiral with its start kept
in place odd, and a spiral whose rounds end with a chain even: derived and simulated there; in rows also common practice, no
source.
"""

from __future__ import annotations

import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from stitchproof import CheckOutcome, check_pattern
from stitchproof.diagnostics.facts import facts_of
from stitchproof.diagnostics.terminal import as_text
from stitchproof.expansion.document import Number, Role, Step, Table, Text, Token, Word, steps_of
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.measures.values import Absent, Value, rounded_text
from stitchproof.rows.written_pattern import WrittenPattern
from stitchproof.sizing.sized_pattern import SizedPattern

ROOT = Path(__file__).parents[2]
COWL = ROOT / "pattern_sources" / "pebblewold_cowl"
SIZES = ("Close", "Easy", "Long loop")

COUNTS = {
    "rnds": "42 42 34",
    "way_1.total": "100 116 216",
    "way_1.sc": "50 58 108",
    "way_1.sps": "50 58 108",
    "way_2.total": "101 115 217",
    "way_2.more": "51 58 109",
    "way_2.fewer": "50 57 108",
    "way_3.total": "102 116 218",
    "way_3.sc": "51 58 109",
    "way_3.sps": "51 58 109",
    "way_3.ring": "101 115 217",
    "way_3.pattern_rnds": "39 39 31",
    "way_3.start_moved": "38 38 30",
    "yarn.grams": "60 70 100",
    "yarn.balls": "2 2 2",
}
"""In weights, grams. Of a type A rnd of way 2 the sc are `more` and the spaces `fewer`; of a type B rnd the other way around."""
LENGTHS = {
    "target": ("56 64 120", None),
    "height": ("24.5 24.5 20", "9¾ 9¾ 7¾"),
    "way_1.around": ("55.5 64.5 120", "21¾ 25¼ 47¼"),
    "way_2.around": ("56 64 120.5", "22 25¼ 47½"),
    "way_3.around": ("56 64 120.5", "22 25¼ 47½"),
    "way_3.start_moved_by": ("21 21 16.5", None),
}
BY_HAND = {"target", "rnds"}
"""What the designer decides; everything else has a formula."""
STITCHES = {
    "way_1": ("2200 2552 3888", "2000 2320 3456"),
    "way_2": ("2222 2530 3906", "2020 2300 3472"),
    "way_3": ("2243 2551 3923", "2040 2320 3488"),
}
"""Sc (fsc among them) and ch of each way. Source: our own scenario."""
GRAMS_PREDICTED = "48.5 55.1 84.3"
METRES = "200 230 320"
ABBREVIATIONS = ["ch", "ch-sp", "fsc", "pm", "rep", "rnd(s)", "RS", "sc", "sk", "sl st", "sp(s)", "st(s)"]

WAY_1 = """
Rnd 1: Work 100 (116, 216) fsc, join with sl st in first fsc. — 100 (116, 216) fsc
Rnd 2: Ch 1 (does not count as a st here and throughout), [sc in next st, ch 1, sk next st] 50 (58, 108) times, join with sl st in first sc. — 50 (58, 108) sc, 50 (58, 108) ch-1 sps
Rnd 3: Sl st in next ch-sp, ch 1, sc in same ch-sp, ch 1, sk next sc, [sc in next ch-sp, ch 1, sk next sc] 49 (57, 107) times, join with sl st in first sc. — 50 (58, 108) sc, 50 (58, 108) ch-1 sps
Rep Rnd 3 until 41 (41, 33) rnds are complete.
Last rnd: Ch 1, sc in each sc and in each ch-sp around, join with sl st in first sc. Fasten off. — 100 (116, 216) sc
"""  # noqa: E501
WAY_2 = """
Rnd 1: Work 101 (115, 217) fsc; do not join, work on in a spiral. — 101 (115, 217) fsc
Rnd 2 (type A): [Sc in next st, ch 1, sk next st] 50 (57, 108) times, sc in next st. — 51 (58, 109) sc, 50 (57, 108) ch-1 sps
Rnd 3 (type B): [Ch 1, sk next sc, sc in next ch-sp] 50 (57, 108) times, ch 1, sk next sc. — 50 (57, 108) sc, 51 (58, 109) ch-1 sps
Rnd 4 (type A): [Sc in next ch-sp, ch 1, sk next sc] 50 (57, 108) times, sc in next ch-sp. — 51 (58, 109) sc, 50 (57, 108) ch-1 sps
Rep Rnds 3 and 4 until 41 (41, 33) rnds are complete, ending with a type B rnd.
Last rnd: Sc in each sc and in each ch-sp around, sl st in next st. Fasten off. — 101 (115, 217) sc
"""  # noqa: E501
WAY_3 = """
Rnd 1: Work 102 (116, 218) fsc; do not join, work on in a spiral. — 102 (116, 218) fsc
Rnd 2 (set-up): [Ch 1, sk next st, sc in next st] 51 (58, 109) times. — 51 (58, 109) sc, 51 (58, 109) ch-1 sps
Rnd 3: [Sc in next ch-sp, ch 1, sk next sc] 51 (58, 109) times. Pm in the first sc of each rnd. — 51 (58, 109) sc, 51 (58, 109) ch-1 sps
Rep Rnd 3 until 41 (41, 33) rnds are complete.
Last rnd: Sc in next ch-sp, [sc in next sc, sc in next ch-sp] 50 (57, 108) times, sl st in next st. Fasten off. — 101 (115, 217) sc
"""  # noqa: E501
LINES = {"way_1": WAY_1, "way_2": WAY_2, "way_3": WAY_3}
STATED = {
    "way_1": ["100 116 216", "50 58 108", "50 58 108", "50 58 108", "50 58 108", "100 116 216"],
    "way_2": [
        "101 115 217",
        *("51 58 109", "50 57 108"),
        *("50 57 108", "51 58 109"),
        *("51 58 109", "50 57 108"),
        "101 115 217",
    ],
    "way_3": ["102 116 218", "51 58 109", "51 58 109", "51 58 109", "51 58 109", "101 115 217"],
}
"""The counts after the dashes, top to bottom: sc, then spaces."""

Change = tuple[str, str]
"""Text of pattern.yaml as it stands, and as planted."""
FORMULA = "      is: target * fabric.stitches\n      round: nearest\n"


@pytest.fixture(scope="module")
def cowl() -> CheckOutcome:
    return check_pattern(COWL, within=ROOT)


@pytest.fixture(scope="module")
def sized(cowl: CheckOutcome) -> SizedPattern:
    assert cowl.sized is not None
    return cowl.sized


@pytest.fixture(scope="module")
def written(cowl: CheckOutcome) -> WrittenPattern:
    assert cowl.written is not None
    return cowl.written


def test_nothing_is_found(cowl: CheckOutcome) -> None:
    """The demo checks clean: no error, warning or note."""
    assert cowl.findings == ()


def test_sizes(sized: SizedPattern) -> None:
    """Three sizes, printed by number."""
    assert sized.sizes == SIZES
    assert sized.source.header.sizes.called_by_number


@pytest.mark.parametrize("name", COUNTS)
def test_counts(sized: SizedPattern, name: str) -> None:
    """Every count of the table, in every size."""
    assert [str(value) for value in _numbers(sized, name)] == COUNTS[name].split()


@pytest.mark.parametrize("name", LENGTHS)
def test_lengths(sized: SizedPattern, name: str) -> None:
    """Centimetres to a half and inches to a quarter, each from the unrounded value."""
    cm, inches = LENGTHS[name]
    assert [cm_text(value) for value in _numbers(sized, name)] == cm.split()
    if inches is not None:
        assert [inch_text(value) for value in _numbers(sized, name)] == inches.split()


def test_yarn(sized: SizedPattern) -> None:
    """The heaviest of the three ways, from what a stitch and a chain weigh; metres from the grams that are printed.

    Source: our own scenario.
    """
    assert [rounded_text(grams, 1) for grams in _numbers(sized, "yarn.predicted")] == GRAMS_PREDICTED.split()
    assert [str(length / 100) for length in _numbers(sized, "yarn.metres")] == METRES.split()
    assert {rounded_text(scale, 3) for scale in _numbers(sized, "yarn.scale")} == {"0.992"}


@pytest.mark.parametrize("way", STITCHES)
def test_stitches_of_each_way(cowl: CheckOutcome, way: str) -> None:
    """What a maker of one way works in all."""
    assert cowl.worked is not None
    piece = next(each for each in cowl.worked.pieces if each.name == way)
    for names, texts in zip((("sc", "fsc"), ("ch",)), STITCHES[way], strict=True):
        found = [
            sum(census[gauge, name] for gauge, name in census or () if name in names)
            for census in piece.census
            if census
        ]
        assert found == [int(text) for text in texts.split()]


def test_by_hand_is_only_what_the_designer_decides(sized: SizedPattern) -> None:
    """Two lists of values; every other number follows from them and the gauges."""
    assert {quantity.name for quantity in sized.quantities if quantity.by_hand} == BY_HAND


@pytest.mark.parametrize("way", LINES)
def test_lines_read_as_designed(written: WrittenPattern, way: str) -> None:
    """The same words and numbers as the outline of each way, line by line."""
    assert [_line(step) for step in _steps(written, way)] == LINES[way].strip().splitlines()


@pytest.mark.parametrize("way", STATED)
def test_stated_counts(written: WrittenPattern, way: str) -> None:
    """Each count after a dash is known as a stated count, and is the one of the outline."""
    counts = [
        " ".join(str(token.values[size]) for size in token.served)
        for step in _steps(written, way)
        for part in step.parts
        for token in part.tokens
        if isinstance(token, Number) and token.role is Role.STATED_COUNT
    ]
    assert counts == STATED[way]


def test_abbreviations_are_exactly_those_used(written: WrittenPattern) -> None:
    """No abbreviation is missing and none is listed in vain."""
    section = next(section for section in written.document.front if section.key == "abbreviations")
    table = section.blocks[0]
    assert isinstance(table, Table)
    tokens = [[token for token in row[0] if isinstance(token, Text | Word)] for row in table.rows]
    assert [_words(tuple(row)) for row in tokens] == ABBREVIATIONS


def test_the_head_passes_at_the_edge_of_every_way(sized: SizedPattern) -> None:
    """A firm sc edge × 1.05 reaches 58 cm; the tightest is way 1 in size 1, 55.6 × 1.05 = 58.3 (common practice, no source)."""
    openings = sized.claims.openings
    assert [opening.line.formula.text for opening in openings] == [f"way_{way}.edge" for way in (1, 2, 3)]
    stretched = [_numbers(sized, opening.line.formula.text) for opening in openings]
    assert {opening.stretch.at(size) for opening in openings for size in range(3)} == {Fraction(105, 100)}
    assert min(value for way in stretched for value in way) == stretched[0][0]
    assert rounded_text(stretched[0][0] * Fraction(105, 100), 1) == "58.3"


def test_a_larger_head_is_reported_in_the_sizes_it_cannot_pass(tmp_path: Path) -> None:
    """A head of 58 cm needs 59: ways 2 and 3 fail by a hair in size 1 as well. One report, the tightest way first."""
    found = check_pattern(_planted(tmp_path, ("head: 57 cm", "head: 58 cm")), within=tmp_path).findings
    assert [(each.page.code, each.sizes) for each in found] == [("SP090", ("Close",))]
    assert [line.expression.split()[0] for line in found[0].sums] == ["way_1.edge", "way_2.edge", "way_3.edge"]


TOTALS: dict[str, tuple[Change, str, str, tuple[str, str]]] = {
    "way 1, joined rounds": (
        (f"{FORMULA}      multiple: 2\n", "      by_hand: [101, 116, 216]\n      unit: sts\n      multiple: 2\n"),
        "way_1.total",
        "Close",
        ("100 sts", "102 sts"),
    ),
    "way 2, start kept in place": (
        (
            f"{FORMULA}      multiple: 2 plus 1\n",
            "      by_hand: [101, 116, 217]\n      unit: sts\n      multiple: 2 plus 1\n",
        ),
        "way_2.total",
        "Easy",
        ("115 sts", "117 sts"),
    ),
    "way 3, ending with a chain": (
        ("{is: way_2.total + 1, ", "{by_hand: [102, 116, 217], unit: sts, "),
        "way_3.total",
        "Long loop",
        ("216 sts", "218 sts"),
    ),
}
"""A total off by one in one size: what is planted, the count reported, the size, and the nearest totals that work."""


@pytest.mark.parametrize("name", TOTALS)
def test_a_total_off_by_one_is_one_report_with_values_that_work(name: str, tmp_path: Path) -> None:
    """Even, odd, even: the same number is right for one way and wrong for another. Each value offered is tried."""
    change, count, size, offered = TOTALS[name]
    folder = _planted(tmp_path, change)
    before = check_pattern(folder, within=tmp_path)
    assert [(each.page.code, each.sizes) for each in before.findings] == [("SP002", (size,))], _text(before)
    assert count in before.findings[0].headline
    assert [(offer.size, offer.value) for offer in before.findings[0].alternatives] == [
        (size, each) for each in offered
    ]
    for value in offered:
        after = check_pattern(folder, {(count, SIZES.index(size)): value}, within=tmp_path)
        assert after.findings == (), _text(after)


KEPT, CHAIN = '"spiral rounds, start kept in place"', '"spiral rounds, each ending with a chain"'
WAYS: dict[str, tuple[str, str, str]] = {
    "way_1": ("worked: joined rounds}", f"worked: {KEPT}}}", "must be odd"),
    "way_2": (f"worked: {KEPT}}}", "worked: joined rounds}", "must be even"),
    "way_3": (f"worked: {CHAIN}}}", f"worked: {KEPT}}}", "must be odd"),
}
"""A way declared that is not the one written."""


@pytest.mark.parametrize("way", WAYS)
def test_a_total_that_does_not_suit_its_way_is_one_report(way: str, tmp_path: Path) -> None:
    """All sizes at once; the other parity is not offered, since it breaks the multiple that the count states."""
    old, new, wanted = WAYS[way]
    found = check_pattern(_planted(tmp_path, (old, new)), within=tmp_path)
    assert [(each.page.code, each.sizes, each.piece) for each in found.findings] == [("SP003", SIZES, way)]
    assert wanted in found.findings[0].headline
    assert found.findings[0].alternatives == ()
    assert all("SP002" in line for line in found.findings[0].left_out)


OTHERS: dict[str, tuple[Change, str, tuple[str, ...]]] = {
    "an odd number of rounds": (("by_hand: [42, 42, 34]", "by_hand: [42, 41, 34]"), "SP002", ("Easy",)),
    "a round count short of a size": (("by_hand: [42, 42, 34]", "by_hand: [42, 42]"), "SP006", ()),
    "an edge that gives less": (("edge_stretch: {is: 1.05", "edge_stretch: {is: 1.04"), "SP090", ("Close",)),
    "a head without a unit": (("head: 57 cm", "head: 57"), "SP009", SIZES),
    "grams added to a length": (
        ("height: rnds / fabric.rounds", "height: rnds / fabric.rounds + yarn.grams"),
        "SP008",
        SIZES,
    ),
    "balls misspelt": (("<yarn.balls> balls", "<yarn.bals> balls"), "SP007", SIZES),
}


@pytest.mark.parametrize("name", OTHERS)
def test_other_faults_of_numbers_sizes_and_units(name: str, tmp_path: Path) -> None:
    """One report each, in the sizes that have the fault."""
    change, code, sizes = OTHERS[name]
    found = check_pattern(_planted(tmp_path, change), within=tmp_path)
    assert [(each.page.code, each.sizes) for each in found.findings] == [(code, sizes)], _text(found)


def _planted(tmp_path: Path, change: Change) -> Path:
    """A copy of the cowl with one change; it must have found its place."""
    folder = tmp_path / "pattern_sources" / "pebblewold_cowl"
    shutil.copytree(COWL, folder)
    text = (folder / "pattern.yaml").read_text("utf-8")
    assert text.count(change[0]) == 1, change[0]
    (folder / "pattern.yaml").write_text(text.replace(*change), encoding="utf-8")
    return folder


def _text(outcome: CheckOutcome) -> str:
    return as_text(facts_of(each) for each in outcome.findings)


def _numbers(sized: SizedPattern, name: str) -> list[Fraction]:
    values = sized.scope.quantities[name].values
    numbers = [value for value in values if isinstance(value, Fraction)]
    assert len(numbers) == len(SIZES), name
    return numbers


def _steps(written: WrittenPattern, way: str) -> list[Step]:
    piece = next(piece for piece in written.document.pieces if piece.name == way)
    return list(steps_of(piece.blocks))


def _line(step: Step) -> str:
    """A step as one line, its numbers in bracketed notation."""
    label, words = _words(step.label), " ".join(_words(part.tokens) for part in step.parts)
    return " ".join(f"{label} {words}".split())


def _words(tokens: tuple[Token, ...]) -> str:
    return "".join(_token(token) for token in tokens)


def _token(token: Token) -> str:
    if isinstance(token, Text):
        return token.text
    if isinstance(token, Word):
        return token.as_written
    first, *others = [_number(token.values[size]) for size in token.served]
    return f"{first} ({', '.join(others)})"


def _number(value: Value) -> str:
    return "–" if value is Absent.NOT_WORKED else str(value)
