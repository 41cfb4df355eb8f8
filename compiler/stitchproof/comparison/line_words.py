"""A line as words that can be held against those of another: numbers of all sizes in brackets, each vector one word."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import SequenceMatcher
from functools import lru_cache

from stitchproof.comparison.comparison import Pair, Stretch
from stitchproof.measures.singulars import once, singular
from stitchproof.record.reading import parts_read
from stitchproof.record.record import Record, RecordedBlock, Token

WORD = re.compile(r"\s+|[^\s\w]|\w+")
BETWEEN_NUMBERS = re.compile(r"([(), /]+)")
DASH = "–"
MOST_PAIRS = 4_000_000
"""Of words in two lines: longer ones are told as a whole."""


@lru_cache(maxsize=20_000)
def template_words(block: RecordedBlock) -> tuple[str, ...]:
    """The words of a line as written, slots as one word each; blanks and line ends count for nothing."""
    words: list[str] = []
    for part in block.parts:
        for token in part:
            words += _words(token) if isinstance(token, str) else [f"<{token.written}>"]
    return tuple(word for word in words if not word.isspace())


def plain_words(block: RecordedBlock) -> tuple[str, ...]:
    """Its words without what stands in slots."""
    return tuple(word for part in block.parts for token in part if isinstance(token, str) for word in token.split())


def shown_parts(block: RecordedBlock, record: Record) -> tuple[tuple[str, ...], ...]:
    """The words of each part of a line as all sizes read it, each vector one word: "64 (72, 80, 88, 96)"."""
    found = []
    for number, part in enumerate(block.parts):
        columns = _columns(block, record, number)
        words = _for_whom(block, record, number)
        place, is_one = 0, False
        for token in part:
            if isinstance(token, str):
                words += _after_one(words, token) if is_one else _words(token)
                is_one = False
            else:
                words.append(_vector([None if column is None else column[place] for column in columns]))
                place, is_one = place + 1, words[-1] == "1"
        found.append(tuple(words))
    return tuple(found)


def _after_one(words: list[str], token: str) -> list[str]:
    """The words after a number that is 1 for all readers, as they are printed: "1 st" of "1 sts", "once" of "1 times"."""
    replaced = once(token)
    if replaced is None:
        return _words(singular(token))
    words[-1] = replaced[0]
    return _words(replaced[1])


def _for_whom(block: RecordedBlock, record: Record, number: int) -> list[str]:
    """The sizes of a part that not every reader of the line reads, as words before it."""
    if not block.read_by or not block.parts[number]:
        return []
    sizes = block.read_by[number]
    readers = [size for size in record.sizes if block.identity in record.by_size[size].blocks]
    if set(sizes) >= set(readers):
        return []
    return _words(f"{'Size' if len(sizes) == 1 else 'Sizes'} {', '.join(sizes)}: ")


def shown_words(parts: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    """Some parts of a line, one after the other."""
    words: list[str] = []
    for part in parts:
        words += [*part, " "] if part else []
    return tuple(words[:-1])


def _words(token: str) -> list[str]:
    return [" " if word.isspace() else word for word in WORD.findall(token)]


def _columns(block: RecordedBlock, record: Record, number: int) -> list[tuple[str, ...] | None]:
    """For each size the numbers of one part, None where the size does not read it."""
    found: list[tuple[str, ...] | None] = []
    for size in record.sizes:
        held = record.by_size[size].blocks.get(block.identity)
        read = held is not None and (not block.read_by or size in block.read_by[number])
        if held is None or not read:
            found.append(None)
            continue
        before = sum(1 for sizes in block.read_by[:number] if size in sizes) if block.read_by else number
        found.append(held[before] if held else ())
    return found


def _vector(values: list[str | None]) -> str:
    """Values of all sizes in brackets, a unit that they share once: "40 (45, 50) cm / 15¾ (17¾, 19¾) in"."""
    read = {value for value in values if value is not None}
    if len(read) <= 1:
        return next(iter(read), DASH)
    columns = [[DASH] if value is None else value.split(" / ") for value in values]
    settings = max(map(len, columns))
    texts = []
    for number in range(settings):
        cells = [column[number] if len(column) == settings else DASH for column in columns]
        units = {unit for cell in cells if cell != DASH for unit in (cell.rpartition(" ")[2] if " " in cell else "",)}
        unit = units.pop() if len(units) == 1 else ""
        bare = [cell.removesuffix(f" {unit}") if unit else cell for cell in cells]
        texts.append(f"{bare[0]} ({', '.join(bare[1:])}) {unit}".rstrip())
    return " / ".join(texts)


def stretches(before: tuple[str, ...], after: tuple[str, ...]) -> tuple[Stretch, ...]:
    """Two lines of words, run by run: the same, or other ones. Of a vector that kept its form, number by number."""
    found: list[Stretch] = []
    if len(before) * len(after) > MOST_PAIRS:
        return (Stretch(Pair("".join(before), "".join(after))),)
    for what, start, end, new_start, new_end in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        one, other = before[start:end], after[new_start:new_end]
        if what == "replace" and len(one) == len(other):
            for old_word, new_word in zip(one, other, strict=True):
                found += _number_by_number(old_word, new_word)
        else:
            found.append(Stretch(Pair("".join(one), "".join(other))))
    return tuple(found)


def _number_by_number(before: str, after: str) -> list[Stretch]:
    """Two vectors with as many numbers in the same brackets, aligned size by size; anything else as a whole."""
    one, other = BETWEEN_NUMBERS.split(before), BETWEEN_NUMBERS.split(after)
    if len(one) != len(other) or one[1::2] != other[1::2]:
        return [Stretch(Pair(before, after))]
    return [Stretch(Pair(x, y)) for x, y in zip(one, other, strict=True) if x or y]


def numbers_in(block: RecordedBlock, record: Record, size: str) -> list[tuple[Token, str]] | None:
    """The slots that a size reads and what each prints there; None where it does not read the line."""
    held = record.by_size[size].blocks.get(block.identity)
    if held is None:
        return None
    parts = parts_read(block, size)
    slots = [[token for token in part if not isinstance(token, str)] for part in parts]
    return [
        pair
        for tokens, values in zip(slots, held or ((),) * len(parts), strict=True)
        for pair in zip(tokens, values, strict=True)
    ]
