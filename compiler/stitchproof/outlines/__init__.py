"""Outlines of pieces, as they lie flat: corners, sides and curves, and what can be measured on them."""
