"""Faults of returned worksheets, one file each."""
