"""Faults that a formula can have, one file each."""
