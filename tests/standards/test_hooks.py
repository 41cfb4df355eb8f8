"""Hook sizes. Source of the US labels: Craft Yarn Council, Hooks & Needles; of the others: trade conversion charts."""

from fractions import Fraction
from itertools import pairwise

import pytest

from stitchproof.standards.hooks import hook_at, hook_label, hooks, hooks_labelled, numbered_hooks
from stitchproof.standards.provenance import FROM_MEMORY, memory_note


def test_sizes_rise() -> None:
    assert all(thinner.mm < thicker.mm for thinner, thicker in pairwise(hooks()))


def test_us_numbers_rise_and_old_uk_numbers_fall() -> None:
    numbers = [Fraction(hook.us.rpartition("-")[2]) for hook in hooks() if hook.us[-1:].isdigit()]
    assert len(numbers) > 12
    assert all(thinner < thicker for thinner, thicker in pairwise(numbers))
    old = [int(hook.uk) for hook in hooks() if hook.uk and not hook.uk.startswith("00")]
    assert len(old) > 11
    assert all(thinner > thicker for thinner, thicker in pairwise(old))


def test_us_letters_never_fall() -> None:
    letters = [hook.us[0] for hook in hooks() if hook.us[:1].isalpha()]
    assert letters == sorted(letters)


@pytest.mark.parametrize(("system", "falls"), [("US steel", True), ("Japanese lace", True), ("Japanese", False)])
def test_numbers_of_a_system_run_one_way(system: str, falls: bool) -> None:
    """US steel and Japanese lace numbers run backwards: a higher number is a finer hook."""
    sizes = [hook.mm for hook in numbered_hooks() if hook.system == system]
    assert len(sizes) > 7
    assert all((first > second) == falls and first != second for first, second in pairwise(sizes))


@pytest.mark.parametrize(
    ("mm", "terms", "label"),
    [
        ("2.25", "US", "2.25 mm (US B-1)"),
        ("4", "US", "4 mm (US G-6)"),
        ("4", "UK", "4 mm (old UK 8)"),
        ("4.5", "US", "4.5 mm (US 7)"),
        ("5", "US", "5 mm (US H-8)"),
        ("5", "UK", "5 mm (old UK 6)"),
        ("9", "UK", "9 mm (old UK 00)"),
        ("3", "US", "3 mm"),
        ("5.5", "UK", "5.5 mm (old UK 5)"),
        ("12.3", "US", "12.3 mm"),
        ("3.125", "US", f"3.125 mm (US D, {FROM_MEMORY})"),
    ],
)
def test_labels(mm: str, terms: str, label: str) -> None:
    assert hook_label(Fraction(mm), terms) == label


@pytest.mark.parametrize(
    ("label", "sizes"),
    [
        ("6", {"US": "4", "old UK": "5", "US steel": "1.8", "Japanese lace": "1"}),
        ("6/0", {"Japanese": "3.5"}),
        ("7", {"US": "4.5", "old UK": "4.5", "US steel": "1.65"}),
        ("h", {"US": "5"}),
        ("K-10.5", {"US": "6.5"}),
        ("", {}),
        ("Z", {}),
    ],
)
def test_a_label_is_a_hook_of_several_systems(label: str, sizes: dict[str, str]) -> None:
    assert dict(hooks_labelled(label)) == {system: Fraction(mm) for system, mm in sizes.items()}


def test_a_letter_alone_may_be_two_hooks() -> None:
    assert [mm for _, mm in hooks_labelled("G")] == [4, Fraction("4.25")]


def test_disputed_old_numbers_are_kept() -> None:
    disputed = {str(hook.mm): hook.disputed_uk for hook in hooks() if hook.disputed_uk}
    assert disputed == {"11/4": ("11", "12"), "6": ("4", "3"), "13/2": ("3", "2"), "7": ("2", "1")}


def test_only_confirmed_cells_of_the_other_systems_are_not_from_memory() -> None:
    checked = [(hook.system, hook.number) for hook in numbered_hooks() if not memory_note(hook)]
    steel = [("US steel", number) for number in ("00", "7", "14")]
    assert checked == [*steel, *(("Japanese lace", number) for number in ("0", "2", "4", "6"))]


def test_a_size_that_no_table_lists() -> None:
    assert hook_at(Fraction("4.6")) is None
