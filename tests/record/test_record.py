"""The record of a build: exact values that recompute, one size apart from the others, the same bytes each time."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import jsonschema
import pytest

from stitchproof.diagnostics.page import Example
from stitchproof.measures.units import CM_PER_INCH
from stitchproof.pipeline import check_pattern, record_of
from stitchproof.record.json_form import NotARecord, as_bytes, from_bytes, schema
from stitchproof.record.reading import reads
from stitchproof.record.record import Record
from tests.checks.smallest_pattern import write_example

CLONE = Path(__file__).resolve().parents[2]
DEMOS = ("cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top", "thornhollow_waistcoat")
SCHEMA = CLONE / "compiler/stitchproof/record/record.schema.json"


def _record(pattern: str | Path) -> Record:
    record = record_of(check_pattern(pattern, within=CLONE))
    assert record is not None
    return record


@pytest.fixture(scope="module")
def records() -> dict[str, Record]:
    return {name: _record(name) for name in DEMOS}


@pytest.mark.parametrize("name", DEMOS)
def test_the_committed_record_of_a_demo_is_what_it_is_now(name: str, records: dict[str, Record]) -> None:
    """`make records` writes them anew."""
    assert (CLONE / "build" / name / "record.json").read_bytes() == as_bytes(records[name])


@pytest.mark.parametrize("name", DEMOS)
def test_a_record_is_read_back_as_it_was_written_and_keeps_to_its_schema(name: str, records: dict[str, Record]) -> None:
    content = as_bytes(records[name])
    assert from_bytes(content) == records[name]
    jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text())).validate(json.loads(content))


def test_the_shipped_schema_is_that_of_the_record() -> None:
    assert json.loads(SCHEMA.read_text()) == json.loads(json.dumps(schema()))


def test_the_schema_refuses_what_is_no_record(records: dict[str, Record]) -> None:
    damaged = json.loads(as_bytes(records["cobblewick_hat"]))
    del damaged["by_size"]
    assert not jsonschema.Draft202012Validator(schema()).is_valid(damaged)


@pytest.mark.parametrize("name", DEMOS)
def test_every_value_is_its_raw_value_rounded_by_less_than_its_multiple(name: str, records: dict[str, Record]) -> None:
    record = records[name]
    multiples = {each.name: each.multiple for each in record.quantities}
    found = 0
    for size in record.by_size.values():
        for quantity, value in size.quantities.items():
            multiple = multiples[quantity]
            if value.raw and (not multiple or multiple.isdecimal()):
                found += 1
                assert abs(Fraction(value.value) - Fraction(value.raw)) < int(multiple or 1), quantity
    assert found or name == "pebblewold_cowl"


def test_the_hat_says_its_sums(records: dict[str, Record]) -> None:
    """Worked by hand: (57 − 2) × 16 / 10 = 88; in a multiple of 8 it stays 88, 8/5 stitches a cm give 55 cm."""
    hat = records["cobblewick_hat"]
    assert hat.by_size["Adult"].quantities["hat_sts"].value == "88"
    quantity = next(each for each in hat.quantities if each.name == "hat_sts")
    assert (quantity.formula, quantity.multiple) == ("hat_around * crown.stitches", "8")
    assert quantity.inputs == ("hat_around", "gauges.crown.stitches")
    assert quantity.cm_per_unit == "5/8"
    assert Fraction(hat.by_size["Adult"].quantities["hat_around"].value) == 55


def test_a_row_reads_in_a_size_as_a_maker_of_that_size_works_it(records: dict[str, Record]) -> None:
    hat = records["cobblewick_hat"]
    row = next(each for each in hat.blocks if each.identity == "crown/Dec Rnd/k=6")
    assert reads(hat, row, "Toddler") == "Dec Rnd 6: [Hdc in each of next 2 sts, hdc2tog] 8 times. — 24 hdc"
    last = next(each for each in hat.blocks if each.identity == "crown/Dec Rnd/k=9")
    assert reads(hat, last, "Baby") is None


def test_lengths_print_in_both_units(records: dict[str, Record]) -> None:
    """One inch is 2.54 cm by definition (international yard and pound agreement of 1959)."""
    assert Fraction("2.54") == CM_PER_INCH
    line = records["cobblewick_hat"].by_size["Adult"].blocks["sizes/measure/1"]
    assert line == (("57 cm / 22½ in",),)


def test_a_size_more_leaves_the_part_of_every_other_size_as_it_is(tmp_path: Path, records: dict[str, Record]) -> None:
    """The parts are compared byte for byte, as they stand in the file."""
    source = CLONE / "pattern_sources/cobblewick_hat"
    folder = tmp_path / "cobblewick_hat"
    folder.mkdir()
    for file in source.iterdir():
        text = file.read_text()
        if file.name == "pattern.yaml":
            text = text.replace("Adult, Large]", "Adult, Large, Largest]").replace("57, 62]", "57, 62, 67]")
            text = text.replace("[8, 9, 10, 11, 11]", "[8, 9, 10, 11, 11, 12]").replace(
                "[6, 6, 7, 7, 8]", "[6, 6, 7, 7, 8, 8]"
            )
        (folder / file.name).write_text(text)
    wider = _record(folder)
    assert wider.sizes == (*records["cobblewick_hat"].sizes, "Largest")
    for size, held in _size_lines(as_bytes(records["cobblewick_hat"])).items():
        assert _size_lines(as_bytes(wider))[size] == held


def _size_lines(content: bytes) -> dict[str, str]:
    text = content.decode().partition('"by_size"')[2]
    starts = {size: text.index(f'\n  "{size}": {{') for size in json.loads(content)["sizes"]}
    ends = [*sorted(starts.values()), text.rindex("\n }")]
    return {size: text[start : ends[ends.index(start) + 1]].rstrip(",\n") for size, start in starts.items()}


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "damaged or cut off"),
        (b"[1, 2]", "damaged or cut off"),
        (b"\xff\xfe", "damaged or cut off"),
        (b"[" * 5_000, "damaged or cut off"),
        (b"{}", "does not say"),
        (b'{"format": "stitchproof-record", "version": 2}', "version 2"),
        (b'{"format": "stitchproof-record", "version": 1}', "not what it should be"),
        (b'{"format": "stitchproof-diagnostics", "version": 1}', "does not say"),
    ],
)
def test_what_is_no_record_is_refused_in_plain_words(content: bytes, words: str) -> None:
    with pytest.raises(NotARecord, match=words):
        from_bytes(content)


def test_a_record_cut_off_anywhere_is_refused(records: dict[str, Record]) -> None:
    content = as_bytes(records["cobblewick_hat"])
    for end in range(0, len(content) - 1, 997):
        with pytest.raises(NotARecord):
            from_bytes(content[:end])


def test_a_value_that_cannot_be_worked_out_at_a_k_is_unknown_in_the_record_of_a_draft(tmp_path: Path) -> None:
    """It is reported where it is asked for; the record of the draft does not stop at it."""
    counts = "counts:\n  incs: {by_hand: [0, 2], unit: sts}\n  between(k): {is: 12 sts * k / incs, round: down}\n"
    text = "::: for each k in 1 to 2\nRow <k>: Sc in each of next <between(k)> sts, turn.\n:::\n"
    outcome = check_pattern(write_example(Example(counts, text, None), tmp_path), within=tmp_path)
    record = record_of(outcome)
    assert outcome.errors and record is not None
    assert record.by_size["S"].quantities["between"].at == {"1": "unknown", "2": "unknown"}
    assert record.by_size["M"].quantities["between"].at == {"1": "6", "2": "12"}
