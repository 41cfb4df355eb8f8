"""Faults found while pages are made, one file each."""
