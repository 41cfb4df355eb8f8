"""The stitches that a pattern defines for itself, as the reader takes them; and what is known of all the stitches it uses."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from stitchproof.reading.pattern_source import SpecialStitch
from stitchproof.rows.line import line_of_text
from stitchproof.rows.read_row import read_row
from stitchproof.rows.row_tree import Chain, Item, Reading, Repeat, RowTree, Shaping, Work
from stitchproof.rows.row_words import RowWords, name_of
from stitchproof.rows.written_pattern import ReadStep
from stitchproof.stitches.facts import StitchFacts
from stitchproof.stitches.stitch_names import shipped_facts


def words_for(terms: str, special: Iterable[SpecialStitch]) -> RowWords:
    """The words of rows in US or UK terms, with the pattern's own stitches.

    One that the trade knows by that name is the trade's ("fsc"), unless the pattern says what it takes, makes or is worked as.
    """
    words = RowWords(terms)
    for each in special:
        facts = _facts(each, words)
        if facts is not None:
            words.add(each.abbreviation, facts)
    return words


def _facts(stitch: SpecialStitch, words: RowWords) -> StitchFacts | None:
    name = name_of(stitch.abbreviation)
    if not name:
        return None
    known = words.find(name)
    says = stitch.takes is not None or stitch.makes is not None or stitch.worked_as is not None
    if not says and (known is not None or _is_stitch_and_loops(name, words)):
        return None
    parts, makes = _parts(stitch, words)
    id_ = " ".join(stitch.abbreviation.split())
    return StitchFacts(id_, stitch.takes or 1, stitch.makes or makes, id_, parts=parts)


def _is_stitch_and_loops(name: tuple[str, ...], words: RowWords) -> bool:
    """Whether a name such as "sc-blo" is a stitch of the trade worked in certain loops."""
    return len(name) == 2 and words.find(name[:1]) is not None and words.find(name[1:]) in ("blo", "flo")


def _parts(stitch: SpecialStitch, words: RowWords) -> tuple[tuple[str, ...], int]:
    """What "as: (dc, ch 1, dc) in next st" leaves, in order, and how many stitches that is."""
    if stitch.worked_as is None:
        return (), 1
    reading = read_row(line_of_text(stitch.worked_as.text, ("",), stitch.worked_as.span), words)
    if not isinstance(reading, RowTree):
        return (), 1
    parts = tuple(_flat(reading.items))
    return parts, sum(not part.startswith("chsp") for part in parts) or 1


def _flat(items: Iterable[Item]) -> Iterator[str]:
    """The stitches and spaces of items worked into one place."""
    for item in items:
        match item:
            case Work():
                amount = item.number or item.each
                value = amount.values[0] if amount else Fraction(1)
                yield from (item.stitch,) * (int(value) if isinstance(value, Fraction) else 1)
            case Chain():
                value = item.number.values[0]
                yield f"chsp{int(value) if isinstance(value, Fraction) else 1}"
            case Repeat():
                yield from _flat(item.items)


def facts_for(readings: Iterable[ReadStep], words: RowWords) -> dict[str, StitchFacts]:
    """What is known of every stitch that may be worked, by its id: the shipped ones, the pattern's own, and those used."""
    found = {**shipped_facts(), **words.facts}
    for read in readings:
        for part in read.parts:
            for stitch in _used(part.reading):
                facts = words.facts_of(stitch)
                if facts is not None:
                    found[stitch] = facts
    return found


def _used(reading: Reading) -> Iterator[str]:
    if isinstance(reading, RowTree):
        yield from _worked(reading.items)


def _worked(items: Iterable[Item]) -> Iterator[str]:
    for item in items:
        if isinstance(item, Work):
            yield item.stitch
        elif isinstance(item, Repeat):
            yield from _worked(item.items)
            yield from _worked(item.ending or ())
        elif isinstance(item, Shaping):
            yield from _worked(item.items)
