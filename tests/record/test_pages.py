"""pages.json: each row is on the page that it names, and a comparison of builds tells it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from stitchproof.pipeline import build_pattern
from stitchproof.record.json_form import from_bytes
from stitchproof.record.pages import NO_PAGES, pages_from_bytes
from stitchproof.record.reading import reads
from stitchproof.revisions.compare_patterns import compare_patterns

CLONE = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def build(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("built")
    built = build_pattern("cobblewick_hat", sizes=("Adult",), editions=("one_size",), to=folder, within=CLONE)
    assert not built.check.findings
    return built.folder


def test_every_row_of_a_size_is_on_the_page_that_is_named(build: Path) -> None:
    pages = pages_from_bytes((build / "pages.json").read_bytes())
    record = from_bytes((build / "record.json").read_bytes())
    ((name, file),) = pages.files.items()
    assert file.sizes == ("Adult",)
    texts = ["".join(page.extract_text().split()) for page in PdfReader(build / name).pages]
    rows = [block for block in record.blocks if block.kind == "row" and reads(record, block, "Adult")]
    assert {block.identity for block in rows} == set(file.lines)
    assert len(set(file.lines.values())) > 1
    for block in rows:
        words = "".join((reads(record, block, "Adult") or "").split())[:14]
        assert words in texts[file.lines[block.identity] - 1], block.identity


def test_a_pdf_that_is_kept_keeps_its_pages(build: Path) -> None:
    before = (build / "pages.json").read_bytes()
    asked = {"sizes": ("Adult",), "to": build.parent, "within": CLONE}
    build_pattern("cobblewick_hat", editions=("one_size", "listing"), **asked)  # type: ignore[arg-type]
    assert (build / "pages.json").read_bytes() == before


def test_a_comparison_tells_the_page_of_what_changed(build: Path, tmp_path: Path) -> None:
    record = json.loads((build / "record.json").read_bytes())
    record["by_size"]["Adult"]["blocks"]["body/Rnd 3"] = [[], ["89"]]
    (tmp_path / "record.json").write_text(json.dumps(record), encoding="utf-8")
    outcome = compare_patterns(str(build), str(tmp_path), within=CLONE)
    assert outcome.comparison
    (line,) = outcome.comparison.lines
    ((name, pair),) = line.pages
    assert name.endswith("size_adult.pdf") and pair.old.isdecimal() and pair.new == ""


@pytest.mark.parametrize("content", [b"", b"{}", b"[" * 9_999, b'{"format": "x", "version": 1, "files": {}}', b"\xff"])
def test_pages_that_cannot_be_read_are_none(content: bytes) -> None:
    assert pages_from_bytes(content) == NO_PAGES
