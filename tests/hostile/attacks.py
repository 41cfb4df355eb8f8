"""What a stranger may put into a pattern, as a table: each attack is one line of what is put where, and what must come of it.

All files are invented. `SECRET` lies outside of everything that may be read; nothing of it may be printed or written.
"""

# ruff: noqa: E501  # a line to an attack

from __future__ import annotations

import os
import struct
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

from msgspec import Struct

from tests.checks.smallest_pattern import SMALLEST, SMALLEST_TEXT

SECRET = "the-words-of-somebody-else"  # noqa: S105  # no password
ROW = "Row 1: Sc in each st across.\n"
CHECK = ("check", "bad")
LISTING = ("build", "bad", "--edition", "listing")
PAGES = ("build", "bad", "--edition", "all_sizes")
Content = str | bytes | Callable[[Path], None]
"""What stands in a file, or what puts something else in its place."""


class Attack(Struct, frozen=True):
    """files: by their paths from the pattern's folder (`../..` is the workspace, `../../..` lies outside), or what makes them. expected: a code
    among the reports, "clean", or words of the refusal. command: what is run. never: words that stand nowhere afterwards."""

    name: str
    files: dict[str, Content] | Callable[[], dict[str, Content]]
    expected: str
    command: tuple[str, ...] = CHECK
    never: tuple[str, ...] = ()


def header(*fragments: str) -> str:
    """The smallest pattern.yaml with top-level keys put in place of its own."""
    own = {line.partition(":")[0] for fragment in fragments for line in fragment.split("\n")}
    return "".join([*(text for key, text in SMALLEST.items() if key not in own), *fragments])


def text(body: str) -> dict[str, Content]:
    """The text of the pattern."""
    return {"text.md": f"{SMALLEST_TEXT}\n{ROW}\n{body}"}


def yaml(*fragments: str) -> dict[str, Content]:
    """pattern.yaml with these in it."""
    return {"pattern.yaml": header(*fragments)}


def link(to: str) -> Content:
    """A link to a place outside, by its path from the folder around everything; or to an absolute one."""
    return lambda path: path.symlink_to(to if to.startswith("/") else _around(path) / to)


def _around(path: Path) -> Path:
    return Path(*path.parts[: path.parts.index("workspace")])


def pipe(path: Path) -> None:
    """A pipe that nobody writes to: whoever opens it waits for ever."""
    os.mkfifo(path)


def png(width: int, height: int, data: bytes = b"\0\0\0\0", *more: tuple[bytes, bytes]) -> bytes:
    """A picture that says so many dots, whatever it holds."""
    chunks = [(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)), *more]
    chunks += [(b"IDAT", zlib.compress(data)), (b"IEND", b"")]
    made = b"".join(struct.pack(">I", len(c)) + n + c + struct.pack(">I", zlib.crc32(n + c)) for n, c in chunks)
    return b"\x89PNG\r\n\x1a\n" + made


def packed(**inside: bytes) -> bytes:
    """A zip file."""
    held = BytesIO()
    with ZipFile(held, "w", ZIP_DEFLATED) as made:
        for name, content in inside.items():
            made.writestr(name.replace("__", "/"), content)
    return held.getvalue()


def photo(content: Content, name: str = "front.png") -> dict[str, Content]:
    """A pattern with a photo."""
    return {**yaml(f"photos: {{front: {{file: {name}, alt: A hat}}}}\n"), **({name: content} if content else {})}


def style(template: str, **files: Content) -> dict[str, Content]:
    """An edition of the pattern's own, `evil`: one text template, and files beside it."""
    return {
        "styles/evil/edition.yaml": "title: Evil\nparts: []\ntexts: {txt: evil.txt.j2}\n",
        "styles/evil/evil.txt.j2": template,
        **{name.replace("__", "/"): content for name, content in files.items()},
    }


EVIL = ("build", "bad", "--edition", "evil")
FORMULAS = "sizes: {names: [S, M]}\n"
LAUGHS = "a: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
    f"{this}: &{this} [{','.join([f'*{before}'] * 9)}]\n" for before, this in zip("abcdefgh", "bcdefghi", strict=True)
)
SVG = "<svg xmlns='http://www.w3.org/2000/svg'><script>fetch('http://evil.example')</script></svg>"
ENTITIES = f"<?xml version='1.0'?><!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/passwd'>]>{SVG}"
SCRIPT = "<script>alert(1)</script>"
IMAGE = "<img/onerror=alert>"

JINJA = [
    Attack("attributes up to all classes", text("{{ ''.__class__.__mro__[1].__subclasses__() }}\n"), "SP027"),
    Attack("attributes by brackets", text("{{ ''['__class__']['__base__'] }}\n"), "SP027"),
    Attack("attributes by a filter", text("{{ ''|attr('__class__') }}\n"), "SP027"),
    Attack("attributes by a filter over a list", text("{{ ['']|map(attribute='__class__')|list }}\n"), "SP027"),
    Attack("a stored format method", text("{% set f = '{0.__class__}'.format %}{{ f('') }}\n"), "SP027"),
    Attack("a format with an index", text("{{ '{0[0].__globals__}'.format([1]) }}\n"), "SP027"),
    Attack("a format_map", text("{{ '{a.__class__}'.format_map({'a': 1}) }}\n"), "SP027"),
    Attack("a width of a thousand million", text("{{ '%999999999d' % 1 }}\n"), "SP027"),
    Attack("globals of a macro", text("{% macro m() %}{% endmacro %}{{ m.__globals__ }}\n"), "SP027"),
    Attack("globals of a loop", text("{% for a in [1] %}{{ loop.__init__.__globals__ }}{% endfor %}\n"), "SP027"),
    Attack("the environment of itself", text("{{ self.__init__.__globals__ }}\n"), "SP027"),
    Attack("the context of itself", text("{{ self._TemplateReference__context }}\n"), "SP027"),
    Attack("a cycler's globals", text("{{ cycler.__init__.__globals__.os.system('id') }}\n"), "SP027"),
    Attack("joiner, namespace, lipsum", text("{{ lipsum.__globals__ }}{{ joiner() }}\n"), "SP027"),
    Attack("a library by import", text("{% import 'os' as os %}{{ os.system('id') }}\n"), "SP027"),
    Attack("a file by include", text("{% include '/etc/passwd' %}\n"), "SP027"),
    Attack("a file by include, upward", text("{% include '../../../outside/secret.md' %}\n"), "SP027"),
    Attack("a file by include, in pieces", text("{% include '../..' ~ '/../outside/secret.md' %}\n"), "SP027"),
    Attack("a file by extends", text("{% extends '../../../outside/secret.md' %}\n"), "SP027"),
    Attack("an include for each name of a list", text("{% include ['a', '../../../outside/secret.md'] %}\n"), "SP027"),
    Attack("a long loop", text("{% for a in upto(999999999) %}x{% endfor %}\n"), "SP027"),
    Attack("loops in loops", text("{% for a in upto(9999) %}" * 3 + "{% endfor %}" * 3 + "\n"), "SP027"),
    Attack(
        "a text doubled sixty times", text("{% set x = 'aa' %}" + "{% set x = x ~ x %}" * 60 + "{{ x }}\n"), "SP027"
    ),
    Attack(
        "a list doubled sixty times",
        text("{% set x = [1] %}" + "{% set x = [x, x] %}" * 60 + "{{ x|join }}\n"),
        "SP027",
    ),
    Attack("a text times a number", text("{{ 'a' * 999999999 }}\n"), "SP026"),
    Attack("a power of a power", text("{{ 9 ** 9 ** 9 }}\n"), "SP026"),
    Attack("debugging", text("{% debug %}\n"), "SP025"),
    Attack("a statement of an extension", text("{% do [].append(1) %}\n"), "SP025"),
    Attack("a list that grows", text("{% set x = [] %}{{ x.append(1) }}\n"), "SP027"),
    Attack("mails and addresses made live", text("{{ 'http://evil.example'|urlize }}\n"), "SP027"),
]

YAML = [
    Attack("references that multiply", yaml(LAUGHS), "SP016"),
    Attack("a value that holds itself", yaml("materials: &a [x, *a]\n"), "SP013"),
    Attack("a merge key", yaml("base: &b {title: x}\n<<: *b\n"), "SP017"),
    Attack("a command by a tag", yaml('summary: !!python/object/apply:os.system ["id"]\n'), "SP015"),
    Attack("a module by a tag", yaml('summary: !!python/module:os ""\n'), "SP015"),
    Attack("a name by a tag", yaml('summary: !!python/name:os.system ""\n'), "SP015"),
    Attack("bytes by a tag", yaml("summary: !!binary aGVsbG8=\n"), "SP015"),
    Attack("lists ten thousand deep", yaml(f"materials: {'[' * 10_000}\n"), "SP012"),
    Attack("maps ten thousand deep", yaml("summary: " + "{a: " * 10_000 + "\n"), "SP016"),
    Attack("a scalar of two million letters", yaml(f"summary: {'x' * 2_100_000}\n"), "SP016"),
    Attack("a number in sixties without end", yaml(f"revision: {'1' + ':1' * 200_000}\n"), "clean"),
    Attack("a hundred thousand digits", yaml(f"counts: {{a: {'9' * 100_000} sts}}\n"), "SP020"),
    Attack("a date that is none", yaml("date: 2026-99-99\n"), "clean"),
    Attack("a document of UTF-16", {"pattern.yaml": header().encode("utf-16")}, "SP011"),
    Attack("letters out of the range", {"pattern.yaml": header().encode() + b"summary: \xed\xa0\x80\n"}, "SP011"),
]

PATHS = [
    Attack("a text upward", yaml("texts: [../../../outside/secret.md]\n"), "SP011"),
    Attack("a text by its whole path", yaml("texts: [/etc/passwd]\n"), "SP011"),
    Attack("a text that is a link out", {"text.md": link("outside/secret.md")}, "SP011"),
    Attack("a text that is a device", {"text.md": link("/dev/zero")}, "SP011"),
    Attack("a text that is a pipe", {"text.md": pipe}, "SP011"),
    Attack(
        "a text in a folder that is a link out", {**yaml("texts: [in/secret.md]\n"), "in": link("outside")}, "SP011"
    ),
    Attack("pattern.yaml that is a pipe", {"pattern.yaml": pipe}, "SP011"),
    Attack("pattern.yaml that is a link out", {"pattern.yaml": link("outside/secret.md")}, "SP011"),
    Attack("shared texts that are a link out", {"../shared_text": link("outside")}, "SP011"),
    Attack("a shared text that is a link out", {"../shared_text/a.md": link("outside/secret.md")}, "SP011"),
    Attack("a body table upward", yaml("body: {csv: ../../../outside/secret.md}\n"), "SP011"),
    Attack(
        "a body table that is a link out", {**yaml("body: {csv: b.csv}\n"), "b.csv": link("outside/secret.md")}, "SP011"
    ),
    Attack("a body table that is a pipe", {**yaml("body: {csv: b.csv}\n"), "b.csv": pipe}, "SP011"),
    Attack("a name with a line end", {**text(""), "z\nerror: \x1b[2J.md": "Words.\n"}, "clean"),
    Attack("a name that is asked for with a zero", yaml('texts: ["a\\0b"]\n'), "SP012"),
    Attack("a file that nobody reads and leads out", {"notes.txt": link("outside/secret.md")}, "clean", LISTING),
    Attack("a device that nobody reads", {"notes.txt": link("/dev/zero")}, "clean", LISTING),
    Attack("a pipe that nobody reads", {"notes.txt": pipe}, "clean", LISTING),
    Attack("build that is a link out", {"../../build": link("outside")}, "link", LISTING),
    Attack("the build's folder that is a link out", {"../../build/bad": link("outside")}, "it is a link", LISTING),
    Attack(
        "the build's folder that holds somebody's files",
        {"../../build/bad/novel.txt": "my only copy"},
        "no build",
        LISTING,
    ),
    Attack("a build over the sources", {}, "holds", (*LISTING, "--to", "pattern_sources")),
    Attack("a list of a build that is a pipe", {"../../build/bad/.made_from.json": pipe}, "clean", LISTING),
    Attack(
        "a list of a build that names files outside",
        {
            "../../build/bad/.made_from.json": '{"inputs":"x","files":{"../../../outside/secret.md":{"digest":"","made_from":"y"}}}',
        },
        "clean",
        LISTING,
    ),
    Attack("a build aside that is a link out", {"../../build/.bad.old-": link("outside")}, "clean", LISTING),
]

PHOTOS = [
    Attack("a photo upward", yaml("photos: {front: {file: ../../../outside/secret.md, alt: A}}\n"), "SP011"),
    Attack("a photo by its whole path", yaml("photos: {front: {file: /etc/passwd, alt: A}}\n"), "SP011"),
    Attack("a photo that is a link out", photo(link("outside/secret.md")), "SP011"),
    Attack("a photo that is a pipe", photo(pipe), "SP011"),
    Attack("a photo that is endless", photo(link("/dev/zero")), "SP011"),
    Attack("a photo cut off", photo(png(40, 40)[:60]), "SP20", PAGES),
    Attack("a photo of nothing but its head", photo(b"\x89PNG\r\n\x1a\n"), "SP20", PAGES),
    Attack("a photo of ten thousand million dots", photo(png(100_000, 100_000)), "SP20", PAGES),
    Attack("a photo of sixty-one million dots", photo(png(61_000, 1_001, b"\0" * 9_000_000)), "SP20", PAGES),
    Attack(
        "a photo with a profile packed to burst",
        photo(png(4, 4, b"\0" * 52, (b"iCCP", b"x\0\0" + zlib.compress(b"\0" * 90_000_000)))),
        "SP20",
        PAGES,
    ),
    Attack("a drawing with a script", photo(SVG, "front.svg"), "SP20"),
    Attack("a drawing with entities", photo(ENTITIES, "front.png"), "SP20"),
    Attack("a page for a photo", photo(f"<html>{SCRIPT}</html>", "front.jpg"), "SP20"),
    Attack("PostScript for a photo", photo("%!PS-Adobe-3.0 EPSF-3.0\n(/etc/passwd) (r) file\n", "front.jpg"), "SP20"),
]

ON_THE_PAGE = [
    Attack("a script for a title", yaml(f"title: '{SCRIPT}'\n"), "clean", PAGES, (SCRIPT,)),
    Attack(
        "a script for a title, on the maker's page",
        yaml(f"title: '</script>{SCRIPT}'\n"),
        "clean",
        ("build", "bad", "--edition", "makers_page"),
        (SCRIPT,),
    ),
    Attack(
        "a script for a title, in the record that is attached",
        yaml(f"title: '{IMAGE}'\n"),
        "clean",
        ("build", "bad", "--edition", "editors_sheet"),
        (IMAGE,),
    ),
    Attack("a picture for the designer", yaml(f"designer: '{IMAGE}'\n"), "clean", PAGES, (IMAGE,)),
    Attack("an end of the style for the contact", yaml("contact: '</style><b>'\n"), "clean", PAGES, ("</style><b>",)),
    Attack("a script in a note", text(f"::: note\n\\{SCRIPT}\n:::\n"), "clean", PAGES, (SCRIPT,)),
    Attack(
        "an address that runs",
        text("::: note\n[see](javascript:alert(1))\n:::\n"),
        "clean",
        PAGES,
        ('href="javascript',),
    ),
    Attack(
        "an address of a file", text("::: note\n[see](file:///etc/passwd)\n:::\n"), "clean", PAGES, ('href="file:',)
    ),
    Attack(
        "a picture from the net", text("::: note\n![see](http://evil.example/a.png)\n:::\n"), "clean", PAGES, ("<img",)
    ),
    Attack(
        "an alternative text that ends its quotes",
        {**photo(png(1, 1, b"\0\0\0\0")), **yaml("photos: {front: {file: front.png, alt: 'a\" onload=\"alert(1)'}}\n")},
        "clean",
        PAGES,
        ('onload="alert',),
    ),
    Attack(
        "a tutorial that runs",
        yaml("tutorials: {a: {words: W, address: 'javascript:alert(1)'}}\n"),
        "SP",
        PAGES,
        ('href="javascript',),
    ),
    Attack(
        "a style that reads a file",
        {"styles/parts/tokens.css": "body{background:url(file:///etc/passwd)}"},
        "SP",
        PAGES,
    ),
    Attack(
        "a style that asks the net", {"styles/parts/tokens.css": "@import url(http://evil.example/a.css);"}, "SP", PAGES
    ),
    Attack(
        "a font of the machine",
        {"styles/parts/tokens.css": "@font-face{font-family:x;src:url(file:///etc/passwd)}p{font-family:x}"},
        "SP",
        PAGES,
    ),
    Attack("a style that ends itself", {"styles/parts/tokens.css": f"</style>{SCRIPT}"}, "no HTML", PAGES, (SCRIPT,)),
]

NUMBERS = [
    Attack("a huge exponent", yaml("counts: {a: 10 ** 10 ** 10}\n"), "SP020"),
    Attack("an exponent in a number", yaml("counts: {a: 1e999999999 sts}\n"), "SP020"),
    Attack("a product that grows", yaml(f"counts: {{a: {' * '.join(['999999999999999'] * 30)} * 1 sts}}\n"), "SP023"),
    Attack(
        "names that grow from one another",
        yaml("ratios:\n  r0: 999999\n" + "".join(f"  r{n + 1}: r{n} * r{n}\n" for n in range(60))),
        "SP023",
    ),
    Attack(
        "a search in a search", yaml("ratios:\n  a: 'largest(n, 1, 9999, largest(m, 1, 9999, m * n < 0) > 0)'\n"), "SP"
    ),
    Attack("names that go round", yaml("ratios: {a: b, b: a}\n"), "SP021"),
    Attack("ten thousand sizes", yaml(f"sizes: {{names: [{','.join(f's{n}' for n in range(10_000))}]}}\n"), "SP01"),
    Attack("rows in rows", text(f"Row 2: {'[' * 3000}sc{'] 9 times' * 3000}.\n"), "clean"),
    Attack(
        "a repeat of a thousand million",
        text("Row 2: [Sc in next st, [inc] 99999 times] 99999 times.\n"),
        "2 rows not proved",
    ),
    Attack("rows to a thousand million", text("Rows 2–999999999: Sc in each st across.\n"), "2 rows not proved"),
    Attack("chains without end", text("Row 2: Ch 99999999999999999999, sc in each ch across.\n"), "SP"),
    Attack("slots of a hundred thousand signs", text(f"Row 2: <{'1+' * 50_000}1> sc.\n"), "SP020"),
    Attack(
        "stitches of five thousand digits in a row",
        text(f"Row 2: Ch 1, sc in each st across, turn. — 8 {'9' * 5000} sts\n"),
        "clean",
    ),
]

STYLES = [
    Attack(
        "a template that goes on",
        style("{% for a in range(99999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}"),
        "rounds",
        EVIL,
    ),
    Attack(
        "a template that includes itself",
        style("{% include 'evil.txt.j2' %}{% include 'evil.txt.j2' %}"),
        "stopped",
        EVIL,
    ),
    Attack(
        "a macro that calls itself twice",
        style(
            "".join(
                f"{{% macro m{n}() %}}{{{{ m{n + 1}() }}}}{{{{ m{n + 1}() }}}}{{% endmacro %}}"
                for n in reversed(range(60))
            )
            + "{% macro m60() %}{% endmacro %}{{ m0() }}"
        ),
        "rounds",
        EVIL,
    ),
    Attack(
        "a text doubled sixty times in a template",
        style("{% set x = 'aa' %}" + "{% set x = x ~ x %}" * 60),
        "longer",
        EVIL,
    ),
    Attack(
        "a list doubled sixty times in a template",
        style("{% set x = [1] %}" + "{% set x = [x, x] %}" * 60 + "{{ x }}"),
        "lists",
        EVIL,
    ),
    Attack("a text times a number in a template", style("{{ 'a' * 999999999 }}"), "numbers only", EVIL),
    Attack("a number without end in a template", style("{{ 9 ** 9 ** 9 }}"), "too large", EVIL),
    Attack("a width in a template", style("{{ '%999999999d' % 1 }}"), "numbers only", EVIL),
    Attack("a padded text in a template", style("{{ 'a'.ljust(999999999) }}"), "too long", EVIL),
    Attack("a centred text in a template", style("{{ 'a'|center(999999999) }}"), "No filter", EVIL),
    Attack(
        "replaced and replaced in a template",
        style(
            "{{ ('a' ~ ('b' ~ 'c')|replace('b', 'd'))|replace('', 'x'|replace('x', "
            + "'"
            + "y" * 9000
            + "'))|replace('y', '"
            + "z" * 9000
            + "') }}"
        ),
        "work through",
        EVIL,
    ),
    Attack("classes in a template", style("{{ document.__class__.__mro__ }}"), "unsafe", EVIL),
    Attack(
        "a stored format method in a template",
        style("{% set f = '{0.__class__.__init__.__globals__}'.format %}{{ f(document) }}"),
        "not safely callable",
        EVIL,
    ),
    Attack(
        "a file by include in a template", style("{% include '../../../../outside/secret.md' %}"), "own folder", EVIL
    ),
    Attack("a file by its whole path in a template", style("{% include '/etc/passwd' %}"), "own folder", EVIL),
    Attack("the edition's own reader in a template", style("{{ edition.read('/etc/passwd') }}"), "unsafe", EVIL),
    Attack(
        "the paths of the machine in a template",
        style("{{ edition.path.parent.parent.joinpath('pattern.yaml').read_text() }}"),
        "unsafe",
        EVIL,
    ),
    Attack(
        "a template that is a link out",
        style("", styles__evil__more=link("outside/secret.md"))
        | {"styles/evil/evil.txt.j2": link("outside/secret.md")},
        "own folder",
        EVIL,
    ),
    Attack("a template that is a pipe", {**style(""), "styles/evil/evil.txt.j2": pipe}, "plain file", EVIL),
    Attack("styles that are a link out", {"styles": link("outside")}, "leads out", LISTING),
    Attack("parts that are a link out", {"styles/parts": link("outside")}, "leads out", LISTING),
    Attack("an edition that is a link out", {"styles/listing": link("outside")}, "leads out", LISTING),
    Attack("an edition based on itself", {"styles/evil/edition.yaml": "based_on: evil\n"}, "itself", EVIL),
    Attack("an edition of references", {"styles/evil/edition.yaml": LAUGHS}, "SP", EVIL),
    Attack("an edition of digits", {"styles/evil/edition.yaml": f"title: 1{':1' * 100_000}\n"}, "digits", EVIL),
    Attack("an edition of brackets", {"styles/evil/edition.yaml": "[" * 90_000}, "not readable", EVIL),
    Attack("words of brackets", {**style(""), "styles/parts/words.yaml": "a: " + "[" * 90_000}, "not readable", EVIL),
    Attack("an edition by its path", {}, "letters, digits", ("build", "bad", "--edition", "../../outside")),
]

TERMINAL = [
    Attack("escapes in a text", text("Row 2: \x1b[2Jsc.\n"), "SP011"),
    Attack("an escape of one sign", text("Row 2: \x9b2Jsc.\n"), "SP011"),
    Attack("a line turned around", text("Row 2: \u202esc in each st.\n"), "SP011"),
    Attack("a line turned around by an escape of YAML", yaml('summary: "\\u202eabc"\n'), "SP012"),
    Attack("a line turned around by an escape of Jinja", text("{{ '\\u202e' }}\n"), "SP027"),
    Attack("a bell by an escape of YAML", yaml('title: "a\\x07b"\n'), "SP012"),
    Attack("a name of a file that drives a terminal", {"\x1b]0;x\x07\u202e.md": "## X {nothing}\n<nothing>\n"}, "SP"),
    Attack(
        "a why that drives a terminal",
        yaml('counts: {a: {is: 3 sts, why: "\u200f\u061cx"}}\n'),
        "a",
        ("explain", "bad", "a"),
    ),
]

IN_PATTERNS = (*JINJA, *YAML, *PATHS, *PHOTOS, *ON_THE_PAGE, *NUMBERS, *STYLES, *TERMINAL)
