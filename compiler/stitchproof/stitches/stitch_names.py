"""Every way the trade writes the names of stitches in US or in UK terms, and what each stitch does to a row."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from stitchproof.expressions import expression
from stitchproof.shipped_data import read_shipped
from stitchproof.stitches.facts import StitchFacts

MOST_TOGETHER = 99
_TOGETHER = expression(r"(?P<base>.+?)(?P<number>[1-9]\d?)tog")

CHAIN_NAMES = (("ch",), ("chs",), ("chain",), ("chains",))
Name = tuple[str, ...]
"""A name as its words, in small letters."""


@cache
def names_of_stitches(terms: str) -> dict[Name, str]:
    """Ids of the stitches by name, in "US" or "UK" terms."""
    found: dict[Name, str] = {}
    for id_, names in _named(terms):
        for name in names:
            found.setdefault(tuple(name.split()), id_)
    return found


@cache
def short_names(terms: str) -> dict[str, str]:
    """The usual abbreviation of each stitch by its id, in "US" or "UK" terms: the one and the other are one to one."""
    return {id_: names[0] for id_, names in _named(terms)}


def _named(terms: str) -> Iterator[tuple[str, list[str]]]:
    data = _data()
    plain = [(row["id"], row.get(terms.lower(), row["us"])) for row in data["plain"]]
    for id_, names in plain:
        yield id_, [*names, *_vintage(names), *(f"{name}s" for name in names if len(name) < 6)]
    for row in data["others"]:
        yield row["id"], row.get(terms.lower(), row["us"])
    for family in data["families"]:
        for id_, names in plain:
            if id_ == "slst":
                continue
            short, *long = family["before"]
            glued = [f"{short}{names[0]}", *(f"{each}{names[0]}" for each in long if len(each) < 4)]
            apart = [f"{each} {name}" for each in family["before"] if len(each) > 1 for name in names]
            after = [f"r{names[0]}{family['id'][0]}"] if family.get("post") else []  # RtrF, raised treble front
            yield family["id"] + id_, [*glued, *apart, *after]


def _vintage(names: list[str]) -> Iterator[str]:
    """With a blank where old books have a full stop: s c, d c, h d c, h tr, d tr; and half dc for hdc."""
    short = names[0]
    if short.isalpha() and short.endswith("c"):
        yield " ".join(short)
        yield from (f"half {short[1:]}", f"h {short[1:]}") if short.startswith("h") else ()
    elif short in ("htr", "dtr"):
        yield f"{short[0]} tr"
        yield from ("half tr",) if short == "htr" else ()


@cache
def shipped_facts() -> dict[str, StitchFacts]:
    """What each stitch by itself does, by its id; "…tog" stitches are told by `facts_of`."""
    data = _data()
    found: dict[str, StitchFacts] = {}
    for row in data["plain"]:
        found[row["id"]] = StitchFacts(row["id"], base=row["id"], height=row["height"])
    for row in data["others"]:
        found[row["id"]] = StitchFacts(
            row["id"],
            row.get("takes", 1),
            row.get("makes", 1),
            row.get("base", row["id"]),
            height=row["height"],
            parts=tuple(row.get("parts", ())),
        )
    for family in data["families"]:
        for row in data["plain"][1:]:
            foundation, post = bool(family.get("foundation")), bool(family.get("post"))
            id_ = family["id"] + row["id"]
            found[id_] = StitchFacts(
                id_,
                0 if foundation else 1,
                1,
                row["id"],
                foundation,
                post,
                height=row["height"] + (family["id"] == "e"),
            )
    return found


def facts_of(id_: str) -> StitchFacts | None:
    """What a shipped stitch does to a row; None for one that is not shipped."""
    match = _TOGETHER.fullmatch(id_)
    if match is None:
        return shipped_facts().get(id_)
    base = shipped_facts().get(match["base"])
    return StitchFacts(id_, int(match["number"]), 1, base.base, post=base.post, height=base.height) if base else None


def stitch_called(words: str, terms: str) -> str | None:
    """The id of the stitch that a name means, "Hdc2tog" or "half double crochet" in US terms; None for no stitch of the trade.

    A chain is one here: `stitch_facts.yaml` has none, since a row tells of it by other words.
    """
    name = tuple(words.lower().replace("-", " ").split())
    if name in CHAIN_NAMES:
        return "ch"
    found = names_of_stitches(terms).get(name)
    together = _TOGETHER.fullmatch(name[0]) if found is None and len(name) == 1 else None
    if together:
        base = names_of_stitches(terms).get((together["base"],))
        facts = facts_of(f"{base}{together['number']}tog") if base else None
        return facts.id if facts else None
    return found


@cache
def _data() -> dict[str, Any]:
    return read_shipped(Path(__file__).with_name("stitch_facts.yaml"))
