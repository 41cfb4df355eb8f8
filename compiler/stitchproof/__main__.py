"""`python -m stitchproof`."""

from stitchproof.command_line import run

if __name__ == "__main__":  # a process that prints editions reads this file again where it is not forked
    run()
