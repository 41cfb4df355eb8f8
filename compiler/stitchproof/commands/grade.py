"""`grade`: the named numbers as a spreadsheet, written or read back."""

from __future__ import annotations

import argparse
from pathlib import Path

from stitchproof.commands.edits_told import Told, add_edit_options, code_of_check, revised, tell
from stitchproof.commands.telling import OUR_FAULT, Refused
from stitchproof.what_if import grade, grading_sheet_of


def add_options(parser: argparse.ArgumentParser) -> None:
    """The sheet that goes out, or the one that comes back."""
    parser.add_argument("pattern", metavar="PATTERN", help="a folder, or a name under pattern_sources/")
    parser.add_argument("sheet", metavar="FILE", nargs="?", type=Path, help="a sheet that comes back (.xlsx or .csv)")
    parser.add_argument("--out", metavar="FILE", type=Path, help="write the sheet here (.xlsx or .csv)")
    add_edit_options(parser, "write what was changed in the sheet into the pattern's files")


def run(asked: argparse.Namespace) -> int:
    """Write the sheet, or tell what was changed in it and what follows."""
    return tell(asked, _grade, "reading or writing a grading sheet")


def _grade(asked: argparse.Namespace) -> Told:
    if (asked.sheet is None) == (asked.out is None):
        raise Refused("grade takes --out FILE to write a sheet, or a FILE to read one back")
    if asked.out is not None:
        if asked.write:
            raise Refused("--write belongs to a sheet that comes back")
        try:
            outcome = grading_sheet_of(asked.pattern, asked.out)
        except ValueError as error:
            raise Refused(str(error)) from None
        code = code_of_check(outcome)
        written = f"{asked.out}\n" if outcome.sized is not None and code < OUR_FAULT else ""
        return Told(
            code, outcome.findings, written, {"files": [str(asked.out)] if written else []}, pattern=outcome.name
        )
    try:
        found = grade(asked.pattern, asked.sheet, asked.write)
    except OSError as error:
        raise Refused(f"cannot read {error.filename or ''}: {error.strerror or error}") from None
    told = revised(found.revised)
    if found.read is None or found.revised.refused:
        return told
    from stitchproof.grading.read_text import read_facts, read_text

    text = read_text(found.read) + (told.text if found.read.changed else "")
    return Told(told.code, told.findings, text, {**told.facts, "sheet": read_facts(found.read)}, pattern=told.pattern)
