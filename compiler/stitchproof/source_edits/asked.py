"""What is asked for: a value of a name, in all sizes or in one."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.faults.function_used_wrongly import function_used_wrongly
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.formulas.faults.unknown_name import unknown_name
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Formula
from stitchproof.sizing.dotted_name import read_dotted
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span

MOST_VALUES = 60


class SetValue(Struct, frozen=True):
    """One value. name: in full. k: of a value such as `after_dec(0)`. size: its index, None for all. text: what it is to be.

    span: where it was asked for.
    """

    name: str
    k: Fraction | None
    size: int | None
    text: str
    span: Span

    def named(self, sizes: tuple[str, ...]) -> str:
        """The name with its size, as it is asked for."""
        at = f"({self.k})" if self.k is not None else ""
        return f"{self.name}{at}" + (f"[{sizes[self.size]}]" if self.size is not None else "")


def read_set_value(name: Span, value: Span, sized: SizedPattern, known: tuple[str, ...]) -> SetValue | Diagnostic:
    """A name and its value as somebody wrote them, or the report of what is wrong with them. known: the names that can be set."""
    read = read_dotted(name)
    if read is None:
        return function_used_wrongly(name, f"`{name.text}` is not a name", "write for example `ease` or `head[M]`")
    full = sized.scope.full_name(read.name.text)
    if f"rates.{full.removeprefix('rates.')}" in known:
        full = f"rates.{full.removeprefix('rates.')}"
    if full not in known and full not in sized.scope.quantities:
        return unknown_name(read.name, read.name.text, known)
    size = sized.scope.size_index(read.size.text) if read.size else None
    if read.size and size is None:
        return size_not_in_pattern(read.size, sized.sizes)
    for part in parts_of(value.text) if is_list(value.text) else (value.text,):
        for column in parts_of(part):
            text = SourceFile(value.file.path, column)
            formula = read_formula(Span(text, 0, len(column)))
            if not isinstance(formula, Formula):
                return formula
    return SetValue(full, read.k, size, " ".join(value.text.split()), name.to(value))


def is_list(text: str) -> bool:
    """Whether a value is a list with one for each size: `[8, 9, 10]`."""
    return text.strip().startswith("[") and text.strip().endswith("]")


def parts_of(text: str) -> tuple[str, ...]:
    """What commas part, those in brackets left aside; the square brackets of a list taken off."""
    inner = text.strip()[1:-1] if is_list(text) else text
    parts, depth = [""], 0
    for sign in inner:
        depth += (sign in "([") - (sign in ")]")
        if sign == "," and depth == 0:
            parts.append("")
        else:
            parts[-1] += sign
    return tuple(" ".join(part.split()) for part in parts)
