"""A preview that runs in this process, and requests to it byte by byte, as no browser would send them."""

from __future__ import annotations

import json
import shutil
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from time import monotonic, sleep
from urllib.parse import urlencode

from msgspec import Struct

from stitchproof.preview.desk import Desk
from stitchproof.preview.serve import Preview
from stitchproof.preview.session import Session
from stitchproof.workspace import workspace_at
from tests.architecture.code_reader import CLONE

HAT, COWL, TOP = "cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top"
PATIENCE = 60.0
"""Seconds. What is waited for comes at once; on a busy machine at once may take a while."""


class Known(Struct, frozen=True):
    """A preview as its address tells it."""

    port: int
    token: str

    @classmethod
    def at(cls, address: str) -> Known:
        """From what it prints: http://127.0.0.1:PORT/TOKEN/"""
        _, _, host, token, _ = address.split("/")
        return cls(int(host.partition(":")[2]), token)

    @property
    def origin(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    @property
    def address(self) -> str:
        return f"{self.origin}/{self.token}/"


class Answer(Struct, frozen=True):
    """status: 0 where nothing came before the connection was closed."""

    status: int
    headers: dict[str, str]
    body: str


def workspace_with(folder: Path, *patterns: str) -> Path:
    """A workspace of its own with copies of shipped patterns."""
    for pattern in patterns:
        shutil.copytree(CLONE / "pattern_sources" / pattern, folder / "pattern_sources" / pattern)
    return folder


def session_of(workspace: Path, pattern: str = HAT) -> Session:
    """A session that was not refreshed yet."""
    found = workspace_at(workspace)
    folder = found.folder_of(workspace / "pattern_sources" / pattern)
    assert folder is not None
    return Session(found, folder)


@contextmanager
def running(session: Session, still_here: float = 10.0) -> Iterator[Preview]:
    """The preview of a session, until the block ends."""
    preview = Preview(Desk(session))
    preview.app.still_here = still_here
    ready = threading.Event()
    thread = threading.Thread(target=preview.run, args=(ready.set,))
    thread.start()
    try:
        assert ready.wait(PATIENCE)
        yield preview
    finally:
        preview.stop()
        thread.join(PATIENCE)
        assert not thread.is_alive()


def raw(preview: Preview | Known, request: bytes) -> Answer:
    """What comes back for the bytes of a request."""
    with closing(socket.create_connection(("127.0.0.1", preview.port), PATIENCE)) as connection:
        connection.sendall(request)
        return answer_on(connection)


def answer_on(connection: socket.socket) -> Answer:
    """One answer, read to the end of its body."""
    connection.settimeout(PATIENCE)
    held = b""
    while b"\r\n\r\n" not in held:
        more = connection.recv(65536)
        if not more:
            return Answer(0, {}, "")
        held += more
    head, _, body = held.partition(b"\r\n\r\n")
    first, *lines = head.decode("latin-1").split("\r\n")
    headers = {name.lower(): value for name, _, value in (line.partition(": ") for line in lines)}
    while len(body) < int(headers.get("content-length", 0)):
        more = connection.recv(65536)
        if not more:
            break
        body += more
    return Answer(int(first.split()[1]), headers, body.decode("utf-8", "replace"))


def request_of(
    preview: Preview | Known, path: str, method: str = "GET", body: bytes = b"", **headers: str | None
) -> bytes:
    """The bytes of a request as the page itself sends it; a header given as None is left out, `_` stands for `-`."""
    own = {"host": f"127.0.0.1:{preview.port}", "connection": "close"}
    if method == "POST":
        own |= {"origin": preview.origin, "content-type": "application/x-www-form-urlencoded"}
        own |= {"content-length": str(len(body)), "sec-fetch-site": "same-origin"}
    own |= {name.replace("_", "-"): value for name, value in headers.items() if value is not None}
    left_out = {name.replace("_", "-") for name, value in headers.items() if value is None}
    lines = [f"{method} {path} HTTP/1.1", *(f"{name}: {value}" for name, value in own.items() if name not in left_out)]
    return "\r\n".join((*lines, "", "")).encode() + body


def get(preview: Preview | Known, path: str, **fields: str) -> Answer:
    """A part of the preview by its address below the token."""
    query = f"?{urlencode(fields)}" if fields else ""
    return raw(preview, request_of(preview, f"/{preview.token}/{path}{query}"))


def post(preview: Preview | Known, path: str, *fields: tuple[str, str]) -> Answer:
    """A form sent as the page sends it."""
    return raw(preview, request_of(preview, f"/{preview.token}/{path}", "POST", urlencode(fields).encode()))


class News:
    """An open page: what it is told."""

    def __init__(self, preview: Preview | Known) -> None:
        self.connection = socket.create_connection(("127.0.0.1", preview.port), PATIENCE)
        self.connection.sendall(request_of(preview, f"/{preview.token}/events"))
        self.lines = self.connection.makefile("rb")
        self.sent: dict[str, object] = {}

    def next(self) -> dict[str, int]:
        """The next news; what is sent ahead of them is put into `sent`. Raises AssertionError where there comes none."""
        while line := self.lines.readline():
            if line.startswith(b"event: new"):
                self.sent = json.loads(self.lines.readline().removeprefix(b"data: "))
            elif line.startswith(b"data: "):
                told: dict[str, int] = json.loads(line.removeprefix(b"data: "))
                return told
        raise AssertionError("the preview told nothing more")

    def until(self, version: int) -> dict[str, int]:
        """News of that version, or of a later one."""
        while (told := self.next())["shown"] < version:
            pass
        return told

    def close(self) -> None:
        """Close the page."""
        self.lines.close()
        self.connection.close()


def soon(holds: Callable[[], bool]) -> bool:
    """Whether something comes to hold before patience ends."""
    end = monotonic() + PATIENCE
    while not holds():
        if monotonic() > end:
            return False
        sleep(0.02)
    return True
