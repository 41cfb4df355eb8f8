"""A Number as vectors: first size free, the others in round brackets, one number where all its sizes agree.

The rules of sized notation here are common practice, no source.
"""

from __future__ import annotations

from stitchproof.editions.number_text import Setting, settings_of, size_text, times_text
from stitchproof.editions.print_document import DASH, NO_BREAK, Entry, PlainText, PrintInline, Vector
from stitchproof.expansion.document import Number, Served, SizeList
from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.values import Value


def set_number(number: Number, sizes: SizeList, units: tuple[str, ...]) -> tuple[PrintInline, ...]:
    """The vectors a number prints as: one, or for a length one for each unit with a slash between them."""
    vectors = [_vector(number, setting, sizes) for setting in settings_of(number, units)]
    alone = len(vectors[0].groups) == 1
    if vectors[0].text == DASH:
        return (vectors[0],)
    inlines: list[PrintInline] = []
    for vector in vectors:
        if inlines:
            inlines.append(PlainText(f"{NO_BREAK}/{NO_BREAK if alone else ' '}"))
        inlines.append(vector)
    return tuple(inlines)


def set_cells(number: Number, setting: Setting, sizes: SizeList) -> tuple[Entry, ...]:
    """A number in a table over the sizes: one entry for each chosen size, never collapsed."""
    return tuple(Entry(size, _text(number, setting, size)) for size in sizes.chosen)


def set_line(number: Number, setting: Setting, sizes: SizeList) -> Vector:
    """The same as one vector in a line of its own, never collapsed."""
    return Vector(_grouped(set_cells(number, setting, sizes), sizes.groups), setting.unit, number.role)


def single_value(number: Number, sizes: SizeList) -> Value | None:
    """The value on which all sizes that read the number agree, or None."""
    values = [number.values[size] for size in _readers(number, sizes)]
    return values[0] if values and all(value == values[0] for value in values) else None


def _readers(number: Number, sizes: SizeList) -> Served:
    return tuple(size for size in sizes.chosen if size in number.served)


def _vector(number: Number, setting: Setting, sizes: SizeList) -> Vector:
    readers = _readers(number, sizes)
    if not readers:
        return Vector(((Entry(None, DASH),),), "", number.role)
    single = single_value(number, sizes)
    texts = {size_text(number, setting, size) for size in readers}
    if single is not None and (number.published is None or len(texts) == 1):
        return _alone(number, setting, single, readers)
    entries = set_cells(number, setting, sizes)
    return Vector(_grouped(entries, sizes.groups), setting.unit, number.role)


def _alone(number: Number, setting: Setting, value: Value, readers: Served) -> Vector:
    size = readers[0] if len(readers) == 1 else None
    in_words = times_text(value) if number.print_as is PrintAs.TIMES else None
    if in_words:
        return Vector(((Entry(size, in_words),),), "", number.role)
    text = size_text(number, setting, readers[0])
    return Vector(((Entry(size, text),),), "" if text == DASH else setting.unit, number.role)


def _text(number: Number, setting: Setting, size: int) -> str:
    return size_text(number, setting, size) if size in number.served else DASH


def _grouped(entries: tuple[Entry, ...], lengths: tuple[int, ...]) -> tuple[tuple[Entry, ...], ...]:
    """The first entry free, then brackets of the given lengths; what they leave over goes into a last one."""
    groups = [entries[:1]]
    start = 1
    for length in (*lengths, len(entries)):
        group = entries[start : start + length]
        if group:
            groups.append(group)
        start += length
    return tuple(groups)
