"""The explanation page of a rule: what it holds, and that one which does not keep to the form is refused."""

from __future__ import annotations

import pytest

from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.diagnostics.page import HEADINGS, Example, Severity, read_page

PAGE = """SP101 made-up-fault

Severity  warning
Checks    that the count of a row is what it says,
          over two lines.
Matters   a wrong count is found rows later.
Mend      state the other count.
Source    common practice, no source.

Fires in M, XL:
    sizes: {names: [M, XL]}

    counts: {a: 1}
    ---
    Row 1: a

    Row 2: b

Fires:
    title: Hat

Quiet:
    title: Hat
    ---
    Row 1: a
"""


def test_a_page_is_read() -> None:
    page = read_page(PAGE)
    assert (page.code, page.name, page.severity) == ("SP101", "made-up-fault", Severity.WARNING)
    assert page.checks == "that the count of a row is what it says, over two lines."
    assert page.source == "common practice, no source."
    assert page.examples == (
        Example("sizes: {names: [M, XL]}\n\ncounts: {a: 1}\n", "Row 1: a\n\nRow 2: b\n", ("M", "XL")),
        Example("title: Hat", "", ()),
        Example("title: Hat\n", "Row 1: a\n", None),
    )


@pytest.mark.parametrize("heading", HEADINGS)
def test_a_page_without_a_heading_is_refused(heading: str) -> None:
    with pytest.raises(ValueError, match=heading):
        read_page(PAGE.replace(f"{heading:<10}", "Nothing   "))


@pytest.mark.parametrize(
    "docstring",
    [
        None,
        "",
        "A module.",
        PAGE.replace("SP101", "SP1"),
        PAGE.replace("SP101", "sp101"),
        PAGE.replace("SP101 made", "SP101: made"),
        PAGE.replace("made-up-fault", "Made-up-fault"),
        PAGE.replace("made-up-fault", "made up fault"),
        "\n" + PAGE,
        PAGE.replace("warning", "fatal"),
        PAGE.replace("Severity  warning", "Severity"),
    ],
)
def test_a_page_out_of_form_is_refused(docstring: str | None) -> None:
    with pytest.raises(ValueError):  # the words are for us, and differ
        read_page(docstring)


def test_our_own_fault_is_ours() -> None:
    """It names the stage, asks for the file, and never says that it may be ignored."""
    found = internal_fault("pattern_sources/hat", "reading", "KeyError at header.py:3")
    assert found.page.code == "SP000"
    assert found.severity is Severity.ERROR
    assert "our mistake" in found.headline
    assert "reading" in found.headline
    assert "send" in found.help[0]
