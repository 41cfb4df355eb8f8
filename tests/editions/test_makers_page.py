"""The maker's page before any browser: what each choice of a size reads, which units can be left out, and what is in the file.

What it does in a browser is tried in tests/pages.
"""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from stitchproof.editions.assets import Asset
from stitchproof.editions.edition import make_editions
from stitchproof.editions.for_sizes import for_every_choice, with_key
from stitchproof.editions.html import Draft
from stitchproof.editions.photos import prepared
from stitchproof.editions.print_document import (
    Kind,
    PlainText,
    PrintBlock,
    PrintCaution,
    PrintDocument,
    PrintFigure,
    PrintForSizes,
    PrintInline,
    PrintNote,
    PrintPassage,
    PrintProse,
    PrintSection,
    PrintTitle,
    SizeColumn,
    TextForSizes,
    UnitText,
    visible_text,
)
from stitchproof.editions.set_type import set_type
from stitchproof.editions.units_apart import with_units_apart
from stitchproof.editions.words_in_use import only_words_in_use
from stitchproof.expansion.document import Document, Figure
from tests.editions.demos import SHIPPED, document_of, made, set_in_one_size
from tests.editions.page_text import document_blocks, html_of
from tests.editions.samples import HERE, document, length, line, prose, sizes_of
from tests.editions.test_photos import as_file, picture
from tests.editions.test_styles import fault_of

COLUMN = SizeColumn(0, "1", "")
CONTROLS = {"input", "select", "button", "summary", "details", "dialog"}
NEVER = (
    "fetch",
    "XMLHttpRequest",
    "sendBeacon",
    "WebSocket",
    "innerHTML",
    "eval(",
    "import(",
    "document.write",
    "http",
)


def chosen(document: PrintDocument, choice: int | None) -> PrintDocument:
    """What one choice reads of a document for all of them."""

    def has(sizes: tuple[int, ...], whole: bool) -> bool:
        return whole if choice is None else choice in sizes

    def own_line(inlines: tuple[PrintInline, ...]) -> tuple[PrintInline, ...]:
        if not any(isinstance(inline, TextForSizes) for inline in inlines):
            return inlines
        alternatives = [each for each in inlines if isinstance(each, TextForSizes)]
        assert len(alternatives) == len(inlines)
        (own,) = [each for each in alternatives if has(each.sizes, each.whole)]
        return own.inlines

    def blocks(all_blocks: tuple[PrintBlock, ...]) -> tuple[PrintBlock, ...]:
        found: list[PrintBlock] = []
        for block in all_blocks:
            match block:
                case PrintForSizes():
                    found += blocks(block.blocks) if has(block.sizes, block.whole) else ()
                case PrintPassage() | PrintNote() | PrintCaution():
                    found.append(replace(block, blocks=blocks(block.blocks)))
                case PrintFigure():
                    found.append(replace(block, caption=own_line(block.caption)))
                case _:
                    found.append(block)
        return tuple(found)

    sections = [each for each in document.sections if choice is None or each.sizes is None or choice in each.sizes]
    return replace(
        document,
        title=replace(document.title, summary=own_line(document.title.summary)),
        sections=tuple(replace(each, title=own_line(each.title), blocks=blocks(each.blocks)) for each in sections),
    )


@pytest.mark.parametrize("name", SHIPPED)
def test_each_choice_reads_the_words_of_its_own_edition(name: str) -> None:
    sizes = range(len(document_of(name).sizes.names))
    editions = {None: set_type(only_words_in_use(document_of(name)))} | {
        size: set_in_one_size(name, size) for size in sizes
    }
    whole = editions[None]
    assert whole is not None
    page = for_every_choice(whole, {size: set_in_one_size(name, size) for size in sizes})
    for choice, edition in editions.items():
        own = chosen(page, choice)
        assert document_blocks(own) == document_blocks(edition)
        assert visible_text(own.title.summary) == visible_text(edition.title.summary)


def titled(*sections: PrintSection) -> PrintDocument:
    title = PrintTitle("Hat", "", "1", "", "", "", "US terms", ())
    return PrintDocument(title, (COLUMN,), "", "", sections)


def some_blocks() -> st.SearchStrategy[tuple[PrintBlock, ...]]:
    words = st.sampled_from("abc").map(lambda each: (PlainText(each),))
    leaf = st.one_of(
        words.map(PrintProse), st.builds(PrintFigure, name=st.sampled_from("xy"), alt=st.just(""), caption=words)
    )
    frame = st.recursive(
        leaf,
        lambda inner: st.one_of(
            st.builds(PrintPassage, tag=st.sampled_from(["", "t"]), blocks=st.lists(inner, max_size=3).map(tuple)),
            st.builds(PrintNote, blocks=st.lists(inner, max_size=3).map(tuple)),
        ),
        max_leaves=4,
    )
    return st.lists(frame, max_size=5).map(tuple)


@given(st.lists(some_blocks(), min_size=2, max_size=4))
def test_any_documents_laid_over_each_other_stay_what_they_are(versions: list[tuple[PrintBlock, ...]]) -> None:
    documents = [titled(PrintSection(Kind.PIECE, "p", (PlainText("P"),), "", blocks)) for blocks in versions]
    page = for_every_choice(documents[0], dict(enumerate(documents[1:])))
    for choice, own in zip((None, *range(len(documents) - 1)), documents, strict=True):
        assert chosen(page, choice).sections[0].blocks == own.sections[0].blocks


def test_what_is_alike_stands_once() -> None:
    """Else the page would be as long as all editions together."""
    html = html_of(make_editions(document_of("saltmarrow_yoke_top"), ["makers_page"])[0])
    for words in ("Rest your hands often", "Fasten off loosely", "join yarn in the base ch of the first fhdc"):
        assert html.count(words) == 1


def test_a_photo_whose_caption_has_numbers_is_in_the_file_once() -> None:
    caption = (*line("Shown with {ease} ease, ", ease=length(2, 4)), *line("on a stand"))
    figure = Figure("front", b"", 'Folded " > <b>', caption, HERE)
    photo = prepared(as_file(picture()))
    assert isinstance(photo, Asset)
    pattern = document(sizes_of("S M", (1,), by_number=True), figure)
    html = html_of(make_editions(pattern, ["makers_page"], photos={"front": photo})[0])
    assert html.count("data:image") == 1
    assert 'alt="Folded &#34; &gt; &lt;b&gt;"' in html
    assert html.count("<figcaption>") == 1
    assert html.count("on a stand") == 3


def test_a_piece_that_a_size_does_not_have_is_not_shown_to_it() -> None:
    gone = PrintSection(Kind.PIECE, "bow", (PlainText("Bow"),), "Size 1 only:", (PrintProse((PlainText("Sew."),)),))
    page = for_every_choice(titled(gone), {0: titled(replace(gone, tag="")), 1: titled()})
    assert page.sections[0].sizes == (0,)
    assert document_blocks(chosen(page, None)) == ["Bow", "Size 1 only:", "Sew."]
    assert document_blocks(chosen(page, 0)) == ["Bow", "Sew."]


def units_in(text: str, units: tuple[str, ...] = ("cm", "in")) -> list[tuple[str, str]]:
    """The parts of a printed line that stand in one of two units."""
    sizes = sizes_of("S M", (1,), by_number=True)
    pattern = document(sizes, prose(text, wide=length(50, 55), long=length(20, 20)))
    walked = with_units_apart(set_type(replace(pattern, units=units)))
    (block,) = walked.sections[0].blocks
    assert isinstance(block, PrintProse)
    return [(each.unit, visible_text(each.inlines)) for each in block.inlines if isinstance(each, UnitText)]


@pytest.mark.parametrize(
    ("text", "apart"),
    [
        ("About {long} long.", [("cm", "20 cm"), ("both", " / "), ("in", "7¾ in")]),
        ("Work {wide}, then", [("cm", "50 (55) cm"), ("both", " / "), ("in", "19¾ (21¾) in")]),
        ("16 sts = 10 cm / 4 in: hdc", [("cm", "10 cm"), ("both", " / "), ("in", "4 in")]),
        ("a 3½ in / 9 cm tail", [("in", "3½ in"), ("both", " / "), ("cm", "9 cm")]),
        ("Leave a 20 cm tail.", []),
        ("10 cm / 12 rows", []),
        ("220 m per 100 g / 3.5 oz", []),
    ],
)
def test_only_a_length_that_stands_in_both_units_can_leave_one_out(text: str, apart: list[tuple[str, str]]) -> None:
    assert units_in(text) == apart


def test_a_length_in_one_unit_is_left_to_everyone() -> None:
    assert units_in("About {long} long.", ("cm",)) == []


def test_a_pattern_and_a_revision_have_a_key_of_their_own() -> None:
    page = set_type(document_of("cobblewick_hat"))
    others = [
        set_type(document_of("pebblewold_cowl")),
        replace(page, title=replace(page.title, revision="2")),
        replace(page, title=replace(page.title, designer="somebody else")),
        replace(page, sections=page.sections[:-8]),
    ]
    keys = [with_key(each).key for each in (page, *others)]
    assert len(set(keys)) == len(keys)


class _Outside(HTMLParser):
    """The elements outside every template, and the content of scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.inside = 0
        self.names: list[str] = []
        self.script = ""
        self.policy = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.inside += tag == "template"
        facts = dict(attrs)
        if not self.inside:
            self.names.append(tag)
        if "http-equiv" in facts:
            self.policy = str(facts["content"])

    def handle_endtag(self, tag: str) -> None:
        self.inside -= tag == "template"

    def handle_data(self, data: str) -> None:
        if self.names[-1:] == ["script"]:
            self.script += data


def read(html: str) -> _Outside:
    outside = _Outside()
    outside.feed(html)
    return outside


def test_the_one_script_is_ours_and_nothing_else_may_run_or_load() -> None:
    page = read(html_of(make_editions(document_of("cobblewick_hat"), ["makers_page"])[0]))
    assert page.names.count("script") == 1
    script = page.script.rstrip()
    digest = b64encode(sha256(f"{script}\n".encode()).digest()).decode()
    assert f"script-src 'sha256-{digest}'" in page.policy
    assert page.policy.startswith("default-src 'none';")
    assert not [word for word in NEVER if word in script]
    assert not CONTROLS & set(page.names)


def test_a_build_for_one_size_has_no_size_to_choose() -> None:
    html = html_of(made("cobblewick_hat", "makers_page", 2))
    assert 'id="my_size"' not in html
    assert ' data-sizes="' not in html
    assert 'data-row="brim/Row 1"' in html


def test_a_draft_says_so_and_its_marked_rows_can_be_ticked_all_the_same() -> None:
    draft = Draft(2, {"brim/Row 1": ("the row does not add up",)})
    html = html_of(make_editions(document_of("cobblewick_hat"), ["makers_page"], draft=draft)[0])
    assert "DRAFT with 2 errors" in html
    assert '<div class="step marked" data-row="brim/Row 1">' in html


def in_own_sizes() -> Document:
    pattern = document_of("saltmarrow_yoke_top")
    return replace(pattern, sizes=replace(pattern.sizes, chosen=(3, 5), by_piece=(("yoke", 3), ("sleeve", 5))))


def test_pieces_in_sizes_of_their_own_leave_nothing_to_choose() -> None:
    assert 'id="my_size"' not in html_of(make_editions(in_own_sizes(), ["makers_page"])[0])


def own_script(folder: Path, script: str, facts: str = "script: own.js") -> Path:
    own = folder / "own"
    own.mkdir(parents=True)
    (own / "edition.yaml").write_text(
        f"title: Own\nbased_on: makers_page\nscreen: {{{facts}}}\nwords: {{my_size: Which one}}\n"
    )
    (own / "own.js").write_text(script, newline="")
    return folder


def test_a_designer_changes_words_and_script_without_python(tmp_path: Path) -> None:
    (edition,) = make_editions(document_of("cobblewick_hat"), ["own"], [own_script(tmp_path, "let a = 1;\r\na < 2;")])
    html = html_of(edition)
    assert "<script>let a = 1;\na < 2;</script>" in html
    assert "Which one</label>" in html
    assert "Tick the box beside a row" in html


@pytest.mark.parametrize(
    ("script", "facts", "message"),
    [
        ("a = '</script>'", "script: own.js", "no end of a script"),
        ("a = '</SCRIPT >'", "script: own.js", "no end of a script"),
        ("a = '<!-- <script>'", "script: own.js", "no end of a script"),
        ("", "script: other.js", "no such file"),
        ("", "script: ../own/own.js", "own folder"),
        ("", "script: 3", "script names a file"),
    ],
)
def test_a_script_that_cannot_be_used_is_told(script: str, facts: str, message: str, tmp_path: Path) -> None:
    assert message in fault_of(own_script(tmp_path, script, facts)).message
