"""The cautions: our own wording, each on its basis, each below local rules."""

import re

from stitchproof.standards.cautions import defer_text, shipped_cautions
from stitchproof.standards.provenance import memory_note


def test_each_caution_defers_by_itself() -> None:
    for caution in shipped_cautions().values():
        assert re.search(r"\b[Ll]ocal\b", caution.text), caution.rule
    assert "follow a doctor, midwife or vet" in defer_text()


def test_each_says_whom_and_what_it_concerns_and_where_it_goes() -> None:
    for rule, caution in shipped_cautions().items():
        assert caution.rule == rule
        assert caution.place in {"front", "back"}
        assert caution.ages
        assert caution.items
        assert caution.triggers
        assert caution.basis
    assert [caution.rule for caution in shipped_cautions().values() if caution.place == "back"] == ["hand_strain"]


def test_small_parts_rest_on_the_rule_for_under_three() -> None:
    """Source: 16 CFR Part 1501 and 1501.4, United States eCFR."""
    caution = shipped_cautions()["small_parts"]
    assert {"baby", "toddler"} <= set(caution.ages)
    assert {"buttons", "safety eyes", "pompoms"} <= set(caution.triggers)
    confirmed = [basis for basis in caution.basis if "cfr_16_1501_4" in basis.confirmed_by]
    assert confirmed
    assert all(memory_note(basis) == "" for basis in confirmed)
    cylinder = next(basis for basis in caution.basis if "cylinder 1.25 in" in basis.rule)
    assert memory_note(cylinder)


def test_a_blanket_for_a_baby_has_its_caution() -> None:
    """Source: American Academy of Pediatrics, safe sleep policy, Pediatrics, July 2022."""
    caution = shipped_cautions()["infant_sleep"]
    assert "blanket" in caution.items
    assert any(basis.body == "American Academy of Pediatrics" for basis in caution.basis)


def test_a_basis_is_confirmed_or_from_memory() -> None:
    for caution in shipped_cautions().values():
        for basis in caution.basis:
            assert bool(basis.confirmed_by) != bool(memory_note(basis)), (caution.rule, basis.rule)
