"""Steps: every line of a piece outside a block, heading or table, verbatim; indented lines go on with it."""

from __future__ import annotations

import re

from msgspec import Struct

from stitchproof.expansion.document import Number, Part, Served, Step, Tag, Text, Token
from stitchproof.expansion.inlines import verbatim
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedLine
from stitchproof.expansion.size_words import sizes_named
from stitchproof.expansion.slots import SlotReader
from stitchproof.expressions import expression
from stitchproof.formulas.faults.size_not_known import size_not_known

_PART = expression(
    r"\s*(?P<words>(?:other|all)\s+sizes|sizes?\s+(?P<sizes>[^:]*?)(?:\s+only)?)\s*:(?=\s|$)\s*",
    re.IGNORECASE,
)
_LABEL = expression(r"(?P<label>[^\W\d_][^:.;\[\]*]{0,80}?)\s*:(?=\s|$)")
_LABEL_WORD = expression(r"\b(rows?|rnds?|rounds?)\b", re.IGNORECASE)


class StepPlace(Struct, frozen=True):
    """Where a step stands: its piece, the loop values around it, the sizes its surroundings serve, and its gauge."""

    piece: str
    loops: tuple[str, ...]
    served: Served
    gauge: str = ""


def read_step(lines: list[PlacedLine], at: StepPlace, reader: SlotReader) -> Step | None:
    """One step of its first line and those that continue it; None where all its parts are for sizes it does not serve."""
    label_line, rest = _label(lines[0])
    label = verbatim(label_line, reader, at.served) if label_line else ()
    groups = _grouped([rest, *lines[1:]])
    parts: list[Part] = []
    left_over = at.served
    for prefix, part_lines in groups:
        served, tag = _served(prefix, part_lines[0], at.served, left_over, reader)
        left_over = (
            tuple(size for size in left_over if size not in served) if tag in (Tag.ONLY, Tag.OTHER) else left_over
        )
        if not served:
            continue
        if served == at.served and (tag is not Tag.ALL or not any(part.tag is not Tag.NONE for part in parts)):
            tag = Tag.NONE
        tokens = _joined(part_lines, reader, served)
        if tokens or prefix is not None:
            parts.append(Part(served, tag, tokens))
    if not parts and len(groups) > 1:
        return None
    served_at_all = tuple(size for size in at.served if any(size in part.served for part in parts)) or at.served
    return Step(_identity(at, label, parts), at.piece, label, tuple(parts), served_at_all, lines[0].place, at.gauge)


def _label(line: PlacedLine) -> tuple[PlacedLine | None, PlacedLine]:
    """The label of a row with its colon, and what follows it."""
    match = _LABEL.match(line.text)
    plain = SLOT_MARK.sub("0", match["label"]) if match else ""
    if match and _LABEL_WORD.search(plain):
        return line.part(0, match.end()), line.part(match.end())
    return None, line


def _grouped(lines: list[PlacedLine]) -> list[tuple[re.Match[str] | None, list[PlacedLine]]]:
    """The lines of each part, with what its first line says of its sizes; the first part says nothing."""
    groups: list[tuple[re.Match[str] | None, list[PlacedLine]]] = [(None, [lines[0]])]
    for line in lines[1:]:
        match = _PART.match(line.text)
        if match:
            groups.append((match, [line.part(match.end())]))
        else:
            groups[-1][1].append(line)
    return groups


def _served(
    prefix: re.Match[str] | None, line: PlacedLine, served: Served, left_over: Served, reader: SlotReader
) -> tuple[Served, Tag]:
    """The sizes of a part, and how they are named before it. line: the rest of its first line."""
    if prefix is None:
        return served, Tag.NONE
    if prefix["sizes"] is None:
        return (left_over, Tag.OTHER) if prefix["words"].lower().startswith("other") else (served, Tag.ALL)
    slot = SLOT_MARK.fullmatch(re.sub(r"^with\s+", "", prefix["sizes"], flags=re.IGNORECASE))
    if slot:
        return reader.sizes_where(int(slot[1]), served, line.place_of(0, 0).calls), Tag.ONLY
    sizes = reader.sized.source.header.sizes
    named = sizes_named(prefix["sizes"], sizes.names, sizes.called_by_number)
    if named is None:
        reader.report.add(size_not_known(line.line_span, prefix["sizes"], sizes.names))
        return served, Tag.NONE
    return tuple(size for size in served if size in named), Tag.ONLY


def _joined(lines: list[PlacedLine], reader: SlotReader, served: Served) -> tuple[Token, ...]:
    found: list[Token] = []
    for line in lines:
        stripped = line.part(len(line.text) - len(line.text.lstrip()), len(line.text.rstrip()) or None)
        if not stripped.text.strip():
            continue
        if found:
            found.append(Text(" ", stripped.place))
        found += verbatim(stripped, reader, served)
    return tuple(found)


def _identity(at: StepPlace, label: tuple[Token, ...], parts: list[Part]) -> str:
    """piece / label / loop values; a step without a label goes by its first words."""
    words = "".join(token.text for token in label if isinstance(token, Text)).strip(" :")
    if not words and parts:
        words = " ".join("".join(token.text for token in parts[0].tokens if isinstance(token, Text)).split()[:4])
    numbers = [token for token in label if isinstance(token, Number)]
    fixed = [str(token.values[token.served[0]]) for token in numbers if token.served and not at.loops]
    return "/".join((at.piece, " ".join([" ".join(words.split()), *fixed]), *at.loops))
