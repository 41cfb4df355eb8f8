"""Faults found while files are read, one file each."""
