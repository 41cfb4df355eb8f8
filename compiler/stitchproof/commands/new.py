"""`new`: a pattern folder that builds at once."""

from __future__ import annotations

import argparse
from pathlib import Path

from stitchproof.commands.telling import CLEAN, Refused
from stitchproof.diagnostics.terminal import printable
from stitchproof.starter import StarterRefused, start_pattern


def add_options(parser: argparse.ArgumentParser) -> None:
    """The folder that it makes."""
    parser.add_argument("folder", metavar="FOLDER")


def run(asked: argparse.Namespace) -> int:
    """Make the folder, and say what to try next."""
    try:
        folder = start_pattern(Path(asked.folder))
    except StarterRefused as refused:
        raise Refused(str(refused)) from None
    print(printable(f"{folder} is ready: try  stitchproof build {folder}"))
    return CLEAN
