"""pattern.yaml as a located tree, compared with PyYAML's own BaseLoader, which also keeps every scalar as text."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
import yaml
from hypothesis import given, settings

from stitchproof.diagnostics.report import Report
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode, read_yaml
from stitchproof.source import SourceFile
from tests.reading.yaml_trees import Tree, Written, as_text, files


def read(text: str) -> tuple[YamlNode | None, Report]:
    """The tree of a text, and what was found."""
    report = Report()
    return read_yaml(SourceFile("pattern.yaml", text), report), report


def codes(text: str) -> list[str]:
    """The codes of what is found in a text."""
    return [found.page.code for found in read(text)[1].findings()]


def plain(node: YamlNode | None) -> Tree:
    """A tree without its places."""
    match node:
        case Scalar():
            return node.text
        case Listing():
            return [plain(item) for item in node.items]
        case Mapping():
            return {key.text: plain(value) for key, value in node.entries}
        case None:
            return ""


def scalars_of(node: YamlNode | None) -> Iterator[Scalar]:
    """Every scalar of a tree, keys too."""
    match node:
        case Scalar():
            yield node
        case Listing():
            for item in node.items:
                yield from scalars_of(item)
        case Mapping():
            for key, value in node.entries:
                yield key
                yield from scalars_of(value)


@settings(max_examples=80)
@given(files)
def test_trees_equal_the_reference_and_spans_equal_their_text(written: Written) -> None:
    """Values as BaseLoader reads them; a span holds what was typed, without quotes and block signs."""
    text = as_text(written)
    reference = yaml.load(text, Loader=yaml.BaseLoader)  # noqa: S506  # makes texts, lists and dicts only
    assert reference == written.tree, "the generator writes what it means"
    tree, report = read(text)
    assert report.findings() == ()
    assert plain(tree) == reference
    for scalar in scalars_of(tree):
        assert reads_as_its_text(scalar), (scalar.text, scalar.span.text)


def reads_as_its_text(scalar: Scalar) -> bool:
    """Whether the characters of a span are the scalar's own: as they stand, unescaped, or folded."""
    span = scalar.span
    if span.text == scalar.text:
        return True
    if scalar.quoted:
        quote = span.file.text[span.start - 1]
        closed = span.file.text[span.end] == quote
        return closed and yaml.load(f"{quote}{span.text}{quote}", Loader=yaml.BaseLoader) == scalar.text  # noqa: S506
    return span.text.split() == scalar.text.split()


@pytest.mark.parametrize(
    "text", ["no", "yes", "on", "~", "null", "010", "0o17", "1:30", "2.50", "1e3", ".5", "2026-01-01", "0x1F", "<<"]
)
def test_scalars_stay_text(text: str) -> None:
    """YAML 1.1 (yaml.org, type repository) reads these as booleans, nothing, numbers or dates; a designer typed a text."""
    tree, _ = read(f"a: {text}\n")
    assert plain(tree) == {"a": text}


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("a: &here 12 rows\n", "12 rows"),
        ('a: &here "12 rows"\n', "12 rows"),
        ("a: &here # a comment\n  12 rows\n", "12 rows"),
        ("a: &here >-\n  12 rows\n", "12 rows"),
        ("a: é🧶 x # a comment\n", "é🧶 x"),
        ("a:     12\n", "12"),
        ("a: |\n    b\n    c\n", "b\n    c"),
        ("a: |2\n    b\n", "b"),
        ("a: > # a comment\n  b\n", "b"),
        ("a:\n", ""),
        ("a: ''\n", ""),
    ],
)
def test_a_span_leaves_anchors_quotes_and_comments_out(text: str, span: str) -> None:
    tree, report = read(text)
    assert report.findings() == ()
    assert isinstance(tree, Mapping)
    value = tree.get("a")
    assert isinstance(value, Scalar)
    assert value.span.text == span


def test_a_reference_stands_where_its_anchor_stood() -> None:
    tree, report = read("a: &cuff 12 rows\nb: *cuff\n")
    assert report.findings() == ()
    assert isinstance(tree, Mapping)
    assert plain(tree) == {"a": "12 rows", "b": "12 rows"}


@pytest.mark.parametrize(
    ("text", "first", "second"),
    [
        ("a: 1\nb: 2\na: 3\n", (1, 1), (3, 1)),
        ("é: {x: 1, 🧶: 2, x: 3}\n", (1, 5), (1, 17)),
        ('a: 1\n"a": 2\n', (1, 1), (2, 2)),
        ("g:\n  - n: 1\n    n: 2\n", (2, 5), (3, 5)),
    ],
)
def test_a_key_written_twice_shows_both(text: str, first: tuple[int, int], second: tuple[int, int]) -> None:
    _, report = read(text)
    (found,) = report.findings()
    assert found.page.code == "SP014"
    assert found.primary.span.file.line_column(found.primary.span.start) == second
    assert found.related[0].span.file.line_column(found.related[0].span.start) == first


@pytest.mark.parametrize(
    "text",
    [
        "a: !!python/object/apply:os.system [ls]\n",
        "a: !!binary aGF0\n",
        "a: !include b.yaml\n",
        "a: !!str b\n",
        "!!map {a: b}\n",
        "a: !<tag:example.org,2026:x> b\n",
        "a: ! b\n",
        "- !!set {a, b}\n",
        "a: &x !!int 3\n",
    ],
)
def test_every_tag_is_refused(text: str) -> None:
    assert codes(text) == ["SP015"]


LAUGHS = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]\n" for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)


@pytest.mark.parametrize(
    "text",
    [
        LAUGHS,
        LAUGHS.replace("[", "{k: [").replace("]", "]}"),
        "".join(f"- &a{n} {{k: *a{n - 1}, l: *a{n - 1}}}\n" if n else "- &a0 x\n" for n in range(40)),
        "a: &a x\n" + "b: [" + "*a, " * 400 + "]\n",
        "[" * 100 + "]" * 100,
        "{a: " * 30 + "x" + "}" * 30,
        "- " * 40 + "x\n",
        "".join(" " * n + "a:\n" for n in range(60)),
        "[" + "x, " * 20_001 + "]\n",
        "[" + "(x, " * 20_001 + "]\n",
    ],
    ids=lambda text: text[:24],
)
def test_what_unfolds_without_end_is_refused(text: str) -> None:
    """The "billion laughs" among them; the time is bounded by the count of values, so a test of the code is enough."""
    assert codes(text) == ["SP016"]


@pytest.mark.parametrize("sign", ["[", "{", "- ", "? ", "[{a: "])
def test_a_file_of_nothing_but_openings_ends_in_one_report(sign: str) -> None:
    """Either bound may be the one that is met: our own, or the parser's."""
    assert codes(sign * 50_000) in (["SP012"], ["SP016"])


@pytest.mark.parametrize("text", ["a: &a [*a]\n", "a: &a {b: *a}\n", "&a [*a, *a]\n", "a: *nowhere\n"])
def test_a_reference_to_what_is_not_there_yet_is_refused(text: str) -> None:
    """An anchor counts from the end of its value on, so that none can hold itself."""
    assert codes(text) == ["SP013"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a:\n\tb: 1\n", "a tab stands where blanks should"),
        ("\ta: 1\n", "a tab stands where blanks should"),
        ("a: b\n\tc\n", "a tab stands where blanks should"),
        ('a: "x\nb: 1\n', "a quote is not closed"),
        ("a: 'x\n", "a quote is not closed"),
        ("a: [1,\n2\n", "a bracket or brace is not closed"),
        ("a: {b: 1\nc: 2\n", "a bracket or brace is not closed"),
        ("a: 1\n b: 2\n", "does not follow on"),
        ("a: 1\n  b\nc\n", "does not follow on"),
        ("a: 1\n---\nb: 2\n", "a second document"),
        ("? [a]\n: b\n", "where a key should"),
        ("{a: 1}: b\n", "where a key should"),
        ('a: "\\e[31m"\n', "U+001B"),
        ('a: "\\ue0040\\ue001"\n', "U+E004"),
        ('a: "\\0"\n', "U+0000"),
        ("a: x\x7fy\n", "a character that YAML does not allow"),
        ("é🧶: \x80\n", "a character that YAML does not allow"),
    ],
)
def test_what_is_no_yaml_is_told_in_words(text: str, words: str) -> None:
    _, report = read(text)
    (found,) = report.findings()
    assert found.page.code == "SP012"
    assert words in found.headline
    assert "None" not in found.headline


def test_a_character_that_yaml_refuses_is_shown_where_it_stands() -> None:
    """The parser's own count is in bytes; an accent before the place must not move it."""
    _, report = read("é: 🧶\nb: é\x80\n")
    span = report.findings()[0].primary.span
    assert span.file.line_column(span.start) == (2, 5)


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n", "---\n...\n"])
def test_nothing_is_read_as_nothing(text: str) -> None:
    tree, report = read(text)
    assert report.findings() == ()
    assert tree is None or plain(tree) == ""
