"""Faults found while text is unfolded, one file each."""
