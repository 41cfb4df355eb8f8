"""Settings that every test shares: property tests draw the same examples on every machine and are never timed.

`make fuzz` tries what is random over and over; here a sample is enough.
"""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "same_every_time",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("same_every_time")
