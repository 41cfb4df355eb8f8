"""The `stitchproof` command, and `python -m stitchproof`."""

import _thread
import gc
import os
import signal
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sys import UnraisableHookArgs


def start() -> None:
    """Load the command and run it; who stops it while it loads gets no traceback."""
    sys.unraisablehook = _not_lost
    gc.disable()  # while modules load nothing becomes garbage; `run` looks for it again, seldom
    try:
        from stitchproof.own_modules import find_own_modules

        find_own_modules()
        from stitchproof.libraries import load_libraries

        load_libraries()
        if sys.argv[1:2] == ["build"]:
            from stitchproof.early_press import start_early

            start_early(sys.argv[2:])
        from stitchproof.command_line import run
    except KeyboardInterrupt:
        _give_up_presses()
        sys.exit(130)
    try:
        run()
    except SystemExit as ended:
        _give_up_presses()
        if sys.argv[1:2] in (["check"], ["build"]) and isinstance(ended.code, int) and not sys.getprofile():
            _end_at_once(ended.code)
        raise


def _not_lost(raised: "UnraisableHookArgs") -> None:
    """A stop that arrives while Python cleans up behind an import cannot be raised there: it would be printed, and lost. It is
    made again, from a thread, so that it does not arrive here."""
    if raised.exc_type is KeyboardInterrupt:
        _thread.start_new_thread(signal.pthread_kill, (_thread.get_ident(), signal.SIGINT))
    else:
        sys.__unraisablehook__(raised)


def _give_up_presses() -> None:
    early = sys.modules.get("stitchproof.early_press")
    if early:
        early.give_up()


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
