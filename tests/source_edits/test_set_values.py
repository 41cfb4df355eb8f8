"""One value changed in place: what stands around it stays to the byte, and the old value gives the file back."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.source_edits.edited import HEADER, edit, pattern_with, sized_of

TOP = """\
# A hat.   Two blanks stay.
dialect: 1
title: 'Hat'
sizes: {names: [S, M, L]}
gauges:
  fabric: {stitches: 16, rows: 12, over: 10 cm}   # washed
rates:
  edge: {sts: 5, per: 2 ribs}
"""
FORMS = {
    "a scalar": ("measures:\n  ease:   2 cm   # tight\n", "ease=3 cm", "measures:\n  ease:   3 cm   # tight\n", "ease=2 cm"),
    "its unit is kept": ("measures:\n  ease: 2 cm\n", "ease=3", "measures:\n  ease: 3 cm\n", "ease=2"),
    "quotes are kept": ("measures:\n  ease: '2 cm'\n", "ease=3 cm", "measures:\n  ease: '3 cm'\n", "ease=2 cm"),
    "below is": (
        "counts:\n  n: {is: 4 sts, why: a choice}\n", "n=6 sts", "counts:\n  n: {is: 6 sts, why: a choice}\n", "n=4 sts",
    ),
    "one of a list": (
        "counts:\n  n: {by_hand: [8,  9 , 10], unit: sts}\n", "n[M]=12 sts",
        "counts:\n  n: {by_hand: [8,  12 , 10], unit: sts}\n", "n[M]=9",
    ),
    "a list with units": (
        "counts:\n  n: [8 sts, 9 sts, 1 st]\n", "n[L]=12", "counts:\n  n: [8 sts, 9 sts, 12 sts]\n", "n[L]=1",
    ),
    "a list by dashes": (
        "counts:\n  n:\n    - 8 sts # so\n    - 9 sts\n    - 10 sts\n", "n[S]=7",
        "counts:\n  n:\n    - 7 sts # so\n    - 9 sts\n    - 10 sts\n", "n[S]=8 sts",
    ),
    "a whole list": (
        "counts:\n  n: {by_hand: [8, 9, 10], unit: sts}\n", "n=[9, 10, 11]",
        "counts:\n  n: {by_hand: [9, 10, 11], unit: sts}\n", "n=[8, 9, 10]",
    ),
    "both columns": (
        "body:\n  head: {cm: [50, 55, 60], in: [19.75, 21.5, 23.5]}\n", "head[M]=56 cm",
        "body:\n  head: {cm: [50, 56, 60], in: [19.75, 22, 23.5]}\n", "head[M]=55 cm, 21.5 in",
    ),
    "both columns, from inches": (
        "body:\n  head: {cm: [50, 55, 60], in: [19.75, 21.5, 23.5]}\n", "body.head[M]=22 in",
        "body:\n  head: {cm: [50, 56, 60], in: [19.75, 22, 23.5]}\n", "head[M]=55 cm, 21.5 in",
    ),
    "a formula": (
        "measures:\n  w: 20 cm\ncounts:\n  n: {is: w * fabric.stitches, round: nearest}\n", "n=(w + 2 cm) * fabric.stitches",
        "measures:\n  w: 20 cm\ncounts:\n  n: {is: (w + 2 cm) * fabric.stitches, round: nearest}\n", "n=w * fabric.stitches",
    ),
    "a size of a formula": (
        "measures:\n  w: 20 cm\ncounts:\n  n: {is: w * fabric.stitches, round: nearest}\n", "n[M]=30",
        "measures:\n  w: 20 cm\ncounts:\n  n: {is: w * fabric.stitches, by_hand: {M: 30 sts}, round: nearest}\n", "n[M]=32",
    ),
    "a size of a formula on lines": (
        "measures:\n  w: 20 cm\ncounts:\n  n:\n    is: w * fabric.stitches  # wide\n    round: nearest\n", "n[M]=30",
        "measures:\n  w: 20 cm\ncounts:\n  n:\n    is: w * fabric.stitches  # wide\n    by_hand: {M: 30 sts}\n"
        "    round: nearest\n",
        "n[M]=32",
    ),
    "a size of a formula that stands alone": (
        "measures:\n  w: 20 cm  # wide\n  v: w + 2 cm\n", "v[L]=24 cm",
        "measures:\n  w: 20 cm  # wide\n  v: {is: w + 2 cm, by_hand: {L: 24 cm}}\n", "v[L]=22 cm",
    ),
    "the same with a comma of its own": (
        "measures:\n  w: 20 cm\n  v: max(w, 2 cm)  # wide\n", "v[L]=24 cm",
        "measures:\n  w: 20 cm\n  v:\n    is: max(w, 2 cm)\n    by_hand: {L: 24 cm}  # wide\n", "v[L]=20 cm",
    ),
    "the same with blanks before it": (
        "measures:\n  w: 20 cm\n  v:   max(w, 2 cm)\n", "v[L]=24 cm",
        "measures:\n  w: 20 cm\n  v:   \n    is: max(w, 2 cm)\n    by_hand: {L: 24 cm}\n", "v[L]=20 cm",
    ),
    "below `is` alone in braces": (
        "measures:\n  w: 20 cm\n  v: {is: w}\n", "v[S]=24 cm", "measures:\n  w: 20 cm\n  v: {by_hand: {S: 24 cm}, is: w}\n",
        "v[S]=20 cm",
    ),
    "below `is` alone on a line": (
        "measures:\n  w: 20 cm\n  v:\n    is: w\n", "v[S]=24 cm",
        "measures:\n  w: 20 cm\n  v:\n    by_hand: {S: 24 cm}\n    is: w\n", "v[S]=20 cm",
    ),
    "a number for a formula, in all sizes": (
        "measures:\n  w: 20 cm\ncounts:\n  n: {is: w * fabric.stitches, round: nearest}\n", "n=30",
        "measures:\n  w: 20 cm\ncounts:\n  n: {is: w * fabric.stitches, "
        "by_hand: {S: 30 sts, M: 30 sts, L: 30 sts}, round: nearest}\n",
        "n=32",
    ),
    "a second size by hand": (
        "measures:\n  w: 20 cm\n  v: {is: w, by_hand: {L: 24 cm}, why: so}\n", "v[S]=18 cm",
        "measures:\n  w: 20 cm\n  v: {is: w, by_hand: {S: 18 cm, L: 24 cm}, why: so}\n", "v[S]=20 cm",
    ),
    "in a group": (
        "counts:\n  brim: {sts: 8 sts, rows: 12 rows}\n", "brim.rows[M]=14",
        "counts:\n  brim: {sts: 8 sts, rows: {is: 12 rows, by_hand: {M: 14 rows}}}\n", "brim.rows[M]=12",
    ),
    "a start": (
        "counts:\n  f(k): {is: f(k - 1) + 8, start: 8 sts}\n", "f(0)=6 sts",
        "counts:\n  f(k): {is: f(k - 1) + 8, start: 6 sts}\n",
        "f(0)=8 sts",
    ),
    "a plan": (
        "counts:\n  n: 64 sts\nplans:\n  p: {kind: crown, from: n, sections: 8}\n", "plans.p.sections=4",
        "counts:\n  n: 64 sts\nplans:\n  p: {kind: crown, from: n, sections: 4}\n", "plans.p.sections=8",
    ),
}  # fmt: skip


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
def test_a_value_is_changed_where_it_stands_and_changed_back(tmp_path: Path, form: tuple[str, str, str, str]) -> None:
    before, change, after, back = form
    sized = pattern_with(tmp_path, TOP + before)
    edited = edit(tmp_path, sized, change)
    assert not edited.faults, [each.headline for each in edited.faults]
    assert edited.after[HEADER].raw == TOP + after
    (tmp_path / HEADER).write_bytes(edited.after[HEADER].content)
    again = edit(tmp_path, sized_of(tmp_path), back)
    assert not again.faults
    assert again.after[HEADER].raw == TOP + before


@pytest.mark.parametrize(
    ("change", "after"),
    [
        ("gauges.fabric.stitches=17", "{stitches: 17, rows: 12, over: 10 cm}   # washed"),
        ("fabric.rows=13.5", "{stitches: 16, rows: 13.5, over: 10 cm}   # washed"),
        ("rates.edge.sts=4", "edge: {sts: 4, per: 2 ribs}"),
        ("rates.edge.per=3", "edge: {sts: 5, per: 3 ribs}"),
    ],
)
def test_gauges_and_rates(tmp_path: Path, change: str, after: str) -> None:
    sized = pattern_with(tmp_path, TOP)
    edited = edit(tmp_path, sized, change)
    assert after in edited.after[HEADER].raw
    assert len(edited.after[HEADER].raw.splitlines()) == len(TOP.splitlines())


REFUSED = {
    "a reference": ("measures:\n  ease: &e 2 cm\n  more: *e\n", "ease=3 cm", "another place refers to it"),
    "what refers": ("measures:\n  ease: &e 2 cm\n  more: *e\n", "more=3 cm", "another place refers to it"),
    "a list that is shared": ("counts:\n  n: &n [8 sts, 9 sts, 10 sts]\n  m: *n\n", "m[S]=7 sts", "another place refers to it"),
    "a folded text": ("measures:\n  w: 20 cm\n  v: >-\n    w\n    + 2 cm\n", "v=w", "folded over lines"),
    "an escape": ('measures:\n  v: "\\u0032 cm"\n', "v=3 cm", "holds escapes"),
    "a value at a k": ("counts:\n  f(k): 8 sts * k\n", "f(2)=20 sts", "a formula gives it at every k"),
    "a length for all": ("body:\n  head: {cm: 57}\n", "head[M]=58 cm", "one value stands for all sizes"),
    "a part of a plan": (
        "counts:\n  n: 64 sts\nplans:\n  p: {kind: crown, from: n, sections: 8}\n", "p.dec_rounds=4", "typed nowhere",
    ),
    "a list that is not by size": (
        "counts:\n  n: 64 sts\nplans:\n  p: {kind: crown, from: n, sections: 8, plain: [1 rnd, 2 rnds]}\n",
        "plans.p.plain[M]=3 rnds", "its list does not go by size",
    ),
    "too few values": ("counts:\n  n: [8 sts, 9 sts, 10 sts]\n", "n=[8 sts, 9 sts]", "2 values for 3 sizes"),
    "a shipped table": ("body:\n  from: women\n  rows: [bust]\n", "bust[M]=92 cm", "the figure is that of a shipped table"),
}  # fmt: skip


@pytest.mark.parametrize("refused", REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_edited_in_place_is_told_with_its_place(tmp_path: Path, refused: tuple[str, str, str]) -> None:
    before, change, why = refused
    edited = edit(tmp_path, pattern_with(tmp_path, TOP + before), change)
    (fault,) = edited.faults
    assert fault.page.code == "SP220"
    assert why in fault.headline
    assert fault.help
    assert fault.primary.span.file.path.endswith(HEADER)
    assert edited.changed == ()


CSV = "size, bust cm, bust in, arm cm\nS,  86, 34, 26 \nM,  91.5, 36, 28\n\nL, 97, 38, 30\n"


def test_a_figure_of_her_own_table(tmp_path: Path) -> None:
    """Both columns of the measure; the second is worked out, or given with the first."""
    sized = pattern_with(tmp_path, TOP + "body:\n  csv: body.csv\n", body_csv=CSV)
    edited = edit(tmp_path, sized, "bust[M]=93 cm", "body.arm[S]=27")
    assert edited.changed == ("body.csv",)
    assert edited.after["body.csv"].raw == CSV.replace("91.5, 36", "93, 36.5").replace("26 ", "27 ")
    (tmp_path / "body.csv").write_bytes(edited.after["body.csv"].content)
    again = edit(tmp_path, sized_of(tmp_path), "bust[M]=91.5 cm, 36 in", "arm[S]=26 cm")
    assert again.after["body.csv"].raw == CSV


@pytest.mark.parametrize("line_end", ["\r\n", "\r", "\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_the_mark_at_the_beginning_stay(tmp_path: Path, line_end: str, mark: bytes) -> None:
    text = TOP + "measures:\n  w: 20 cm # ü ×\n  v: max(w, 2 cm)\n"
    content = mark + text.replace("\n", line_end).encode()
    edited = edit(tmp_path, pattern_with(tmp_path, content), "v[L]=24 cm")
    put_in = "v:\n    is: max(w, 2 cm)\n    by_hand: {L: 24 cm}\n"
    assert (
        edited.after[HEADER].content
        == mark + text.replace("v: max(w, 2 cm)\n", put_in).replace("\n", line_end).encode()
    )


def test_a_file_with_mixed_line_ends_keeps_each(tmp_path: Path) -> None:
    text = (TOP + "measures:\n").replace("\n", "\r\n") + "  w: 20 cm\n  v: 2 cm\r\n"
    edited = edit(tmp_path, pattern_with(tmp_path, text), "v=3 cm")
    assert edited.after[HEADER].raw == text.replace("v: 2", "v: 3")
