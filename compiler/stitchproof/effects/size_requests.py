"""Sizes that are to be added, or taken away, as they are asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.effects.faults.change_not_understood import change_not_understood
from stitchproof.effects.requests import COMMAND_LINE
from stitchproof.formulas.faults.size_not_known import size_not_in_pattern
from stitchproof.formulas.size_names import size_index
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from stitchproof.source_edits.set_sizes import AddSize, RemoveSize


class NewSize(Struct, frozen=True):
    """A size to be added, behind one that is named or before it; at the end where neither is."""

    name: str
    after: str = ""
    before: str = ""


def size_requests(
    add: Sequence[NewSize],
    remove: Sequence[str],
    sized: SizedPattern,
    values: Mapping[str, Mapping[str, str]],
    draw_on: bool,
) -> tuple[tuple[AddSize | RemoveSize, ...], tuple[Diagnostic, ...]]:
    """One request after the other, each by its place among the sizes that there are by then. values: by new size and name.

    draw_on: whether a list that gets no value goes on as its neighbours do.
    """
    names = list(sized.sizes)
    by_number = bool(sized.scope.sizes and sized.scope.sizes.called_by_number)
    found: list[AddSize | RemoveSize] = []
    faults: list[Diagnostic] = []
    for new in add:
        beside = new.after or new.before
        place = size_index(beside, tuple(names), by_number) if beside else len(names)
        if place is None:
            faults.append(size_not_in_pattern(_span(beside), tuple(names)))
        elif not new.name.strip() or any(sign in new.name for sign in "[]=\n"):
            why = f"`{new.name}` is no name for a size"
            faults.append(change_not_understood(_span(new.name or " "), why, "use letters, digits and blanks"))
        else:
            at = place + 1 if new.after else place
            found.append(AddSize(new.name, at, dict(values.get(new.name, {})), _span(new.name), draw_on))
            names.insert(at, new.name)
    for name in remove:
        place = size_index(name, tuple(names), by_number)
        if place is None:
            faults.append(size_not_in_pattern(_span(name), tuple(names)))
        else:
            found.append(RemoveSize(place, _span(name)))
            names.pop(place)
    return tuple(found), tuple(faults)


def _span(text: str) -> Span:
    return Span(SourceFile(COMMAND_LINE, text), 0, len(text))
