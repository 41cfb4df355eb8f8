"""Pieces joined at spans, in any numbers: the counts come from lists of stitches, counted one by one, not from a formula."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from dataclasses import replace as with_other
from pathlib import Path

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Severity
from tests.checks.smallest_pattern import SMALLEST

YAML = (
    "".join(text for key, text in SMALLEST.items() if key != "pieces")
    + """pieces:
  body: {gauge: fabric, worked: joined rounds}
  sleeve: {gauge: fabric, worked: joined rounds}
  yoke: {gauge: fabric, worked: joined rounds}
special_stitches:
  fsc: {name: foundation single crochet, how: Sc made with its own ch.}
"""
)


@dataclass(frozen=True)
class Join:
    """A body with two spans, and a sleeve with one. a, b, s: the stitch of each marker; half: stitches of the half round.

    counted: whether marker A's stitch is st 1 when B is counted from it. stretches: back, sleeve, front, sleeve as written.
    """

    body: int
    sleeve: int
    before: int
    after: int
    half: int
    a: int
    b: int
    s: int
    counted: bool
    stretches: tuple[int, int, int, int]
    sleeve_after: int

    @property
    def text(self) -> str:
        span, own = self.before + 1 + self.after, self.before + 1 + self.sleeve_after
        nth = self.b - self.a + (1 if self.counted else 0)
        how = "counting the st with marker A as st 1" if self.counted else "counting from the st after marker A"
        around = "the {} sts before it and the {} sts after it"
        back, one, front, two = self.stretches
        return f"""## Body {{body}}

Rnd 1: Work {self.body} fsc, join with sl st in first fsc. — {self.body} fsc
Half rnd: Ch 1 (does not count as a st here and throughout), sc in each of next {self.half} sts; do not join. — {self.half} sc
Marker A in st {self.a} of the half rnd.
Marker B in st {nth} of the half rnd, {how}.
Underarm A: the st with marker A, {around.format(self.before, self.after)}. — {span} sts
Underarm B: the st with marker B, {around.format(self.before, self.after)}. — {span} sts
The half rnd ends with the last st of underarm B.

## Sleeve {{sleeve}}

::: make 2
Rnd 1: Work {self.sleeve} fsc, join with sl st in first fsc. — {self.sleeve} fsc
Marker S in st {self.s} of the last rnd.
Underarm S: the st with marker S, {around.format(self.before, self.sleeve_after)}. — {own} sts
:::

## Yoke {{yoke}}

Rnd 1: Sc in each of next {back} sts of body, pm, starting in the first st after its underarm
  sc in each of next {one} sts of first sleeve, pm, sk underarm A, sc in each of next {front} sts of body, pm,
  sc in each of next {two} sts of second sleeve in the same way, pm, sk underarm B,
  join with sl st in first sc. — {sum(self.stretches)} sc
Rnd 2: Ch 1, [sc2tog, sc in each st to 2 sts before next marker, sc2tog] 4 times,
  join with sl st in first st. — {sum(self.stretches) - 8} sc
Sew the {own} sts of underarm S of each sleeve to the {span} sts of underarms A and B, st to st.
"""


@st.composite
def joins(draw: st.DrawFn) -> Join:
    """A join that comes out: the stretches are counted on lists of stitches, laid in working order after the half round."""
    before, after = draw(st.integers(1, 5)), draw(st.integers(1, 5))
    body, sleeve = draw(st.integers(40, 160)), draw(st.integers(20, 60))
    half = draw(st.integers(2 * (before + after) + 8, body - before - 6))
    a = draw(st.integers(1, half - 2 * after - before - 6))
    b = half - after
    first = [("round", number) for number in range(1, body + 1)]
    ring = first[half:] + [("half", number) for number in range(1, half + 1)]
    at_a, at_b = ring.index(("half", a)), ring.index(("half", b))
    out_a, out_b = ring[at_a - before : at_a + after + 1], ring[at_b - before : at_b + after + 1]
    assume(at_a - before >= 4 and at_b - before - (at_a + after) > 4)
    back = ring[: ring.index(out_a[0])]
    front = [place for place in ring if place not in back and place not in out_a and place not in out_b]
    s = draw(st.integers(1, sleeve))
    around = [*range(1, sleeve + 1)] * 3
    at_s = sleeve + s - 1
    live = set(around) - set(around[at_s - before : at_s + after + 1])
    stretches = (len(back), len(live), len(front), len(live))
    return Join(body, sleeve, before, after, half, a, b, s, draw(st.booleans()), stretches, after)


def errors(join: Join) -> list[tuple[str, str]]:
    """Codes of the errors in a join, with where each is."""
    with tempfile.TemporaryDirectory() as folder:
        pattern = Path(folder) / "join"
        pattern.mkdir()
        (pattern / "pattern.yaml").write_text(YAML, encoding="utf-8")
        (pattern / "text.md").write_text(join.text, encoding="utf-8")
        found = check_pattern(pattern).findings
    return [
        (each.page.code, each.row.split("/")[1])
        for each in found
        if each.severity is Severity.ERROR or each.page.code == "SP142"
    ]


@settings(max_examples=40)
@given(joins())
def test_what_comes_out_is_clean(join: Join) -> None:
    assert errors(join) == []


@settings(max_examples=40)
@given(joins(), st.integers(0, 3), st.sampled_from([-3, -2, -1, 1, 2, 3]))
def test_a_stretch_of_another_number_is_found_there_alone(join: Join, which: int, off: int) -> None:
    """Too few are left over, too many run into the span that is left out."""
    changed = tuple(number + off if index == which else number for index, number in enumerate(join.stretches))
    total = sum(join.stretches)
    text_total = with_other(join, stretches=changed)  # type: ignore[arg-type]
    assert min(changed) > 0 and total
    assert errors(text_total) == [("SP136" if off < 0 else "SP137", "Rnd 1")]


@settings(max_examples=25)
@given(joins(), st.integers(1, 3))
def test_a_wider_underarm_of_the_sleeve_is_found_where_it_is_written(join: Join, more: int) -> None:
    assume(join.sleeve - join.before - 1 - join.after - more > 4)
    wider = with_other(join, sleeve_after=join.after + more)
    assert [code for code, _ in errors(wider)] == ["SP161"]


@settings(max_examples=25)
@given(joins(), st.sampled_from([-2, -1, 1, 2]))
def test_a_half_round_that_stops_elsewhere_is_found_once(join: Join, off: int) -> None:
    """Marker B is where it was, and the round stops before or after the last stitch of its underarm."""
    assume(join.half + off < join.body - join.before)
    found = errors(with_other(join, half=join.half + off))
    assert [code for code, _ in found] in (["SP159"], ["SP160"])
