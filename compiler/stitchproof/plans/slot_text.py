"""A plan as text for all sizes at once: a row with slots, to be pasted into the pattern and worked over."""

from __future__ import annotations

from collections.abc import Sequence

from stitchproof.plans.armhole import Armhole
from stitchproof.plans.buttonholes import Buttonholes
from stitchproof.plans.crown import Crown
from stitchproof.plans.evenly import EvenRound, EvenRow
from stitchproof.plans.neckline import RoundNeck, VNeck
from stitchproof.plans.parts import PartValue, Plan, parts
from stitchproof.plans.pick_up import PickUp, into_row_ends
from stitchproof.plans.raglan import Raglan
from stitchproof.plans.row_end_rate import RowEndRate
from stitchproof.plans.row_text import StitchWords, as_row
from stitchproof.plans.taper import Taper
from stitchproof.plans.two_groups import Run
from stitchproof.plans.two_rates import TwoRates
from stitchproof.plans.yoke import Yoke


def slot_lines(name: str, plans: Sequence[Plan], words: StitchWords) -> tuple[str, ...]:
    """Lines of text for the sizes in which a plan was made. Sizes that differ in their groups get lines of their own."""
    text = _Text(name, plans, words)
    match plans[0]:
        case EvenRound():
            return text.labelled("Rnd", text.even_round(""))
        case EvenRow():
            return text.labelled("Row", text.even_row())
        case Crown():
            return text.crown()
        case Yoke():
            return text.yoke()
        case TwoRates() | Taper() | VNeck():
            return text.two_rates()
        case Buttonholes():
            return text.buttonholes()
        case PickUp():
            return text.pick_up()
        case Raglan():
            dec = f"Dec Rnd <k>: on body on rnd <{name}.body_round(k)>, on sleeves on rnd <{name}.sleeve_round(k)>."
            return (f"::: for each dec rnd of {name}", dec, ":::")
        case Armhole():
            every = f"Work Dec Row on next <{name}.every_row> rows"
            return (f"{every}, then on next row (RS), then every 2nd row <{name}.rs_more_times> more times.",)
        case RoundNeck():
            return (f"::: for each k of {name}", f"Neck Row <k>: leave <{name}.step(k)> sts at neck edge.", ":::")
        case RowEndRate():
            return (f"Pick up <{name}.sts> sts per <{name}.per> rows.",)


class _Text:
    """Writes the lines of one plan: its name, the plans of the sizes, and the stitches used."""

    def __init__(self, name: str, plans: Sequence[Plan], words: StitchWords) -> None:
        self.name = name
        self.plans = plans
        self.words = words

    def labelled(self, noun: str, rows: tuple[str, ...]) -> tuple[str, ...]:
        """The rows as one step, with the label that sizes of their own need before them."""
        made = self.plans[0]
        verb = "Inc" if isinstance(made, EvenRound | EvenRow) and made.shaping.change > 0 else "Dec"
        return (f"{verb} {noun}: {rows[0]}",) if len(rows) == 1 else (f"{verb} {noun}:", *rows)

    def slot(self, part: str) -> str:
        return f"<{self.name}.{part}>"

    def values(self, part: str) -> list[PartValue]:
        """A part in every size; of one with a k, all its values."""
        found = [each.value for plan in self.plans for each in parts(plan) if each.name == part]
        return [one for each in found for one in (each if isinstance(each, tuple) else (each,))]

    def plain(self, part: str) -> str:
        return f"{self.words.plain} in each of next {self.slot(part)} {self.words.sts}"

    def group(self, of: str, k: str) -> str:
        return f"[{self.plain(f'{of}{k}')}, {self.words.shaping}] {self.slot(f'{of}_times{k}')} times"

    def even_round(self, k: str) -> tuple[str, ...]:
        """k: "(k)" in a loop. One line where all sizes have the same groups; a group of no plain stitch is the shaping alone."""
        parts_of = (self.values("more_times"), self.values("fewer"), self.values("times"))
        there = {(bool(more), fewer == 0, bool(times)) for more, fewer, times in zip(*parts_of, strict=True)}
        more, fewer = self.group("more", k), self.group("fewer", k)
        bare = f"[{self.words.shaping}] {self.slot(f'fewer_times{k}')} times"
        more_times, fewer_times, less, times = (
            f"{self.name}.{part}{k}" for part in ("more_times", "fewer_times", "fewer", "times")
        )
        both = f"{more_times} > 0" + (f" and {less} > 0" if (True, True, True) in there else "")
        ways = (
            ((True, True, True), f"{more_times} > 0 and {less} = 0", f"{more}, {bare}."),
            ((True, False, True), both, f"{more}, {fewer}."),
            (
                (False, False, False),
                f"{times} = 0",
                f"{self.words.plain.capitalize()} in each st around.",
            ),
            ((False, True, True), f"{less} = 0 and {fewer_times} = {times}", f"{bare}."),
            ((False, False, True), "", f"{fewer}."),
        )
        found = [(asked, text) for state, asked, text in ways if state in there]
        if len(found) == 1:
            return (found[0][1],)
        return (*(f"  sizes with {asked}: {text}" for asked, text in found[:-1]), f"  other sizes: {found[-1][1]}")

    def even_row(self) -> tuple[str, ...]:
        gap = f"{self.words.shaping}, {self.words.plain} in each of next"
        more = f"[{gap} {self.slot('more')} {self.words.sts}] {self.slot('more_times')} times, "
        fewer = f"[{gap} {self.slot('fewer')} {self.words.sts}] {self.slot('fewer_times')} times, "
        start, end = self.plain("first_edge"), f"{self.words.shaping}, {self.plain('last_edge')}."
        larger = [value is not None for value in self.values("more_times")]
        both, alike = f"{start}, {more}{fewer}{end}", f"{start}, {fewer}{end}"
        if all(larger) or not any(larger):
            return (both if any(larger) else alike,)
        return (f"  sizes with {self.name}.more_times > 0: {both}", f"  other sizes: {alike}")

    def crown(self) -> tuple[str, ...]:
        stitch = self.words.shaping[:1].upper() + self.words.shaping[1:]
        times = next(each.sections for each in self.plans if isinstance(each, Crown))
        count = f"{times} times. — {self.slot('after(k)')} {self.words.plain}"
        decs = f"[{self.plain('before(k)')}, {self.words.shaping}] {count}"
        in_between = any(isinstance(each, Crown) and each.rounds > each.dec_rounds for each in self.plans)
        label = f"Dec Rnd <k>, on crown rnd {self.slot('round(k)')}:" if in_between else "Dec Rnd <k>:"
        if 0 not in self.values("before"):
            return (f"::: for each dec rnd of {self.name}", f"{label} {decs}", ":::")
        lines = (f"  sizes with {self.name}.before(k) > 0: {decs}", f"  other sizes: [{stitch}] {count}")
        return (f"::: for each dec rnd of {self.name}", label, *lines, ":::")

    def yoke(self) -> tuple[str, ...]:
        first = self.plans[0]
        verb = "inc" if isinstance(first, Yoke) and first.shaping.change > 0 else "dec"
        label = f"{verb.capitalize()} Rnd <k>, on rnd {self.slot('round(k)')}:"
        count = f"— {self.slot('after(k)')} {self.words.plain}"
        rows = self.even_round("(k)")
        if len(rows) == 1:
            return (f"::: for each {verb} rnd of {self.name}", f"{label} {rows[0]} {count}", ":::")
        return (f"::: for each {verb} rnd of {self.name}", label, *(f"{row} {count}" for row in rows), ":::")

    def two_rates(self) -> tuple[str, ...]:
        noun = next(part.noun for part in parts(self.plans[0]) if part.name == "first")
        one = noun.removesuffix("s")
        on = f"Work {self.shaping_row()} {one.capitalize()} on {one} {self.slot('first')}"
        every = f"then every {self.slot('every')} {noun} {self.slot('more_times')} more times"
        slower = f"then every {self.slot('then_every')} {noun} {self.slot('then_more_times')} more times"
        both = [value is not None for value in self.values("then_more_times")]
        if all(both) or not any(both):
            return (", ".join((on, every, slower) if any(both) else (on, every)) + ".",)
        more = f"  sizes with {self.name}.then_more_times > 0: {slower[:1].upper()}{slower[1:]}."
        return (f"{on}, {every}.", more)

    def shaping_row(self) -> str:
        """What the row that is shaped is called: the pattern writes it under that name."""
        made = self.plans[0]
        return (
            ("Inc" if made.change > 0 else "Dec")
            if isinstance(made, Taper)
            else "Dec"
            if isinstance(made, VNeck)
            else "Shaping"
        )

    def buttonholes(self) -> tuple[str, ...]:
        hole = f"ch {self.slot('width')}, sk next {self.slot('width')} {self.words.sts}"
        more, fewer = (f"[{hole}, {self.plain(of)}] {self.slot(f'{of}_times')} times" for of in ("more", "fewer"))
        start, end = self.plain("below"), f"{hole}, {self.words.plain} in each {self.words.st} to end."
        larger = [value is not None for value in self.values("more_times")]
        if all(larger) or not any(larger):
            return (", ".join((start, *((more, fewer) if any(larger) else (fewer,)), end)),)
        return (f"{start};", f"  sizes with {self.name}.more_times > 0: {more};", f"  all sizes: {fewer}, {end}")

    def pick_up(self) -> tuple[str, ...]:
        plan = next(each for each in self.plans if isinstance(each, PickUp))
        group = as_row(PickUp(int(plan.rate.per), plan.rate, 1, 0, plan.group, ()), self.words)
        whole = f"[{group}] {self.slot('groups')} times"
        if all(value is None for value in self.values("left")):
            return (f"{whole}. — {self.slot('picked_up')} {self.words.plain}",)
        rest = as_row(PickUp(1, plan.rate, 0, 1, (), _one_of_the_rest(plan)), self.words)
        more = f"  sizes with {self.name}.left > 0: [{rest}] {self.slot('left')} times."
        return (f"{whole}.", more, f"  all sizes: — {self.slot('picked_up')} {self.words.plain}")


def _one_of_the_rest(plan: PickUp) -> tuple[Run, ...]:
    return into_row_ends(int(plan.rate.left_over or 0), plan.rate.row_ends)
