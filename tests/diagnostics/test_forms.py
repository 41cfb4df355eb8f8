"""The forms of a finding: JSON, and the terminal's text, which is made from the same facts and nothing else."""

from __future__ import annotations

import json
import shutil
from fractions import Fraction
from pathlib import Path
from unicodedata import category

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from wcwidth import wcswidth  # type: ignore[import-untyped,unused-ignore]  # the reference for terminal columns

from stitchproof import check_pattern
from stitchproof.diagnostics.diagnostic import SumLine
from stitchproof.diagnostics.facts import as_json, facts_of
from stitchproof.diagnostics.terminal import SHOWN_OF_ONE_CODE, as_text, finding_text, printable
from stitchproof.source import SourceFile, Span
from tests.diagnostics.findings import finding, full_finding, span_of


def test_the_whole_of_a_finding() -> None:
    """Carets under the fault, by terminal columns; dashes where another place had a part; sum, nearest, help, more."""
    assert finding_text(facts_of(full_finding())) == (
        "error[SP101 made-up-fault]: row 1 does not come out (sizes S, L)\n"
        "  --> pattern_sources/hat/10_brim.md:3:17\n"
        "  |\n"
        "3 | Row 1: é🧶 sc in <sts> sts.\n"
        "  |                  ^^^^^ used here\n"
        "  |\n"
        "  ::: pattern_sources/hat/pattern.yaml:2:8\n"
        "  |\n"
        "2 |   sts: [8, 9, 10]\n"
        "  |        ---------- given here\n"
        "  |\n"
        "  ::: pattern_sources/hat/10_brim.md:4:2\n"
        "  |\n"
        "4 |  Row 2: sc.\n"
        "  |  ----------\n"
        "  |\n"
        "  = sum: S  8 / 3   left over\n"
        "         L  10 / 3\n"
        "  = nearest: S  9 (+0.6 cm / +0.2 in)   or  6 (−1.3 cm / −0.5 in)\n"
        "             L  12\n"
        "  = left out: 15 breaks SP003\n"
        "  = help: take one of these\n"
        "  = help: or another repeat\n"
        "  = more: stitchproof explain SP101\n"
    )


def test_the_facts_of_a_finding() -> None:
    """Lines and columns from 1 in code points, ends exclusive; fractions exact beside a decimal."""
    facts = facts_of(full_finding())
    assert facts["primary"]["start"] == {"line": 3, "column": 17}
    assert facts["primary"]["end"] == {"line": 3, "column": 22}
    assert facts["sum"][0]["left"] == {"exact": "8/3", "decimal": "2.6667"}
    assert facts["sum"][0]["remainder"] == {"exact": "-1/3", "decimal": "-0.3333"}
    assert facts["sum"][1]["right"] == {"exact": "4", "decimal": "4"}
    assert facts["alternatives"][0]["change_cm"] == {"exact": "5/8", "decimal": "0.6250"}
    assert Fraction(facts["alternatives"][0]["change_in"]["exact"]) * Fraction("2.54") == Fraction(5, 8)
    assert facts["alternatives"][2]["change_in"] is None


def rebuilt(text: str) -> str:
    """The terminal's text made again from the JSON form alone."""
    return as_text(json.loads(text)["diagnostics"])


def test_the_json_form_has_its_name_and_version() -> None:
    held = json.loads(as_json([facts_of(full_finding())], pattern="hat"))
    assert held["format"] == "stitchproof-diagnostics"
    assert held["version"] == 1
    assert held["pattern"] == "hat"
    promised = ["code", "name", "severity", "headline", "piece", "row", "sizes", "primary", "related", "sum"]
    promised += ["alternatives", "help", "explain"]
    assert [key for key in held["diagnostics"][0] if key in promised] == promised, "fields may be added, none may go"


def test_an_unreadable_file_comes_out_in_the_same_form(tmp_path: Path) -> None:
    shutil.copytree(Path(__file__).parents[2] / "pattern_sources" / "cobblewick_hat", tmp_path / "hat")
    (tmp_path / "hat" / "20_brim.md").write_bytes(b"\xff\x1b[31m")
    findings = check_pattern(tmp_path / "hat", within=tmp_path).findings
    assert json.loads(as_json(map(facts_of, findings)))["diagnostics"][0]["code"] == "SP011"
    assert rebuilt(as_json(map(facts_of, findings))) == as_text(facts_of(found) for found in findings)


def test_a_long_number_still_has_a_decimal() -> None:
    """Beyond what a float can hold."""
    line = SumLine("S", "a", Fraction(10**400 + 1, 3), Fraction(-1, 3))
    (held,) = facts_of(replace(finding(), sums=(line,)))["sum"]
    assert held["left"]["decimal"] == "3" * 400 + ".6667"
    assert held["right"]["decimal"] == "-0.3333"


def test_after_twenty_of_one_code_only_their_number() -> None:
    """Others are still shown; the last line says how many more there were."""
    file = SourceFile("a.md", "x" * 60 + "\n")
    many = [finding(Span(file, at, at + 1)) for at in range(33)]
    other = finding(Span(file, 40, 41), code="SP102")
    printed = as_text(facts_of(found) for found in [*many, other])
    assert printed.count("error[SP101") == SHOWN_OF_ONE_CODE == 20
    assert printed.count("error[SP102") == 1
    assert printed.endswith("and 13 more of SP101\n")
    assert "more of" not in as_text(facts_of(found) for found in many[:20])


DANGEROUS = "\x1b[2J\x07\x08\r\x9b31m\u202eevil\u2066\u200f\u061c\ufeff\u2028\x7f\ue000\n"


@given(st.text(st.characters(codec="utf-8"), max_size=20) | st.just(DANGEROUS))
def test_nothing_can_drive_a_terminal(text: str) -> None:
    """No control, direction or invisible character survives: escapes could hide a fault or type at the prompt."""
    shown = printable(text)
    assert len(shown) == len(text)
    assert not any(category(sign) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp") for sign in shown if sign not in "\t\u200d")


def test_sources_names_and_sums_cannot_drive_a_terminal() -> None:
    """Each text of a finding that can come from a file, or from the name of one."""
    file = SourceFile(f"bad{DANGEROUS}.md", f"a{DANGEROUS}b\n")
    found = finding(
        Span(file, 1, 3), headline=f"x{DANGEROUS}", sizes=(DANGEROUS,), label=DANGEROUS, help_text=DANGEROUS
    )
    empty = finding(SourceFile(DANGEROUS, "").whole, label=DANGEROUS)
    for each in (found, empty):
        printed = finding_text(facts_of(each))
        assert not any(category(sign) in ("Cc", "Cf") for sign in printed if sign != "\n")
        assert "\u2028" not in printed


@pytest.mark.parametrize(
    ("line", "word", "before"),
    [
        ("abc <x>", "<x>", 4),
        ("é <x>", "<x>", 2),
        ("e\u0301 <x>", "<x>", 2),
        ("🧶 <x>", "<x>", 3),
        ("🧶🧶<x>", "<x>", 4),
        ("字 <x>", "<x>", 3),
        ("\t<x>", "<x>", 1),
        ("\u202e <x>", "<x>", 2),
    ],
)
def test_carets_stand_under_the_fault(line: str, word: str, before: int) -> None:
    """By Unicode Standard Annex 11: an emoji or ideograph takes two columns, a combining accent none."""
    printed = finding_text(facts_of(finding(span_of(SourceFile("a.md", line + "\n"), word)))).split("\n")
    assert printed[4] == "  | " + " " * before + "^^^"


@settings(max_examples=100)
@given(
    st.text(st.sampled_from("ab é🧶字\u0301\t"), max_size=12), st.text(st.sampled_from("xé🧶"), min_size=1, max_size=5)
)
def test_carets_are_as_wide_as_what_they_stand_under(before: str, word: str) -> None:
    """The reference for widths is the wcwidth library itself, over the line as it is printed."""
    file = SourceFile("a.md", f"{before}|{word}| rest\n")
    start = len(before) + 1
    _, _, _, shown, carets, *_ = finding_text(facts_of(finding(Span(file, start, start + len(word))))).split("\n")
    assert carets == "  | " + " " * wcswidth(shown[4 : 4 + start]) + "^" * wcswidth(word)


@pytest.mark.parametrize("column", [0, 150, 399, 400, 401, 5000, 9990])
def test_long_lines_are_cut_around_the_fault(column: int) -> None:
    line = "".join(chr(ord("a") + n % 26) for n in range(10_000))
    file = SourceFile("a.md", line + "\nb\n")
    printed = finding_text(facts_of(finding(Span(file, column, column + 5)))).split("\n")
    shown, carets = printed[3], printed[4]
    assert len(shown) <= 404
    at = carets.index("^")
    assert shown[at : at + 5] == line[column : column + 5]
    assert carets.count("^") == 5


def test_a_place_over_many_lines_shows_its_first() -> None:
    file = SourceFile("a.md", "one\n  two\nthree\nfour\nfive\n")
    printed = finding_text(facts_of(finding(Span(file, 1, 22), label="all of it")))
    assert [line for line in printed.split("\n") if "^" in line] == ["  |  ^^", "  |   ^^^", "  | ^^^^^ all of it"]
    assert "four" not in printed


def test_a_long_line_behind_a_short_one_is_cut_at_its_end() -> None:
    file = SourceFile("a.md", " " * 300 + "<x\n" + "  y" * 300 + "\n")
    printed = finding_text(facts_of(finding(Span(file, 300, 320)))).split("\n")
    assert printed[5][4:] == ("  y" * 300)[:400]
    assert printed[6].startswith("  |   ^")


def test_a_file_without_text_is_named_only() -> None:
    printed = finding_text(facts_of(finding(SourceFile("gone.md", "").whole, label="is not there")))
    assert printed.split("\n")[1:3] == ["  --> gone.md:1:1", "   | is not there"]
