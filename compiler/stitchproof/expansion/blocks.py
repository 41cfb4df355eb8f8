"""The blocks of the unfolded text: passages for some sizes, loops, notes, cautions, things made more than once, steps, prose."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Block, Caution, Note, Passage, Served, Tag, Times
from stitchproof.expansion.faults.block_unknown import block_unknown
from stitchproof.expansion.faults.passage_serves_nobody import passage_serves_nobody
from stitchproof.expansion.faults.size_not_known import size_not_known
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedLine
from stitchproof.expansion.prose import prose_blocks
from stitchproof.expansion.size_words import sizes_named
from stitchproof.expansion.slots import SlotReader
from stitchproof.expansion.steps import StepPlace, read_step

FENCE = re.compile(r"\s*:::\s*(?P<words>.*?)\s*$")
HEADING = re.compile(r"(?P<marks>#{1,6})\s+(?P<title>.*?)(?:\s*\{(?P<piece>[^{}]*)\})?\s*$")
_SIZES = re.compile(r"sizes? (?P<names>.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a block stands in. piece: "" in prose. loops: "k=3" for each loop around it."""

    piece: str
    served: Served
    loops: tuple[str, ...] = ()


@dataclass
class BlockReader:
    """Reads blocks; remembers the labels of steps, so that a repeated one gets a number."""

    reader: SlotReader
    report: Report
    identities: dict[str, int] = field(default_factory=dict)

    def blocks(self, lines: list[PlacedLine], at: Surroundings) -> tuple[Block, ...]:
        """The blocks of a stretch of lines."""
        found: list[Block] = []
        left_over = at.served
        index = 0
        while index < len(lines):
            line = lines[index]
            fence = FENCE.match(line.text)
            if fence:
                end = _closing(lines, index)
                blocks, served = self.fenced(fence["words"], lines[index : max(end, index + 1)], at, left_over)
                left_over = tuple(size for size in left_over if size not in served) if served is not None else at.served
                found += blocks
                index = end + 1
                continue
            if line.text.strip():
                left_over = at.served
            taken = self.unfenced(lines, index, at, found)
            index += taken
        return tuple(found)

    def unfenced(self, lines: list[PlacedLine], index: int, at: Surroundings, found: list[Block]) -> int:
        """Read a step, a heading, a table or a stretch of prose from `index` on; how many lines it takes."""
        line = lines[index]
        if not at.piece:
            end = _run(lines, index, lambda each: not FENCE.match(each.text))
            found += prose_blocks(lines[index:end], self.reader, at.served)
            return end - index
        if not line.text.strip():
            return 1
        if HEADING.match(line.text):
            found += prose_blocks([line], self.reader, at.served)
            return 1
        if line.text.lstrip().startswith("|"):
            end = _run(lines, index, lambda each: each.text.lstrip().startswith("|"))
            found += prose_blocks(lines[index:end], self.reader, at.served)
            return end - index
        end = _run(
            lines,
            index + 1,
            lambda each: each.text[:1] in (" ", "\t") and bool(each.text.strip()) and not FENCE.match(each.text),
        )
        step = read_step(lines[index:end], StepPlace(at.piece, at.loops, at.served), self.reader)
        number = self.identities[step.identity] = self.identities.get(step.identity, 0) + 1
        found.append(replace(step, identity=f"{step.identity}/{number}") if number > 1 else step)
        return end - index

    def fenced(
        self, words: str, lines: list[PlacedLine], at: Surroundings, left_over: Served
    ) -> tuple[tuple[Block, ...], Served | None]:
        """The blocks of a fence; and the sizes it served, if it is a passage for some sizes."""
        opening, body = lines[0], lines[1:]
        kind = words.split(" ")[0].lower()
        if kind == "each":
            return self.round_of_loop(words, opening, body, at), None
        if kind in ("sizes", "size", "other", "all"):
            served, tag, chosen_by = self.served_by(words, opening, at, left_over)
            return self.passage(served, tag, chosen_by, opening, body, at), served
        if kind == "note":
            return (Note(self.blocks(body, Surroundings("", at.served, at.loops))),), None
        if kind == "caution":
            served = self.named(_SIZES.fullmatch(words[len("caution") :].strip()), opening, at.served)
            tag = Tag.NONE if served == at.served else Tag.ONLY
            return (Caution(served, tag, self.blocks(body, Surroundings("", served, at.loops))),), None
        made = re.fullmatch(r"make (\d{1,2}|two|three|four)", words)
        if made:
            times = {"two": 2, "three": 3, "four": 4}.get(made[1]) or int(made[1])
            return (Times(times, self.blocks(body, at), opening.place),), None
        if words:  # a `:::` that closes nothing was reported when the text was read
            self.report.add(block_unknown(opening.line_span, words))
        return (), None

    def round_of_loop(
        self, words: str, opening: PlacedLine, body: list[PlacedLine], at: Surroundings
    ) -> tuple[Block, ...]:
        mark = SLOT_MARK.search(words)
        if not mark:
            self.report.add(block_unknown(opening.line_span, words))
            return ()
        occurrence = self.reader.occurrences[int(mark[1])]
        island = self.reader.sized.source.islands[occurrence.island]
        served = self.reader.sizes_where(int(mark[1]), at.served, opening.place.calls)
        value = dict(occurrence.bindings).get(island.variable, "")
        inner = Surroundings(at.piece, served, (*at.loops, f"{island.variable}={value}"))
        if not served:
            return ()
        blocks = self.blocks(body, inner)
        if served == at.served:
            return blocks
        return (Passage(served, Tag.ONLY, blocks, island.span.text, opening.place),)

    def served_by(
        self, words: str, opening: PlacedLine, at: Surroundings, left_over: Served
    ) -> tuple[Served, Tag, str]:
        if words.lower() == "other sizes":
            return left_over, Tag.OTHER, words
        if words.lower() == "all sizes":
            return at.served, Tag.ALL, words
        mark = SLOT_MARK.search(words)
        if words.lower().startswith("sizes with") and mark:
            island = self.reader.sized.source.islands[self.reader.occurrences[int(mark[1])].island]
            return self.reader.sizes_where(int(mark[1]), at.served, opening.place.calls), Tag.ONLY, island.span.text
        return self.named(_SIZES.fullmatch(words), opening, at.served), Tag.ONLY, words

    def named(self, match: re.Match[str] | None, opening: PlacedLine, served: Served) -> Served:
        """The sizes that a block names, among those served; all of them where it names none it knows (reported)."""
        if match is None:
            return served
        sizes = self.reader.sized.source.header.sizes
        named = sizes_named(match["names"], sizes.names, sizes.called_by_number)
        if named is None:
            self.report.add(size_not_known(opening.line_span, match["names"], sizes.names))
            return served
        return tuple(size for size in served if size in named)

    def passage(
        self, served: Served, tag: Tag, chosen_by: str, opening: PlacedLine, body: list[PlacedLine], at: Surroundings
    ) -> tuple[Block, ...]:
        if not served:
            if not at.loops and tag is not Tag.OTHER:
                self.report.add(passage_serves_nobody(opening.line_span))
            return ()
        blocks = self.blocks(body, replace(at, served=served))
        if served == at.served and tag is not Tag.ALL:
            return blocks
        return (Passage(served, tag, blocks, chosen_by, opening.place),)


def _closing(lines: list[PlacedLine], index: int) -> int:
    """The index of the line that closes the fence opened at `index`; the end where none does (reported when it was read)."""
    depth = 0
    for position in range(index, len(lines)):
        match = FENCE.match(lines[position].text)
        if match:
            depth += 1 if match["words"] else -1
        if depth <= 0 and match:
            return position
    return len(lines)


def _run(lines: list[PlacedLine], index: int, belongs: Callable[[PlacedLine], bool]) -> int:
    """The index behind the run of lines that belong together from `index` on."""
    while index < len(lines) and belongs(lines[index]):
        index += 1
    return index
