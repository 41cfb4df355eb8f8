"""An edition as its folders describe it: what it prints, in which order and words, with which templates and style sheets."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import yaml
from msgspec import Struct

from stitchproof.editions.style_fault import StyleFault
from stitchproof.editions.styles import DESCRIPTION, layers_of, parts_of, read_every, read_style_file, shipped_styles

LINE = 72
"""Figures. What a line of the shipped printed page holds, for a style that does not say."""
SHORTEST_LINE = 12
WORDS = "words.yaml"
MOST_BASES = 5
DEEPEST = 20
"""Lists and maps in one another; a description has three."""
_ENDLESS = re.compile("[0-9_:.]{60}")
"""Digits, and numbers in sixties (1:59:59 …), which take a loader as long as they are many, squared."""
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""The same safe loader, ten times as quick where the library was built for it."""
CONTENTS = ("pattern", "numbers", "comparison", "errata", "preview")


class Leaf(Struct, frozen=True):
    """One way an edition is put out as pages: its template and its style sheets, one after the other, by file name.

    line: how many figures the narrowest line of a row holds, as the style sheet sets it. script: the file of what the page
    does, or "".
    """

    template: str
    style: tuple[str, ...]
    line: int
    script: str = ""


class EditionFolder(Struct, frozen=True):
    """An edition.

    layers: where its files are looked for, the nearest first. parts: keys of sections, and "pieces", "finishing", "back"
    for all of a kind, in the order they print. screen: for the HTML file; paper: for the PDF; texts: for plain text files, by
    ending. At least one is there. each_size: one size to a file, where no size is asked for. on_the_page: whether the reader
    chooses her size on the page. usual_for: for which choices of sizes ("all", "some", "one") it is made where no edition is
    named. line_numbers, worksheet: whether its lines are numbered, and whether a tester's worksheet follows. holds:
    "pattern"; or "numbers" for the editor's worksheet, "comparison" and "errata" for what `stitchproof compare` prints,
    "preview" for what stands around a page in `stitchproof preview`. words: what its templates and headings say, by key.
    """

    name: str
    layers: tuple[Path, ...]
    title: str
    parts: tuple[str, ...]
    screen: Leaf | None
    paper: Leaf | None
    texts: tuple[tuple[str, str], ...] = ()
    each_size: bool = False
    on_the_page: bool = False
    usual_for: tuple[str, ...] = ()
    line_numbers: bool = False
    worksheet: bool = False
    holds: str = "pattern"
    words: Mapping[str, str] = {}

    @property
    def path(self) -> Path:
        """Its nearest folder."""
        return self.layers[0]

    @property
    def is_shipped(self) -> bool:
        """Whether nothing of a pattern or a workspace lies over it."""
        return not any(layer.is_dir() and layer.parent != shipped_styles() for layer in self.layers)

    def read(self, file_name: str) -> str:
        """A file of the edition. Raises StyleFault."""
        return read_style_file(self.layers, file_name)

    def style_of(self, leaf: Leaf) -> str:
        """The style sheets of a leaf in one. Raises StyleFault."""
        sheets = []
        for name in leaf.style:
            sheet = self.read(name)
            if "</" in sheet:
                raise StyleFault(str(self.path / name), "a style sheet holds no HTML")
            sheets.append(sheet)
        return "\n".join(sheets)

    def script_of(self, leaf: Leaf) -> str:
        """The script of a leaf, "" where it has none; its lines end as a browser reads them. Raises StyleFault."""
        script = self.read(leaf.script).replace("\r\n", "\n").replace("\r", "\n") if leaf.script else ""
        if "</script" in script.lower() or "<!--" in script:
            raise StyleFault(str(self.path / leaf.script), "a script holds no end of a script and no comment of HTML")
        return script


def find_edition(name: str, style_folders: Sequence[Path]) -> EditionFolder:
    """The edition of that name. What a nearer folder says stands before what a farther one says, key by key; an edition
    may also be `based_on` another.

    Raises StyleFault if there is none, if an edition.yaml cannot be read, or if a file it names is missing.
    """
    layers: list[Path] = []
    facts: dict[str, Any] = {}
    described = None
    base: object = name
    while isinstance(base, str):
        if len(layers) > MOST_BASES * (len(style_folders) + 1):
            raise StyleFault(name, "is based on itself")
        here = layers_of(base, style_folders)
        layers += here
        base = None
        for path, text in read_every(here, DESCRIPTION):
            described = described or path
            said = _mapping(text, path)
            base = base or said.get("based_on")
            facts = _under(facts, said)
    return _edition(name, (*layers, *parts_of(style_folders)), facts, str(described))


def _mapping(text: str, path: Path) -> dict[str, Any]:
    if _ENDLESS.search(text):
        raise StyleFault(str(path), "holds a number of too many digits")
    depth = 0
    try:
        for event in yaml.parse(
            text, Loader=_LOADER
        ):  # as far as it goes: the library's time goes by the depth, squared
            depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
            if depth > DEEPEST:
                raise StyleFault(str(path), "is not readable as YAML: lists stand in lists without end")
        facts = _loaded(text)
    except (yaml.YAMLError, RecursionError, ValueError, OverflowError) as error:
        raise StyleFault(str(path), "is not readable as YAML") from error
    if not isinstance(facts, dict):
        raise StyleFault(str(path), "does not say title, parts and templates")
    return facts


def _loaded(text: str) -> object:
    loader = _LOADER(text)
    try:
        return loader.get_single_data()
    finally:
        loader.dispose()


def _under(near: dict[str, Any], far: dict[str, Any]) -> dict[str, Any]:
    """Both in one; what the near one says stands, also inside `screen` and `print`."""
    inner = {
        key: {**far[key], **value}
        for key, value in near.items()
        if isinstance(value, dict) and isinstance(far.get(key), dict)
    }
    return {**far, **near, **inner}


def _edition(name: str, layers: tuple[Path, ...], facts: dict[str, Any], described: str) -> EditionFolder:
    parts = facts.get("parts", [])
    if not isinstance(parts, list) or not all(isinstance(part, str) for part in parts):
        raise StyleFault(described, "parts is a list of section names")
    screen, paper = (_leaf(layers, facts.get(medium), medium, described) for medium in ("screen", "print"))
    texts = _texts(layers, facts.get("texts"), described)
    if screen is None and paper is None and not texts:
        raise StyleFault(described, "names neither a screen nor a print template")
    flags = {key: facts.get(key, False) for key in ("line_numbers", "worksheet")}
    if any(type(flag) is not bool for flag in flags.values()):
        raise StyleFault(described, f"{', '.join(flags)} are yes or no")
    if facts.get("sizes", "together") not in ("together", "each", "on the page"):
        raise StyleFault(described, "sizes is together, each or on the page")
    if flags["worksheet"] and facts.get("sizes") != "each":
        raise StyleFault(described, "a worksheet is for one size: with `worksheet: yes` goes `sizes: each`")
    usual = facts.get("usual_for", [])
    if not isinstance(usual, list) or not set(map(str, usual)) <= {"all", "some", "one"}:
        raise StyleFault(described, "usual_for is a list of: all, some, one")
    holds = facts.get("holds", "pattern")
    if holds not in CONTENTS:
        raise StyleFault(described, f"holds is one of: {', '.join(CONTENTS)}")
    return EditionFolder(
        name,
        layers,
        str(facts.get("title", name)),
        tuple(parts),
        screen,
        paper,
        texts,
        facts.get("sizes") == "each",
        facts.get("sizes") == "on the page",
        tuple(map(str, usual)),
        **flags,
        holds=holds,
        words=_words(layers, facts.get("words")),
    )


def _leaf(layers: tuple[Path, ...], facts: object, medium: str, described: str) -> Leaf | None:
    if facts is None:
        return None
    if not isinstance(facts, dict):
        raise StyleFault(described, f"{medium} names a template and a style")
    template, style = facts.get("template"), facts.get("style")
    sheets = [style] if isinstance(style, str) else style
    if not isinstance(template, str) or not isinstance(sheets, list) or not all(isinstance(s, str) for s in sheets):
        raise StyleFault(described, f"{medium} names a template and a style")
    line = facts.get("line", LINE)
    if type(line) is not int or line < SHORTEST_LINE:
        raise StyleFault(described, f"{medium}: line is a whole number of figures, {SHORTEST_LINE} or more")
    script = facts.get("script", "")
    if not isinstance(script, str):
        raise StyleFault(described, f"{medium}: script names a file")
    for file_name in filter(None, (template, *sheets, script)):
        read_style_file(layers, file_name)
    return Leaf(template, tuple(sheets), line, script)


def _texts(layers: tuple[Path, ...], facts: object, described: str) -> tuple[tuple[str, str], ...]:
    if facts is None:
        return ()
    pairs = tuple((str(end), str(template)) for end, template in facts.items()) if isinstance(facts, dict) else ()
    if not pairs or not all(end.isalnum() for end, _ in pairs):
        raise StyleFault(described, "texts gives a template for each ending, such as md: listing.md.j2")
    for _, template in pairs:
        read_style_file(layers, template)
    return pairs


def _words(layers: tuple[Path, ...], own: object) -> dict[str, str]:
    """The words of the shared parts, those of nearer folders before them, and the edition's own before all."""
    said: dict[str, str] = {}
    for path, text in reversed(read_every(layers, WORDS)):
        said.update(_phrases(_mapping(text, path), str(path)))
    return {**said, **_phrases(own, str(layers[0] / DESCRIPTION))} if own is not None else said


def _phrases(facts: object, path: str) -> dict[str, str]:
    if not isinstance(facts, dict) or not all(isinstance(key, str) for key in facts):
        raise StyleFault(path, "words gives a phrase for each key")
    if not all(isinstance(phrase, str) for phrase in facts.values()):
        raise StyleFault(path, "every phrase of words is a text; put it in quotes")
    return {str(key): " ".join(phrase.split()) for key, phrase in facts.items()}
