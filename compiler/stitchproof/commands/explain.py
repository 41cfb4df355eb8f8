"""`explain`: what a fault means, the checklist, or how a number of a pattern came about."""

from __future__ import annotations

import argparse
import sys

from stitchproof.commands.telling import (
    CLEAN,
    COULD_NOT_RUN,
    Refused,
    add_form_options,
    findings_text,
    printable_lines,
    put,
)
from stitchproof.pipeline import explain


def add_options(parser: argparse.ArgumentParser) -> None:
    """What is to be explained, and in which form."""
    parser.add_argument(
        "what", metavar="CODE | checklist | PATTERN NAME", nargs="+", help="NAME may be of one size: `hat_sts[M]`"
    )
    add_form_options(parser)


def run(asked: argparse.Namespace) -> int:
    """The explanation to standard output, or findings that say why there is none."""
    if len(asked.what) > 2:
        raise Refused("explain takes a CODE, or a PATTERN and a NAME")
    told = explain(asked.what[-1], asked.what[0] if len(asked.what) == 2 else None)
    if asked.format == "text" and not told.findings:
        put(told.text if asked.output else printable_lines(told.text), asked, sys.stdout)
        return CLEAN
    pattern = {"patterns": asked.what[:1]} if len(asked.what) == 2 else {}
    put(findings_text(told.findings, asked, not told.findings, {**pattern, "text": told.text}), asked)
    return COULD_NOT_RUN if told.findings else CLEAN
