"""An offset fabric worked stitch by stitch: each stitch goes into a chain space, each chain passes over a stitch.

Written apart from the compiler, for tests of its parities.
"""

from collections import deque
from itertools import pairwise

STITCH, CHAIN = "stitch", "chain"


def other(kind: str) -> str:
    """What lies over it."""
    return CHAIN if kind == STITCH else STITCH


def spiral_kept_in_place_works(total: int, rounds: int = 5) -> bool:
    """Whether a spiral of `total` can go on with its start in place: each position over one of the other kind, in turn."""
    kinds = [STITCH if place % 2 == 0 else CHAIN for place in range(total)]
    while len(kinds) < rounds * total:
        kinds.append(other(kinds[-total]))
    return all(one != two for one, two in pairwise(kinds))


def ring_works(total: int, rounds: int = 5) -> bool:
    """Whether a joined ring alternates without a fault, the join included, round after round."""
    kinds = [STITCH if place % 2 == 0 else CHAIN for place in range(total)]
    for _ in range(rounds):
        if any(kinds[place] == kinds[place - 1] for place in range(total)):
            return False
        kinds = [other(kind) for kind in kinds]
    return True


def row_works(total: int, starts: list[str]) -> bool:
    """Whether flat rows with a stitch at both edges go on, inner places taking turns with those of the row below.

    starts: for each row how it begins, "sc, ch 1" or "sc, sc"; the edge stitches are worked into the edges.
    """
    rows = []
    for start in starts:
        inner = CHAIN if start == "sc, ch 1" else STITCH
        kinds = [STITCH]
        for _ in range(total - 2):
            kinds.append(inner)
            inner = other(inner)
        rows.append([*kinds, STITCH])
    turned = [(below[::-1], above) for below, above in pairwise(rows)]
    return all(below[place] != above[place] for below, above in turned for place in range(1, total - 1))


class SpiralEndingWithAChain:
    """[chain, stitch] around as set-up, then [stitch in next chain space, chain] around, `total` positions a round.

    over: for each position from Rnd 3 on, the position it was worked into (stitches only); passed: for each chain, how
    many stitches it passes.
    """

    def __init__(self, total: int, rounds: int) -> None:
        self.total = total
        self.over: dict[int, int] = {}
        self.passed: dict[int, int] = {}
        below = deque((place, CHAIN if place % 2 == 0 else STITCH) for place in range(total))
        place = total
        last_chain = None
        for _ in range(rounds * total // 2):
            crossed = 0
            while below[0][1] == STITCH:
                below.popleft()
                crossed += 1
            if last_chain is not None:
                self.passed[last_chain] = crossed
            self.over[place] = below.popleft()[0]
            below += [(place, STITCH), (place + 1, CHAIN)]
            last_chain = place + 1
            place += 2


def join_works(body: int, sleeve: int, skip: int, bridge: int, body_skip: int | None = None) -> bool:
    """Whether a yoke of the body, sleeves and bridging stitches goes on in pattern over the second underarm.

    The join round begins on the live body after the first underarm; every way to part the body into front and back, to
    choose the kind a sleeve begins with, and to stand the bridging stitches before or after the sleeve is tried. The first
    underarm holds the spiral's own ends: it imposes nothing beyond the total.
    """
    underarm = skip if body_skip is None else body_skip
    live = body - 2 * underarm
    around = _in_turn(STITCH, body)
    in_pattern = any(
        _goes_on([*around[:front], *gap, *around[front + underarm : live + underarm]])
        for front in range(1, live)
        for begins in (STITCH, CHAIN)
        for lead in range(bridge + 1)
        for gap in [[None] * lead + _in_turn(begins, sleeve - skip) + [None] * (bridge - lead)]
    )
    return in_pattern and spiral_kept_in_place_works(live + 2 * (sleeve - skip) + 2 * bridge)


def _in_turn(first: str, number: int) -> list[str | None]:
    return [first if place % 2 == 0 else other(first) for place in range(number)]


def _goes_on(below: list[str | None]) -> bool:
    """Whether kinds in turn lie over the other kind wherever there is something below."""
    return any(
        all(one != two for one, two in zip(below, _in_turn(first, len(below)), strict=True))
        for first in (STITCH, CHAIN)
    )
