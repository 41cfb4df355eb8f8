"""The errata sheet of a comparison: what a maker with the old revision has to write into her copy, and what it means for her."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from stitchproof.comparison.comparison import (
    COUNT_OUT,
    Comparison,
    How,
    LineChanged,
    NumberChanged,
    SizeChange,
    Stretch,
)
from stitchproof.comparison.words import number_lines, size_number_lines, sizes_text, unchanged_text

NOT_FOR_MAKERS = ("revisions", "at_a_glance", "abbreviations")
"""Parts that tell of the pattern, or follow from its rows: nothing to correct in a printed copy."""
MEASURES = ("measure", "drawn measure")
ACROSS = ("wider", "narrower")
ALONG = ("longer, measured over its rows", "shorter, measured over its rows")
WAYS = {"sts": ACROSS, "rows": ALONG, "rnds": ALONG, "cm": ("longer", "shorter")}

WORKED = ("proved", "from stated")
"""Proofs, as in the record, of rows that were worked stitch by stitch and held to the counts that they state."""
STATED_COUNT = "stated count"
PLACING = {"", "times"}
"""Roles, as in the record, of numbers that say where stitches go: how many are worked or left, and how often."""


class Erratum(Struct, frozen=True):
    """One correction. sizes: in words. reads, should_read: its words, run by run; where only numbers of a few sizes change,
    by_size tells them alone. pages: where it is printed, by edition, in the old revision. effect: on the finished item."""

    part: str
    label: str
    sizes: str
    is_row: bool
    how: How
    stretches: tuple[Stretch, ...]
    by_size: tuple[tuple[str, str], ...]
    pages: tuple[tuple[str, str], ...]
    effect: str

    @property
    def reads(self) -> str:
        return "".join(each.words.old for each in self.stretches).strip()

    @property
    def should_read(self) -> str:
        return "".join(each.words.new for each in self.stretches).strip()


class ErrataSheet(Struct, frozen=True):
    """All corrections from one revision to the next. date: as the new revision is dated, or as asked for. affected: the
    revisions that have the fault. yarn: what amounts of yarn change, line by line. unchanged: what is proved to be the same.
    old_order, new_order: the sizes in the order in which numbers print them, where the new revision has others than the old one.
    """

    title: str
    designer: str
    contact: str
    date: str
    affected: str
    corrected: str
    rows: tuple[Erratum, ...]
    measures: tuple[Erratum, ...]
    yarn: tuple[str, ...]
    unchanged: tuple[str, ...]
    old_order: str = ""
    new_order: str = ""


def errata_of(comparison: Comparison, designer: str, contact: str, date: str, affected: str) -> ErrataSheet:
    """The sheet. designer, contact: as on the title page. date: "" for that of the new revision. affected: "" for the old
    revision alone."""
    lines = [line for line in comparison.lines if _is_for_makers(line, comparison)]
    return ErrataSheet(
        comparison.new.title,
        designer,
        contact,
        date or comparison.new.date,
        affected or comparison.old.revision or "before",
        comparison.new.revision or "now",
        tuple(_entry(line, comparison) for line in lines if line.kind not in MEASURES),
        tuple(_entry(line, comparison) for line in lines if line.kind in MEASURES),
        tuple(_yarn(comparison)),
        tuple(_unchanged(comparison)),
        *(
            ()
            if comparison.old.sizes == comparison.new.sizes
            else map(_order, (comparison.old.sizes, comparison.new.sizes))
        ),
    )


def _order(sizes: tuple[str, ...]) -> str:
    """ "S (M, L)": as a number of all sizes stands on the page."""
    first, *others = sizes
    return f"{first} ({', '.join(others)})" if others else first


def _unchanged(comparison: Comparison) -> Iterator[str]:
    """For a maker: which sizes have nothing to correct, and that all other lines stand."""
    if comparison.same_sizes:
        yield unchanged_text(comparison)[0]
    yield f"All other lines are as they were: {comparison.same_lines} of them in every size."


def _is_told_twice(line: LineChanged, comparison: Comparison) -> bool:
    """A lettered measure of a drawing that stands in the table of sizes by the same name."""
    name = line.label.partition(" ")[2]
    return line.kind == "drawn measure" and any(
        each.kind == "measure" and each.label == name for each in comparison.lines
    )


def _is_for_makers(line: LineChanged, comparison: Comparison) -> bool:
    """Whether an old copy has to be corrected there. A line that only a new size reads is no correction."""
    new_size_only = line.how is How.ADDED and set(line.sizes) <= set(comparison.sizes_added)
    return line.part not in NOT_FOR_MAKERS and not new_size_only and not _is_told_twice(line, comparison)


def _entry(line: LineChanged, comparison: Comparison) -> Erratum:
    every = comparison.old.sizes if line.how is How.REMOVED else comparison.new.sizes
    few = line.only_numbers and 0 < len(line.numbers) == len(line.sizes) <= 3
    return Erratum(
        line.under,
        line.label,
        sizes_text(line.sizes, every),
        line.kind == "row",
        line.how,
        line.stretches,
        tuple(size_number_lines(line)) if few else (),
        tuple((edition, pair.old) for edition, pair in line.pages if pair.old),
        _effect(line, comparison),
    )


def _effect(line: LineChanged, comparison: Comparison) -> str:
    """What a piece is like that was worked by the old text."""
    if line.how is How.MOVED:
        return "It stands in another place; its words are the same."
    if line.kind != "row":
        return ""
    told = dict.fromkeys(text for change in _changes(line, comparison) for text in _told(change, line, comparison))
    told = told or dict.fromkeys(_measures(line, comparison))
    if told:
        return f"Worked as printed before, {'; '.join(told)}."
    if line.numbers:
        return _without_a_measure(line)
    return "The row was missing." if line.how is How.ADDED else "No number changes." if line.how is How.CHANGED else ""


def _without_a_measure(line: LineChanged) -> str:
    """Where numbers of a row changed and no measurement: what the proofs of both revisions say of its counts, and no more."""
    if line.proof.old == COUNT_OUT:
        return "Worked as printed before, the counts do not come out; no finished measurement changes."
    worked = line.proof.old in WORKED and line.proof.new in WORKED and line.counts_held
    if worked and STATED_COUNT in line.roles:
        return (
            "Worked as printed before, the row comes out with the count printed there; no finished measurement changes."
        )
    if worked and set(line.roles) <= PLACING:
        return "The count is the same; stitches are placed otherwise."
    return "No finished measurement changes."


def _measures(line: LineChanged, comparison: Comparison) -> Iterator[str]:
    """The finished measurements that hang on a number of the line: "Brim depth is 7 cm, not 7.5 cm (size Adult)"."""
    behind = {name for chain in line.causes for name in chain.names}
    for other in comparison.lines:
        if other.kind == "measure" and any(behind & set(chain.names) for chain in other.causes):
            for size, pairs in other.numbers:
                if size in line.sizes and pairs:
                    yield f"{other.label} is {pairs[0].old}, not {pairs[0].new} (size {size})"


def _changes(line: LineChanged, comparison: Comparison) -> Iterator[NumberChanged]:
    """The numbers that the line prints and whose width or length is known."""
    printed = {chain.names[0] for chain in line.causes}
    return (each for each in comparison.numbers if each.name in printed and each.unit in WAYS)


def _told(change: NumberChanged, line: LineChanged, comparison: Comparison) -> Iterator[str]:
    """ "2.4 cm / 0.9 in narrower (size 3)", the sizes with one change together."""
    by_words: dict[str, list[str]] = {}
    for each in change.changes:
        if each.size in line.sizes and each.change_cm and not each.k:
            by_words.setdefault(_by_how_much(each, change.unit), []).append(each.size)
    for words, sizes in by_words.items():
        yield f"the piece comes out {words} ({sizes_text(sizes, comparison.new.sizes)})"


def _by_how_much(change: SizeChange, unit: str) -> str:
    more, less = WAYS[unit]
    grew = change.change_cm.startswith("+")  # so the old one is smaller
    return f"{change.change_cm.replace('+', '').replace('−', '').replace('±', '')} {less if grew else more}"


def _yarn(comparison: Comparison) -> Iterator[str]:
    for number in comparison.numbers:
        if number.name.endswith((".grams", ".balls")):
            name = {"grams": "Yarn", "balls": "Balls"}[number.name.rpartition(".")[2]]
            told = [f"size {size}: {text}" for size, text, _ in number_lines(number)]
            yield f"{name}: {'; '.join(told)}"
