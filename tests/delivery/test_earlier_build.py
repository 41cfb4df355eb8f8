"""A build that changes nothing is not made again, and a PDF whose page is the same is kept; what is not what it was is not."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import pytest

from stitchproof import build_pattern
from stitchproof.earlier_build import MADE_FROM, inputs_of, read_earlier
from stitchproof.editions import made_with, presses
from stitchproof.editions.assets import Asset, Assets
from stitchproof.editions.made_with import KeptPdfs
from stitchproof.editions.pdf import Pdf
from tests.architecture.code_reader import CLONE


class Workshop:
    """A workspace with the hat, and a printer that counts its pages instead of laying them out."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.pattern = root / "pattern_sources" / "cobblewick_hat"
        shutil.copytree(CLONE / "pattern_sources" / "cobblewick_hat", self.pattern)
        self.laid_out: list[str] = []
        self.says: tuple[str, ...] = ()

    def lay_out(self, html: str, assets: Assets | None = None, record: bytes = b"") -> Pdf:
        self.laid_out.append(html)
        return Pdf(b"%PDF " + html.encode(), self.says)

    def build(self, name: str = "all_sizes", draft: bool = False, terms: str = "") -> int:
        """Build; how many PDFs were laid out for it."""
        self.laid_out.clear()
        outcome = build_pattern("cobblewick_hat", editions=(name,), within=self.root, draft=draft, terms=terms)
        self.gone = [path.name for path in outcome.gone]
        self.files = [path.name for path in outcome.files]
        self.bytes = {path.name: path.read_bytes() for path in outcome.files}
        return len(self.laid_out)

    @property
    def products(self) -> Path:
        return self.root / "build" / "cobblewick_hat"

    @property
    def pdf(self) -> Path:
        return self.products / "cobblewick_hat_all_sizes.pdf"

    def change(self, name: str, old: str, new: str) -> None:
        path = self.pattern / name
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")


@pytest.fixture
def workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Workshop:
    here = Workshop(tmp_path)
    monkeypatch.setattr(presses, "write_pdf", here.lay_out)
    monkeypatch.setattr(presses, "processors", lambda: 1)
    return here


def test_an_unchanged_build_stands_as_it_is(workshop: Workshop) -> None:
    assert workshop.build() == 1
    first, when = (workshop.files, workshop.bytes), workshop.pdf.stat().st_mtime_ns
    assert MADE_FROM not in workshop.files
    assert workshop.build() == 0
    assert (workshop.files, workshop.bytes) == first
    assert workshop.pdf.stat().st_mtime_ns == when


def test_a_change_that_is_not_on_paper_keeps_the_pdf(workshop: Workshop) -> None:
    """A style for the screen: the HTML is printed anew, the PDF is the same file as before."""
    workshop.build()
    before = workshop.bytes
    (workshop.pattern / "styles" / "parts").mkdir(parents=True)
    dark = (CLONE / "styles" / "parts" / "dark.css").read_text("utf-8")
    (workshop.pattern / "styles" / "parts" / "dark.css").write_text(f"{dark}p {{ margin: 2rem }}\n", encoding="utf-8")
    assert workshop.build() == 0
    assert {name for name in before if workshop.bytes[name] != before[name]} == {"cobblewick_hat_all_sizes.html"}


def test_a_change_of_the_text_or_of_what_is_asked_for_is_printed(workshop: Workshop) -> None:
    workshop.build()
    workshop.change("pattern.yaml", "title: Cobblewick Hat", "title: Cobblewick Cap")
    assert workshop.build() == 1
    assert workshop.build(terms="UK") == 1
    assert workshop.build(terms="UK") == 0
    assert workshop.build("large_print") == 5


def test_what_this_build_did_not_make_goes_and_is_named(workshop: Workshop) -> None:
    """A build is the files of one command; nothing of an earlier one is left beside them, and nothing goes unsaid."""
    workshop.build("all_sizes")
    assert workshop.gone == []
    workshop.build("listing")
    assert workshop.gone == ["cobblewick_hat_all_sizes.html", "cobblewick_hat_all_sizes.pdf", "pages.json"]
    workshop.build("listing")
    assert workshop.gone == []


@pytest.mark.parametrize("harm", ["changed", "cut off", "gone", "one more", "no list", "not a list"])
def test_what_is_not_what_it_was_is_made_anew(workshop: Workshop, harm: str) -> None:
    workshop.build()
    before = workshop.bytes
    made_list = workshop.products / MADE_FROM
    if harm == "changed":
        workshop.pdf.write_bytes(before[workshop.pdf.name].replace(b"hdc", b"sc."))
    elif harm == "cut off":
        workshop.pdf.write_bytes(before[workshop.pdf.name][:-1])
    elif harm == "gone":
        workshop.pdf.unlink()
    elif harm == "one more":
        (workshop.products / "note.txt").write_text("mine", encoding="utf-8")
    elif harm == "no list":
        made_list.unlink()
    else:
        made_list.write_text('{"inputs": 7}', encoding="utf-8")
    assert workshop.build() == (0 if harm == "one more" else 1)
    assert workshop.bytes == before
    assert sorted(os.listdir(workshop.products)) == sorted((MADE_FROM, *before))


def test_a_list_leads_to_no_file_outside_the_build(workshop: Workshop) -> None:
    workshop.build()
    made_list = workshop.products / MADE_FROM
    facts = json.loads(made_list.read_text("utf-8"))
    facts["files"]["../elsewhere.pdf"] = facts["files"].pop(workshop.pdf.name)
    (workshop.products.parent / "elsewhere.pdf").write_bytes(workshop.bytes[workshop.pdf.name])
    made_list.write_text(json.dumps(facts), encoding="utf-8")
    assert workshop.build() == 1


def test_what_the_printers_said_is_said_again(workshop: Workshop) -> None:
    """A page that did not print as it should is no page to keep; it can only stand in a draft."""
    workshop.says = ("a rule was passed over",)
    assert workshop.build(draft=True) == 1
    assert read_earlier(workshop.products).inputs == ""
    assert workshop.build(draft=True) == 1


def test_every_file_and_wish_counts(tmp_path: Path) -> None:
    (tmp_path / "brim.md").write_text("Rnd 1", encoding="utf-8")
    seen = {inputs_of([tmp_path]), inputs_of([tmp_path], "draft: True"), inputs_of([tmp_path, tmp_path])}
    (tmp_path / "brim.md").write_text("Rnd 2", encoding="utf-8")
    seen.add(inputs_of([tmp_path]))
    (tmp_path / "brim.md").rename(tmp_path / "body.md")
    seen.add(inputs_of([tmp_path]))
    (tmp_path / ".git").mkdir()
    (tmp_path / ".git" / "HEAD").write_text("x", encoding="utf-8")
    seen.add(inputs_of([tmp_path]))
    assert len(seen) == 5


def test_a_changed_tool_style_or_font_makes_other_pages(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = made_with.made_with()
    assert made_with.made_with() == before
    styles, fonts, libraries = tmp_path / "styles", tmp_path / "fonts", tmp_path / "cache"
    for path in (styles / "parts" / "print.css", fonts / "Sans.otf"):
        path.parent.mkdir(parents=True)
        path.write_bytes(b"1")
    monkeypatch.setattr(made_with, "shipped_styles", lambda: styles)
    monkeypatch.setattr(made_with, "font_folders", lambda: (fonts,))
    monkeypatch.setattr(made_with, "SYSTEM_LIBRARIES", libraries)
    seen = [before, made_with.made_with()]
    for path in (styles / "parts" / "print.css", fonts / "Sans.otf", libraries):
        path.write_bytes(b"22")
        seen.append(made_with.made_with())
    monkeypatch.setattr(made_with, "_installed", lambda: ["weasyprint-99.dist-info"])
    seen.append(made_with.made_with())
    assert len(set(seen)) == len(seen)


def test_a_pdf_is_kept_by_its_page_its_pictures_and_its_tool() -> None:
    photo, other = Asset(b"1", "image/jpeg"), Asset(b"2", "image/jpeg")
    keys = [
        KeptPdfs("tool").key("page", {}),
        KeptPdfs("newer").key("page", {}),
        KeptPdfs("tool").key("pages", {}),
        KeptPdfs("tool").key("page", {"a": photo}),
        KeptPdfs("tool").key("page", {"a": other}),
        KeptPdfs("tool").key("page", {"b": photo}),
        KeptPdfs("tool").key("page", {}, b"record"),
    ]
    assert len(set(keys)) == len(keys)
