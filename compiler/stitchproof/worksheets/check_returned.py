"""A returned worksheet read and compared, as reports and as a table."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.worksheets.checkpoints import Worksheet
from stitchproof.worksheets.compare import Compared, compare
from stitchproof.worksheets.faults.tester_differs import other_revision, tester_differs
from stitchproof.worksheets.faults.worksheet_not_readable import worksheet_not_readable
from stitchproof.worksheets.returned import Returned, WorksheetUnreadable, read_returned


class Checked(Struct, frozen=True):
    """What came of a worksheet. table: "" where it could not be read."""

    findings: tuple[Diagnostic, ...]
    table: str = ""


def check_returned(content: bytes, shown: str, worksheet_of: Callable[[str], Worksheet | None]) -> Checked:
    """shown: the file as the user sees it. worksheet_of: what a size is asked, by its name; None for no size of the pattern."""
    try:
        returned = read_returned(content, is_csv=shown.lower().endswith(".csv"))
    except WorksheetUnreadable as error:
        text = content.decode("utf-8", "replace") if error.line else ""
        return Checked((worksheet_not_readable(shown, str(error), text, error.line, error.mend),))
    worksheet = worksheet_of(returned.size)
    if worksheet is None:
        said = f"`{returned.size}` is not a size of this pattern" if returned.size else "it does not say the size"
        return Checked((worksheet_not_readable(shown, said),))
    compared = compare(worksheet, returned)
    findings = [tester_differs(shown, worksheet.size, each) for each in compared if each.told]
    if returned.revision and worksheet.revision and returned.revision != worksheet.revision:
        findings.insert(0, other_revision(shown, returned.revision, worksheet.revision))
    return Checked(tuple(findings), _table(worksheet, returned, compared))


def _table(worksheet: Worksheet, returned: Returned, compared: tuple[Compared, ...]) -> str:
    """For people: each answer beside what was worked out, then what was unclear."""
    who = f", {returned.tester}" if returned.tester else ""
    hours = f", {float(returned.hours):g} hours" if returned.hours is not None else ""
    lines = [f"{worksheet.title}, size {worksheet.size}{who}{hours}: {len(compared)} answers compared"]
    wide = max((len(each.where) for each in compared), default=0)
    for each in compared:
        mark = f"   {each.told}" if each.told else ""
        lines.append(f"  {each.where:<{wide}}  pattern {each.expected:>8}  tester {each.found:>8}{mark}".rstrip())
    for line, words in returned.unclear:
        lines.append(f"  unclear, {f'line {line}' if line else 'no line named'}: {words}")
    return "\n".join(lines) + "\n"
