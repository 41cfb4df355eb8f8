"""Worksheets as testers send them back: read in both forms, held against what was worked out, and refused in words."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.command_line import main
from stitchproof.worksheets.check_returned import check_returned
from stitchproof.worksheets.checkpoints import Checkpoint, GaugeAsked, Worksheet
from stitchproof.worksheets.form import form_text
from stitchproof.worksheets.returned import WorksheetUnreadable, read_returned
from tests.architecture.code_reader import CLONE

ASKED = Worksheet(
    "Sample",
    "2",
    "M",
    (
        Checkpoint(3, "Body", "Rnd 2", (Fraction(64),), ()),
        Checkpoint(5, "Body", "Rnd 9", (Fraction(51), Fraction(50)), (Fraction(24),)),
    ),
    (GaugeAsked("fabric", Fraction(16), Fraction(12), "rounds", Fraction(10)),),
    Fraction(300),
)
YAML = """\
size: M
revision: 2
tester: A. Tester
grams: 280 g
hours: 12.5
gauge:
  fabric:
    before: {stitches: 17, rounds: 12}
    after: {stitches: 16, rounds: 12}
checkpoints:
  - line: 3
    count: 64
  - line: 5
    count: 51 + 50
    cm: 24,5
unclear:
  - line: 4
    words: Which side?
"""
CSV = """\
what,line,value
size,,M
revision,,2
tester,,A. Tester
grams,,280
hours,,12.5
gauge fabric stitches before,,17
gauge fabric rounds before,,12
gauge fabric stitches after,,16
gauge fabric rounds after,,12
count,3,64
count,5,51 + 50
cm,5,"24,5"
unclear,4,Which side?
"""


def told(text: str, name: str = "back.yaml") -> list[str]:
    checked = check_returned(text.encode(), name, lambda size: ASKED if size == "M" else None)
    return [found.headline for found in checked.findings]


@pytest.mark.parametrize("line", ["gauge,,17", "checkpoints,,5", "unclear things,,x", "gauge a b c d,,4"])
def test_a_line_of_csv_that_asks_for_nothing_is_left_aside(line: str) -> None:
    """Found by changing worksheets at random: a line called as a part of the sheet took its place."""
    assert told(CSV.replace("size,,M\n", f"size,,M\n{line}\n"), "back.csv") == []


@pytest.mark.parametrize(("text", "name"), [(YAML, "back.yaml"), (CSV, "back.csv")])
def test_what_agrees_is_no_finding(text: str, name: str) -> None:
    checked = check_returned(text.encode(), name, lambda size: ASKED)
    assert checked.findings == ()
    assert "unclear, line 4: Which side?" in checked.table
    assert "A. Tester, 12.5 hours" in checked.table


def test_the_empty_form_is_a_worksheet_without_answers() -> None:
    returned = read_returned(form_text(ASKED).encode(), is_csv=False)
    assert (returned.size, returned.revision, returned.grams) == ("M", "2", None)
    assert not [reached for reached in returned.reached if reached.counts or reached.cm is not None]
    assert returned.unclear == ()
    assert told(form_text(ASKED)) == []


@pytest.mark.parametrize(
    ("old", "new", "finding"),
    [
        ("count: 64", "count: 62", "line 3, Rnd 2: 62 where the pattern has 64"),
        ("count: 51 + 50", "count: [50, 50]", "line 5, Rnd 9: 50 + 50 where the pattern has 51 + 50"),
        ("count: 51 + 50", "count: 50 + 51", "line 5, Rnd 9: 50 + 51 where the pattern has 51 + 50"),
        ("cm: 24,5", "cm: 27 cm", "line 5, Rnd 9: 27 cm where the pattern has 24 cm"),
        ("grams: 280 g", "grams: 312", "yarn: 312 g where the pattern has 300 g"),
        ("grams: 280 g", "grams: 200", "yarn: 200 g where the pattern has 300 g"),
        (
            "after: {stitches: 16",
            "after: {stitches: 17",
            "gauge fabric, sts, after washing: 17 where the pattern has 16",
        ),
        ("line: 3", "line: 30", "line 30: something where the pattern has –"),
        ("revision: 2", "revision: 1", "the tester worked from revision 1; the pattern is revision 2 now"),
    ],
)
def test_what_differs_is_told(old: str, new: str, finding: str) -> None:
    assert told(YAML.replace(old, new)) == [finding]


@pytest.mark.parametrize("count", ["51 hdc + 50 sc", "51 sts + 50 ch-sps", "[51 hdc, 50 hdc2tog]"])
def test_a_count_may_name_its_stitch(count: str) -> None:
    assert told(YAML.replace("count: 51 + 50", f"count: {count}")) == []


def test_a_count_is_no_length() -> None:
    assert "`64 in` is no number" in told(YAML.replace("count: 64", "count: 64 in"))[0]


@pytest.mark.parametrize(
    ("words", "mend"),
    [
        ('what\'s "hdc2tog": first or last?', "write `words: |` and the answer on the next line, further in"),
        ("Rnd 3: which side?", 'put the answer in quotes: `words: "Rnd 3: which side?"`'),
    ],
)
def test_an_answer_with_a_colon_is_named_with_its_line_and_what_to_write(words: str, mend: str) -> None:
    text = YAML.replace("words: Which side?", f"words: {words}")
    (found,) = check_returned(text.encode(), "back.yaml", lambda size: ASKED).findings
    assert (
        found.headline
        == "back.yaml cannot be read: the answer in line 18 has a colon inside, which YAML reads as a key"
    )
    assert (found.primary.span.text.strip(), found.help) == (f"words: {words}", (mend,))
    in_quotes = "quotes" in mend
    mended = mend.partition("`")[2].rstrip("`") if in_quotes else f"words: |\n      {words}"
    assert told(YAML.replace("words: Which side?", mended)) == []


def test_a_count_of_all_kinds_together_will_do() -> None:
    assert told(YAML.replace("count: 51 + 50", "count: 101")) == []


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("size: [", "is not readable as YAML"),
        ("- a", "no line such as"),
        (YAML.replace("count: 64", "count: about 60"), "`about 60` is no number"),
        (YAML.replace("count: 64", "count: 9999999999"), "too large"),
        (YAML.replace("size: M", "size: XS"), "`XS` is not a size"),
        (YAML.replace("size: M", ""), "does not say the size"),
        ("a: &a [1]\nb: *a\n", "references"),
        ("!!python/object/apply:os.system ['true']", "no worksheet"),
        ("[" * 5000, "not readable"),
    ],
)
def test_what_cannot_be_read_is_told(text: str, message: str) -> None:
    (finding,) = told(text)
    assert message in finding


@given(st.binary(max_size=200), st.booleans())
def test_any_file_is_read_or_refused(content: bytes, is_csv: bool) -> None:
    try:
        read_returned(content, is_csv)
    except WorksheetUnreadable as error:
        assert str(error)


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(CLONE)
    file = tmp_path / "back.yaml"
    file.write_text("size: Toddler\nrevision: 1\ncheckpoints:\n  - {line: 9, count: 71}\n", encoding="utf-8")
    assert main(["check", "cobblewick_hat", "--worksheet", str(file)]) == 0
    shown = capsys.readouterr()
    assert "warning[SP184 tester-differs]: line 9, Rnd 3: 71 where the pattern has 72 (size Toddler)" in shown.err
    assert "1 fewer than the rows make" in shown.out
    assert main(["check", "cobblewick_hat", "--worksheet", str(tmp_path / "none.yaml")]) == 2
    assert main(["check", "--worksheet", str(file)]) == 2
