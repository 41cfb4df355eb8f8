"""The technical editor's worksheet: every number can be recomputed from it, every line is on it, nothing found is left out."""

from __future__ import annotations

from fractions import Fraction
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest
from msgspec.structs import replace

from stitchproof.editor_sheet.make_sheet import make_sheet
from stitchproof.editor_sheet.sheet import EditorSheet
from stitchproof.editor_sheet.tables import sheet_tables
from stitchproof.pipeline import build_pattern, check_pattern, record_of
from stitchproof.record.record import RecordedFinding
from stitchproof.spreadsheets.workbook import workbook

CLONE = Path(__file__).resolve().parents[2]
DEMOS = ("cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top", "thornhollow_waistcoat")


def _sheet(name: str) -> EditorSheet:
    check = check_pattern(name, within=CLONE)
    record = record_of(check)
    assert record and check.sized and check.written
    return make_sheet(record, check.sized, check.written.expanded.in_use)


@pytest.fixture(scope="module")
def sheets() -> dict[str, EditorSheet]:
    return {name: _sheet(name) for name in DEMOS}


@pytest.mark.parametrize("name", DEMOS)
def test_every_number_is_there_in_every_size(name: str, sheets: dict[str, EditorSheet]) -> None:
    sheet = sheets[name]
    told = {each.name: each for group in sheet.groups for each in group.quantities}
    assert set(told) == {each.name for each in sheet.record.quantities}
    for quantity in told.values():
        sizes = {each.size for each in quantity.values}
        assert quantity.by_k or sizes in ({*sheet.record.sizes}, set()), quantity.name


@pytest.mark.parametrize("name", DEMOS)
def test_value_is_raw_and_deviation(name: str, sheets: dict[str, EditorSheet]) -> None:
    for group in sheets[name].groups:
        for quantity in group.quantities:
            for each in quantity.values:
                if each.deviation is not None and each.raw is not None:
                    assert each.value == each.raw + each.deviation


def test_a_number_of_the_waistcoat_worked_by_hand(sheets: dict[str, EditorSheet]) -> None:
    """Rounding to the nearest even number moves a count by one stitch at most; its cm follow from the gauge."""
    sheet = sheets["thornhollow_waistcoat"]
    rounded = [
        each
        for group in sheet.groups
        for quantity in group.quantities
        if quantity.gauge and quantity.rounding.startswith("to the nearest")
        for each in quantity.values
        if each.deviation_cm is not None and each.deviation
    ]
    assert rounded
    for each in rounded:
        assert each.deviation is not None and each.deviation_cm is not None
        assert (each.deviation > 0) == (each.deviation_cm > 0)


def test_the_hat_tells_where_its_stitches_are_printed(sheets: dict[str, EditorSheet]) -> None:
    told = {each.name: each for group in sheets["cobblewick_hat"].groups for each in group.quantities}
    assert "Body: Rnd 3" in told["hat_sts"].printed
    assert told["hat_sts"].sentence == "hat_around * crown.stitches, to the nearest multiple of 8; eight crown sections"
    assert "Adult    55 cm × 16 sts per 10 cm = 88 sts  exact" in told["hat_sts"].sums
    assert told["crown_dec.before"].by_k[:2] == ("1", "2")
    assert told["yarn.grams"].came_by == "from the rows"


@pytest.mark.parametrize("name", DEMOS)
def test_every_line_is_there_as_each_size_reads_it(name: str, sheets: dict[str, EditorSheet]) -> None:
    sheet = sheets[name]
    assert len(sheet.lines) == len(sheet.record.blocks)
    assert all(any(line.read_by_size) or not any(line.block.parts) for line in sheet.lines)


def test_a_check_says_what_was_found_and_what_is_left() -> None:
    found = RecordedFinding("SP135", "wrong-count", "error", "a count")
    meant = RecordedFinding("SP055", "falls", "warning", "falls", accepted="a narrower neck")
    check = check_pattern("cobblewick_hat", within=CLONE)
    record = record_of(check)
    assert record and check.sized and check.written
    sheet = make_sheet(replace(record, findings=(found, meant)), check.sized, check.written.expanded.in_use)
    outcomes = {each.id: each.outcome for each in sheet.checks}
    assert outcomes["NU1"] == "found SP135"
    assert outcomes["SV2"] == "accepted SP055"
    assert outcomes["NU11"] == "nothing found"
    assert "for you" in outcomes.values()


@pytest.mark.parametrize("name", DEMOS)
def test_the_workbook_holds_the_same_with_filters(name: str, sheets: dict[str, EditorSheet]) -> None:
    sheet = sheets[name]
    content = workbook(sheet_tables(sheet), name, "me")
    book = openpyxl.load_workbook(BytesIO(content))
    assert book.sheetnames == ["Numbers", "Sizes side by side", "Lines", "Findings", "Proof", "Stitches", "Checklist"]
    assert all(tab.auto_filter.ref and tab.freeze_panes for tab in book.worksheets)
    rows = list(book["Numbers"].iter_rows(min_row=2, values_only=True))
    held = {
        (each.name, value.size, value.k): value.value
        for group in sheet.groups
        for each in group.quantities
        for value in each.values
    }
    assert len(rows) == len(held)
    for row in rows:
        value = held[str(row[0]), str(row[3]), "" if row[4] is None else str(row[4])]
        if isinstance(value, Fraction):
            assert isinstance(row[7], int | float) and abs(Fraction(row[7]) - value) < Fraction(1, 10**5)


class _Headings(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.inside, self.found = "", list[str]()

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.inside = tag

    def handle_data(self, data: str) -> None:
        if self.inside in ("h1", "h2"):
            self.found.append(data.strip())

    def handle_endtag(self, tag: str) -> None:
        self.inside = ""


def test_the_edition_writes_a_page_and_a_workbook(tmp_path: Path) -> None:
    built = build_pattern("cobblewick_hat", editions=("editors_sheet",), to=tmp_path, within=CLONE)
    names = [file.name for file in built.files]
    assert names == ["cobblewick_hat_editors_sheet.html", "cobblewick_hat_editors_sheet.xlsx", "record.json"]
    headings = _Headings()
    headings.feed(built.files[0].read_text(encoding="utf-8"))
    assert headings.found == ["Cobblewick Hat", "Findings", "Proof", "Numbers", "Lines", "Checklist"]
    assert not built.check.findings


def test_a_draft_has_its_faults_on_the_sheet(tmp_path: Path) -> None:
    """A designer sends her editor what does not work yet."""
    folder = tmp_path / "cobblewick_hat"
    folder.mkdir()
    for file in (CLONE / "pattern_sources/cobblewick_hat").iterdir():
        text = file.read_text()
        if file.name == "30_body.md":
            text = text.replace("Hdc in each st around. — <hat_sts> hdc", "Hdc in each st around. — <hat_sts + 1> hdc")
            assert "<hat_sts + 1>" in text
        (folder / file.name).write_text(text)
    built = build_pattern(folder, editions=("editors_sheet",), to=tmp_path / "out", draft=True, within=CLONE)
    page = built.files[0].read_text(encoding="utf-8")
    assert "SP135 error" in page and 'class="open">found SP135' in page
