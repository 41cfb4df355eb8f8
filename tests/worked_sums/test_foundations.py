"""Foundation chains and turning chains: from a row's count to its chain and the chain of its first stitch."""

import pytest

from stitchproof.standards.heights import foundation, turning_chains
from tests.sizing.written_pattern import faultless
from tests.worked_sums.worksheet import number

TABLE = [
    ("sc", 1, False, 1, 2),
    ("hdc", 1, False, 1, 2),
    ("hdc", 2, False, 2, 3),
    ("hdc", 2, True, 1, 3),
    ("dc", 2, False, 2, 3),
    ("dc", 3, True, 2, 4),
    ("tr", 4, True, 3, 5),
]
"""Stitch, turning chain, whether it counts, chains beyond the row's stitches, chain of the first stitch from the hook."""


@pytest.mark.parametrize(("stitch", "turning", "counts", "more", "first"), TABLE)
def test_a_row_of_73_from_its_foundation(stitch: str, turning: int, counts: bool, more: int, first: int) -> None:
    """The chain as a formula gives, and Row 1 worked chain by chain: from the named chain to the last. Common practice."""
    found = faultless(f"""
        counts:
          row: {{is: 40.5 cm * 18 sts per 10 cm, round: nearest, multiple: 2 plus 1}}
          chain: row + {more}
    """)
    chain = number(found, "chain")
    worked = len(range(first, int(chain) + 1)) + counts
    assert worked == number(found, "row") == 73, stitch
    made = foundation(turning, counts)
    assert (made.more_chains, made.first_chain) == (more, first)


def test_whether_a_turning_chain_counts_is_said_by_the_pattern() -> None:
    """Chain 1 almost never counts, chain 2 about half of the time, chain 3 normally.

    Sources: ambassadorcrochet.com/count-beg-ch-st (one editor's experience); that the pattern must say:
    americancrochetassociation.blog/count-stitches.
    """
    chains = {chain.stitch: chain for chain in turning_chains()}
    assert (chains["sc"].chains, chains["sc"].counts) == (1, False)
    assert (chains["hdc"].chains, chains["hdc"].disputed) == (2, True)
    assert (chains["dc"].chains, chains["dc"].counts, chains["dc"].disputed) == (3, True, False)


def test_a_chainless_foundation_has_no_chain_more() -> None:
    """The stitch count is the count asked for; a chain and a row of sc need one more. Common practice, no source."""
    found = faultless("""
        counts:
          row: 73 sts
          chainless: row
          chain: row + 1
    """)
    assert [number(found, name) for name in ("chainless", "chain")] == [73, 74]
