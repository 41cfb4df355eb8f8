"""Faults of the compiler itself."""
