"""Advice on flat circles and yokes. π is taken as 355/113 (right to six places): never let these decide a count."""

from __future__ import annotations

from fractions import Fraction

TWO_PI = 2 * Fraction(355, 113)


def flat_rate(stitches_per_cm: Fraction, rounds_per_cm: Fraction) -> Fraction:
    """Stitches to add in each round of a flat circle, 2π·g/r. Below it the circle cups, above it it ruffles."""
    return TWO_PI * stitches_per_cm / rounds_per_cm


def flat_radius(stitches: int, stitches_per_cm: Fraction) -> Fraction:
    """The radius in cm of a flat circle with so many stitches around, about what a flat crown needs along the fabric."""
    return stitches / stitches_per_cm / TWO_PI


def growth_per_cm(start: int, end: int, rounds: int, stitches_per_cm: Fraction, rounds_per_cm: Fraction) -> Fraction:
    """How many cm a yoke grows around for each cm of its depth; from `TWO_PI` on it ruffles."""
    return abs(end - start) / stitches_per_cm / (rounds / rounds_per_cm)
