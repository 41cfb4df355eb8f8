"""Runs a preview: a port of this machine alone, a fresh token, a browser, and an end when the user wants one."""

from __future__ import annotations

import asyncio
import contextlib
import errno
import gc
import secrets
import socket
import webbrowser
from collections.abc import Callable

import uvicorn

from stitchproof.preview.desk import Desk
from stitchproof.preview.server import PreviewApp

HOST = "127.0.0.1"
"""Of this machine alone; nothing on a network can connect."""
TOKEN_BYTES = 24
MOST_CONNECTIONS = 128


class PortTaken(OSError):
    """Another program answers at the port that was asked for."""


class Preview:
    """A preview that is ready to run. address: what to open in a browser."""

    def __init__(self, desk: Desk, port: int = 0) -> None:
        """port: 0 for one that is free. Raises PortTaken, OSError where there is none."""
        self.token = secrets.token_urlsafe(TOKEN_BYTES)
        self.socket = _bound(port)
        self.port = int(self.socket.getsockname()[1])
        self.origin = f"http://{HOST}:{self.port}"
        self.address = f"{self.origin}/{self.token}/"
        self.app = PreviewApp(desk)
        self.server = _Server(
            uvicorn.Config(
                self.app.guarded(self.origin, self.token),
                http="h11",
                ws="none",
                loop="asyncio",
                lifespan="off",
                log_config=None,
                access_log=False,
                proxy_headers=False,
                server_header=False,
                date_header=False,
                limit_concurrency=MOST_CONNECTIONS,
                timeout_graceful_shutdown=1,
                log_level="critical",
            ),
            self.app,
        )

    def run(self, when_ready: Callable[[], None] = lambda: None) -> None:
        """Serve until the user stops it (Ctrl-C), or `stop` is called. when_ready: called once the page can be opened."""
        self.app.desk.session.refresh()
        gc.collect()
        gc.freeze()
        looks = gc.isenabled()
        gc.disable()  # the app looks for garbage itself, when nobody waits
        when_ready()
        try:
            with contextlib.suppress(KeyboardInterrupt):
                asyncio.run(self._run())
        finally:
            gc.unfreeze()
            if looks:
                gc.enable()
            self.app.desk.close()
            self.app.thread.shutdown(cancel_futures=True)
            self.socket.close()

    def stop(self) -> None:
        """End it, from another thread or a signal."""
        self.server.should_exit = True

    async def _run(self) -> None:
        following = asyncio.create_task(self.app.follow())
        try:
            await self.server.serve(sockets=[self.socket])
        finally:
            following.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await following


class _Server(uvicorn.Server):
    """uvicorn's server; once it is to end, nobody waits for news any more."""

    def __init__(self, config: uvicorn.Config, app: PreviewApp) -> None:
        super().__init__(config)
        self.app = app

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """End what goes on, then the server."""
        self.app.end()
        await super().shutdown(sockets)


def open_in_browser(address: str) -> bool:
    """Whether a browser could be asked to open it."""
    try:
        return webbrowser.open(address)
    except (webbrowser.Error, OSError):
        return False


def _bound(port: int) -> socket.socket:
    # With its protocol named, asyncio sends what is small at once; else it waits for the browser, for 40 milliseconds.
    opened = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        opened.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        opened.bind((HOST, port))
        opened.listen()  # who comes before the server is up waits
    except OSError as error:
        opened.close()
        if error.errno == errno.EADDRINUSE:
            raise PortTaken(error.errno, f"port {port} is taken") from None
        raise
    return opened
