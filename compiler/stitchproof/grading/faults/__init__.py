"""Faults of grading sheets, one file each."""
