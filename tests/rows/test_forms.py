"""What the forms of the trade are read as, section by section, and that what is printed back is read the same."""

from __future__ import annotations

import pytest

from stitchproof.rows.labels import read_label
from stitchproof.rows.line import line_of_text
from stitchproof.source import SourceFile, Span
from tests.rows import written_forms as forms
from tests.rows.notation import WORDS, amount, notation, rows

FOUR_SIZES = ("S", "M", "L", "XL")
SECTIONS = (
    forms.SPELLINGS, forms.STITCHES, forms.INCREASES, forms.DECREASES, forms.CLUSTERS, forms.LOOPS_AND_POSTS,
    forms.MAKES_NOTHING, forms.WHERE, forms.REPEATS, forms.TURNS_AND_JOINS, forms.STATED, forms.REFERENCES,
    forms.REMARKS, forms.MEETINGS, forms.NOT_READ, forms.LOOSE_WORDS,
)  # fmt: skip
FORMS = [pair for section in SECTIONS for pair in section]


@pytest.mark.parametrize(("text", "tree"), FORMS, ids=[text for text, _ in FORMS])
def test_a_form_is_read(text: str, tree: str) -> None:
    assert notation(text) == tree


@pytest.mark.parametrize(("text", "tree"), forms.VECTORS)
def test_numbers_typed_for_every_size(text: str, tree: str) -> None:
    assert notation(text, sizes=FOUR_SIZES) == tree


@pytest.mark.parametrize(("text", "tree"), forms.IN_UK_TERMS)
def test_uk_terms(text: str, tree: str) -> None:
    assert notation(text, "UK") == tree


@pytest.mark.parametrize(("text", "named"), forms.LABELS)
def test_labels(text: str, named: str) -> None:
    assert label(text) == named


def label(text: str) -> str:
    """A label in short notation."""
    found = read_label(line_of_text(text, FOUR_SIZES, Span(SourceFile("row", text), 0, len(text))), WORDS["US"])
    if found is None:
        return "none"
    if found.rows:
        head = rows(found.rows)
    elif found.next_rows:
        head = f"next {amount(found.next_rows)}"
    elif found.name:
        head = f"<{found.name}>"
    else:
        head = f"all {found.parity} rows".replace("  ", " ")
    on = f"on {rows(found.on)}" if found.on else ""
    return " ".join(filter(None, [head, found.side, on, "in rounds" if found.in_rounds else ""]))
