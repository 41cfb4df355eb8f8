"""What a written row says, as a tree. One tree for all sizes: every number has one value per size.

Its places stand in row_places. The tree points at stretches of its line and copies no text. It says what is written and
decides nothing that needs the fabric: how often "around" goes, whether a chain is a turning chain or a space, which stitch
"next" is. That is simulation's.
"""

from __future__ import annotations

from msgspec import Struct

from stitchproof.rows.meeting_tree import EndsWith as EndsWith
from stitchproof.rows.meeting_tree import JoinAs as JoinAs
from stitchproof.rows.meeting_tree import MarkedStitch as MarkedStitch
from stitchproof.rows.meeting_tree import Meeting as Meeting
from stitchproof.rows.meeting_tree import NamedSpan as NamedSpan
from stitchproof.rows.meeting_tree import SeamSide as SeamSide
from stitchproof.rows.meeting_tree import Sewn as Sewn
from stitchproof.rows.meeting_tree import StartAfter as StartAfter
from stitchproof.rows.row_places import Amount as Amount
from stitchproof.rows.row_places import Loops as Loops
from stitchproof.rows.row_places import Reach as Reach
from stitchproof.rows.row_places import Stop as Stop
from stitchproof.rows.row_places import Stretch as Stretch
from stitchproof.rows.row_places import Target as Target
from stitchproof.rows.row_places import Thing as Thing


class Work(Struct, frozen=True):
    """Stitches worked into places.

    stitch: its id in the lexicon, or the pattern's own; "inc" and "dec" are the row's own stitch, two in one and two together;
    "" is the row's own way of working ("work to last 3 sts").
    each: how many into each place, if said ("2 dc in next st"). target: None where the row says no place; then `number` is how
    many are worked, one in each next place ("6 sc", "sc, inc"): an ambiguous form if it is over 1.
    """

    stitch: str
    loops: Loops
    each: Amount | None
    number: Amount | None
    target: Target | None
    at: Stretch


class Chain(Struct, frozen=True):
    """Chains. counts: what the row says they count as: stitch ids and "chsp" in order, () for "does not count", None if
    unsaid."""

    number: Amount
    counts: tuple[str, ...] | None
    at: Stretch
    for_good: bool = False
    """ "here and throughout": what it counts as holds from here on."""


class Skip(Struct, frozen=True):
    """Places passed over."""

    target: Target
    at: Stretch


class Extent(Struct, frozen=True):
    """How often something is worked: `times` in all, or as often as fits up to `stop`.

    more: what is written is further times ("3 more times"), on top of the one already worked; `times` is then as written.
    doubtful: the form is read in two ways in print ("rep from * 3 times"): simulation takes it as the trade's rule says.
    """

    times: Amount | None
    stop: Stop | None
    more: bool
    doubtful: bool
    at: Stretch


class Repeat(Struct, frozen=True):
    """Items in brackets or between asterisks, worked again. extent: None for a group worked once.

    target: the place that the whole group goes into ("(2 dc, ch 1, 2 dc) in next ch-sp"). last_stops_at: the index of the
    item before which the last pass stops ("end at **"). ending: items that follow "ending with"; they may be the end of the
    last pass, or come after it. starred: written with asterisks.
    """

    items: tuple[Item, ...]
    extent: Extent | None
    target: Target | None
    last_stops_at: int | None
    ending: tuple[Item, ...] | None
    starred: bool
    at: Stretch


class Turn(Struct, frozen=True):
    """Turn the work. not_turned: the row says not to."""

    not_turned: bool
    at: Stretch


class Join(Struct, frozen=True):
    """Close the round, by a slip stitch or another stitch. not_joined: the row says not to."""

    stitch: str
    target: Target | None
    not_joined: bool
    at: Stretch


class Leave(Struct, frozen=True):
    """The rest, or `target`, stays unworked; held: for later ("first sleeve")."""

    target: Target | None
    at: Stretch


class FastenOff(Struct, frozen=True):
    """The yarn is cut."""

    at: Stretch


class JoinYarn(Struct, frozen=True):
    """Yarn is joined at a place; the row starts there."""

    target: Target | None
    at: Stretch


class Mark(Struct, frozen=True):
    """Markers. what: "placed", in or after the target (None: in the stitch just made, or here), "moved" up, or "removed"."""

    what: str
    target: Target | None
    name: str
    at: Stretch


class InLoops(Struct, frozen=True):
    """From here on stitches go into these loops; throughout: to the end of the piece."""

    loops: Loops
    at: Stretch
    throughout: bool = False


class Segment(Struct, frozen=True):
    """Words that say along which edge what follows is worked: "working along row-ends", "up right front", "in free loops of
    foundation ch". words: the edge as written."""

    words: str
    at: Stretch


class Remark(Struct, frozen=True):
    """Words that make and take nothing: "RS facing", "with B", "(back)"."""

    words: str
    at: Stretch


class RowNumbers(Struct, frozen=True):
    """Rows by number: from `first` to `last` (the same for one), or each of `listed`. word: "Row", "Rnd", or a longer name
    such as "Body Rnd"."""

    word: str
    first: Amount | None
    last: Amount | None
    listed: tuple[Amount, ...]
    at: Stretch


class Until(Struct, frozen=True):
    """Until so many rows are complete, so many stitches remain, or the piece measures so much.

    what: "rows", "sts", "length". noun: as written ("hdc rows", "yoke rnds", "rows in all", "sts"). side: the last row is RS
    or WS, or ends: the row that is the last one, as written ("type B rnd", "Row 4").
    As an item of its own it tells how far the work has come: "30 yoke rnds are complete".
    """

    what: str
    amount: Amount | None
    noun: str
    side: str
    at: Stretch
    ends: str = ""


class EndOf(Struct, frozen=True):
    """The counts of this line hold at the end of a row that another line tells: "Check at end of V Row 4"."""

    rows: RowNumbers
    at: Stretch


class Rework(Struct, frozen=True):
    """Rows worked again: "Rep Row 2", "Rep Rows 2 and 3 4 more times", "Rep last 2 rows twice", "as Row 8".

    rows: those named; last: "last n rows". named: a row by its name ("Dec Row"). extent: how often; until: or how long.
    """

    rows: RowNumbers | None
    last: Amount | None
    named: str
    extent: Extent | None
    until: Until | None
    at: Stretch


class Even(Struct, frozen=True):
    """Rows without shaping: so many, or until; as: the row they are worked as, if said."""

    rows: Amount | None
    until: Until | None
    as_row: RowNumbers | None
    at: Stretch


class OnRows(Struct, frozen=True):
    """When a named row, or a shaping, is worked: "on body rnd 14", "on next row", "then every 6 rnds 3 more times".

    on: the number of the first such row, or None for the next one. then: (every, more times) one after the other.
    run: on each of the next so many rows ("on next 5 rows").
    """

    on: Amount | None
    run: Amount | None
    then: tuple[tuple[Amount, Amount], ...]
    word: str
    at: Stretch


class Shaping(Struct, frozen=True):
    """A shaping told in words: a named row, or items at an edge, on certain rows.

    row: name of the row ("Dec Row", "Hip Inc Rnd"), or "". items: what is worked ("hdc2tog"). edge: "beginning", "end",
    "each end", or an edge by name ("armhole edge"). when: the rows. even_row: "Rep Row 3, working Dec Row on …": the row
    worked between. until: where the stretch ends.
    """

    row: str
    items: tuple[Item, ...]
    edge: str
    when: tuple[OnRows, ...]
    even_row: RowNumbers | None
    until: Until | None
    at: Stretch


class Evenly(Struct, frozen=True):
    """Shapings spread evenly: by so many stitches (sign), or to so many, or so many picked up along an edge."""

    sign: int
    number: Amount | None
    to: Amount | None
    stitch: str
    target: Target | None
    at: Stretch


Item = (
    Work
    | Chain
    | Skip
    | Repeat
    | Turn
    | Join
    | Leave
    | FastenOff
    | JoinYarn
    | Mark
    | InLoops
    | Segment
    | Remark
    | Rework
    | Even
    | Shaping
    | Evenly
    | Until
    | EndOf
    | Meeting
)


class StatedCount(Struct, frozen=True):
    """One count of a row's end: so many of a thing. change: 0 for a total, else +1 or −1 ("4 sts inc", "2 sts dec")."""

    amount: Amount
    thing: Thing | None
    change: int
    at: Stretch


class Stated(Struct, frozen=True):
    """What the row says there is at its end: one count, or one by kind ("12 sc, 12 ch-1 sps"), which together are the row.

    plus_chain: "19 dc + ch 3". per_group: the count holds for each group or section of the row.
    """

    counts: tuple[StatedCount, ...]
    at: Stretch
    per_group: bool = False


class Label(Struct, frozen=True):
    """What a row is called.

    rows: its numbers, or None. next: "Next Row", "Next 6 rows" (their number). name: a named row ("Dec Row", "Joining row").
    side: "RS", "WS" or "". parity: "even", "odd" for "All even rows". on: "Inc Rnd 2, on yoke rnd 8".
    """

    rows: RowNumbers | None
    next_rows: Amount | None
    name: str
    side: str
    parity: str
    on: RowNumbers | None
    at: Stretch
    in_rounds: bool = False


class RowTree(Struct, frozen=True):
    """A written row, read. only: indexes of the sizes that the line itself names ("Size M only: …"), or None for all."""

    items: tuple[Item, ...]
    stated: tuple[Stated, ...]
    only: tuple[int, ...] | None = None


class NotRead(Struct, frozen=True):
    """A row that could not be read: the words that stopped it."""

    words: str
    at: Stretch


class OnTrust(Struct, frozen=True):
    """A row that the designer marked as not to be proved, and why."""

    reason: str


Reading = RowTree | NotRead | OnTrust
