"""Numbers written as words."""

from __future__ import annotations

_UNITS =[
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen",
]  # fmt: skip
_RANKS =[
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth",
]  # fmt: skip

NUMBERS = {word: number for number, word in enumerate(_UNITS, 1)} | {"twenty": 20}
ORDINALS = {word: number for number, word in enumerate(_RANKS, 1)}
TIMES = {"once": 1, "twice": 2, "thrice": 3}
