"""`python -m stitchproof`."""

from stitchproof.command_line import run

run()
