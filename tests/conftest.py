"""Settings that every test shares: property tests draw the same examples on every machine and are never timed.

`make fuzz` tries what is random over and over; here a sample is enough.
"""

import gc
from collections.abc import Generator

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile(
    "same_every_time",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("same_every_time")


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """The garbage collector leaves alone what stays until the end: thousands of tests, and the modules they come from.

    Otherwise it goes over all of them again and again, which takes a tenth of the whole run.
    """
    gc.disable()
    try:
        return (yield)
    finally:
        gc.enable()
        gc.freeze()
