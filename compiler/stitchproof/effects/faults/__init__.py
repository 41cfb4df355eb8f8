"""Faults of changes that are asked for, one file each."""
