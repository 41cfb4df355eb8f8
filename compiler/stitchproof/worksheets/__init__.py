"""A tester's worksheet: what it asks, how it is filled in, and what comes back. The package itself imports nothing."""
