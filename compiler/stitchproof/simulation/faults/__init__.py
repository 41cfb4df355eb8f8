"""Faults found while pieces are worked on one another, one file each."""
