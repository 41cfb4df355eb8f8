"""What a number counts or measures: stitches, rows, length, weight, and what comes of multiplying them."""

from __future__ import annotations

from msgspec import Struct


class Dimension(Struct, frozen=True):
    """Exponents of the four things a pattern measures. Rounds count as rows; ribs, repeats and times are plain."""

    stitches: int = 0
    rows: int = 0
    length: int = 0
    weight: int = 0

    def times(self, other: Dimension) -> Dimension:
        return Dimension(
            self.stitches + other.stitches,
            self.rows + other.rows,
            self.length + other.length,
            self.weight + other.weight,
        )

    def per(self, other: Dimension) -> Dimension:
        return Dimension(
            self.stitches - other.stitches,
            self.rows - other.rows,
            self.length - other.length,
            self.weight - other.weight,
        )

    @property
    def is_plain(self) -> bool:
        return self == PLAIN

    @property
    def is_count(self) -> bool:
        """Stitches, rows or a plain number: what is worked in whole numbers."""
        return self in (PLAIN, STITCHES, ROWS)

    @property
    def measures_nothing(self) -> bool:
        """Whether no pattern has such a thing: stitches by stitches, rows by rows, an area to each stitch or row."""
        squares = max(abs(self.stitches), abs(self.rows), abs(self.weight)) > 1
        area = abs(self.length) == 2 and bool(self.stitches or self.rows)
        return squares or area or abs(self.length) > 2

    def in_words(self) -> str:
        """The dimension as a maker would say it, such as "stitches per length"."""
        names = ("stitches", "rows", "length", "weight")
        powers = (self.stitches, self.rows, self.length, self.weight)
        above = [_power(name, power) for name, power in zip(names, powers, strict=True) if power > 0]
        below = [_power(name, -power) for name, power in zip(names, powers, strict=True) if power < 0]
        if not above and not below:
            return "a plain number"
        words = " times ".join(above) or "1"
        return words + (" per " + " and ".join(below) if below else "")


def _power(name: str, power: int) -> str:
    return name if power == 1 else f"{name} squared" if power == 2 else f"{name} to the power {power}"


PLAIN = Dimension()
STITCHES = Dimension(stitches=1)
ROWS = Dimension(rows=1)
LENGTH = Dimension(length=1)
WEIGHT = Dimension(weight=1)
