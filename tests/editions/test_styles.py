"""Finding an edition's folder, and saying what is wrong with it."""

import os
from pathlib import Path

import pytest

from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import make_editions
from stitchproof.editions.edition_folder import find_edition
from stitchproof.editions.house_words import with_words
from stitchproof.editions.html import print_html
from stitchproof.editions.set_type import set_type
from stitchproof.editions.style_fault import StyleFault
from stitchproof.editions.styles import edition_names, parts_of, read_style_file
from tests.editions.samples import mitt

DESCRIPTION = "title: Own\nparts: []\nscreen: {template: page.html.j2, style: page.css}\n"
PAGE = "<title>{{ document.title.title }}</title><style>{{ style | safe }}</style>"


def own_edition(folder: Path, page: str = PAGE, description: str = DESCRIPTION, style: str = "p { margin: 0 }") -> Path:
    """A styles folder with an edition named `own`."""
    own = folder / "own"
    own.mkdir(parents=True)
    (own / "edition.yaml").write_text(description, encoding="utf-8")
    (own / "page.html.j2").write_text(page, encoding="utf-8")
    (own / "page.css").write_text(style, encoding="utf-8")
    return folder


def fault_of(folder: Path, name: str = "own") -> StyleFault:
    with pytest.raises(StyleFault) as caught:
        make_editions(mitt(), [name], [folder])
    return caught.value


def test_a_house_style_is_a_folder(tmp_path: Path) -> None:
    (edition,) = make_editions(mitt(), ["own"], [own_edition(tmp_path)])
    (file,) = edition.files
    assert file.name == "fernhythe_mitts_own.html"
    assert file.content.decode() == "<title>Fernhythe Mitts</title><style>p { margin: 0 }</style>"


def test_a_house_style_for_some_sizes_says_both(tmp_path: Path) -> None:
    (edition,) = make_editions(choose_sizes(mitt(), (4, 5)), ["own"], [own_edition(tmp_path)])
    assert [file.name for file in edition.files] == ["fernhythe_mitts_own_sizes_m_l.html"]


def test_a_style_says_how_much_a_line_holds(tmp_path: Path) -> None:
    narrow = find_edition("own", [own_edition(tmp_path, description=DESCRIPTION.replace("css}", "css, line: 40}"))])
    assert narrow.screen is not None
    assert narrow.screen.line == 40


def test_the_nearest_folder_wins_and_the_shipped_one_is_last(tmp_path: Path) -> None:
    near = own_edition(tmp_path / "pattern")
    far = own_edition(tmp_path / "workspace", description=DESCRIPTION.replace("Own", "Far"))
    assert find_edition("own", [near, far]).title == "Own"
    assert find_edition("own", [far, near]).title == "Far"
    assert find_edition("all_sizes", [near, far]).title == "All sizes"


def test_templates_fall_back_on_the_shipped_parts(tmp_path: Path) -> None:
    page = (
        "{% macro vector(vector) %}{{ vector.text }}{% endmacro %}"
        '{% from "blocks.html.j2" import title_block with context %}{{ title_block() }}'
    )
    folder = find_edition("own", [own_edition(tmp_path, page)])
    assert folder.screen is not None
    assert "<h1>Fernhythe Mitts</h1>" in print_html(set_type(mitt()), folder, folder.screen)


def test_a_missing_edition_names_those_there_are(tmp_path: Path) -> None:
    fault = fault_of(own_edition(tmp_path), "bold_type")
    assert "all_sizes" in fault.message
    assert "own" in fault.message
    assert "errata" not in fault.message  # which `compare` prints


@pytest.mark.parametrize("name", ["../own", "own/..", "", "/etc"])
def test_a_name_is_no_path(name: str, tmp_path: Path) -> None:
    assert "letters, digits" in fault_of(own_edition(tmp_path), name).message


@pytest.mark.parametrize(
    ("description", "message"),
    [
        ("title: [", "not readable"),
        ("- a\n- b\n", "does not say"),
        ("", "does not say"),
        ("[" * 5000, "not readable"),
        ("title: a\nparts: 3\n", "list of section names"),
        ("title: a\nparts: []\n", "neither"),
        ("screen: page.html.j2\n", "names a template"),
        ("screen: {template: 1, style: 2}\n", "names a template"),
        (DESCRIPTION.replace("css}", "css, line: wide}"), "whole number of figures"),
        (DESCRIPTION.replace("css}", "css, line: 4}"), "whole number of figures"),
        (DESCRIPTION.replace("css}", "css, line: true}"), "whole number of figures"),
        ("screen: {template: other.html.j2, style: page.css}\n", "no such file"),
        ("screen: {template: ../own/page.html.j2, style: page.css}\n", "own folder"),
        ("screen: {template: page.html.j2, style: /etc/hostname}\n", "own folder"),
        ("!!python/object/apply:os.system ['true']\n", "not readable"),
    ],
)
def test_a_broken_description_is_told(description: str, message: str, tmp_path: Path) -> None:
    assert message in fault_of(own_edition(tmp_path, description=description)).message


@pytest.mark.parametrize(
    ("page", "message"),
    [
        ("{{ nothing }}", "'nothing' is undefined"),
        ("one\n{% if %}", "line 2"),
        ('{% include "other.html.j2" %}', "no such file"),
        ('{% include "../own/page.css" %}', "own folder"),
        ('{% include "/etc/hostname" %}', "own folder"),
        ("{{ ''.__class__.__mro__ }}", "stopped"),
        ("{{ document.__class__.__init__.__globals__ }}", "stopped"),
        ("{{ 1 / 0 }}", "stopped"),
        ("{{ document.title + 1 }}", "stopped"),
        ("{% macro a() %}{{ a() }}{% endmacro %}{{ a() }}", "stopped"),
        ("{{ range(10 ** 9) | length }}", "stopped"),
    ],
)
def test_a_broken_template_is_told(page: str, message: str, tmp_path: Path) -> None:
    fault = fault_of(own_edition(tmp_path, page))
    assert message in fault.message
    assert str(tmp_path) in fault.path


def test_a_style_sheet_cannot_end_the_style_element(tmp_path: Path) -> None:
    assert "no HTML" in fault_of(own_edition(tmp_path, style="p{}</style><script>")).message


def test_files_that_are_none_are_refused(tmp_path: Path) -> None:
    styles = own_edition(tmp_path / "styles")
    (tmp_path / "secret.css").write_text("p{}")
    sheet = styles / "own" / "page.css"
    sheet.unlink()
    sheet.symlink_to(tmp_path / "secret.css")
    assert "own folder" in fault_of(styles).message
    sheet.unlink()
    os.mkfifo(sheet)
    assert "plain file" in fault_of(styles).message
    sheet.unlink()
    sheet.write_bytes(b"\xff\xfe")
    assert "cannot be read" in fault_of(styles).message
    sheet.write_bytes(b"p" * 1_000_001)
    assert "1 MB" in fault_of(styles).message


def test_the_shipped_parts_can_be_read_by_any_edition(tmp_path: Path) -> None:
    assert "macro inlines" in read_style_file((tmp_path, *parts_of(())), "blocks.html.j2")


def html_with(tmp_path: Path, name: str, **files: str) -> str:
    """A shipped edition's HTML, with a designer's own files in her styles folder."""
    for place, text in files.items():
        folder, _, file = place.partition("__")
        path = tmp_path / folder / file.replace("_dot_", ".")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    found = find_edition(name, [tmp_path])
    assert found.screen is not None
    return print_html(with_words(set_type(mitt()), found.words), found, found.screen)


def test_own_tokens_change_every_edition(tmp_path: Path) -> None:
    for name in ("all_sizes", "large_print", "makers_page"):
        html = html_with(tmp_path, name, parts__tokens_dot_css=":root { --accent: #123456; }")
        assert "--accent: #123456" in html
        assert "--accent: #7a4a3a" not in html


def test_own_words_stand_in_place_of_the_usual_ones(tmp_path: Path) -> None:
    own = "how_to_read: Yours is one of {order}.\ntitle_gauge: Swatch\n"
    html = html_with(tmp_path, "all_sizes", parts__words_dot_yaml=own)
    assert "Yours is one of Tot (Child" in html.replace("\N{NO-BREAK SPACE}", " ")
    assert ">Swatch</h2>" in html
    assert ">Gauge</h2>" not in html


def test_own_order_needs_nothing_but_the_order(tmp_path: Path) -> None:
    html = html_with(tmp_path, "all_sizes", all_sizes__edition_dot_yaml="parts: [gauge, pieces, sizes]\n")
    titles = [title for title in ("Gauge", "Cuff", "Sizes and finished measurements") if f">{title}</h2>" in html]
    assert sorted(titles, key=lambda title: html.index(f">{title}</h2>")) == titles


def test_an_edition_of_her_own_may_be_based_on_another(tmp_path: Path) -> None:
    (tmp_path / "quiet").mkdir()
    (tmp_path / "quiet" / "edition.yaml").write_text("title: Quiet\nbased_on: one_size\nwords: {caution: Mind}\n")
    folder = find_edition("quiet", [tmp_path])
    assert (folder.title, folder.each_size, folder.words["caution"]) == ("Quiet", True, "Mind")
    assert folder.paper == find_edition("one_size", ()).paper
    assert "quiet" in edition_names([tmp_path])


@pytest.mark.parametrize(
    ("description", "message"),
    [
        ("based_on: own\n", "based on itself"),
        ("based_on: nothing_like_it\n", "no edition of this name"),
        (DESCRIPTION + "texts: listing.md.j2\n", "a template for each ending"),
        (DESCRIPTION + "texts: {md: none.j2}\n", "no such file"),
        (DESCRIPTION + "sizes: some\n", "together, each or on the page"),
        (DESCRIPTION + "usual_for: [always]\n", "all, some, one"),
        (DESCRIPTION + "worksheet: maybe\n", "yes or no"),
        (DESCRIPTION + "worksheet: yes\n", "`sizes: each`"),
        (DESCRIPTION + "words: {caution: 3}\n", "put it in quotes"),
        (DESCRIPTION + "words: [caution]\n", "a phrase for each key"),
    ],
)
def test_a_description_that_says_too_much_or_too_little(description: str, message: str, tmp_path: Path) -> None:
    assert message in fault_of(own_edition(tmp_path, description=description)).message
