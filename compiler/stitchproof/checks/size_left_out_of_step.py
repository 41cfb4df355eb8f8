"""SP057 size-left-out-of-step

Severity  error
Checks    a step that is made up of parts for some sizes gives each of its sizes one part, no fewer and no more. After
          `all sizes:` the step goes on for all.
Matters   a maker whose size is missing finds a row without words; one who finds hers twice does not know which to work.
Mend      add the missing size to a part, or close with `other sizes:`; take a size that stands twice out of one of them.
Source    common practice, no source.

Fires in L:
    sizes: {names: [S, M, L, XL]}
    ---
    Row 1:
      sizes S and M: Sc in each st across, turn.
      size XL: Hdc in each st across, turn.

Fires in M:
    sizes: {names: [S, M, L]}
    ---
    Row 1:
      sizes S and M: Sc in each st across, turn.
      sizes M and L: Hdc in each st across, turn.

Quiet:
    sizes: {names: [S, M, L, XL]}
    counts:
      extra: {by_hand: [0, 2, 4, 6], unit: sts}
    ---
    Row 1:
      sizes S and M: Sc in each st across.
      other sizes: Hdc in each st across.
      all sizes: Turn.
    Row 2: Ch 1.
      sizes M and L: Sc in next st.
    ::: sizes M to XL
    Row 3:
      size M: Sc in each st across, turn.
      sizes with extra > 2 sts: Hdc in each of next <extra> sts, turn.
    :::
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from stitchproof.checks.grade import inputs_of
from stitchproof.checks.told_before import NAME
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Block, Part, Passage, Served, Step, Tag, Times
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.values import Absent
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import Span

PAGE = read_page(__doc__)
_STEP_LINES = LatePattern(r".*(?:\n[ \t]+\S.*)*")
_CONDITION = LatePattern(r"^[ \t]*sizes?\s+with\s+(.*?)\s*:", re.MULTILINE | re.IGNORECASE)


def parts_of_steps(expanded: ExpandedPattern, report: Report) -> None:
    """Steps whose first words already stand under a size."""
    for piece in expanded.document.pieces:
        for step, served in _steps(piece.blocks, piece.served):
            parts = _branches(step)
            if not parts:
                continue
            lines = _written(step)
            doubtful = _doubtful(lines, expanded.sized)
            twice, left_out = _twice(parts, doubtful), _left_out(parts, served, doubtful)
            if (twice or left_out) and not _is_reported(lines, report):
                report.extend(_findings(step, twice, left_out, expanded.sized))


def _steps(blocks: tuple[Block, ...], served: Served) -> Iterator[tuple[Step, Served]]:
    """Every step, with the sizes that its surroundings serve."""
    for block in blocks:
        match block:
            case Step():
                yield block, served
            case Passage():
                yield from _steps(block.blocks, block.served)
            case Times():
                yield from _steps(block.blocks, served)


def _branches(step: Step) -> tuple[Part, ...]:
    """The parts of which each size has one: those before "all sizes", where no words come before them."""
    if len(step.parts) == 0 or step.parts[0].tag is Tag.NONE:
        return ()
    until = next((index for index, part in enumerate(step.parts) if part.tag is Tag.ALL), len(step.parts))
    return step.parts[:until]


def _left_out(parts: tuple[Part, ...], served: Served, doubtful: set[int]) -> tuple[int, ...]:
    held = {size for part in parts for size in part.served}
    return tuple(size for size in served if size not in held and size not in doubtful)


def _twice(parts: tuple[Part, ...], doubtful: set[int]) -> tuple[tuple[int, Part, Part], ...]:
    """Sizes of two parts, with the first part that has them and the next."""
    first: dict[int, Part] = {}
    found = []
    for part in parts:
        for size in part.served:
            if size in first and size not in doubtful:
                found.append((size, first[size], part))
            first.setdefault(size, part)
    return tuple(found)


def _written(step: Step) -> Span:
    """The lines of a step, from its first words on."""
    span = step.place.span
    match = _STEP_LINES.match(span.file.text, span.start)
    return Span(span.file, span.start, match.end() if match else span.end)


def _doubtful(lines: Span, sized: SizedPattern) -> set[int]:
    """The sizes in which a condition cannot be judged, for a reason that is reported."""
    conditions: Iterable[str] = _CONDITION.findall(lines.text)
    names = tuple(name for condition in conditions for name in NAME.findall(condition))
    if any(sized.scope.full_name(name) in sized.scope.silent for name in names):
        return set(range(len(sized.sizes)))
    held = [quantity.values for quantity in inputs_of(names, sized.scope) if quantity.values]
    return {size for size in range(len(sized.sizes)) if any(values[size] is Absent.UNKNOWN for values in held)}


def _is_reported(lines: Span, report: Report) -> bool:
    """Whether a condition or a size in these lines has a fault of its own."""
    spans = [found.primary.span for found in report.findings()]
    return any(span.file is lines.file and lines.start <= span.start < lines.end for span in spans)


def _findings(
    step: Step, twice: tuple[tuple[int, Part, Part], ...], left_out: tuple[int, ...], sized: SizedPattern
) -> Iterator[Diagnostic]:
    called, names = step.identity.split("/")[1].strip() or "a step", sized.sizes
    for size, first, second in twice:
        found = _report(step, f"{called} has two parts for the same size", Excerpt(_place(second, step), "and here"))
        earlier = (Excerpt(_place(first, step), "here"), *found.related)
        yield replace(found, sizes=(names[size],), related=earlier, help=("take the size out of one of them",))
    if left_out:
        label = "no part for them" if len(left_out) > 1 else "no part for it"
        found = _report(step, f"{called} has no part for one of its sizes", Excerpt(step.place.span, label))
        help_text = "add a part, or `other sizes:`; a step that only some sizes work stands in `::: sizes`"
        yield replace(found, sizes=tuple(names[size] for size in left_out), help=(help_text,))


def _place(part: Part, step: Step) -> Span:
    return part.tokens[0].place.span if part.tokens else step.place.span


def _report(step: Step, headline: str, place: Excerpt) -> Diagnostic:
    return Diagnostic(PAGE, headline, place, piece=step.piece, row=step.identity, related=used_from(step.place))


CHECKS = (parts_of_steps,)
