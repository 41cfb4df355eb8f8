"""A sample of the campaign, the same each time. `make row-faults` tries them all."""

from __future__ import annotations

import pytest

from tests.row_faults.campaign import Bench, Fate, Trial, shares
from tests.row_faults.explanations import explanation_of

EVERY = {"cobblewick_hat": 23, "pebblewold_cowl": 149, "saltmarrow_yoke_top": 211, "thornhollow_waistcoat": 97}
LEAST_MADE = 1000
LEAST_OTHERS = 0.7
"""Of so small a sample; the whole campaign finds nine of ten."""

Trials = list[tuple[Bench, Trial]]


@pytest.fixture(scope="module")
def benches(tmp_path_factory: pytest.TempPathFactory) -> list[Bench]:
    return [Bench(demo, tmp_path_factory.mktemp(demo)) for demo in EVERY]


@pytest.fixture(scope="module")
def trials(benches: list[Bench]) -> Trials:
    return [(bench, bench.try_out(slip)) for bench in benches for slip in bench.slips()[:: EVERY[bench.demo]]]


def test_the_compiler_never_fails_itself(trials: Trials) -> None:
    """Whatever a row says, it ends in a report, or in none."""
    assert [trial.slip.in_words for _, trial in trials if trial.fate is Fate.FAILED] == []


def test_every_wrong_count_is_found(trials: Trials) -> None:
    """A stated count that is not what the row makes is reported in that row, or in the next two."""
    assert [trial.slip.in_words for _, trial in trials if trial.slip.states and trial.fate is not Fate.FOUND] == []


def test_most_other_slips_are_found(trials: Trials) -> None:
    """Of those that change what is made."""
    assert shares([trial for _, trial in trials])[1] >= LEAST_OTHERS


def test_each_miss_has_an_explanation(trials: Trials) -> None:
    """None is left to chance."""
    missed = [trial.slip for _, trial in trials if trial.fate is Fate.MISSED]
    assert [slip.in_words for slip in missed if not explanation_of(slip)] == []


def test_no_size_is_blamed_for_another(trials: Trials) -> None:
    """A number that is wrong in one size is reported in that size alone."""
    assert [trial.slip.in_words for bench, trial in trials if trial.wrong_sizes(bench.sizes)] == []


def test_the_whole_campaign_is_large_and_the_same_each_time(benches: list[Bench]) -> None:
    """Over a thousand slips in all, none of them empty."""
    made = [slip for bench in benches for slip in bench.slips()]
    assert len(made) >= LEAST_MADE
    assert [slip.in_words for bench in benches for slip in bench.slips()] == [slip.in_words for slip in made]
