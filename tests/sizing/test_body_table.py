"""A pattern that takes its body from a table: figures, sizes, ranges, rows of the designer's own, and tables in CSV.

The figures of the shipped tables come from the same notes as the data, typed a second time; the source that they claim
stands beside each. The published pages could not be read by us, so all but the women's bust and the hands are from memory.
"""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from stitchproof.measures.published import figure_text
from stitchproof.standards.body import body_table, body_table_keys
from tests.checks.smallest_pattern import FOUNDED, write_example
from tests.sizing.written_pattern import Sized, derivation_text, faultless, sized

ROOT = Path(__file__).resolve().parents[2]
INCH = Fraction("2.54")
"""Centimetres (international yard and pound agreement of 1959)."""
WOMAN = "Craft Yarn Council, Standard Body Measurements/Sizing, Woman, booklet dated 02/05/18"
MAN = "Craft Yarn Council, Standard Body Measurements/Sizing, Man, booklet dated 02/05/18"
CHILDREN = "Craft Yarn Council, Standard Body Measurements/Sizing, Baby / Child / Youth, booklet dated 02/05/18"
HEAD = "Craft Yarn Council, Standards & Guidelines for Crochet and Knitting, Head circumference"
FOOT = "Craft Yarn Council, Standards & Guidelines for Crochet and Knitting, Foot / Sock measurements"
GIRLS = "CDC, Growth reference, head circumference of girls 0 to 3 years"
GLOVES = "EN 420:2003+A1:2009, hand sizes"
GIRTHS = "EN 13402-3, Size designation of clothes, Part 3"


# source, table, its sizes for ours, row, figure of ranges, what formulas work with, printed cm, printed inches
TABLES = [
    (WOMAN, "women", "XS, M, 5X", "bust", "low", "28 36 60 in", "71 91.5 152", "28 36 60"),
    (WOMAN, "women", "XS, M, 5X", "bust", "high", "30 38 62 in", "76 96.5 158", "30 38 62"),
    (WOMAN, "women", "XS, M, 5X", "upper_arm", "", "9.75 11 19.5 in", "25 28 49.5", "9¾ 11 19½"),
    (GIRTHS, "women_european", "XXS, M, 3XL", "bust", "high", "74 98 143 cm", "74 98 143", "– – –"),
    (MAN, "men", "S, M, 2XL", "chest", "high", "36 40 52 in", "91.5 101.5 132", "36 40 52"),
    (GIRTHS, "men_european", "XXS, L, 3XL", "chest", "low", "70 102 129 cm", "70 102 129", "– – –"),
    (CHILDREN, "babies", "3 months, 12mo, 24mo", "chest", "", "16 18 20 in", "40.5 45.5 50.5", "16 18 20"),
    (CHILDREN, "children", "2T, 4, 8", "chest", "", "21 23 26.5 in", "53 58.5 67", "21 23 26½"),
    (CHILDREN, "youth", "12, 14, 16", "chest", "", "30 31.5 32.5 in", "76 80 82.5", "30 31½ 32½"),
    (HEAD, "head", "Baby, Woman, Man", "head_circumference", "", "14 20 22 in", "35.5 50.5 56", "14 20 22"),
    (
        GIRLS,
        "head_girls",
        "0mo, 9mo, 36mo",
        "head_circumference_p50",
        "",
        "34.3 44.3 49.3 cm",
        "34.3 44.3 49.3",
        "– – –",
    ),
    (GLOVES, "hand", "6, M, 11", "hand_circumference", "", "15.2 20.3 27.9 cm", "15.2 20.3 27.9", "– – –"),
    (FOOT, "foot_children", "4-5, 6-7.5, 7-8.5", "foot_length", "", "4 6 7.5 in", "10 15 19", "4 6 7½"),
    (FOOT, "foot_women", "3-6, 6-9, 8-12", "foot_length", "", "9 10 11 in", "23 25.5 28", "9 10 11"),
    (FOOT, "foot_men", "6-8, 8.5-10, 12.5-14", "foot_length", "", "9.5 10.5 11.5 in", "24 26.5 29", "9½ 10½ 11½"),
]


@pytest.mark.parametrize(("source", "table", "sizes", "row", "take", "works_with", "cm", "inches"), TABLES)
def test_figures_as_published(
    source: str, table: str, sizes: str, row: str, take: str, works_with: str, cm: str, inches: str
) -> None:
    quantity = faultless(f"""
        sizes: {{names: [A, B, C]}}
        body: {{from: {table}, sizes: [{sizes}]{f", take: {take}" if take else ""}}}
        measures: {{worn: {row} * 1}}
    """).quantity(row)
    *figures, unit = works_with.split()
    assert quantity.values == tuple(Fraction(each) * (INCH if unit == "in" else 1) for each in figures), source
    assert quantity.published is not None
    for printed, column, of in ((cm, quantity.published.cm, "cm"), (inches, quantity.published.inches, "in")):
        assert [figure_text(each, of) if each is not None else "–" for each in column] == printed.split(), source


def test_every_shipped_table_is_tried() -> None:
    assert {case[1] for case in TABLES} == set(body_table_keys())


@pytest.mark.parametrize("key", body_table_keys())
@pytest.mark.parametrize("take", ["low", "middle", "high"])
def test_a_pattern_in_every_size_of_a_table_is_clean(key: str, take: str, tmp_path: Path) -> None:
    """No figure that a standards body published is a fault of the designer's: all rows, in print and in formulas."""
    table = body_table(key)
    names = ", ".join(f'"{size}"' for size in table.sizes)
    printed = "\n".join(f"  {row.measure.replace('_', ' ')}: <{row.measure}>" for row in table.rows)
    yaml = (
        f"sizes: {{names: [{names}]}}\naudience: [adult]\nbody: {{from: {key}, take: {take}}}\nfinished:\n{printed}\n"
    )
    folder = write_example(Example(yaml, FOUNDED, None), tmp_path)
    assert check_pattern(folder, within=tmp_path).findings == ()


def test_the_middle_of_a_range_is_worked_with_exactly_and_printed_on_the_grid() -> None:
    """The council's waist of XS and S, in and cm: 23-24 and 25-26.5, 58.5-61 and 63.5-67.5 (from memory)."""
    waist = faultless("body: {from: women, sizes: [XS, S], take: middle}").quantity("waist")
    assert waist.values == (Fraction("23.5") * INCH, Fraction("25.75") * INCH)
    assert waist.published is not None
    assert waist.published.cm == (Fraction(60), Fraction("65.5"))  # 59.75 and 65.5, to the nearest half
    assert waist.published.inches == (Fraction("23.5"), Fraction("25.75"))


def test_each_row_can_take_another_end_of_its_range() -> None:
    found = faultless("body: {from: women, take: {bust: high, waist: low}}")
    assert found.values("bust") == (34 * INCH, 38 * INCH)
    assert found.values("waist") == (25 * INCH, 28 * INCH)
    assert found.pattern.scope.kind("cross_back") == found.pattern.scope.kind("body.hips"), "neither is settled"


def test_a_row_of_her_own_stands_in_place_of_the_tables() -> None:
    found = faultless("body: {from: women, take: high, upper_arm: {cm: [27, 29.5]}, knee: {cm: [36, 38]}}")
    assert found.values("upper_arm") == found.values("body.upper_arm") == (27, Fraction("29.5"))
    assert found.quantity("upper_arm").published is None
    assert found.values("knee") == (36, 38)
    assert found.values("bust") == (34 * INCH, 38 * INCH)
    said = derivation_text(found, "upper_arm[M]")
    assert "26 cm" not in said and "11 in / 28 cm" in said
    said = derivation_text(found, "upper_arm")
    assert "yours stands in place of the table's, women, which gives" in said
    assert "10¼ in / 26 cm" in said


@pytest.mark.parametrize(
    "use",
    [
        "must_hold:\n  - {ease: 90 cm, over: bust, at_least: 1 cm}",
        "must_hold:\n  - {opening: 90 cm, over: bust, stretch: 1.2}",
        "measures:\n  widest: highest(bust) + 2 cm",
        "measures:\n  next_up: bust[M]",
        "measures:\n  typed: {cm: [86, 96], should_be: bust + 1 cm}",
        "plans:\n  dec: {kind: crown, from: 'down(bust * fabric.stitches / 8) * 8', sections: 8}",
    ],
)
def test_a_range_is_to_be_settled_wherever_it_is_used(use: str, tmp_path: Path) -> None:
    """Every way of using a row asks for it: a formula, one size, all sizes, a plan, what must hold, what should be."""
    example = Example(f"body: {{from: women}}\n{use}\n", FOUNDED, None)
    found = check_pattern(write_example(example, tmp_path), within=tmp_path).findings
    assert "body-figure-not-decided" in [each.page.name for each in found]


def test_a_short_name_of_her_own_is_hers() -> None:
    """A table brings many names; a measure of hers with one of them is not a clash, and the row keeps its full name."""
    found = faultless("""
        body: {from: women, take: high}
        measures: {waist: 80 cm, around: body.waist + 4 cm}
    """)
    assert found.values("waist") == (80, 80)
    assert found.values("around") == (Fraction("26.5") * INCH + 4, 30 * INCH + 4)


def test_only_the_rows_she_names() -> None:
    found = sized("body: {from: women, rows: [bust, upper_arm], take: high}\nmeasures: {a: waist + 4 cm}")
    assert found.faults == [("unknown-name", "waist", ("S", "M"))]
    assert found.pattern.body is not None
    assert [row.words for row in found.pattern.body.rows] == ["bust", "upper arm"]


@pytest.mark.parametrize(
    ("asked", "place"),
    [
        ("bust 36 in", "Medium"),
        ("bust 38 in", "Medium"),
        ("bust 94 cm", "Medium"),
        ("bust 915 mm", "Medium"),
        ("1X", "X-Large"),
    ],
)
def test_a_body_within_one_size_is_of_that_size(asked: str, place: str) -> None:
    """Both ends of a published range belong to it. The council's bust of M is 36-38 in and 91.5-96.5 cm."""
    body = faultless(f"body: {{from: women, sizes: [S, {asked}], take: high}}").pattern.body
    assert body is not None
    assert body.sizes == ("Small", place)


@pytest.mark.parametrize(
    ("table", "asked", "figures"),
    [
        ("women", "bust 39 in", ["`M` (bust 36–38 in / 91.5–96.5 cm)", "`L` (bust 40–42 in / 101.5–106.5 cm)"]),
        (
            "head",
            "54.5 cm",
            ["`Woman` (head circumference 20 in / 50.5 cm)", "`Man` (head circumference 22 in / 56 cm)"],
        ),
        ("children", "5", ["`4` (chest 23 in / 58.5 cm)", "`6` (chest 25 in / 63.5 cm)"]),
        ("babies", "9mo", ["`6mo` (chest 17 in / 43 cm)", "`12mo` (chest 18 in / 45.5 cm)"]),
        ("women", "back_waist_length 18 in", ["`2X`", "`3X`"]),
    ],
)
def test_a_body_between_two_sizes_is_placed_by_her(table: str, asked: str, figures: list[str]) -> None:
    """Both neighbours are told with their figures, from the Craft Yarn Council's tables; nothing is chosen."""
    first = body_table(table).sizes[0]
    found = sized(f'body: {{from: {table}, sizes: ["{first}", {asked}]}}')
    assert [(name, text) for name, text, _ in found.faults] == [("body-between-sizes", asked)]
    (report,) = found.findings
    assert all(figure in report.help[0] for figure in figures)


@given(st.decimals(20, 200, places=1))
def test_no_measure_is_placed_where_the_table_leaves_a_gap(cm: object) -> None:
    """Placed exactly where one bust range of the table holds it."""
    bust = body_table("women").row("bust")
    assert bust is not None
    holding = [cell for cell in bust.cm if cell is not None and cell.contains(Fraction(str(cm)))]
    found = sized(f"body: {{from: women, sizes: [S, bust {cm} cm], take: high}}")
    assert (found.pattern.body is not None) == (len(holding) == 1)


def csv_pattern(text: str, yaml: str, folder: Path) -> Path:
    files = (("body.csv", dedent(text).lstrip("\n")),)
    return write_example(Example(dedent(yaml).lstrip("\n"), FOUNDED, None, files), folder)


def test_a_table_of_her_own_in_csv(tmp_path: Path) -> None:
    """Works with the column of a measure that stands first; each column prints as typed; a figure has its place in the file."""
    folder = csv_pattern(
        """
        size; bust in; bust cm; upper arm cm
        M; 36-38; 92-97; 28,5
        S; 32-34; 81-86; 26
        """,
        "body: {csv: body.csv, take: {bust: high}}\nmeasures: {around: bust + 8 cm, sleeve: upper_arm + 5 cm}\n",
        tmp_path,
    )
    outcome = check_pattern(folder, within=tmp_path)
    assert outcome.findings == ()
    assert outcome.sized is not None
    quantities = outcome.sized.scope.quantities
    assert quantities["body.bust"].values == (34 * INCH, 38 * INCH)
    assert quantities["body.bust"].published is not None
    assert quantities["body.bust"].published.cm == (Fraction(86), Fraction(97))
    assert quantities["body.upper_arm"].values == (26, Fraction("28.5"))
    assert [formula.span.text for formula in quantities["body.bust"].formulas if formula] == ["32-34", "36-38"]
    said = derivation_text(Sized(outcome.sized, ()), "bust")
    assert "body.csv:3:4" in said
    assert "\nsource" not in said


def test_a_figure_of_her_csv_that_falls_is_shown_in_the_file(tmp_path: Path) -> None:
    """A fault of grading points at the cell, not at the name of the file."""
    folder = csv_pattern(
        "size, bust cm\nS, 94\nM, 86\n", "body: {csv: body.csv}\nmeasures: {a: bust + 1 cm}\n", tmp_path
    )
    (report,) = check_pattern(folder, within=tmp_path).findings
    assert report.primary.span.file.path.endswith("body.csv")


def test_a_gap_in_her_csv_matters_only_where_it_is_used(tmp_path: Path) -> None:
    table, body = "size, bust cm, upper arm cm\nS, 86, 26\nM, 94, –\n", "body: {csv: body.csv}\n"
    assert check_pattern(csv_pattern(table, body, tmp_path / "quiet"), within=tmp_path).findings == ()
    used = csv_pattern(table, body + "finished: {To fit arm: <upper_arm>}\n", tmp_path / "used")
    (report,) = check_pattern(used, within=tmp_path).findings
    assert (report.page.name, report.primary.span.text, report.sizes) == ("body-figure-not-decided", "–", ("M",))


def test_what_is_from_memory_is_told_in_findings(tmp_path: Path) -> None:
    """A finding that speaks of a recalled figure says so; of a checked one, the women's bust, it does not."""
    for row, told in (("upper_arm", True), ("bust", False)):
        yaml = f"body: {{from: women, take: high}}\nmust_hold:\n  - that: {row} > 200 cm\n    why: a test\n"
        folder = write_example(Example(yaml, FOUNDED, None), tmp_path / row)
        (report,) = check_pattern(folder, within=tmp_path).findings
        assert any("from memory" in line for line in report.help) is told


def test_a_trial_value_is_no_longer_the_tables() -> None:
    found = sized("body: {from: women, take: high}", {("body.bust", 0): "90 cm"})
    assert found.values("bust") == (90, 38 * INCH)
    assert found.quantity("bust").published is None


READS = """
import sys
from pathlib import Path
from stitchproof import check_pattern
check_pattern(Path(sys.argv[1]))
print(sorted(name for name in sys.modules if ".body" in name or name.endswith((".placement", ".csv_cells", ".sources"))))
"""


@pytest.mark.parametrize(("body", "loaded"), [("body: {head: 56 cm}", False), ("body: {from: head}", True)])
def test_tables_are_loaded_only_for_a_pattern_that_names_one(body: str, loaded: bool, tmp_path: Path) -> None:
    folder = write_example(Example(body + "\n", FOUNDED, None), tmp_path)
    run = subprocess.run(
        [sys.executable, "-c", READS, str(folder)],
        env={"PYTHONPATH": str(ROOT / "compiler")},
        capture_output=True,
        text=True,
        check=True,
    )
    assert ("stitchproof.standards.body'" in run.stdout) is loaded
    assert ("stitchproof.sizing.body_table'" in run.stdout) is loaded


def test_a_row_as_it_reads() -> None:
    found = sized(
        "sizes: {names: [1, 2]}\nbody: {from: women, sizes: [S, bust 94 cm], take: {bust: high}}\nmeasures: {a: bust + 8 cm}"
    )
    source = (
        "Craft Yarn Council (CYC), formerly Craft Yarn Council of America, Standards & Guidelines for Crochet and Knitting; "
        "Standard Body Measurements/Sizing, Woman (booklet dated 02/05/18 (p. 17 by its contents list); also the web page of "
        "the same table)"
    )
    assert derivation_text(found, "body.bust") == dedent(f"""\
        body.bust  length
        written   pattern_sources/example/pattern.yaml:12:14
        table     women: Women's body measurements
        source    {source}
        measured  around the fullest part of the chest, tape level and not tight
        taken     the higher end of each range
        own row   none, the figures are the table's

        1  size Small                    32–34 in / 81–86 cm → 34 in      prints 86 cm / 34 in
        2  size Medium (for bust 94 cm)  36–38 in / 91.5–96.5 cm → 38 in  prints 96.5 cm / 38 in

        used by   a
        """)
    of_one = derivation_text(found, "body.bust[2]")
    assert "\n2  size Medium" in of_one and "\n1  size Small" not in of_one
    waist = derivation_text(found, "waist")
    assert (
        "memory    from memory, not checked against a published table; confirm the figures before you rely on them"
        in waist
    )
    assert "25–26½ in / 63.5–67.5 cm → no figure: `take` does not say which" in waist
