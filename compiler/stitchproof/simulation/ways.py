"""The ways of working that a row takes for granted: what a starting chain counts as, rows or rounds, what a "st" is."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct, field

from stitchproof.stitches.facts import StitchFacts
from stitchproof.stitches.stitch_names import facts_of

FEWEST_OF_A_LOOP = 3
"""Chains that are more than a short stitch needs are a loop at the edge, in text that is not ours."""
COUNTED_FROM = {"dc": 3, "tr": 4, "dtr": 5}
"""Starting chains that count as a stitch unless the pattern says otherwise, by the stitch of the row. Common practice; no
source for the rule as a whole. Those of sc and hdc don't count."""


class Course(Enum):
    """How a piece goes on from row to row."""

    ROWS = "rows"
    JOINED = "joined rounds"
    TURNED = "turned rounds"
    SPIRAL = "spiral rounds"

    @property
    def in_rounds(self) -> bool:
        return self is not Course.ROWS

    @property
    def turns(self) -> bool:
        return self in (Course.ROWS, Course.TURNED)


class Ways(Struct, frozen=True):
    """The conventions of a piece.

    chain_counts: what a starting chain counts as, by its number of chains and the stitch it starts, where the pattern says so:
    stitch ids and "chsp", () for nothing. st_is_any_place: a "st" may be a chain space. plain: the stitch that "inc" and
    "dec" are made of. Only for text that is not ours: lenient (passing over is not a fault, names of stitches are taken loosely);
    bare_in_one: "2 sc" is two in one stitch; further: "rep from * 3 times" is 3 further times; stacked: a stitch and chains in
    the first place stand for one taller stitch; ending_replaces: "ending with" stands for the end of the last repeat.
    any_name: "each sc" is each stitch. passed_counts: what chains that the first stitch of a foundation passes over count as,
    where that is not as at a row's start.
    """

    course: Course
    stitches: dict[str, StitchFacts]
    chain_counts: dict[tuple[int, str], tuple[str, ...]] = field(default_factory=dict)
    st_is_any_place: bool = False
    plain: str = "sc"
    lenient: bool = False
    bare_in_one: bool = False
    further: bool = True
    old_top_left: bool = False
    stacked: bool = False
    ending_replaces: bool = False
    any_name: bool = False
    passed_counts: dict[tuple[int, str], tuple[str, ...]] = field(default_factory=dict)

    def facts(self, stitch: str) -> StitchFacts:
        """What is known of a stitch; of an unknown one, that it takes one and makes one."""
        return self.stitches.get(stitch) or facts_of(stitch) or StitchFacts(stitch, base=stitch)

    def is_stitch(self, name: str) -> bool:
        """Whether a word is the id of a stitch."""
        return name in self.stitches or facts_of(name) is not None

    def counts_as(self, chains: int, first: str) -> tuple[str, ...]:
        """What `chains` at the start of a row of `first` stitches count as: () for nothing."""
        base = self.facts(first).base
        for key in ((chains, first), (chains, ""), (0, "")):
            said = self.chain_counts.get(key)
            if said is not None:
                return tuple(base if name == "st" else name for name in said)
        height = COUNTED_FROM.get(base)
        if self.lenient and base in ("sc", "slst") and chains >= FEWEST_OF_A_LOOP:
            return ("loop",)
        if height is None or chains < height:
            return ()
        return (base,) if chains == height else (base, "chsp")

    def passed_count_as(self, chains: int, first: str) -> tuple[str, ...]:
        """The same for chains passed over at a foundation: by height, whatever the row's own chains count as."""
        said = self.passed_counts.get((chains, first))
        return self.counts_as(chains, first) if said is None else said
