"""A warning about one list is accepted for that list alone: `accept` takes the name of the value."""

import pytest

from tests.expansion.unfolded import unfolded

YAML = """sizes: {names: [S, M, L, XL]}
body:
  cross_back: {cm: [34, 37, 36, 38]}
counts:
  cuff_sts: {by_hand: [32, 40, 36, 48], unit: sts, gauge: fabric}
  band_sts: {by_hand: [44, 46, 50, 540], unit: sts, gauge: fabric}
accept:
"""
BOTH = ["body.cross_back falls from one size to the next", "cuff_sts falls from one size to the next"]


def left(*entries: str) -> list[str]:
    yaml = YAML + "".join(f"  - {{{entry}, reason: meant}}\n" for entry in entries)
    findings = unfolded("Row 1: Sc across.\n", yaml).findings
    return [each.headline for each in findings if not each.accepted and each.page.code in ("SP055", "SP056", "SP040")]


@pytest.mark.parametrize("name", ["cross_back", "body.cross_back"])
def test_one_list_is_accepted_and_the_other_stays(name: str) -> None:
    assert left(f"code: SP055, name: {name}", "code: SP056, name: band_sts") == [BOTH[1]]


def test_each_list_by_its_name() -> None:
    assert left("code: SP055, name: cross_back", "code: SP055, name: cuff_sts", "code: SP056, name: band_sts") == []


def test_a_name_that_no_warning_is_about_matches_nothing() -> None:
    assert left("code: SP055, name: cuff", "code: SP056") == [
        *BOTH,
        "no warning `SP055` is found here any more that could be accepted",
    ]
