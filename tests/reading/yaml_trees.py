"""Random YAML: trees of texts, written in every style that YAML has, and the same trees as plain lists and dicts."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from hypothesis import strategies as st

Tree = str | list["Tree"] | dict[str, "Tree"]

TRICKY = [
    "no",
    "yes",
    "~",
    "null",
    "true",
    "010",
    "0x1F",
    "1:30",
    "2.50",
    "1e3",
    ".inf",
    "2026-01-01",
    "<<",
    "=",
    "1_000",
    "-4",
    "hat's",
    "é",
    "🧶🧶",
    "éa",
    "x#y",
    "a:b",
    "http://x.y/z",
    "+5",
    "?x",
    ":x",
    "12°C",
    "50%",
    "(1",
    "<cuff_rows>",
    "n*2",
]
PLAIN = st.sampled_from(TRICKY) | st.from_regex(r"[a-zé][a-z0-9é]{0,6}( [a-z0-9é🧶%*]{1,5}){0,4}", fullmatch=True)
ANY = st.text(st.sampled_from("ab é🧶'\"\\#:,[]{}&*!|>%@`-?~\t0<"), max_size=12)
LINES = st.lists(st.from_regex(r"[a-zé#:*\[]{1,8}( [a-z:#]{1,5}){0,2}", fullmatch=True), min_size=1, max_size=4)
KEYS = st.from_regex(r"[a-z_é]{1,6}[0-9]{0,2}", fullmatch=True)


@dataclass(frozen=True)
class Written:
    """A tree, and how it is written: `inline` behind a key or dash, `block` on lines of its own below it."""

    tree: Tree
    inline: str
    block: tuple[str, ...] = ()


def _single_quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


@cache  # a strategy is checked when it is first drawn from
@st.composite
def scalars(draw: st.DrawFn, flow: bool = False) -> Written:
    """A text: plain, quoted, or (outside brackets) literal or folded."""
    style = draw(st.sampled_from(["plain", "plain", "single", "double", *([] if flow else ["|", ">", "folded plain"])]))
    if style == "plain":
        text = draw(PLAIN)
        return Written(text, text)
    if style == "single":
        text = draw(ANY).replace("\t", " ")
        return Written(text, _single_quoted(text))
    if style == "double":
        text = draw(ANY)
        return Written(text, json.dumps(text, ensure_ascii=draw(st.booleans()) and text.isascii()))
    lines = draw(LINES)
    if style == "folded plain":
        words = [line.strip("#:*[ ") or "x" for line in lines]
        words = [word.replace(":", "").replace("#", "").replace("*", "").replace("[", "") or "x" for word in words]
        words = [" ".join(word.split()) or "x" for word in words]
        return Written(" ".join(words), words[0], tuple(words[1:]))
    chomp = draw(st.sampled_from(["", "-"]))
    joined = ("\n" if style == "|" else " ").join(lines)
    return Written(joined + ("" if chomp else "\n"), style + chomp, tuple(lines))


def _flow(parts: Sequence[Written]) -> str:
    return ", ".join(part.inline for part in parts)


@cache
def _flow_scalars() -> st.SearchStrategy[Written]:
    return scalars(flow=True).filter(lambda each: each.inline[:1] not in ("?", ":", "-"))


@cache
@st.composite
def flow_trees(draw: st.DrawFn, depth: int = 2) -> Written:
    """A tree in brackets and braces."""
    kind = draw(st.sampled_from(["scalar", "scalar", "list", "map"])) if depth else "scalar"
    if kind == "scalar":
        return draw(_flow_scalars())
    parts = draw(st.lists(flow_trees(depth - 1), max_size=3))
    if kind == "list":
        return Written([part.tree for part in parts], f"[{_flow(parts)}]")
    keys = draw(st.lists(KEYS, min_size=len(parts), max_size=len(parts), unique=True))
    pairs = ", ".join(f"{key}: {part.inline}" for key, part in zip(keys, parts, strict=True))
    return Written({key: part.tree for key, part in zip(keys, parts, strict=True)}, f"{{{pairs}}}")


@cache
@st.composite
def trees(draw: st.DrawFn, depth: int = 3) -> Written:
    """A tree in any style: block lists and maps hold flow ones and texts."""
    kind = draw(st.sampled_from(["scalar", "flow", "list", "map", "map"])) if depth else "scalar"
    if kind == "scalar":
        return draw(scalars())
    if kind == "flow":
        return draw(flow_trees())
    parts = draw(st.lists(trees(depth - 1), min_size=1, max_size=4))
    if kind == "list":
        return Written([part.tree for part in parts], "", tuple(_lines("-", parts)))
    keys = draw(st.lists(KEYS, min_size=len(parts), max_size=len(parts), unique=True))
    lines = [line for key, part in zip(keys, parts, strict=True) for line in _lines(f"{key}:", [part])]
    comment = draw(st.sampled_from([[], ["# a comment: with [signs"], [""]]))
    return Written({key: part.tree for key, part in zip(keys, parts, strict=True)}, "", (*comment, *lines))


def _lines(before: str, parts: Sequence[Written]) -> list[str]:
    return [
        line
        for part in parts
        for line in (f"{before} {part.inline}".rstrip(" "), *(f"  {each}" for each in part.block))
    ]


files = st.dictionaries(KEYS, trees(), min_size=1, max_size=5).map(
    lambda parts: Written(
        {key: part.tree for key, part in parts.items()},
        "",
        tuple(line for key, part in parts.items() for line in _lines(f"{key}:", [part])),
    )
)
"""Whole files: keys with trees."""


def as_text(written: Written) -> str:
    """The tree as a file."""
    return "\n".join((*([written.inline] if written.inline else []), *written.block)) + "\n"
