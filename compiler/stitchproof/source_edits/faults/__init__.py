"""Faults of edits in a designer's files, one file each."""
