"""Dimensions, units, exact values per size, named rounding and the grid that lengths print on. Ground floor."""
