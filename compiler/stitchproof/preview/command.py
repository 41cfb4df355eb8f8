"""The `preview` command. What it needs is loaded only when it runs, as no other command does with a server."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from stitchproof.diagnostics.terminal import printable
from stitchproof.workspace import Workspace, workspace_at

CLEAN, COULD_NOT_RUN = 0, 2
LARGEST_PORT = 65535


def add_preview_command(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Put it among the commands."""
    preview = commands.add_parser(
        "preview", help="open the page of a pattern in a browser, and refresh it at each save"
    )
    preview.add_argument("pattern", metavar="PATTERN", help="a folder, or a name under pattern_sources/")
    preview.add_argument("--port", metavar="N", type=_port, default=0, help="the port to serve at (one that is free)")
    preview.add_argument("--no-browser", action="store_true", help="print the address, and open nothing")
    preview.set_defaults(run=_preview)


def _port(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and 0 < int(text) <= LARGEST_PORT):
        raise argparse.ArgumentTypeError(f"a port is a number from 1 to {LARGEST_PORT}")
    return int(text)


def _preview(asked: argparse.Namespace) -> int:
    """Serve until the user ends it with Ctrl-C."""
    workspace = workspace_at(Path.cwd())
    folder = workspace.folder_of(asked.pattern)
    if folder is None:
        return _refused(_no_such_pattern(asked.pattern, workspace))
    from stitchproof.preview.desk import Desk
    from stitchproof.preview.serve import HOST, PortTaken, Preview, open_in_browser
    from stitchproof.preview.session import Session

    try:
        preview = Preview(Desk(Session(workspace, folder)), asked.port)
    except PortTaken:
        return _refused(f"port {asked.port} is taken; leave --port out for one that is free, or name another one")
    except OSError as error:
        where = f"{HOST}:{asked.port}" if asked.port else HOST
        return _refused(f"cannot serve at {where}: {error.strerror or error}")

    def ready() -> None:
        print(f"The page of {printable(folder.name)} is at  {preview.address}", flush=True)
        if not asked.no_browser and not open_in_browser(preview.address):
            print("No browser could be opened here; open the address yourself.", file=sys.stderr, flush=True)
        print("It is refreshed at each save. Ctrl-C ends it.", flush=True)

    preview.run(ready)
    return CLEAN


def _no_such_pattern(asked: str, workspace: Workspace) -> str:
    known = workspace.pattern_names()
    here = f"the patterns here are {', '.join(known)}" if known else "give the folder that holds pattern.yaml"
    return f"{asked[:120]} is not a pattern folder, nor a name under pattern_sources/; {here}"


def _refused(why: str) -> int:
    print(printable(f"stitchproof: {why}"), file=sys.stderr)
    return COULD_NOT_RUN
