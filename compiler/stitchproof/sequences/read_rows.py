"""WrittenSequence → its rows read: labels, trees, and the kinds that their published counts count."""

from __future__ import annotations

import re

from msgspec import Struct

from stitchproof.late_pattern import LatePattern
from stitchproof.reading.written_sequence import Figures, Published, WrittenRow, WrittenSequence
from stitchproof.reading.yaml_tree import Scalar
from stitchproof.rows.labels import read_label
from stitchproof.rows.line import Line, line_of_text
from stitchproof.rows.read_row import read_row
from stitchproof.rows.row_tree import Label, NotRead, RowTree, Stated, Stretch, Thing
from stitchproof.rows.row_words import RowWords
from stitchproof.sequences.nouns import noun_of
from stitchproof.sequences.own_groups import learn_groups
from stitchproof.simulation.targets import value

_SIZE_IN_LABEL = LatePattern(r"(?i)[,(]?\s*\bsizes?\s+(?P<names>[^)]+?)(?:\s+only)?\)?\s*$")
_AS_FAR_AS = LatePattern(
    r"(?i)^\(?\s*(?:work\s+)?(?:same\s+)?as\b[^()]*?\bto (?:the )?end of (?P<label>[^().,;]+)\)?[\s,.;:]*"
)
_NUMBER = re.compile(r"\d+")


class Count(Struct, frozen=True):
    """A published count of a row. thing: what it counts, None for stitches of any kind; figures: one value per size."""

    figures: Figures
    thing: Thing | None
    change: int = 0


class ReadRow(Struct, frozen=True, eq=False):
    """A row of a sequence, read. served: the indexes of the sizes it is for.

    stated: the published counts; per_group: they hold for each group of the round. derived: the file's own counts, for scoring.
    as_far_as: the label of an earlier row that the work goes back to ("as Back to end of Row 4"), or "".
    """

    written: WrittenRow
    name: str
    label: Label | None
    line: Line
    reading: RowTree | NotRead
    served: tuple[int, ...]
    stated: tuple[Count, ...]
    derived: tuple[Count, ...]
    per_group: bool = False
    as_far_as: str = ""

    @property
    def has_published(self) -> bool:
        """Whether a worked count can be held against the file: what a faulty row states is not what it makes."""
        return bool(self.derived or (self.stated and self.written.ok))


def read_rows(sequence: WrittenSequence, words: RowWords) -> tuple[ReadRow, ...]:
    """All rows, in order. A name that a row gives to a group it makes ("5 dc in next st (shell)") is known from there on."""
    found = []
    for row in sequence.rows:
        read = _read(row, sequence, words)
        if isinstance(read.reading, RowTree):
            learn_groups(read.reading, read.line, words, len(sequence.sizes) or 1)
        found.append(read)
    return tuple(found)


def _read(row: WrittenRow, sequence: WrittenSequence, words: RowWords) -> ReadRow:
    sizes = sequence.sizes or ("",)
    as_far_as, text = _as_far_as(row.text)
    line = line_of_text(text.text, sequence.sizes, text.span)
    tree = read_row(line, words)
    name = " ".join(row.label.text.split()) if row.label else ""
    label, named_sizes = _label(row.label, sequence, words)
    served = tuple(range(len(sizes))) if named_sizes is None else named_sizes
    stated = row.stated
    noun = _noun(row.printed_as, words)
    counts = tuple(_count(each, noun, words, sequence.sizes) for each in stated)
    per_group = False
    if isinstance(tree, RowTree):
        if tree.only is not None:
            served = tree.only
        counts = counts or tuple(_counts_in_text(tree.stated, len(sizes)))
        per_group = any(each.per_group for each in tree.stated)
        tree = RowTree(tree.items, (), tree.only)
    per_group = per_group or row.derived_as.startswith("per group")
    derived_noun = _derived_noun(row.derived_as)
    derived = tuple(_count(each, derived_noun, words, sequence.sizes) for each in row.derived)
    return ReadRow(row, name, label, line, tree, served, counts, derived, per_group, as_far_as)


def _derived_noun(derived_as: str) -> str:
    """What the file's own count counts, where it is one kind: "dc only", "meshes"."""
    kind, _, alone = derived_as.partition(" only")
    return kind if alone or " only" in derived_as else derived_as if derived_as in ("meshes", "blocks") else ""


def _as_far_as(text: Scalar) -> tuple[str, Scalar]:
    """Words in front that lead back to an earlier row, and the text behind them."""
    match = _AS_FAR_AS.match(text.text)
    if match is None or match.end() >= len(text.text):
        return "", text
    rest = text.text[match.end() :]
    start = text.span.end - len(rest)
    stands_there = text.span.file.text[start : text.span.end] == rest
    span = text.span.part(text.span.end - text.span.start - len(rest), text.span.end - text.span.start)
    return match["label"].strip(), Scalar(rest, span if stands_there else text.span, text.quoted)


def _label(
    scalar: Scalar | None, sequence: WrittenSequence, words: RowWords
) -> tuple[Label | None, tuple[int, ...] | None]:
    """The label, and the sizes that it names."""
    if scalar is None:
        return None, None
    text = " ".join(scalar.text.split())
    served = None
    match = _SIZE_IN_LABEL.search(text)
    if match and sequence.sizes:
        names = {each.lower(): index for index, each in enumerate(sequence.sizes)}
        named = [part.strip().lower() for part in re.split(r",|&|\band\b", match["names"])]
        if all(part in names for part in named):
            served = tuple(sorted(names[part] for part in named))
            text = text[: match.start()].rstrip()
    return read_label(line_of_text(text, sequence.sizes, scalar.span), words), served


def _count(published: Published, noun: str, words: RowWords, sizes: tuple[str, ...]) -> Count:
    name = published.noun or noun
    return Count(published.figures, _thing(name, words, sizes) if name else None)


def _thing(noun: str, words: RowWords, sizes: tuple[str, ...]) -> Thing:
    """The thing that a noun names; an unknown one keeps its name."""
    return noun_of(noun, words, sizes) or Thing(noun.lower().removesuffix("s"), Stretch(0, len(noun)))


def _noun(printed: str, words: RowWords) -> str:
    """The noun behind the first number of a printed count: "= 100 dc" counts dc."""
    last = None
    for last in _NUMBER.finditer(printed):
        after = re.match(
            r"\s*([^\W\d][\w-]*(?:\s+sps?\b|\s+spaces?\b|\s+loops?\b|\s+crochets?\b)?)", printed[last.end() :]
        )
        if after and noun_of(after[1], words):
            return after[1]
    return ""


def _counts_in_text(stated: tuple[Stated, ...], sizes: int) -> list[Count]:
    """The counts that stand in the row's own text; the last ones where there are several."""
    if not stated:
        return []
    return [
        Count(tuple(value(count.amount, size) for size in range(sizes)), count.thing, count.change)
        for count in stated[-1].counts
    ]
