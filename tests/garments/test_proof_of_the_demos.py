"""Every row of the demos is proved in every size, and the stitches that their rows come to are those of the designs.

The designs' own stitch tables are invented data, made by another computation than the rows: from their formulas.
"""

from __future__ import annotations

import pytest

from stitchproof import check_pattern
from stitchproof.simulation.proof_summary import ProofSummary

HAT = {
    "rib sc": (400, 522, 640, 770, 836),
    "pick-up sc": (62, 72, 80, 87, 95),
    "hdc": (648, 768, 976, 1120, 1368),
}
TOP = {
    "hdc": (11894, 12904, 14364, 16126, 17292, 19132, 21378, 23454, 25848),
    "fhdc": (90, 92, 94, 96, 98, 100, 102, 104, 106),
    "post hdc": (2328, 2480, 2640, 2856, 3048, 3232, 3456, 3672, 3896),
}
WAISTCOAT = {
    "hdc": (5330, 5986, 6722, 7402, 7930, 8382, 9662, 10338, 11210, 11746),
    "sc": (1790, 1916, 2016, 2142, 2202, 2272, 2456, 2544, 2698, 2768),
    "buttonhole ch": (10,) * 10,
}


def proof_of(pattern: str) -> ProofSummary:
    outcome = check_pattern(pattern)
    assert outcome.findings == ()
    assert outcome.proof
    return outcome.proof


def total(proof: ProofSummary, *stitches: str, gauge: str = "") -> tuple[int, ...]:
    """The stitches of some names together, in each size."""
    chosen = [each for each in proof.census if each.stitch in stitches and gauge in ("", each.gauge)]
    return tuple(sum(each.numbers[size] or 0 for each in chosen) for size in range(len(proof.sizes)))


@pytest.mark.parametrize(
    ("pattern", "rows"),
    [("cobblewick_hat", 21), ("saltmarrow_yoke_top", 37), ("pebblewold_cowl", 16), ("thornhollow_waistcoat", 34)],
)
def test_every_row_is_proved(pattern: str, rows: int) -> None:
    whole = proof_of(pattern).whole
    assert (whole.proved, whole.from_stated, whole.trusted, whole.not_read) == (rows, 0, 0, 0)
    assert all(piece.counts for piece in proof_of(pattern).pieces if piece.proved)


def test_stitches_of_the_hat() -> None:
    proof = proof_of("cobblewick_hat")
    assert total(proof, "sc", gauge="rib") == HAT["rib sc"]
    assert total(proof, "sc", gauge="crown") == HAT["pick-up sc"]
    assert total(proof, "hdc", "hdc2tog") == HAT["hdc"]


def test_stitches_of_the_yoke_top() -> None:
    proof = proof_of("saltmarrow_yoke_top")
    assert total(proof, "hdc", "hdc2tog") == TOP["hdc"]
    assert total(proof, "fhdc") == TOP["fhdc"]
    assert total(proof, "fphdc", "bphdc") == TOP["post hdc"]


def test_stitches_of_the_waistcoat() -> None:
    proof = proof_of("thornhollow_waistcoat")
    assert total(proof, "hdc", "hdc2tog") == WAISTCOAT["hdc"]
    assert total(proof, "sc") == WAISTCOAT["sc"]
    assert total(proof, "ch") == WAISTCOAT["buttonhole ch"]


def test_stitches_of_the_cowl() -> None:
    """Three ways in one pattern: the sums over all of them."""
    proof = proof_of("pebblewold_cowl")
    assert total(proof, "sc", "fsc") == (2200 + 2222 + 2243, 2552 + 2530 + 2551, 3888 + 3906 + 3923)
    assert total(proof, "ch") == (2000 + 2020 + 2040, 2320 + 2300 + 2320, 3456 + 3472 + 3488)
