"""Input of any kind: sources that no designer meant, each answered by a report that names a place, and never by a crash.

Each case is the smallest pattern with one thing put in its way. What is asked of all of them: exit code 1 or 2, the expected
rule among the reports, a place that exists, nothing of our own failures. The numbers and sizes of the cases are invented.
"""

from __future__ import annotations

import os
import re
import signal
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType

import pytest

from stitchproof.command_line import main
from tests.checks.smallest_pattern import SMALLEST, SMALLEST_TEXT

Files = dict[str, str | bytes | None]
"""Name in the pattern's folder → what stands in it; None takes the file away."""
GIVES_UP_AFTER = 60
"""Seconds. A guard against a run that never ends; no case is timed."""
ROW = "Row 1: Sc in each st across.\n"
SLOT = "<nothing>"
"""A name that no pattern here has: shows that a text was read to its end."""
MANY_SIZES = ", ".join(f"n{number}" for number in range(5000))
LAUGHS = "a: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
    f"{this}: &{this} [{','.join([f'*{before}'] * 9)}]\n" for before, this in zip("abcdefgh", "bcdefghi", strict=True)
)

HEADERS: dict[str, tuple[str, str | bytes]] = {
    "empty": ("SP019", ""),
    "a comment only": ("SP019", "# later\n"),
    "null": ("SP018", "~\n"),
    "one word": ("SP018", "hello\n"),
    "a list": ("SP018", "- a\n- b\n"),
    "a web page": ("SP018", "<!doctype html><html><body>Hi</body></html>"),
    "a picture": ("SP011", b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\xff\xfe"),
    "UTF-16": ("SP011", "dialect: 1\n".encode("utf-16")),
    "Latin-1": ("SP011", "dialect: 1\ntitle: Mütze\n".encode("latin-1")),
    "a zero byte": ("SP011", "dialect: 1\ntitle: a\0b\n"),
    "larger than two megabytes": ("SP016", "#" + "x" * 2_000_001),
    "a tab for blanks": ("SP012", "dialect: 1\n\ttitle: x\n"),
    "nested a thousand deep": ("SP016", "dialect: 1\n" + "".join(f"{' ' * depth}a:\n" for depth in range(1000))),
    "dashes five thousand deep": ("SP016", "- " * 5000 + "x\n"),
    "another version of YAML": ("SP013", "%YAML 9.9\n---\ndialect: 1\n"),
    "a tag of its own": ("SP015", "%TAG ! tag:x,2000:\n---\n!a dialect: 1\n"),
}
"""The whole of pattern.yaml."""

FRAGMENTS: dict[str, tuple[str, str]] = {
    # YAML
    "a quote not closed": ("SP012", 'summary: "never closed\n'),
    "a bracket not closed": ("SP012", "materials: [a, b\n"),
    "a hundred thousand brackets": ("SP012", f"materials: {'[' * 100_000}\n"),
    "brackets five thousand deep": ("SP012", f"materials: {'[' * 5000}{']' * 5000}\n"),
    "a line set in wrongly": ("SP012", "gauges:\n  fabric: {stitches: 16, over: 10 cm}\n extra: 3\n"),
    "a second document": ("SP012", "---\ndialect: 1\n"),
    "a list as a key": ("SP012", "? [a, b]\n: c\n"),
    "an escape that does not print": ("SP012", 'summary: "a\\u0007b"\n'),
    "half a character by an escape": ("SP012", 'summary: "a\\ud800b"\n'),
    "a comma in braces": ("SP013", "measures: {a: max(3 cm, 4 cm)}\n"),
    "a value that begins with a star": ("SP013", "summary: *nothing\n"),
    "a value that holds itself": ("SP013", "materials: &a [x, *a]\n"),
    "a value that begins with %": ("SP013", "summary: %x\n"),
    "a value cut at #": ("SP013", "summary: Rnd #2\n"),
    "a colon in a value": ("SP013", "summary: Note: this\n"),
    "text after a list": ("SP013", "materials: [a] b\n"),
    "a key written twice": ("SP014", "summary: A\nsummary: B\n"),
    "a command to run": ("SP015", 'summary: !!python/object/apply:os.system ["true"]\n'),
    "references that multiply": ("SP016", LAUGHS),
    "thirty thousand items": ("SP016", f"materials: [{'a,' * 30_000}a]\n"),
    "a merge key": ("SP017", "<<: {title: x}\n"),
    "a huge line": ("SP007", f"summary: {'word ' * 200_000}{SLOT}\n"),
    "a mark of byte order inside": ("SP007", f"summary: a\ufeffb {SLOT}\n"),
    "emoji": ("SP007", f"summary: 🧶 {SLOT}\n"),
    # keys, and the kind of value they take
    "an unknown key": ("SP017", "colour: red\n"),
    "a misspelt key": ("SP017", "guages: {}\n"),
    "an unknown key in a gauge": ("SP017", "gauges: {fabric: {stitches: 16, over: 10 cm, needle: 4 mm}}\n"),
    "another dialect": ("SP032", "dialect: 2\n"),
    "a dialect that is a list": ("SP018", "dialect: [1]\n"),
    "a title left empty": ("SP019", "title:\n"),
    "a title that is a list": ("SP018", "title: [a, b]\n"),
    "a date that is a map": ("SP018", "date: {year: 2026}\n"),
    "unknown terms": ("SP018", "terms: FR\n"),
    "unknown units": ("SP018", "units: furlongs\n"),
    "materials that are a map": ("SP018", "materials: {a: b}\n"),
    "an audience of lists": ("SP018", "audience: [[adult]]\n"),
    "sizes that are a word": ("SP018", "sizes: S\n"),
    "no sizes": ("SP018", "sizes: {names: []}\n"),
    "sizes without a name": ("SP018", 'sizes: {names: ["", " "]}\n'),
    "sizes that are lists": ("SP018", "sizes: {names: [[S]]}\n"),
    "a size named twice": ("SP014", "sizes: {names: [S, M, S]}\n"),
    "sixty-one sizes": ("SP018", f"sizes: {{names: [{', '.join(f'n{number}' for number in range(61))}]}}\n"),
    "five thousand sizes": ("SP018", f"sizes: {{names: [{MANY_SIZES}]}}\n"),
    "brackets for more sizes than there are": ("SP018", "sizes: {names: [S, M], groups: [9]}\n"),
    "sizes called by both": ("SP018", "sizes: {names: [S, M], called_by: both}\n"),
    "gauges that are a word": ("SP018", "gauges: word\n"),
    "a gauge that is a number": ("SP018", "gauges: {fabric: 16}\n"),
    "a gauge over no length": ("SP022", "gauges: {fabric: {stitches: 16, over: 0 cm}}\n"),
    "a gauge without a unit": ("SP009", "gauges: {fabric: {stitches: 16, over: 10}}\n"),
    "a gauge of minus sixteen": ("SP008", "gauges: {fabric: {stitches: -16, over: 10 cm}}\n"),
    "a gauge of words": ("SP007", "gauges: {fabric: {stitches: many, over: 10 cm}}\n"),
    "a gauge over itself": ("SP021", "gauges: {fabric: {stitches: fabric.stitches, over: 10 cm}}\n"),
    "a rate without stitches": ("SP019", "rates: {edge: {per: 2 ribs}}\n"),
    "a rate of none": ("SP034", "rates: {edge: {sts: 0, per: 2 ribs}}\n"),
    "a rate too large to go through": (
        "SP023",
        'rates: {edge: {sts: 5, per: 2 ribs}}\ncounts: {a: "edge_for(edge, 999999999999999 sts)"}\n',
    ),
    "counts that are a list": ("SP018", "counts: [a, b]\n"),
    "must_hold that is a map": ("SP019", "must_hold: {a: b}\n"),
    "must_hold that is a number": ("SP008", "must_hold:\n  - that: 3 cm\n"),
    "pieces that are a list": ("SP018", "pieces: [piece]\n"),
    "no pieces": ("SP035", "pieces: {}\n"),
    "a piece at no gauge": ("SP033", "pieces: {piece: {gauge: nowhere}}\n"),
    "a piece worked sideways": ("SP033", "pieces: {piece: {worked: sideways}}\n"),
    "a piece in no size": ("SP033", "pieces: {piece: {sizes: [XXL]}}\n"),
    "an offset fabric that is a word": ("SP018", "pieces: {piece: {offset_fabric: yes}}\n"),
    "an offset fabric without a total": ("SP019", "pieces: {piece: {offset_fabric: {worked: rows}}}\n"),
    "a measurement that is no slot": ("SP018", "finished: {Bust: 50}\n"),
    "a stitch without a name": ("SP019", "special_stitches: {puff: {how: Yo three times.}}\n"),
    "a caution that is not shipped": ("SP036", "cautions: [no_such_rule]\n"),
    "a caution for no size": ("SP029", "cautions:\n  - {rules: [infant_sleep], sizes: [XXL]}\n"),
    "a slot not closed in the summary": ("SP024", "summary: a <b\n"),
    # texts that are named
    "a text that is not there": ("SP011", "texts: [other.md]\n"),
    "a text by its whole path": ("SP011", "texts: [/etc/passwd]\n"),
    "a text outside": ("SP011", "texts: [../../outside.md]\n"),
    "a text without a name": ("SP011", 'texts: [""]\n'),
    "a text that is the folder": ("SP011", "texts: [.]\n"),
    "a text with a name of five thousand letters": ("SP011", f"texts: [{'n' * 5000}.md]\n"),
    "a text named twice": ("SP035", "texts: [text.md, text.md]\n"),
    # names
    "a name with a hyphen": ("SP037", "counts: {cuff-sts: 4 sts}\n"),
    "a name with a blank": ("SP037", "counts: {cuff sts: 4 sts}\n"),
    "a name that begins with a digit": ("SP037", "counts: {2nd: 4 sts}\n"),
    "a name that is empty": ("SP037", 'counts: {"": 4 sts}\n'),
    "a name with a meaning of its own": ("SP037", "counts: {max: 4 sts}\n"),
    "a name given twice": ("SP037", "counts: {a: 4 sts}\nmeasures: {a: 4 cm}\n"),
    # numbers that hang together
    "a circle of a thousand": ("SP021", "counts:\n" + "".join(f"  a{n}: a{(n + 1) % 1000}\n" for n in range(1000))),
    "three thousand, the last unknown": (
        "SP007",
        "counts:\n" + "".join(f"  a{n}: a{n + 1} + 1\n" for n in range(3000)),
    ),
    "a circle over a parameter": ("SP021", "counts: {a(k): b(k), b(k): a(k), c: a(3)}\n"),
    "a step forward for a step back": ("SP021", "counts: {a(k): {start: 1 sts, is: a(k + 1)}, c: a(3)}\n"),
    "a million steps back": ("SP034", "counts: {a(k): {start: 1 sts, is: a(k - 1) + 1}, c: a(999999)}\n"),
    "a number that doubles its digits": (
        "SP023",
        "counts: {a(k): {start: 7, is: a(k - 1) * a(k - 1), unit: times}, c: {is: a(4000), unit: times}}\n",
    ),
}
"""A fragment of pattern.yaml; its keys take the place of those of the smallest pattern."""

FORMULAS: dict[str, tuple[str, str]] = {
    "nothing": ("SP018", ""),
    "null": ("SP020", "~"),
    "yes": ("SP007", "yes"),
    "itself": ("SP021", "a + 1 sts"),
    "a circle": ("SP021", "b\n  b: a"),
    "divided by nothing": ("SP022", "4 sts / 0"),
    "divided by what comes to nothing": ("SP022", "4 sts / b\n  b: {is: 3 - 3, unit: times}"),
    "sixteen digits": ("SP020", "1234567890123456 sts"),
    "four hundred digits": ("SP020", f"{'1' * 400} sts"),
    "a thousand sums": ("SP020", "1 sts" + " + 1 sts" * 1000),
    "two hundred sums": ("SP020", "1 sts" + " + 1 sts" * 200),
    "brackets three hundred deep": ("SP020", "(" * 300 + "1 sts" + ")" * 300),
    "five hundred minus signs": ("SP020", "-" * 500 + "1 sts"),
    "choices sixty deep": ("SP020", "1 sts if 1 > 2 else " * 60 + "3 sts"),
    "a bracket not closed": ("SP020", "(1 sts"),
    "words in quotes": ("SP020", "\"'x'\""),
    "a power of ten": ("SP020", "1e9 sts"),
    "two comparisons in one": ("SP020", "1 sts if 1 < 2 < 3 else 2 sts"),
    "a comma for a point": ("SP020", '"1,5 sts"'),
    "½": ("SP020", "½ sts"),
    "emoji": ("SP020", "🧶"),
    "a letter with a mark of its own": ("SP020", "e\u0301 + 1 sts"),
    "a sign that turns the line around": ("SP020", "\u202e3 sts"),
    "a blank of no width": ("SP020", "3\u200b sts"),
    "stitches and centimetres": ("SP008", "3 sts + 4 cm"),
    "an unknown function": ("SP007", "sqrt(4 sts)"),
    "too few values in brackets": ("SP034", "max(4 sts)"),
    "the largest of nothing": ("SP023", '"largest(n, 1 sts, 9 sts, n > 10)"'),
    "the largest of too many": ("SP023", '"largest(n, 1 sts, 999999999999999 sts, n < 0)"'),
    "the largest of the largest": ("SP023", '"largest(n, 1 sts, 9999 sts, largest(m, 1 sts, 9999 sts, m < 0) > 0)"'),
    "rounded to nothing": ("SP022", '"nearest(4 sts, 0 sts)"'),
    "too few sizes": ("SP006", "[4 sts]"),
    "too many sizes": ("SP006", "[1 sts, 2 sts, 3 sts]"),
    "lists in a list": ("SP018", "{by_hand: [[1], [2]], unit: sts}"),
    "a formula and values": ("SP018", "{is: 4 sts, by_hand: [1, 2]}"),
    "no value": ("SP018", "{why: later}"),
    "a multiple of nothing": ("SP033", "{is: 4 sts, multiple: 0}"),
    "a multiple that is a word": ("SP018", "{is: 4 sts, multiple: odd}"),
    "rounded sideways": ("SP033", "{is: 4 sts, round: sideways}"),
    "an unknown unit": ("SP033", "{is: 4, unit: furlong}"),
    "at no gauge": ("SP033", "{is: 4 sts, gauge: nowhere}"),
    "a bound of another kind": ("SP008", "{is: 4 sts, at_least: 3 cm}"),
    "below nothing": ("SP038", "-4 sts"),
}
"""The value of a count called `a`."""

TEXTS: dict[str, tuple[str, str]] = {
    # slots
    "a slot not closed": ("SP024", "Row 1: <a\n"),
    "a slot not closed at the end of the file": ("SP024", "Row 1: <a"),
    "a slot over two lines": ("SP024", "Row 1: <a\n>\n"),
    "three thousand slots not closed": ("SP024", f"Row 1: {'<' * 3000}a\n"),
    "a script": ("SP007", "Row 1: <script>alert(1)</script>\n"),
    "an unknown way of printing": ("SP020", "Row 1: <4 sts as furlongs>\n"),
    "a slot five hundred brackets deep": ("SP020", f"Row 1: <{'(' * 500}1{')' * 500}>\n"),
    "a slot of five thousand letters": ("SP020", f"Row 1: <{'a' * 5000}>\n"),
    "a slot divided by nothing": ("SP022", "Row 1: <4 / 0>\n"),
    "part of a stitch": ("SP001", "Row 1: Sc in next <4 sts / 3> sts.\n"),
    "a placeholder": ("SP010", "Row 1: XX sc.\n"),
    # Jinja
    "a loop over nothing": ("SP025", "{% for %}\n"),
    "an expression not closed": ("SP025", "{{ \n"),
    "a statement not closed": ("SP025", "{% \n"),
    "an if not closed": ("SP025", "{% if true %}\nx\n"),
    "an end without a beginning": ("SP025", "{% endfor %}\n"),
    "an unknown statement": ("SP025", "{% frobnicate %}\n"),
    "a comment not closed": ("SP025", "{# never closed\n"),
    "raw text not closed": ("SP025", "{% raw %} never closed\n"),
    "a quote not closed": ("SP025", '{{ "never closed }}\n'),
    "a block named twice": ("SP027", "{% block a %}{% block a %}{% endblock %}{% endblock %}\n"),
    "a variable that is not set": ("SP027", "{{ nothing }}\n"),
    "part of a variable that is not set": ("SP027", "{{ nothing.more }}\n"),
    "a remainder by nothing": ("SP027", "{{ 1 % 0 }}\n"),
    "a power of a power": ("SP026", "{{ 9**9**9 }}\n"),
    "a text a thousand million times": ("SP026", '{{ "a" * 10**9 }}\n'),
    "a macro that calls itself": ("SP027", "{% macro a() %}{{ a() }}{% endmacro %}\n{{ a() }}\n"),
    "a text that holds itself": ("SP027", '{% include "text.md" %}\n'),
    "a text that builds on itself": ("SP027", '{% extends "text.md" %}\n'),
    "a text that is nowhere": ("SP027", '{% include "none.md" %}\n'),
    "a text of the machine": ("SP027", '{% include "../../../../../../etc/passwd" %}\n'),
    "a library": ("SP027", '{% import "os" as os %}{{ os.system("true") }}\n'),
    "the inside of Python": ("SP027", "{{ ''.__class__.__mro__ }}\n"),
    "the inside of Python by a format": ("SP027", "{{ '%s' % 3 }} {{ '{0.__class__}'.format(3) }}\n"),
    "a hundred million rounds": ("SP027", "{% for i in upto(100000000) %}x{% endfor %}\n"),
    "three loops of three hundred": ("SP027", "{% for a in upto(300) %}" * 3 + "x" + "{% endfor %}" * 3 + "\n"),
    "an unknown filter": ("SP027", '{{ "a"|nothing }}\n'),
    "an unknown test": ("SP027", '{{ "a" is nothing }}\n'),
    "a number that is called": ("SP027", "{{ 3() }}\n"),
    "an item that is not there": ("SP027", "{{ [1][9] }}\n"),
    "a loop that calls itself with a number": ("SP027", "{% for a in [[1]] recursive %}{{ loop(a) }}{% endfor %}\n"),
    "escaping for the web": ("SP027", "{% autoescape true %}x{% endautoescape %}\n"),
    "a character kept for the compiler, by an escape": ("SP027", '{{ "\\ue000" }}\n'),
    # blocks
    "a block not closed": ("SP028", "::: note\nx\n"),
    "a block closed that was not opened": ("SP028", ":::\n"),
    "an unknown block": ("SP031", "::: frobnicate\nx\n:::\n"),
    "a passage for no size": ("SP029", "::: sizes XXL\nx\n:::\n"),
    "a passage without a condition": ("SP029", "::: sizes with\nx\n:::\n"),
    "a passage with half a condition": ("SP020", "::: sizes with 3 >\nx\n:::\n"),
    "a passage with a number": ("SP008", "::: sizes with 3 sts\nx\n:::\n"),
    "a part for no size": ("SP029", "Row 1: x\n  sizes XXL: y\n"),
    "a loop to nowhere": ("SP007", "::: for each k in 1 to nothing\nRow <k>: x\n:::\n"),
    "loops of a million rounds": (
        "SP027",
        "::: for each a in 1 to 999\n::: for each b in 1 to 999\nRow <a>: x\n:::\n:::\n",
    ),
    "made no times": ("SP031", "::: make 0\nx\n:::\n"),
    # what is read to its end
    "a line of twenty thousand stitches": ("SP007", f"Row 1: {'sc, ' * 20_000}{SLOT}\n"),
    "a thousand rows": ("SP007", ROW * 1000 + f"Row 2: {SLOT}\n"),
    "a letter under five thousand marks": ("SP007", f"Row 1: e{chr(0x301) * 5000} {SLOT}\n"),
    "a line turned around": ("SP007", f"Row 1: \u202e {SLOT}\n"),
    "emoji": ("SP007", f"{'🧶' * 50} {SLOT}\n"),
    "a table": ("SP007", f"|a|\n|-|\n|{SLOT}|\n"),
    "twenty thousand brackets": ("SP007", f"## Notes\n\n{'[' * 20_000} {SLOT}\n"),
    "twenty thousand stars": ("SP007", f"## Notes\n\n{'*a ' * 20_000} {SLOT}\n"),
}
"""What stands under the heading of the piece."""

UNSET = f"summary: {SLOT}\n"
FOLDERS: dict[str, tuple[str, Files]] = {
    "no pattern.yaml": ("SP011", {"pattern.yaml": None}),
    "no dialect": ("SP019", {"pattern.yaml": "title: x\nsizes: {names: [S]}\n"}),
    "no title": ("SP019", {"pattern.yaml": "dialect: 1\nsizes: {names: [S]}\n"}),
    "lines that end as on Windows": (
        "SP007",
        {"pattern.yaml": ("".join(SMALLEST.values()) + UNSET).replace("\n", "\r\n")},
    ),
    "lines that end as on old machines": (
        "SP007",
        {"pattern.yaml": ("".join(SMALLEST.values()) + UNSET).replace("\n", "\r")},
    ),
    "a mark of byte order in front": ("SP007", {"pattern.yaml": "\ufeff" + "".join(SMALLEST.values()) + UNSET}),
    "no end of the last line": ("SP007", {"pattern.yaml": ("".join(SMALLEST.values()) + UNSET).rstrip()}),
    "a text that is a photo": ("SP011", {"text.md": b"\xff\xd8\xff\xe0"}),
    "a text with a character kept for the compiler": ("SP011", {"text.md": "\ue000\n"}),
    "a text with a bell": ("SP011", {"text.md": "Row 1: \x07\n"}),
    "a text with a zero": ("SP011", {"text.md": "Row \0\n"}),
    "a piece nobody knows": ("SP035", {"text.md": "## Piece {nobody}\n"}),
    "a piece begun twice": ("SP035", {"text.md": f"{SMALLEST_TEXT}\n{ROW}\n{SMALLEST_TEXT}\n{ROW}"}),
    "rows before any heading": ("SP007", {"text.md": f"Row 1: {SLOT}\n"}),
    "two hundred and one texts": ("SP016", {f"t{number:03}.md": "" for number in range(201)}),
    "a text with an odd name": ("SP007", {"näme (1) <x>; 'y' 🧶.md": f"{SLOT}\n"}),
    "a text with a name of two lines": ("SP007", {"a\nb.md": f"{SLOT}\n"}),
    "a text with a name that turns the line around": ("SP007", {"\u202edm.md": f"{SLOT}\n"}),
}
"""Files beside or in place of those of the smallest pattern."""


def _folder(path: Path) -> None:
    path.mkdir()


def _link_out(path: Path) -> None:
    outside = path.parents[2] / "outside.md"
    outside.write_text("secret\n", encoding="utf-8")
    path.symlink_to(outside)


def _link_to_nothing(path: Path) -> None:
    path.symlink_to("nowhere")


def _link_to_itself(path: Path) -> None:
    path.symlink_to(path.name)


def _endless(path: Path) -> None:
    path.symlink_to("/dev/zero")


ODD_FILES: dict[str, Callable[[Path], None]] = {
    "a folder": _folder,
    "a pipe that nobody writes to": lambda path: os.mkfifo(path),
    "a link out of the folder": _link_out,
    "a link to nothing": _link_to_nothing,
    "a link to itself": _link_to_itself,
    "a link to an endless file": _endless,
}
"""What stands where a file should."""

FAILS_INSIDE = "our own failure: nesting is not bounded before it is followed"
GOES_SILENT = "what was written is lost without a report"
NOT_YET: dict[str, tuple[str, str, str]] = {
    "Jinja loops two hundred deep": (FAILS_INSIDE, "", "{% for i in [1] %}" * 200 + "x" + "{% endfor %}" * 200 + "\n"),
    "Jinja ifs a thousand deep": (FAILS_INSIDE, "", "{% if true %}" * 1000 + "x" + "{% endif %}" * 1000 + "\n"),
    "Jinja brackets three thousand deep": (FAILS_INSIDE, "", f"{{{{ {'(' * 3000}1{')' * 3000} }}}}\n"),
    "Jinja nots three thousand deep": (FAILS_INSIDE, "", f"{{{{ {'not ' * 3000}1 }}}}\n"),
    "blocks five hundred deep": (FAILS_INSIDE, "", "::: note\n" * 500 + ":::\n" * 500),
    "loop blocks a hundred deep": (
        FAILS_INSIDE,
        "",
        "".join(f"::: for each k{n} in 1 to 1\n" for n in range(100)) + ROW + ":::\n" * 100,
    ),
    "a loop block of a thousand million": (GOES_SILENT, "", "::: for each k in 1 to 999999999\nRow <k>: x\n:::\n"),
    "quotations twenty deep": (GOES_SILENT, "", f"## Notes\n\n{'> ' * 20}a {SLOT}\n"),
    "half a character in a template": (GOES_SILENT, "", '{{ "\\ud800" }}\n'),
}
"""Why, the expected rule if there is one yet, and what stands under the heading of the piece."""


@pytest.fixture(autouse=True)
def gives_up() -> Iterator[None]:
    """End a run that does not end by itself."""

    def stop(_signal: int, _frame: FrameType | None) -> None:
        raise TimeoutError("the run did not end by itself")

    held = signal.signal(signal.SIGALRM, stop)
    signal.alarm(GIVES_UP_AFTER)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, held)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The smallest pattern, in a workspace of its own."""
    pattern = tmp_path / "pattern_sources" / "bad"
    pattern.mkdir(parents=True)
    (pattern / "pattern.yaml").write_text("".join(SMALLEST.values()), encoding="utf-8")
    (pattern / "text.md").write_text(f"{SMALLEST_TEXT}\n{ROW}", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return pattern


def test_the_smallest_pattern_is_good(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What the cases start from has no fault, so that each fault is the case's own."""
    assert main(["check", str(folder)]) == 0
    assert "nothing found" in capsys.readouterr().err


@pytest.mark.parametrize("name", HEADERS)
def test_headers(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All of pattern.yaml is something else."""
    code, content = HEADERS[name]
    _put(folder, {"pattern.yaml": content})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", FRAGMENTS)
def test_fragments(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One part of pattern.yaml is wrong."""
    code, fragment = FRAGMENTS[name]
    _put(folder, {"pattern.yaml": _merged(fragment)})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", FORMULAS)
def test_formulas(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One number is wrong."""
    code, formula = FORMULAS[name]
    _put(folder, {"pattern.yaml": _merged(f"counts:\n  a: {formula}\n")})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", TEXTS)
def test_texts(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One text is wrong."""
    code, text = TEXTS[name]
    _put(folder, {"text.md": f"{SMALLEST_TEXT}\n{text}"})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", FOLDERS)
def test_folders(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file is missing, is no text, or has a name that nobody expects."""
    code, files = FOLDERS[name]
    _put(folder, files)
    _refused(folder, code, capsys)


@pytest.mark.parametrize("file", ["pattern.yaml", "text.md"])
@pytest.mark.parametrize("name", ODD_FILES)
def test_odd_files(name: str, file: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What stands in the place of a file is no file of this folder; nothing of it is read or shown."""
    (folder / file).unlink()
    ODD_FILES[name](folder / file)
    assert "secret" not in _refused(folder, "SP011", capsys)


@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.xfail(reason=NOT_YET[name][0])) for name in NOT_YET]
)
def test_not_yet(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Known to be answered wrongly; a case that is mended fails here and moves to its table."""
    _, code, text = NOT_YET[name]
    _put(folder, {"text.md": f"{SMALLEST_TEXT}\n{text}"})
    _refused(folder, code, capsys)


@pytest.mark.parametrize("name", ["nowhere", "pattern_sources/bad/text.md", "a\nb", "a\0b", "x" * 5000, ""])
def test_patterns_that_are_not_there(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """No folder, no pattern: the command says so and does not run."""
    assert folder.is_dir()
    assert main(["check", name]) == 2
    assert capsys.readouterr().err.strip()


def _merged(fragment: str) -> str:
    """The smallest pattern.yaml with the keys of a fragment in place of its own."""
    own = set(re.findall(r"^(\w+):", fragment, re.MULTILINE))
    return "".join(text for key, text in SMALLEST.items() if key not in own) + fragment


def _put(folder: Path, files: Files) -> None:
    for name, content in files.items():
        if content is None:
            (folder / name).unlink()
        else:
            (folder / name).write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))


def _refused(folder: Path, code: str, capsys: pytest.CaptureFixture[str]) -> str:
    """Check the pattern; hold what is asked of every bad source. What was printed."""
    exit_code = main(["check", str(folder)])
    printed = capsys.readouterr()
    said = printed.out + printed.err
    assert exit_code in (1, 2), said
    assert "SP000" not in said
    assert "Traceback" not in said
    reports = re.findall(r"^(?:error|warning|note)\[(SP\d{3}) ", said, re.MULTILINE)
    assert code in reports or (reports and not code), said
    places = re.findall(r"--> pattern_sources/bad/(?P<name>[^:]*):(?P<line>\d+):(?P<column>\d+)$", said, re.MULTILINE)
    assert places, said
    for name, line, _ in places:
        assert int(line) <= max(1, _lines(folder / name)), said
    return said


def _lines(path: Path) -> int:
    """Lines of a file, by any of the three ways to end one; none where there is no file to read."""
    return len(re.split(rb"\r\n|\r|\n", path.read_bytes())) if path.is_file() and not path.is_symlink() else 0
