"""What reading hands on: a pattern as written, every value located, nothing worked out."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct

from stitchproof.diagnostics.acceptance import Acceptance
from stitchproof.formulas.slot import Slot
from stitchproof.formulas.tree import Formula
from stitchproof.reading.claim_entries import Claim
from stitchproof.source import SourceFile, Span

if TYPE_CHECKING:
    from stitchproof.reading.figure_entries import PhotoEntry, TutorialEntry
    from stitchproof.reading.schematic_entries import SchematicEntry  # which most patterns do without


class Words(Struct, frozen=True, eq=False):
    """A text value of pattern.yaml, read but not expanded. `slots` stand in it by position in `text`."""

    text: str
    span: Span
    slots: tuple[tuple[int, int, Slot], ...] = ()

    def __bool__(self) -> bool:
        return bool(self.text.strip())


class Sizes(Struct, frozen=True, eq=False):
    """names: in order. called_by_number: whether the text says "Size 2" or the name. groups: sizes per bracket.

    values_listed: how many values the lists with one for each size have, where they agree on it, else 0.
    sample: the size that the sample was made in and that drawings show, if the pattern says so.
    """

    names: tuple[str, ...]
    name_spans: tuple[Span, ...]
    called_by_number: bool
    groups: tuple[int, ...]
    how_to_choose: Words | None
    span: Span
    values_listed: int = 0
    sample: Words | None = None


class Gauge(Struct, frozen=True, eq=False):
    """A gauge: stitches and rows over a length. `rows_noun`: rows, or rnds where it is worked in rounds.

    unreadable: the keys whose number could not be read (reported).
    """

    name: str
    stitches: Formula | None
    rows: Formula | None
    rows_noun: str
    over: Formula | None
    rows_per_rib: Formula | None
    stitch: Words | None
    worked: Words | None
    hook: Words | None
    state: Words | None
    span: Span
    unreadable: tuple[str, ...] = ()


class RateEntry(Struct, frozen=True, eq=False):
    """A pick-up rate. `along`: the gauge of the edge, so that a change of the edge can be told in cm."""

    name: str
    sts: Formula | None
    per: Formula | None
    left_over: Formula | None
    along: Words | None
    span: Span


class Column(Struct, frozen=True, eq=False):
    """A second column of a value, one number per size (or one for all)."""

    formulas: tuple[Formula | None, ...]
    span: Span


class Definition(Struct, frozen=True, eq=False):
    """A named value. `formulas`: one for all sizes, or one per size where it is given by hand; None where unreadable.

    section: body, ratios, measures or counts. parameter: the k of `after_dec(k)`, else "". start: its value at k = 0.
    inches: a second column, in inches, beside one in cm. should_be: what a value typed by hand is held against.
    in_size: sizes (names as written) whose value is set by hand, beside the formula that serves the others.
    """

    name: str
    section: str
    parameter: str
    formulas: tuple[Formula | None, ...]
    by_hand: bool
    unit: Words | None
    rounding: Words | None
    multiple: Formula | None
    plus: Formula | None
    at_least: Formula | None
    at_most: Formula | None
    start: Formula | None
    gauge: Words | None
    why: Words | None
    span: Span
    value_span: Span
    inches: Column | None = None
    should_be: Formula | None = None
    in_size: tuple[tuple[Words, Formula | None], ...] = ()


class PlanInput(Struct, frozen=True, eq=False):
    """One key of a plan. formulas: its number, one per size where `by_size`, or the numbers of a list; None where unreadable.

    word: what it says where it takes a word of a closed list, or the name of a rate.
    """

    key: str
    formulas: tuple[Formula | None, ...]
    by_size: bool
    word: str
    span: Span


class PlanEntry(Struct, frozen=True, eq=False):
    """A plan. kind: "" where it cannot be used (reported). stitch: the abbreviation of the plain stitch between the shapings."""

    name: str
    kind: str
    inputs: tuple[PlanInput, ...]
    stitch: Words | None
    why: Words | None
    span: Span
    value_span: Span

    @property
    def formulas(self) -> tuple[Formula | None, ...]:
        """Of all its keys, in the order written."""
        return tuple(formula for each in self.inputs for formula in each.formulas)


class OffsetFabric(Struct, frozen=True, eq=False):
    """A fabric that alternates a stitch and a chain space: its total, and the way it is worked."""

    total: Formula | None
    worked: Words | None
    span: Span


class PieceEntry(Struct, frozen=True, eq=False):
    """A piece. `sizes`: the sizes it is worked in (names), or () for all. starts_from: the pieces it is worked from or onto.

    edge: what its first row is worked into, told in numbers of stitches and rows, one stretch after the other.
    """

    name: str
    gauge: Words | None
    worked: Words | None
    sizes: tuple[Words, ...]
    offset_fabric: OffsetFabric | None
    span: Span
    starts_from: tuple[Words, ...] = ()
    edge: tuple[Formula, ...] = ()


class YarnStitch(Struct, frozen=True, eq=False):
    """A stitch named under `yarn`, "sc" or "sc at rib". gauge: "" for every gauge. name: of what it weighs, as a named value."""

    stitch: str
    gauge: str
    span: Span
    name: str = ""

    @property
    def words(self) -> str:
        return f"{self.stitch} at {self.gauge}" if self.gauge else self.stitch


class CountsAs(Struct, frozen=True, eq=False):
    """A stitch that weighs as so many of another: `hdc2tog: hdc`, `shell: 5 dc`."""

    stitch: YarnStitch
    number: Fraction
    of: YarnStitch


class YarnEntry(Struct, frozen=True, eq=False):
    """A yarn, counted by its stitches. name: "yarn", or "yarn.main" where there are several.

    numbers: what its stitches and its sample weigh, its margin and the like, each a named value below that name.
    inside_scale: stitches that are not weighed; the weight of the sample holds them. pieces: those it is used for, () for
    all; one_of: those of which a maker works only one. sample_pieces: what of the pattern the sample is, () for the whole.
    """

    name: str
    numbers: tuple[Definition, ...]
    weights: tuple[YarnStitch, ...]
    counts_as: tuple[CountsAs, ...]
    inside_scale: tuple[YarnStitch, ...]
    sample_size: Words | None
    sample_pieces: tuple[Words, ...]
    pieces: tuple[Words, ...]
    one_of: tuple[Words, ...]
    span: Span


class FinishedLine(Struct, frozen=True, eq=False):
    """One line of the table of sizes: a label, and the number to print."""

    label: Words
    show: Slot


class SpecialStitch(Struct, frozen=True, eq=False):
    """A stitch or abbreviation that the pattern itself defines.

    takes, makes: places of the row below that it uses up, and stitches it leaves, if the pattern says so. worked_as: its
    stitches in the words of a row, "(dc, ch 1, dc) in next st".
    """

    abbreviation: str
    name: Words | None
    how: Words | None
    span: Span
    takes: int | None = None
    makes: int | None = None
    worked_as: Words | None = None


class CautionEntry(Struct, frozen=True, eq=False):
    """A shipped caution, by its rule, for some sizes (names) or, with (), for all."""

    rule: Words
    sizes: tuple[Words, ...]
    span: Span


class Identity(Struct, frozen=True, eq=False):
    """Who and what."""

    title: Words
    revision: Words | None
    date: Words | None
    designer: Words | None
    contact: Words | None
    licence: Words | None
    summary: Words | None
    audience: tuple[Words, ...]
    terms: str
    units: tuple[str, ...]


class Revision(Struct, frozen=True, eq=False):
    """One revision of the pattern. changes: what a maker who has an earlier one should know."""

    revision: Words
    date: Words | None
    changes: Words | None


class AtAGlance(Struct, frozen=True, eq=False):
    """What a maker wants to know before she begins. because: what makes it as difficult as it is."""

    difficulty: Words | None
    because: Words | None
    techniques: tuple[Words, ...]
    languages: tuple[Words, ...]


class EditionEntry(Struct, frozen=True, eq=False):
    """An edition to be made. sizes: one file for each of these sizes (names); each: one for every size."""

    name: Words
    sizes: tuple[Words, ...]
    each: bool


class BodySource(Struct, frozen=True, eq=False):
    """The body table that `body:` names: a shipped one by its key, or, with is_file, a CSV file of the designer's.

    sizes: what each of her sizes is in the table, () where the names are the same. rows: the rows she takes, () for all.
    take: which figure of a range, for a row, or for every row where the first is None. file: the CSV, None where it could
    not be read (reported).
    """

    named: Words
    is_file: bool
    sizes: tuple[Words, ...]
    rows: tuple[Words, ...]
    take: tuple[tuple[Words | None, Words], ...]
    file: SourceFile | None = None


class Header(Struct, frozen=True, eq=False):
    """All that pattern.yaml says. `unreadable`: keys whose value could not be taken apart, so that names may be missing."""

    identity: Identity
    sizes: Sizes
    gauges: tuple[Gauge, ...]
    rates: tuple[RateEntry, ...]
    definitions: tuple[Definition, ...]
    plans: tuple[PlanEntry, ...]
    must_hold: tuple[Claim, ...]
    pieces: tuple[PieceEntry, ...]
    finished: tuple[FinishedLine, ...]
    materials: tuple[Words, ...]
    special_stitches: tuple[SpecialStitch, ...]
    cautions: tuple[CautionEntry, ...]
    text_order: tuple[Words, ...]
    acceptances: tuple[Acceptance, ...]
    unreadable: frozenset[str] = frozenset()
    body: BodySource | None = None
    yarns: tuple[YarnEntry, ...] = ()
    schematics: tuple[SchematicEntry, ...] = ()
    photos: tuple[PhotoEntry, ...] = ()
    tutorials: tuple[TutorialEntry, ...] = ()
    editions: tuple[EditionEntry, ...] = ()
    at_a_glance: AtAGlance | None = None
    errata: Words | None = None
    thanks: Words | None = None
    revisions: tuple[Revision, ...] = ()


class Island(Struct, frozen=True, eq=False):
    """A slot, a condition on the sizes, or the bounds of a loop, found in a text.

    slot: None where a formula could not be read (reported). first: of a loop, its first number; `slot` is its last.
    plan: of a loop over a plan, the plan's name as written; what: what each k is called there ("dec rnd", "k").
    shared: it stands in a shared text and sees only what is handed to it.
    """

    slot: Slot | None
    first: Formula | None
    variable: str
    span: Span
    shared: bool
    plan: Span | None = None
    what: Span | None = None


class TextFile(Struct, frozen=True, eq=False):
    """A text of the pattern. `template`: the text for Jinja, marks and island calls put in. name: as templates call it."""

    name: str
    file: SourceFile
    template: str
    shared: bool
    acceptances: tuple[Acceptance, ...]


class PatternSource(Struct, frozen=True, eq=False):
    """A pattern folder, read. `marks`: where each mark of the templates stands; `islands`: its slots and conditions.

    whole: whether all its texts could be read.
    """

    name: str
    header: Header
    header_file: SourceFile
    texts: tuple[TextFile, ...]
    shared_texts: tuple[TextFile, ...]
    islands: tuple[Island, ...]
    marks: tuple[Span, ...]
    whole: bool = True
