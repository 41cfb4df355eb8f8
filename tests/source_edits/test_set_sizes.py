"""A size added to a pattern, and taken away again."""

from __future__ import annotations

from pathlib import Path

import pytest

from stitchproof.diagnostics.report import Report
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.source import SourceFile
from stitchproof.source_edits.edit_source import edited_texts
from stitchproof.source_edits.set_sizes import AddSize, RemoveSize, bracket_of
from tests.architecture.code_reader import CLONE
from tests.source_edits.edited import HEADER, edit, pattern_with
from tests.source_edits.test_demos_edited import DEMOS, demo

HERE = SourceFile("asked", "").whole
TOP = """\
dialect: 1
title: Hat
sizes: {names: [S, M, L], groups: [2], sample: M}
gauges:
  fabric: {stitches: 16, rows: 12, over: 10 cm}
body:
  head: {cm: [50, 54, 57], in: [19.75, 21.25, 22.5]}
counts:
  brim:  # by choice
    - 8 sts
    - 10 sts
    - 12 sts
  n: {is: head * fabric.stitches, round: nearest, multiple: 4, by_hand: {S: 76 sts}}
  m: {by_hand: [8,
      10, 14], unit: sts, multiple: 2}
cautions: [{rules: [small_parts], sizes: [S, M]}]
"""
BIGGER = """\
dialect: 1
title: Hat
sizes: {names: [S, M, L, XL], groups: [3], sample: M}
gauges:
  fabric: {stitches: 16, rows: 12, over: 10 cm}
body:
  head: {cm: [50, 54, 57, 60], in: [19.75, 21.25, 22.5, 23.75]}
counts:
  brim:  # by choice
    - 8 sts
    - 10 sts
    - 12 sts
    - 14 sts
  n: {is: head * fabric.stitches, round: nearest, multiple: 4, by_hand: {S: 76 sts}}
  m: {by_hand: [8,
      10, 14, 18], unit: sts, multiple: 2}
cautions: [{rules: [small_parts], sizes: [S, M]}]
"""
VALUES = {"body.head": "60 cm, 23.75 in", "brim": "14", "m": "18 sts"}


def test_a_size_more_stands_in_every_list_in_the_way_of_its_neighbours(tmp_path: Path) -> None:
    sized = pattern_with(tmp_path, TOP)
    added = edit(tmp_path, sized, AddSize("XL", 3, VALUES, HERE))
    assert added.faults == ()
    assert added.after[HEADER].raw == BIGGER
    again = edited_texts(added.after, size_pattern(added.source, Report()), [RemoveSize(3, HERE)])
    assert again.after == added.before


def test_a_new_size_may_be_set_by_hand_where_a_formula_gives_the_others(tmp_path: Path) -> None:
    sized = pattern_with(tmp_path, TOP)
    added = edit(tmp_path, sized, AddSize("XL", 3, {**VALUES, "n": "100"}, HERE))
    assert added.faults == ()
    assert "by_hand: {S: 76 sts, XL: 100 sts}" in added.after[HEADER].raw
    (fault,) = edit(tmp_path, sized, AddSize("XL", 3, {**VALUES, "nn": "100"}, HERE)).faults
    assert fault.page.name == "unknown-name"


def test_what_the_caller_has_to_give_is_asked_for_with_a_line_drawn_on(tmp_path: Path) -> None:
    """m is even: halfway between 8 and 10 is 9, which is no multiple of 2, so 10. The others are the neighbours, drawn on."""
    sized = pattern_with(tmp_path, TOP)
    told = {at: edit(tmp_path, sized, AddSize("N", at, {}, HERE)).faults for at in (0, 1, 3)}
    assert {each.page.code for faults in told.values() for each in faults} == {"SP226"}
    drawn = {at: [each.help[0].rpartition("give ")[2] for each in faults] for at, faults in told.items()}
    assert drawn[0] == ["`body.head.cm[N]=46`", "`body.head.in[N]=18.25`", "`brim[N]=6`", "`m[N]=6`"]
    assert drawn[1] == ["`body.head.cm[N]=52`", "`body.head.in[N]=20.5`", "`brim[N]=9`", "`m[N]=10`"]
    assert drawn[3] == ["`body.head.cm[N]=60`", "`body.head.in[N]=23.75`", "`brim[N]=14`", "`m[N]=18`"]


def test_a_size_that_goes_is_taken_out_of_everything_that_names_it(tmp_path: Path) -> None:
    sized = pattern_with(tmp_path, TOP)
    gone = edit(tmp_path, sized, RemoveSize(0, HERE)).after[HEADER].raw
    assert "names: [M, L], groups: [1]" in gone
    assert "    - 10 sts\n    - 12 sts\n" in gone
    assert "multiple: 4}" in gone
    assert "sizes: [M]" in gone


def test_a_size_that_is_the_sample_stays_until_another_is(tmp_path: Path) -> None:
    (fault,) = edit(tmp_path, pattern_with(tmp_path, TOP), RemoveSize(1, HERE)).faults
    assert (fault.page.code, fault.headline) == ("SP227", "`sizes.sample` names M, which is to go")
    assert fault.primary.span.text == "M"


def test_a_size_beside_a_body_table_is_told_which_of_its_sizes_it_is(tmp_path: Path) -> None:
    table = TOP.replace(
        "  head: {cm: [50, 54, 57], in: [19.75, 21.25, 22.5]}", "  {from: women, sizes: [S, M, L], rows: [bust]}"
    )
    sized = pattern_with(tmp_path, table.replace("head * fabric", "bust * fabric"))
    added = edit(tmp_path, sized, AddSize("Big", 3, {"brim": "14", "m": "18", "body.sizes": "bust 44 in"}, HERE))
    assert added.faults == ()
    assert "sizes: [S, M, L, bust 44 in]" in added.after[HEADER].raw
    short = pattern_with(tmp_path / "short", table.replace("sizes: [S, M, L], rows", "sizes: [S, M], rows"))
    (fault,) = edit(tmp_path / "short", short, AddSize("Big", 3, {"brim": "14", "m": "18"}, HERE)).faults
    assert (fault.page.code, fault.primary.span.text) == ("SP220", "[S, M]")


@pytest.mark.parametrize(("size", "bracket"), [(0, 0), (1, 0), (4, 0), (5, 1), (8, 1), (9, 1)])
def test_the_bracket_of_a_size(size: int, bracket: int) -> None:
    """Nine sizes as 1 (2, 3, 4, 5) (6, 7, 8, 9)."""
    assert bracket_of(size, [4, 4]) == bracket


@pytest.mark.parametrize("name", DEMOS)
def test_a_size_added_to_a_demo_and_taken_away_again(name: str) -> None:
    """At both ends and in the middle: the sizes that were there keep every value, and the file comes back to the byte."""
    sized = demo(name)
    folder = CLONE / "pattern_sources" / name
    for at in (0, len(sized.sizes) // 2, len(sized.sizes)):
        asked = edit(folder, sized, AddSize("New", at, {}, HERE))
        values = {each.about: each.help[0].rpartition("=")[2].strip("`") for each in asked.faults if each.about}
        added = edit(folder, sized, AddSize("New", at, values, HERE))
        assert added.faults == ()
        bigger = size_pattern(added.source, Report(added.source.header.sizes.names))
        kept = [index for index, size in enumerate(bigger.sizes) if size != "New"]
        for quantity in sized.quantities:
            now = bigger.scope.quantities[quantity.name].values
            assert tuple(now[index] for index in kept if now) == quantity.values
        back = edited_texts(added.after, bigger, [RemoveSize(at, HERE)])
        assert back.after == added.before
