"""Where YAML's own signs get in the way: each trap in several spellings, and legitimate YAML that is none."""

from __future__ import annotations

import pytest

from stitchproof.diagnostics.report import Report
from stitchproof.reading.faults.yaml_trap import Trap
from stitchproof.reading.yaml_tree import read_yaml
from stitchproof.source import SourceFile

# Where a value can stand: under a key, in a nested key, in a list, in a list of groups.
PLACES = ("{}\n", "title: {}\n", "a:\n  b:\n    c: {}\nd: 1\n", "a:\n  - {}\n  - x\n", "a:\n  - k: {}\n    l: x\n")

TRAPS: dict[Trap, tuple[str, ...]] = {
    Trap.STAR: ("*Star Hat", "*Star", "* 2", "*hat*", "*é🧶", "*b, c"),
    Trap.GREATER: ("> 5 cm", ">5 cm", "| edge", "|x|", ">= 4", ">é"),
    Trap.SIGN: ("@home", "`x`", "%5", "& more", "&"),
    Trap.AFTER_BRACKET: ("[8, 9] sts", "[8, 9]sts", "[8] sts and more", "[S, M] é"),
}


def findings(text: str) -> list[tuple[str, str]]:
    """Code and headline of what is found in a text."""
    report = Report()
    read_yaml(SourceFile("pattern.yaml", text), report)
    return [(found.page.code, found.headline) for found in report.findings()]


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize(("trap", "value"), [(trap, value) for trap, values in TRAPS.items() for value in values])
def test_a_trap_is_known_wherever_it_stands(trap: Trap, value: str, place: str) -> None:
    """One report, of this trap, that offers the whole value in quotes; and what it offers is read as it was meant."""
    text = place.format(value)
    report = Report()
    read_yaml(SourceFile("pattern.yaml", text), report)
    (found,) = report.findings()
    assert found.page.code == "SP013"
    assert trap.value[0] in found.headline
    assert value.endswith(found.primary.span.text)
    assert findings(place.format(f'"{value}"')) == []


@pytest.mark.parametrize("place", [place for place in PLACES if place != "{}\n"])
@pytest.mark.parametrize(
    ("trap", "value"),
    [
        (Trap.NUMBER_SIGN, "Hat #2"),
        (Trap.NUMBER_SIGN, "#2 Hat"),
        (Trap.NUMBER_SIGN, "é 🧶 #2"),
        (Trap.NUMBER_SIGN, "12 rows  #twelve"),
        (Trap.COMMA, "{is: max(40 sts, 44 sts), round: up}"),
        (Trap.COMMA, "{round: up, is: max(40 sts, 44 sts)}"),
        (Trap.COMMA, "{unit: cm, by_hand: 1,5}"),
        (Trap.COMMA, "{why: six, seven or eight}"),
        (Trap.COMMA, "[max(1, 2), 3]"),
        (Trap.COMMA, "[Yarn (grey, blue), hook]"),
        (Trap.COMMA, "{a: {is: min(b, min(c, d))}}"),
    ],
)
def test_what_would_be_cut_off_in_silence_is_reported(trap: Trap, value: str, place: str) -> None:
    ((code, headline),) = findings(place.format(value))
    assert code == "SP013"
    assert trap.value[0] in headline


@pytest.mark.parametrize("place", [place for place in PLACES if ":" in place and "- {}" not in place])
@pytest.mark.parametrize(
    ("trap", "value"),
    [
        (Trap.COLON, "Hat: a study"),
        (Trap.COLON, "Row 1: sc"),
        (Trap.COLON, "é 🧶: x"),
        (Trap.DASH, "- 4 cm"),
        (Trap.DASH, "- x"),
    ],
)
def test_a_colon_and_a_dash_behind_a_key(trap: Trap, value: str, place: str) -> None:
    ((code, headline),) = findings(place.format(value))
    assert code == "SP013"
    assert trap.value[0] in headline


def test_one_trap_is_one_report() -> None:
    """A comment sign in brackets swallows the bracket too; that the bracket is not closed is the same fault."""
    assert len(findings("names: [Hat #2]\n")) == 1


@pytest.mark.parametrize(
    "text",
    [
        "title: Hat # a comment\n",
        "title: Hat   ## a comment\n",
        "title: Hat #\n",
        "# a: *b\ntitle: Hat\n",
        "a: 1\n#b: 2\n",
        "a: # a comment\n  b: 1\n",
        "a:\n  # - a comment\n  - b # another\n",
        'title: "Hat: a study in #2, *not* > 3"\n',
        "title: 'it''s @home: [8, 9] sts #1'\n",
        'a: {is: "max(40 sts, 44 sts)", round: up}\n',
        "a: {is: 'max(40 sts, 44 sts)'}\n",
        'names: ["S (small", M, "L)"]\n',
        "names: [S (small, M]\n",
        "names: [S, M, L]\n",
        "names: [S,\n  M,\n  L,\n]\n",
        "a: [[1, 2], [3, 4]]\n",
        "a: {b: [1, 2], c: {d: e}}\n",
        "a: {b: , c: d}\n",
        "a: {b: (40 + 2), c: (4)}\n",
        "contact: https://example.org/a:b?c=d&e=f#g\n",
        "contact: mailto:a@example.org\n",
        "texts: [a.md, b.md]\n",
        "materials:\n  - 4.5 mm hook, or the size that gives the gauge\n  - 1 stitch marker\n",
        "text: >-\n  Row 1: *Sc in next st; rep from *. # no comment\n  > and - so on\n",
        "text: |\n  - a\n  @b [c] d\n",
        "drop: -4 cm\n",
        "drop: a - b * c\n",
        "test: a > 3 and b < 4\n",
        "ratio: 50%\n",
        "time: 1:30\n",
        "a: b:c\n",
        "a: b#c\n",
        "a: max(1, 2)\n",
        "a: why, then\n",
        "a: &b c\nd: *b\n",
        "a: &b\n  c: d\ne: *b\n",
        "a: ~\nb:\nc: ''\n",
    ],
)
def test_legitimate_yaml_is_no_trap(text: str) -> None:
    assert findings(text) == []
