"""The blocks of the unfolded text: passages for some sizes, loops, notes, cautions, things made more than once, steps, prose."""

from __future__ import annotations

import re
from collections.abc import Callable

from msgspec import Struct, field
from msgspec.structs import replace

from stitchproof.diagnostics.faults.source_too_large import source_too_large
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Block, Caution, Note, Passage, Served, Tag, Times
from stitchproof.expansion.faults.block_unknown import block_unknown
from stitchproof.expansion.faults.figure_not_known import figure_not_known
from stitchproof.expansion.faults.gauge_of_heading_not_known import gauge_of_heading_not_known
from stitchproof.expansion.faults.passage_serves_nobody import passage_serves_nobody
from stitchproof.expansion.faults.trust_without_a_reason import trust_without_a_reason
from stitchproof.expansion.placed_text import SLOT_MARK, PlacedLine
from stitchproof.expansion.prose import prose_blocks
from stitchproof.expansion.size_words import sizes_named
from stitchproof.expansion.slots import SlotReader
from stitchproof.expansion.steps import StepPlace, read_step
from stitchproof.expressions import expression
from stitchproof.formulas.faults.size_not_known import size_not_known

DEEPEST = 24
FENCE = expression(r"\s*:::\s*(?P<words>.*?)\s*$")
ACCEPTANCE = expression(r"\s*:::\s*accept\b")
"""A line that reading has taken: it prints nothing."""
HEADING = expression(r"(?P<marks>#{1,6})\s+(?P<title>.*?)(?:\s*\{(?P<piece>[^{}]*)\})?\s*$")
GAUGE = expression(r"\s*\{\s*gauge\s*:\s*(?P<gauge>[^{}]*?)\s*\}\s*$")
"""At the end of a heading inside a piece: the gauge of the rows below it."""
_SIZES = expression(r"sizes?\s+(?P<names>.+)", re.IGNORECASE)
_TRUST = expression(r"on\s+trust\b[\s:,]*(?P<reason>.*)", re.IGNORECASE)
_FIGURE = expression(r"(?P<kind>photo|tutorial)\s+(?P<name>\S+)", re.IGNORECASE)
_CAUTION = expression(r"caution(?:\s+(?:for\s+)?sizes?\s+(?P<names>.+))?", re.IGNORECASE)


class Surroundings(Struct, frozen=True):
    """What a block stands in. piece: "" in prose. loops: "k=3" for each loop around it. depth: blocks around it.

    gauge: of the heading above it, else of the piece; piece_gauge: of the piece. "" where none is known. trust: why its rows
    are to be taken without proof, or "".
    """

    piece: str
    served: Served
    loops: tuple[str, ...] = ()
    depth: int = 0
    gauge: str = ""
    piece_gauge: str = ""
    trust: str = ""


class BlockReader(Struct):
    """Reads blocks; remembers the labels of steps, so that a repeated one gets a number.

    identities: each that a step has, with the number that its next repeat would get. placed: photos and tutorials by name.
    """

    reader: SlotReader
    report: Report
    identities: dict[str, int] = field(default_factory=dict)
    placed: set[str] = field(default_factory=set)

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
            if at.piece and HEADING.match(line.text):
                lines, at = self.under_heading(lines, index, at)
            taken = self.unfenced(lines, index, at, found)
            index += taken
        return tuple(found)

    def under_heading(
        self, lines: list[PlacedLine], index: int, at: Surroundings
    ) -> tuple[list[PlacedLine], Surroundings]:
        """The lines with the heading as it prints, and what stands below it: at its gauge, else at that of the piece."""
        named = GAUGE.search(lines[index].text)
        if not named:
            return lines, replace(at, gauge=at.piece_gauge)
        known = tuple(gauge.name for gauge in self.reader.sized.source.header.gauges)
        if named["gauge"] not in known and "gauges" not in self.reader.sized.source.header.unreadable:
            place = lines[index].place_of(*named.span("gauge"))
            self.report.add(gauge_of_heading_not_known(place.span, named["gauge"], known))
            return [*lines[:index], lines[index].part(0, named.start()), *lines[index + 1 :]], at
        below = replace(at, gauge=named["gauge"])
        return [*lines[:index], lines[index].part(0, named.start()), *lines[index + 1 :]], below

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
        step = read_step(lines[index:end], StepPlace(at.piece, at.loops, at.served, at.gauge), self.reader)
        if step:
            found.append(replace(step, identity=self.only_identity(step.identity), trust=at.trust))
        return end - index

    def only_identity(self, identity: str) -> str:
        """An identity that no other step has: the author's own, with a number where she repeats it."""
        number, only = self.identities.get(identity, 1), identity
        while only in self.identities:
            number += 1
            only = f"{identity}/{number}"
        self.identities[identity] = number
        self.identities.setdefault(only, 1)
        return only

    def fenced(
        self, words: str, lines: list[PlacedLine], at: Surroundings, left_over: Served
    ) -> tuple[tuple[Block, ...], Served | None]:
        """The blocks of a fence; and the sizes it served, if it is a passage for some sizes."""
        opening, body = lines[0], lines[1:]
        at = replace(at, depth=at.depth + 1)
        if at.depth > DEEPEST:  # the text as written is bounded, but a loop may open a block in each of its rounds
            self.report.add(source_too_large(opening.line_span, f"blocks are nested more than {DEEPEST} deep"))
            return (), None
        said = " ".join(words.lower().split())
        if said.startswith("each "):
            return self.round_of_loop(words, opening, body, at), None
        if said in ("other sizes", "all sizes") or _SIZES.fullmatch(words):
            served, tag, chosen_by = self.served_by(words, opening, at, left_over)
            return self.passage(served, tag, chosen_by, opening, body, at), served
        if trusted := _TRUST.fullmatch(words):
            if not trusted["reason"]:
                self.report.add(trust_without_a_reason(opening.line_span))
            return self.blocks(body, replace(at, trust=self.as_written(trusted["reason"] or "no reason given"))), None
        if said == "note":
            return (Note(self.blocks(body, replace(at, piece=""))),), None
        if caution := _CAUTION.fullmatch(words):
            served = self.named(caution["names"], opening, at.served) if caution["names"] else at.served
            tag = Tag.NONE if served == at.served else Tag.ONLY
            return (Caution(served, tag, self.blocks(body, replace(at, piece="", served=served))),), None
        if made := re.fullmatch(r"make ([2-9]|[1-9][0-9]|two|three|four)", said):
            times = {"two": 2, "three": 3, "four": 4}.get(made[1]) or int(made[1])
            return (Times(times, self.blocks(body, at), opening.place),), None
        if figure := _FIGURE.fullmatch(words):
            return self.figure(figure["kind"].lower(), figure["name"], opening, at), None
        if words:  # a `:::` that closes nothing was reported when the text was read
            self.report.add(block_unknown(opening.line_span, self.as_written(words)))
        return (), None

    def figure(self, kind: str, name: str, opening: PlacedLine, at: Surroundings) -> tuple[Block, ...]:
        """The photo or tutorial page that a block names; one that pattern.yaml does not have is reported."""
        from stitchproof.expansion.figures import placed_figure  # most patterns have none yet

        blocks = placed_figure(kind, name, self.reader, at.served)
        if blocks is None:
            header = self.reader.sized.source.header
            known = [each.name for each in (header.photos if kind == "photo" else header.tutorials)]
            self.report.add(figure_not_known(opening.line_span, kind, name, known))
        self.placed.add(name)
        return blocks or ()

    def as_written(self, words: str) -> str:
        """The words of a fence with its slots as the designer wrote them."""
        return SLOT_MARK.sub(lambda mark: self.reader.island(int(mark[1])).span.text, words)

    def round_of_loop(
        self, words: str, opening: PlacedLine, body: list[PlacedLine], at: Surroundings
    ) -> tuple[Block, ...]:
        """One round of a loop block, for the sizes that still have one."""
        mark = SLOT_MARK.search(words)
        if not mark:
            self.report.add(block_unknown(opening.line_span, words))
            return ()
        occurrence = self.reader.occurrences[int(mark[1])]
        island = self.reader.island(int(mark[1]))
        served = self.reader.sizes_where(int(mark[1]), at.served, opening.place.calls)
        value = dict(occurrence.bindings).get(island.variable, "")
        inner = replace(at, served=served, loops=(*at.loops, f"{island.variable}={value}"))
        if not served:
            return ()
        blocks = self.blocks(body, inner)
        if served == at.served:
            return blocks
        return (Passage(served, Tag.ONLY, blocks, island.span.text, opening.place),)

    def served_by(
        self, words: str, opening: PlacedLine, at: Surroundings, left_over: Served
    ) -> tuple[Served, Tag, str]:
        """The sizes that a passage serves, how they are named before it, and the words that chose them."""
        sizes = _SIZES.fullmatch(words)
        if sizes is None:
            return (left_over, Tag.OTHER, words) if words.lower().startswith("other") else (at.served, Tag.ALL, words)
        mark = SLOT_MARK.fullmatch(re.sub(r"^with\s+", "", sizes["names"], flags=re.IGNORECASE))
        if mark:
            chosen_by = self.reader.island(int(mark[1])).span.text
            return self.reader.sizes_where(int(mark[1]), at.served, opening.place.calls), Tag.ONLY, chosen_by
        return self.named(sizes["names"], opening, at.served), Tag.ONLY, words

    def named(self, names: str, opening: PlacedLine, served: Served) -> Served:
        """The sizes that a block names, among those served; all of them where it names one it does not know (reported)."""
        sizes = self.reader.sized.source.header.sizes
        named = sizes_named(names, sizes.names, sizes.called_by_number)
        if named is None:
            self.report.add(size_not_known(opening.line_span, self.as_written(names), sizes.names))
            return served
        return tuple(size for size in served if size in named)

    def passage(
        self, served: Served, tag: Tag, chosen_by: str, opening: PlacedLine, body: list[PlacedLine], at: Surroundings
    ) -> tuple[Block, ...]:
        """The blocks of a passage; without a frame of their own where it serves all that its surroundings serve."""
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
