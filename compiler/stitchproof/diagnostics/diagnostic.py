"""What a report consists of. Facts only; the texts are made from them, last, by the printers."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.page import Page, Severity
from stitchproof.measures.units import SINGULAR
from stitchproof.measures.values import exact_text
from stitchproof.source import Place, Span


class Excerpt(Struct, frozen=True):
    """A place in a source file and what is to be seen there."""

    span: Span
    label: str = ""


class SumLine(Struct, frozen=True):
    """The arithmetic that failed, in one size. left and right: the two sides that should agree, exact, where there are two.

    row: the row that it is about, where the expression begins with it.
    """

    size: str
    expression: str
    left: Fraction | None = None
    right: Fraction | None = None
    note: str = ""
    row: str = ""


class Alternative(Struct, frozen=True):
    """A value that works in one size, and what it changes, in exact centimetres (None where the gauge does not say).

    name: the dotted name that would be set; written: to what, as one writes it. by_rows, if_none: as of its Proposal.
    """

    size: str
    value: str
    change_cm: Fraction | None
    name: str = ""
    written: str = ""
    by_rows: bool = False
    if_none: str = ""


class Proposal(Struct, frozen=True):
    """Values worth trying in one size, nearest first on either side. They become Alternatives once they have been tried.

    name: the dotted name to change. said: how it is told, where the headline speaks of something else.
    size: index of the size. cm_per_unit: width or length of one more, or None. by_rows: whether a value is tried with the rows
    as well, as these are worked over it; if_none: what helps where it suits the rows in no size, "" for what is said anyway.
    """

    name: str
    size: int
    noun: str
    now: Fraction
    below: tuple[Fraction, ...]
    above: tuple[Fraction, ...]
    cm_per_unit: Fraction | None
    said: str = ""
    by_rows: bool = False
    if_none: str = ""

    def in_words(self, value: Fraction) -> str:
        """One of its values as it is printed: "88 sts", "hat_sts 88 sts"."""
        noun = SINGULAR.get(self.noun, self.noun) if value == 1 else self.noun
        return " ".join(word for word in (self.said, exact_text(value), noun) if word)


class Diagnostic(Struct, frozen=True):
    """One report. `sizes`: names in the pattern's order; empty where a fault has nothing to do with sizes.

    accepted: the designer's reason for leaving a warning as it is, or "". about: the named value that it is about, or "".
    causes_open: whether the numbers that may be its cause are still to be looked for.
    """

    page: Page
    headline: str
    primary: Excerpt
    sizes: tuple[str, ...] = ()
    in_all_sizes: bool = False
    piece: str = ""
    row: str = ""
    related: tuple[Excerpt, ...] = ()
    sums: tuple[SumLine, ...] = ()
    alternatives: tuple[Alternative, ...] = ()
    left_out: tuple[str, ...] = ()
    proposals: tuple[Proposal, ...] = ()
    help: tuple[str, ...] = ()
    accepted: str = ""
    about: str = ""
    causes_open: bool = False

    @property
    def severity(self) -> Severity:
        return self.page.severity

    @property
    def full_headline(self) -> str:
        """The headline with the sizes it concerns; stands alone in a list."""
        if not self.sizes:
            return self.headline
        if self.in_all_sizes:
            return f"{self.headline} (all sizes)"
        return f"{self.headline} (size{'s' if len(self.sizes) > 1 else ''} {', '.join(self.sizes)})"

    @property
    def cause(self) -> tuple[str, str, int, int]:
        """What makes two reports the same fault: the code and the place."""
        return (self.page.code, *self.primary.span.order)

    def joined(self, other: Diagnostic, names: tuple[str, ...]) -> Diagnostic:
        """This report and another of the same cause as one, sizes in the order of `names`."""
        sizes = {*self.sizes, *other.sizes}
        ordered = tuple(name for name in names if name in sizes)
        sums = self.sums + tuple(line for line in other.sums if line not in self.sums)
        return replace(
            self,
            sizes=ordered,
            in_all_sizes=bool(ordered) and len(ordered) == len(names),
            related=self.related + tuple(excerpt for excerpt in other.related if excerpt not in self.related),
            sums=tuple(sorted(sums, key=lambda line: names.index(line.size) if line.size in names else -1)),
            proposals=self.proposals + tuple(p for p in other.proposals if p not in self.proposals),
            causes_open=self.causes_open or other.causes_open,
        )


def used_from(place: Place) -> tuple[Excerpt, ...]:
    """The calls through which a place came to be used, nearest first, as secondary excerpts."""
    return tuple(Excerpt(call, "used from here") for call in reversed(place.calls))
