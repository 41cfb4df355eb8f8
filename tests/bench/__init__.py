"""Benchmarks: `make bench`. They print ratios within one run and are never part of the tests."""
