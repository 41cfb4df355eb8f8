"""An offered value is a promise: with it the finding is gone in its size, and no other has come."""

from dataclasses import dataclass
from pathlib import Path
from textwrap import dedent

import pytest

from stitchproof import alternatives, check_pattern
from stitchproof.checks.catalogue import all_pages
from stitchproof.diagnostics.diagnostic import Diagnostic, Proposal
from stitchproof.diagnostics.page import Example
from stitchproof.measures.values import Value
from stitchproof.sizing.changes import Changes
from stitchproof.sizing.sized_pattern import SizedPattern
from tests.checks.smallest_pattern import write_example


@dataclass(frozen=True, slots=True)
class Case:
    """A fragment with one finding, the name whose value is offered, and how many values are."""

    page: str
    name: str
    offers: int
    yaml: str
    text: str = ""


CASES = [
    Case(
        "count-not-whole",
        "body_sts",
        4,
        """
        measures:
          width: [50.3 cm, 52.2 cm]
        counts:
          body_sts: width * fabric.stitches
          half: {is: body_sts / 2, round: down}
        """,
        "Row 1: Sc in each st across. — <body_sts> sc\n",
    ),
    Case(
        "count-not-whole",
        "body_sts",
        2,
        """
        measures:
          width: [50.3 cm, 52.5 cm]
        counts:
          body_sts: {is: width * fabric.stitches, multiple: 2}
          half: body_sts / 2
        """,
    ),
    Case(
        "count-off-its-multiple",
        "body_sts",
        4,
        """
        sizes: {names: [S, M, L]}
        counts:
          body_sts: {by_hand: [96 sts, 98 sts, 102 sts], multiple: 8}
          quarter: body_sts / 4
        """,
        "Row 1: Sc in each of next <quarter> sts.\n",
    ),
    Case(
        "count-off-its-multiple",
        "body_sts",
        2,
        """
        counts:
          body_sts: {by_hand: [94 sts, 96 sts], multiple: 4 plus 2}
          third: {is: body_sts - 90, at_least: 4 sts}
        """,
    ),
    Case(
        "wrong-parity-for-offset-fabric",
        "collar_sts",
        2,
        """
        counts:
          collar_sts: [84 sts, 91 sts]
          thirds: {is: collar_sts / 3, round: nearest}
        pieces:
          piece: {gauge: fabric, worked: joined rounds, offset_fabric: {total: collar_sts, worked: joined rounds}}
        """,
    ),
    Case(
        "wrong-parity-for-offset-fabric",
        "collar_sts",
        1,
        """
        counts:
          collar_sts: [84 sts, 91 sts]
        must_hold:
          - that: collar_sts <= 91
            why: the cowl stays snug
        pieces:
          piece: {gauge: fabric, worked: joined rounds, offset_fabric: {total: collar_sts, worked: joined rounds}}
        """,
    ),
    Case(
        "pick-up-not-whole",
        "ribs",
        4,
        """
        rates:
          edge: {sts: 9, per: 4 ribs}
        counts:
          ribs: [42 ribs, 47 ribs]
          edge_sts: picked_up(edge, ribs)
        """,
        "Row 1: Sc along the edge. — <edge_sts> sc\n",
    ),
    Case(
        "pick-up-not-whole",
        "ribs",
        2,
        """
        rates:
          edge: {sts: 5, per: 2 ribs}
        counts:
          ribs: {is: 25 ribs if 1 > 0 else 0, round: nearest}
          edge_sts: {is: "picked_up(edge, ribs)", multiple: 10}
        sizes: {names: [one]}
        """,
    ),
    Case(
        "pick-up-not-whole",
        "ribs",
        3,
        """
        rates:
          edge: {sts: 4.5, per: 2 ribs}
        counts:
          ribs: [5 ribs, 2 ribs]
          edge_sts: picked_up(edge, ribs)
        """,
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.page}-{case.offers}")
def test_every_offered_value_keeps_its_promise(case: Case, tmp_path: Path) -> None:
    folder = write_example(Example(dedent(case.yaml).lstrip("\n"), case.text, None), tmp_path)
    outcome = check_pattern(folder, within=tmp_path)
    assert outcome.sized is not None
    sizes = outcome.sized.sizes
    first = next(found for found in outcome.findings if found.page.name == case.page)
    assert len(first.alternatives) == case.offers
    before = by_size(outcome.findings, sizes)
    for offer in first.alternatives:
        changes: Changes = {(case.name, sizes.index(offer.size)): offer.value}
        after = by_size(check_pattern(folder, changes, within=tmp_path).findings, sizes)
        assert (first.cause, offer.size) in before
        assert (first.cause, offer.size) not in after, offer
        assert not after - before, offer


def by_size(findings: tuple[Diagnostic, ...], sizes: tuple[str, ...]) -> set[tuple[tuple[str, str, int, int], str]]:
    return {(found.cause, size) for found in findings for size in (found.sizes or sizes)}


def test_a_value_that_would_bring_another_fault_is_left_out_with_its_reason(tmp_path: Path) -> None:
    case = CASES[5]
    folder = write_example(Example(dedent(case.yaml).lstrip("\n"), case.text, None), tmp_path)
    found = check_pattern(folder, within=tmp_path).findings[0]
    assert [offer.value for offer in found.alternatives] == ["90 sts"]
    assert found.left_out == ("M  92 sts would bring SP005 assertion-fails",)


def _examples() -> list[Example]:
    return [example for page in all_pages() for example in page.examples if example.fires_in is not None]


def _value(sized: SizedPattern, name: str, size: int) -> Value:
    """A named value, or a number of a plan's own, as `plans.crown_dec.sections`."""
    if not name.startswith("plans."):
        return sized.scope.value(name, size, None)
    plan, key = name.removeprefix("plans.").split(".")
    return next(each.values[size] for each in sized.scope.plans[plan].inputs if each.key == key)


def test_every_name_of_every_proposal_can_be_changed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever a rule proposes names a value that a change can be made to, in its size and in all, also as a bare number."""
    proposed: list[Proposal] = []

    def note(findings: tuple[Diagnostic, ...], *_: object) -> tuple[Diagnostic, ...]:
        proposed.extend(each for found in findings for each in found.proposals)
        return findings

    tried = 0
    for number, example in enumerate(_examples()):
        folder = write_example(example, tmp_path / str(number))
        proposed.clear()
        with monkeypatch.context() as patched:
            patched.setattr(alternatives, "with_alternatives", note)
            names = check_pattern(folder, within=tmp_path / str(number)).sized
        for each in list(proposed):
            assert names is not None
            size = names.sizes[each.size]
            changes: tuple[Changes, ...] = (
                {(each.name, each.size): "12"},
                {(each.name, None): "12"},
                {f"{each.name}[{size}]": "12"},
            )
            for change in changes:
                after = check_pattern(folder, change, within=tmp_path / str(number))
                assert after.sized is not None
                cm = 100 if each.noun == "m" else 1  # lengths are held in cm
                assert _value(after.sized, each.name, each.size) == 12 * cm
                assert not [found for found in after.findings if found.page.name in ("unknown-name", "missing-unit")]
                tried += 1
    assert tried > 15
