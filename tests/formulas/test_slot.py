"""Slots: where one begins and ends in a text, and how it asks to be printed."""

import pytest

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.slot import PrintAs, Slot, slots_in
from tests.formulas.small_scope import span_of


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Ch <brim_sts + 1>.", ["brim_sts + 1"]),
        ("(<hat_sts - 8 * k> hdc)", ["hat_sts - 8 * k"]),
        ("<a><b>", ["a", "b"]),
        ("Größe 🧶 <a> é <b>", ["a", "b"]),
        ("<(1 if a > b else 2)>", ["(1 if a > b else 2)"]),
        ("<max(a, 1 if a > b else 2)> sts", ["max(a, 1 if a > b else 2)"]),
        ("<8 sts>", ["8 sts"]),
        ("<.5>", []),
        ("3 < 4 and 5 > 4", []),
        ("a <- b", []),
        (r"\<a>", []),
        ("<https://example.org>", []),
        ("<mailto:a@example.org>", []),
        ("<a@example.org>", []),
        ("<編み目>", ["編み目"]),
    ],
)
def test_the_slots_of_a_text(text: str, found: list[str]) -> None:
    slots = [slot for slot in slots_in(span_of(text)) if isinstance(slot, Slot)]
    assert [slot.formula.text for slot in slots] == found
    for slot in slots:
        assert slot.span.text == f"<{slot.formula.text}>"
        assert slot.print_as is PrintAs.USUAL


@pytest.mark.parametrize("way", [way for way in PrintAs if way is not PrintAs.USUAL])
@pytest.mark.parametrize("form", ["<bust + 2 cm as {}>", "<bust + 2 cm  as  {} >"])
def test_the_way_of_printing(way: PrintAs, form: str) -> None:
    slot = next(slots_in(span_of(form.format(way.value))))
    assert isinstance(slot, Slot)
    assert (slot.print_as, slot.formula.text) == (way, "bust + 2 cm")


@pytest.mark.parametrize(
    ("text", "page", "shown"),
    [
        ("é 🧶 <cuff_rows rows in all.\nNext", "slot-not-closed", "<cuff_rows rows in all."),
        ("<max(a, b> sts", "slot-not-closed", "<max(a, b> sts"),
        ("<bust as ells>", "formula-not-readable", "ells"),
        ("é <bust +>", "formula-not-readable", ""),
        ("<body_sts sts>", "formula-not-readable", "sts"),
    ],
)
def test_a_slot_that_cannot_be_read(text: str, page: str, shown: str) -> None:
    found = next(slots_in(span_of(text)))
    assert isinstance(found, Diagnostic)
    assert (found.page.name, found.primary.span.text) == (page, shown)


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("<bust as inches>", "in"),
        ("<bust as millimetres>", ""),
        ("<bust as yards>", "yd"),
        ("<ease as percentage>", "percent"),
        ("<ease as %>", "percent"),
        ("<n as word>", "words"),
        ("<n as ordinals>", "ordinal"),
        ("<n as ells>", ""),
    ],
)
def test_the_nearest_way_of_printing_is_offered(text: str, offered: str) -> None:
    found = next(slots_in(span_of(text)))
    assert isinstance(found, Diagnostic)
    assert found.help[0].startswith(
        f"write `as {offered}`; after `as` write mm, cm" if offered else "after `as` write mm"
    )


def test_a_slot_that_is_not_closed_leaves_the_others_alone() -> None:
    first, second = slots_in(span_of("<a sts\n<b> sts"))
    assert isinstance(first, Diagnostic)
    assert isinstance(second, Slot)
