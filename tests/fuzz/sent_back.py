"""What others send besides patterns, changed at random: worksheets, grading sheets, workbooks, records, registers."""

from __future__ import annotations

import json
import re
import tempfile
from functools import cache
from io import BytesIO
from pathlib import Path
from random import Random
from zipfile import ZipFile

from stitchproof.comparison.compare import compare
from stitchproof.comparison.forms import as_json, as_page
from stitchproof.comparison.terminal import comparison_text
from stitchproof.diagnostics.terminal import printable
from stitchproof.grading.put_out import sheet_file
from stitchproof.grading.read_back import read_back
from stitchproof.grading.requests import set_values_of
from stitchproof.record.json_form import NotARecord, from_bytes
from stitchproof.revisions.errata import errata_of
from stitchproof.revisions.register import read_register
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source_edits.edit_source import edited_source
from stitchproof.worksheets.check_returned import check_returned
from stitchproof.worksheets.form import form_text
from tests.fuzz.kinds import CameApart, Kind, Outcome, told
from tests.grading.test_grading_sheets import HEADER
from tests.hostile.sent_back import record
from tests.source_edits.edited import pattern_with
from tests.worksheets.test_returned_worksheets import ASKED, CSV, YAML

BUILD = Path(__file__).parents[2] / "build"
PART, BEHIND = "xl/worksheets/sheet1.xml", "\n%%%%\n"
"""A workbook is tried as the text of one of its parts, its name before it; or as a whole, a character for a byte."""
PAGE_EVERY = 50
"""A comparison is printed as a page once in so many times, as that takes long."""
VALUES = ("0", "-1", "1e999", "NaN", "null", "true", '""', "[]", "{}", '"1/0"', '"1e9"', '"\\ud800"', '"S"', "9" * 20)


def try_worksheet(text: str) -> Outcome:
    """A worksheet, CSV where it begins like one."""
    name = "w.csv" if text.lstrip("\ufeff").lower().startswith("what") else "w.yaml"
    checked = check_returned(text.encode("utf-8", "surrogatepass"), name, lambda size: ASKED if size == "M" else None)
    printable(checked.table)
    return told(checked.findings) + (" table" if checked.table else "")


class GradingSheets:
    """Sheets of a small pattern, read back, and put into its source in memory."""

    def __init__(self, name: str) -> None:
        self.held = tempfile.TemporaryDirectory()
        self.folder = Path(self.held.name) / "hat"
        self.sized: SizedPattern = pattern_with(self.folder, HEADER)
        self.name = name

    def close(self) -> None:
        """Take the folder away."""
        self.held.cleanup()

    def __call__(self, text: str) -> Outcome:
        read = read_back(self.content(text), self.name, self.sized)
        asked = set_values_of(read, self.sized, self.name)
        faults = edited_source(self.folder, self.sized, asked).faults if asked else ()
        return f"{told(read.findings)} {len(asked)} {told(faults)}"

    def content(self, text: str) -> bytes:
        """The bytes of the file."""
        if self.name.endswith(".csv"):
            return text.encode("utf-8", "surrogatepass")
        part, behind, xml = text.partition(BEHIND)
        if not behind:
            return text.encode("latin-1", "replace")
        held = BytesIO()
        with ZipFile(BytesIO(sheet(self.name))) as whole, ZipFile(held, "w") as made:
            for name in whole.namelist():
                made.writestr(name, xml.encode("utf-8", "surrogatepass") if name == part else whole.read(name))
        return held.getvalue()


@cache
def sheet(name: str) -> bytes:
    """The sheet of the small pattern as it goes out."""
    with tempfile.TemporaryDirectory() as held:
        content = sheet_file(pattern_with(Path(held), HEADER), name)
    assert content is not None
    return content


def workbook_seeds() -> list[str]:
    """Every part of the workbook, the table more often; and the whole file."""
    with ZipFile(BytesIO(sheet("a.xlsx"))) as whole:
        parts = [f"{name}{BEHIND}{whole.read(name).decode()}" for name in whole.namelist()]
    tables = [part for part in parts if part.startswith((PART, "xl/sharedStrings"))]
    return [*parts, *tables * 4, sheet("a.xlsx").decode("latin-1")]


class Records:
    """Records held against one that is sound, told in each form."""

    def __init__(self) -> None:
        self.sound = from_bytes(record())
        self.tried = 0

    def __call__(self, text: str) -> Outcome:
        self.tried += 1
        try:
            other = from_bytes(text.encode("utf-8", "surrogatepass"))
        except NotARecord as fault:
            return re.sub(r"[\d.`]+", "", str(fault))[:60]
        comparison = compare(other, self.sound, "old", "new")
        said = comparison_text(comparison)
        printable(said)
        as_json(comparison)
        if self.tried % PAGE_EVERY == 0 and "<script" in as_page(comparison, ()):
            raise CameApart("a script on the page")
        sheet = errata_of(comparison, "", "", "", "")
        return f"{len(comparison.lines)} {len(sheet.rows)} {' '.join(re.findall('[a-z]{4,}', said)[-12:])}"


def record_seeds() -> list[str]:
    """Records of the demos and of a small pattern, and that one with a value put in for another, which stays a record."""
    small, random = record().decode(), Random(1)  # noqa: S311  # the same seeds each time
    places = [match.span() for match in re.finditer(r'(?<=:)"[^"]*"|(?<=[:\[,])\d+|\[\]|\{\}', small)]
    changed = []
    for at, to in places:
        changed.append(small[:at] + random.choice(VALUES) + small[to:])
        other_at, other_to = random.choice(places)
        changed.append(small[:at] + small[other_at:other_to] + small[to:])
    whole = json.loads(small)
    for key in whole:
        changed.append(json.dumps({name: value for name, value in whole.items() if name != key}))
        changed.append(json.dumps(whole | {key: whole["quantities"]}))
    return [small, *changed, (BUILD / "pebblewold_cowl" / "record.json").read_text("utf-8")]


class Registers:
    """register.yaml in a folder of its own."""

    def __init__(self) -> None:
        self.held = tempfile.TemporaryDirectory()
        self.folder = Path(self.held.name)

    def close(self) -> None:
        """Take the folder away."""
        self.held.cleanup()

    def __call__(self, text: str) -> Outcome:
        (self.folder / "register.yaml").write_text(text, encoding="utf-8", errors="surrogatepass", newline="")
        register = read_register(self.folder, "hat")
        return f"{told(register.findings)} {min(len(register.copies), 9)}"


REGISTER = """\
copies:
  - {revision: 1, date: 2026-05-01, where: the shop page, tell: buyers by the shop's message}
  - revision: "2"
    where: |
      a magazine
    tell: [its, editor]
"""

SENT_BACK: dict[str, Kind] = {
    "worksheets": (lambda: try_worksheet, lambda: [YAML, CSV, form_text(ASKED)] * 3),
    "sheets": (
        lambda: GradingSheets("s.csv"),
        lambda: [sheet("s.csv").decode(), "Name;Size S;Size M;Size L\nease;1,5;2;3\n"],
    ),
    "workbooks": (lambda: GradingSheets("s.xlsx"), workbook_seeds),
    "records": (Records, record_seeds),
    "registers": (Registers, lambda: [REGISTER]),
}
"""By name, as for the kinds of sources."""
