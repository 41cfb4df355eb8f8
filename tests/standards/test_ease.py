"""Fit classes. Source: Craft Yarn Council, Ease & Fit Chart and Length Chart, two editions."""

from fractions import Fraction

import pytest

from stitchproof.standards.ease import CURRENT, OLDER, fit_classes, fit_of, hem_lengths
from stitchproof.standards.provenance import Column, memory_note


@pytest.mark.parametrize(
    ("ease", "column", "edition", "fit"),
    [
        ("-3", "in", CURRENT, "very_close"),
        ("0", "in", CURRENT, "close"),
        ("0", "in", OLDER, "very_close"),
        ("1.5", "in", OLDER, "close"),
        ("3", "in", CURRENT, "classic"),
        ("3", "in", OLDER, "standard"),
        ("7.5", "cm", CURRENT, "classic"),
        # Classes touch at 4 and 6 in: the boundary belongs to the smaller class.
        ("4", "in", CURRENT, "classic"),
        ("10", "cm", CURRENT, "classic"),
        ("6", "in", CURRENT, "loose"),
        ("15.5", "cm", CURRENT, "oversized"),
        ("40", "in", OLDER, "oversized"),
        # The current edition has no class between the first three.
        ("1", "in", CURRENT, None),
        ("-1", "in", CURRENT, None),
        ("-5", "in", CURRENT, None),
        ("0.5", "in", OLDER, None),
    ],
)
def test_classes_of_an_ease(ease: str, column: str, edition: str, fit: str | None) -> None:
    found = fit_of(Fraction(ease), Column(column), edition)
    assert (found.key if found else None) == fit
    assert found is None or found.edition == edition


def test_what_is_from_memory() -> None:
    assert all(memory_note(fit).startswith("from memory") for fit in fit_classes(CURRENT))
    assert all(memory_note(fit).startswith("centimetres from memory") for fit in fit_classes(OLDER))
    assert all(memory_note(fit, Column.INCHES) == "" for fit in fit_classes(OLDER))
    assert all(memory_note(length) for length in hem_lengths())


def test_there_are_two_editions() -> None:
    with pytest.raises(KeyError):
        fit_classes("of next year")


def test_hems_below_the_waist() -> None:
    assert [(hem.name, hem.wearer, int(hem.inches), int(hem.cm)) for hem in hem_lengths()] == [
        ("hip length", "child", 2, 5),
        ("hip length", "woman", 6, 15),
        ("tunic length", "child", 6, 15),
        ("tunic length", "woman", 11, 28),
    ]
