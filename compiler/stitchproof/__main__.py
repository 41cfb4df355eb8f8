"""The `stitchproof` command, and `python -m stitchproof`."""

import gc
import sys


def start() -> None:
    """Load the command and run it; who stops it while it loads gets no traceback."""
    gc.disable()  # while modules load nothing becomes garbage; `run` looks for it again, seldom
    try:
        from stitchproof.command_line import run
    except KeyboardInterrupt:
        sys.exit(130)
    run()


if __name__ == "__main__":  # a process that prints editions reads this file again where it is not forked
    start()
