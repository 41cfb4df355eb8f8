"""Faults found while numbers are worked out, one file each."""
