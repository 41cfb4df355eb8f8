"""A scope of a few names in three sizes, and short ways of reading and working out a formula in it."""

from dataclasses import dataclass, field
from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.evaluation import evaluate
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.kinds import kind_of
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.scope import NoKind
from stitchproof.formulas.size_names import size_index
from stitchproof.formulas.tree import Formula
from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT
from stitchproof.measures.rate import Rate
from stitchproof.measures.values import Absent, PerSize, Value
from stitchproof.source import SourceFile, Span

SIZES = 3
SIZE_NAMES = ("Small", "Medium", "Large")


@dataclass(frozen=True, slots=True)
class Named:
    """A name of the scope: its kind, and one value per size, or a value per k and size."""

    kind: Kind
    values: PerSize = ()
    at: dict[tuple[Fraction, int], Value] = field(default_factory=dict)


def _whole(*numbers: int | str) -> PerSize:
    return tuple(Fraction(number) for number in numbers)


STS, RNDS, CM, GRAMS, RIBS = (
    Kind(STITCHES, "sts"),
    Kind(ROWS, "rnds"),
    Kind(LENGTH, "cm"),
    Kind(WEIGHT, "g"),
    Kind(PLAIN, "ribs"),
)
NAMES = {
    "hat_sts": Named(STS, _whole(64, 72, 80)),
    "brim.sts": Named(STS, _whole(8, 9, 10)),
    "body_rnds": Named(RNDS, _whole(6, 7, 8)),
    "width": Named(CM, _whole("40", "45.5", "50")),
    "yarn": Named(GRAMS, _whole(45, 50, 65)),
    "ribs_in_all": Named(RIBS, _whole(25, 29, 32)),
    "crown.stitches": Named(Kind(STITCHES.per(LENGTH), "sts"), _whole("1.6", "1.6", "1.6")),
    "crown.rounds": Named(Kind(ROWS.per(LENGTH), "rnds"), _whole("1.2", "1.2", "1.2")),
    "gap_sts": Named(STS, (Fraction(4), Absent.NOT_WORKED, Absent.UNKNOWN)),
    "not_worked_sts": Named(STS, (Absent.NOT_WORKED,) * SIZES),
    "unknown_sts": Named(STS, (Absent.UNKNOWN,) * SIZES),
    "after_dec": Named(
        STS, at={(Fraction(k), size): Fraction(64 + 8 * size - 8 * k) for k in range(9) for size in range(3)}
    ),
}
RATES = {
    "brim_edge": Rate(Fraction(5), Fraction(2), Fraction(2), "ribs"),
    "plain_edge": Rate(Fraction(9), Fraction(4), None, "ribs"),
    "row_edge": Rate(Fraction(3), Fraction(2)),
}
SILENT = {"already_reported"}


class SmallScope:
    """The names above. `already_reported` is a name whose fault has been reported elsewhere."""

    def names(self) -> tuple[str, ...]:
        return (*NAMES, *RATES, *SILENT)

    def kind(self, name: str) -> Kind | NoKind:
        if name in SILENT:
            return NoKind.SILENT
        if name in RATES:
            return Kind()
        return NAMES[name].kind if name in NAMES else NoKind.MISSING

    def takes_parameter(self, name: str) -> bool:
        return name in NAMES and bool(NAMES[name].at)

    def rate(self, name: str) -> Rate | None:
        return RATES.get(name)

    def size_names(self) -> tuple[str, ...]:
        return SIZE_NAMES

    def size_index(self, words: str) -> int | None:
        return size_index(words, SIZE_NAMES, by_number=True)

    def value(self, name: str, size: int, parameter: Fraction | None) -> Value:
        named = NAMES[name]
        return named.values[size] if parameter is None else named.at[parameter, size]


SCOPE = SmallScope()


def span_of(text: str) -> Span:
    return Span(SourceFile("pattern.yaml", text), 0, len(text))


def read(text: str) -> Formula:
    """A formula that can be read."""
    formula = read_formula(span_of(text))
    assert isinstance(formula, Formula), formula
    return formula


def refused(text: str) -> Diagnostic:
    """The report of a formula that cannot be read, or whose kind is at fault."""
    return refused_at(span_of(text))


def refused_at(span: Span) -> Diagnostic:
    """The same of a formula that stands somewhere in a file."""
    formula = read_formula(span)
    found = kind_of(formula, SCOPE) if isinstance(formula, Formula) else formula
    assert isinstance(found, Diagnostic), found
    return found


def kind(text: str) -> Kind:
    """The kind of a formula without a fault."""
    found = kind_of(read(text), SCOPE)
    assert isinstance(found, Kind), found
    return found


def values(text: str) -> list[Value]:
    """A faultless formula in every size."""
    kind(text)
    found = [evaluate(read(text), SCOPE, size) for size in range(SIZES)]
    return [value for value in found if not isinstance(value, Diagnostic)]


def cannot(text: str, size: int = 0) -> Diagnostic:
    """The report of a formula whose kind is right and which cannot be worked out."""
    kind(text)
    found = evaluate(read(text), SCOPE, size)
    assert isinstance(found, Diagnostic), found
    return found
