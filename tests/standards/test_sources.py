"""Every key that a shipped table uses leads to a source, and the shipped tables name nobody who may not be named."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from stitchproof.standards.abbreviations import abbreviations
from stitchproof.standards.body import body_table, body_table_keys
from stitchproof.standards.cautions import shipped_cautions
from stitchproof.standards.ease import fit_classes, hem_lengths
from stitchproof.standards.sources import printable_source
from stitchproof.standards.terms import stitch_pairs
from stitchproof.standards.yarn import yarn_weights

ROOM = Path(__file__).resolve().parents[2] / "compiler/stitchproof/standards"
SHIPPED = sorted(ROOM.glob("*.yaml"))
KEY_LISTS = ("source", "sources", "confirmed_by", "confirmed_in_part_by", "range_confirmed_by")
NOBODY = {"not recorded", "withheld", "UK retailer"}


def entries(path: Path) -> dict[str, dict[str, Any]]:
    """The sources of a list."""
    sources: dict[str, dict[str, Any]] = yaml.safe_load(path.read_text("utf-8"))["sources"]
    return sources


PRINTABLE = entries(ROOM / "sources.yaml")
OTHERS = entries(Path(__file__).with_name("sources.yaml"))
KIND_OF_KEY = "|".join(sorted({re.escape(key.rpartition("_")[0]) for key in OTHERS}))


def keys_in(data: Any) -> Iterator[str]:
    """Every key that stands where sources are named."""
    if isinstance(data, list):
        for item in data:
            yield from keys_in(item)
    elif isinstance(data, dict):
        for name, value in data.items():
            if name in KEY_LISTS and not isinstance(value, dict):
                yield from value if isinstance(value, list) else [value]
            else:
                yield from keys_in(value)


def unresolved(text: str) -> set[str]:
    """Keys in the values or comments of a file that neither list holds."""
    written = re.findall(rf"\b(?:{KIND_OF_KEY})_\d+\b", text)
    return {*keys_in(yaml.safe_load(text)), *written} - PRINTABLE.keys() - OTHERS.keys()


def named(text: str) -> set[str]:
    """Organisations and addresses in a text that only the tests' list may hold."""
    names = {str(entry.get("organisation")) for entry in OTHERS.values()}
    sites = {site for entry in OTHERS.values() for site in re.findall(r"[\w.-]+\.[a-z]{2,}", str(entry["address"]))}
    return {
        name for name in (names | sites) - NOBODY if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", text, re.IGNORECASE)
    }


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.name)
def test_every_key_leads_to_a_source(path: Path) -> None:
    assert unresolved(path.read_text("utf-8")) == set()


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.name)
def test_nobody_is_named_who_may_not_be(path: Path) -> None:
    assert named(path.read_text("utf-8")) == set()


def test_the_readers_find_such_keys_and_names() -> None:
    text = "tables: {a: {confirmed_by: [blog_1, nobody]}}  # see blog_99\n"
    assert unresolved(text) == {"nobody", "blog_99"}
    some = next(entry for entry in OTHERS.values() if entry["organisation"] not in NOBODY)
    assert named(f"as {some['organisation']} has it") == {some["organisation"]}


def test_the_two_lists_are_apart_and_only_official_documents_ship() -> None:
    assert not PRINTABLE.keys() & OTHERS.keys()
    assert {entry["kind"] for entry in PRINTABLE.values()} == {"standard", "law", "authority"}
    assert not {entry["kind"] for entry in OTHERS.values()} & {"standard", "law", "authority"}


def test_every_document_that_a_table_comes_from_can_be_printed() -> None:
    used = {body_table(key).source for key in body_table_keys()}
    used |= {row.source for key in body_table_keys() for row in body_table(key).rows}
    used |= {fit.source for fit in fit_classes()} | {hem.source for hem in hem_lengths()}
    used |= {pair.source for pair in stitch_pairs()} | {weight.source for weight in yarn_weights()}
    used |= {entry.source for entry in abbreviations() if entry.listed}
    assert len(used) > 10
    assert all(printable_source(key) for key in used)


def test_what_is_printed_of_a_source() -> None:
    assert printable_source("cyc_man") == (
        "Craft Yarn Council (CYC), Standards & Guidelines for Crochet and Knitting; Standard Body Measurements/Sizing, Man "
        "(the booklet dated 02/05/18 lists a Man chart after Woman; also the web page of the same table)"
    )
    assert printable_source("en_13402_3") == "CEN, EN 13402-3, Size designation of clothes, Part 3"


def test_nothing_is_printed_of_the_others() -> None:
    assert {printable_source(key) for key in OTHERS} == {""}
    assert printable_source("") == ""


def test_no_text_for_readers_holds_a_key() -> None:
    texts = [remark for key in body_table_keys() for remark in body_table(key).remarks]
    texts += [row.how for key in body_table_keys() for row in body_table(key).rows]
    texts += [caution.text for caution in shipped_cautions().values()]
    assert len(texts) > 60
    assert [text for text in texts if re.search(rf"\b(?:{KIND_OF_KEY})_\d+\b|\bcyc_", text)] == []
