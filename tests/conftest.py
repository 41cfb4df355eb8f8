"""Settings that every test shares: property tests draw the same examples on every machine and are never timed."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "same_every_time",
    derandomize=True,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("same_every_time")
