"""The `stitchproof` command, and `python -m stitchproof`."""

import gc
import os
import sys


def start() -> None:
    """Load the command and run it; who stops it while it loads gets no traceback."""
    gc.disable()  # while modules load nothing becomes garbage; `run` looks for it again, seldom
    try:
        from stitchproof.command_line import run
    except KeyboardInterrupt:
        sys.exit(130)
    try:
        run()
    except SystemExit as ended:
        if sys.argv[1:2] in (["check"], ["build"]) and isinstance(ended.code, int) and not sys.getprofile():
            _end_at_once(ended.code)
        raise


def _end_at_once(code: int) -> None:
    """End without taking apart what is in memory, which is all that is left then: that takes as long as judging a pattern. A
    build has put its files in place by now, and its other processes have ended."""
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except OSError:  # nobody reads any more: Python ends as ever
        return
    os._exit(code)


if __name__ == "__main__":  # a process that prints editions reads this file again where it is not forked
    start()
