"""`preview`: the page of a pattern in a browser. The server is loaded once it is known that there is such a pattern."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from stitchproof.commands.telling import CLEAN, Refused
from stitchproof.diagnostics.terminal import printable
from stitchproof.workspace import Workspace, workspace_at

LARGEST_PORT = 65535


def add_options(parser: argparse.ArgumentParser) -> None:
    """The pattern, and where its page is served."""
    parser.add_argument("pattern", metavar="PATTERN", help="a folder, or a name under pattern_sources/")
    parser.add_argument("--port", metavar="N", type=_port, default=0, help="the port to serve at (one that is free)")
    parser.add_argument("--no-browser", action="store_true", help="print the address, and open nothing")


def _port(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and 0 < int(text) <= LARGEST_PORT):
        raise argparse.ArgumentTypeError(f"a port is a number from 1 to {LARGEST_PORT}")
    return int(text)


def run(asked: argparse.Namespace) -> int:
    """Serve until the user ends it with Ctrl-C."""
    workspace = workspace_at(Path.cwd())
    folder = workspace.folder_of(asked.pattern)
    if folder is None:
        raise Refused(_no_such_pattern(asked.pattern, workspace))
    from stitchproof.preview.desk import Desk
    from stitchproof.preview.serve import HOST, PortTaken, Preview, open_in_browser
    from stitchproof.preview.session import Session

    try:
        preview = Preview(Desk(Session(workspace, folder)), asked.port)
    except PortTaken:
        raise Refused(
            f"port {asked.port} is taken; leave --port out for one that is free, or name another one"
        ) from None
    except OSError as error:
        where = f"{HOST}:{asked.port}" if asked.port else HOST
        raise Refused(f"cannot serve at {where}: {error.strerror or error}") from None

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
