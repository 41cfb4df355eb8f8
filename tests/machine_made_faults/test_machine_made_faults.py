"""A sample of the campaign, the same each time: one fault of every sixth kind in each demo. `make faults` tries them all."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof import check_pattern
from tests.machine_made_faults.campaign import Bench, Fate, Trial, faults_of, share_found
from tests.machine_made_faults.clean_pattern import DEMOS, CleanPattern, clean_pattern
from tests.machine_made_faults.explanations import explanations_of
from tests.machine_made_faults.value_slips import one_value

LEAST_MADE = 250
OF_A_KIND = 12
EVERY = 6
LEAST_FOUND = 0.65
"""Share of the sample; of the whole campaign, three quarters were found when this was written."""
MOST_REPORTS = 7
MOST_REPORTS_ON_AVERAGE = 1.6
"""One root may break several things that the designer says must hold, each a report of its own."""

Trials = list[tuple[CleanPattern, Trial]]


@pytest.fixture(scope="module")
def trials(tmp_path_factory: pytest.TempPathFactory) -> Trials:
    done: Trials = []
    for number, name in enumerate(DEMOS):
        pattern = clean_pattern(name)
        bench = Bench(pattern, tmp_path_factory.mktemp(name))
        done += [(pattern, bench.try_out(fault)) for fault in faults_of(pattern, 1)[number % EVERY :: EVERY]]
    return done


def test_every_fault_ends_in_a_report_or_a_page(trials: Trials) -> None:
    """None is a failure of our own."""
    assert [trial.fault.in_words for _, trial in trials for found in trial.findings if found.page.code == "SP000"] == []


def test_what_is_reported_is_reported_where_it_is(trials: Trials) -> None:
    """A report shows the place of the fault, or a value that it reaches, and names its size."""
    assert [trial.fault.in_words for _, trial in trials if trial.fate is Fate.ELSEWHERE] == []


def test_most_faults_are_found(trials: Trials) -> None:
    """The share of those that change the page."""
    assert share_found(trial.fate for _, trial in trials) >= LEAST_FOUND


def test_each_miss_has_one_explanation(trials: Trials) -> None:
    """None is left to chance, and no two rules claim the same one."""
    missed = [(pattern, trial) for pattern, trial in trials if trial.fate is Fate.MISSED]
    assert missed
    for pattern, trial in missed:
        fitting = [each.because for each in explanations_of(trial, pattern)]
        assert len(fitting) == 1, (trial.fault.kind, trial.fault.in_words, fitting)


def test_one_root_is_few_reports(trials: Trials) -> None:
    """What follows from a fault stays silent; one place is never told of twice by one rule."""
    reports = [trial.findings for _, trial in trials if trial.findings]
    assert max(map(len, reports)) <= MOST_REPORTS
    assert sum(map(len, reports)) / len(reports) <= MOST_REPORTS_ON_AVERAGE
    for findings in reports:
        assert len({found.cause for found in findings}) == len(findings)


def test_the_whole_campaign_is_large_and_the_same_each_time() -> None:
    """Hundreds of faults over all demos, each another text than the demo's own."""
    patterns = [clean_pattern(name) for name in DEMOS]
    made = [fault for pattern in patterns for fault in faults_of(pattern, OF_A_KIND)]
    assert len(made) >= LEAST_MADE
    assert {fault.pattern for fault in made} == set(DEMOS)
    assert all(fault.text != fault.file.text for fault in made)
    again = [fault for pattern in patterns for fault in faults_of(pattern, OF_A_KIND)]
    assert [fault.in_words for fault in again] == [fault.in_words for fault in made]


def test_a_fault_changes_what_it_says_it_changes(tmp_path: Path) -> None:
    """Put into the file, the fault is the value of that name in that size, and of no other."""
    pattern = clean_pattern("cobblewick_hat")
    fault = next(each for each in one_value(pattern) if each.kind == "by 2 up" and each.name == "body_rnds")
    folder = Bench(pattern, tmp_path).folder
    (folder / "pattern.yaml").write_text(fault.text, encoding="utf-8")
    sized = check_pattern(folder, within=tmp_path).sized
    assert sized is not None
    was, now = (each.scope.quantities["body_rnds"].values for each in (pattern.sized, sized))
    assert [size for size in range(len(was)) if was[size] != now[size]] == [fault.size]
    assert str(now[0]) == str(int(str(was[0])) + 2)
