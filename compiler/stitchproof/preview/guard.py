"""Who may ask the preview: only the page that it handed out itself, from this machine, with the token of this run.

A page of a stranger that is open in the same browser can reach servers on this machine. It does not know the token; a name of
its own that leads here (DNS rebinding) is not the host that is expected; and a browser says where a request comes from.
"""

from __future__ import annotations

from secrets import compare_digest

from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from stitchproof.preview.words import REFUSED

MAY_SAY = {"GET": {b"same-origin", b"none"}, "HEAD": {b"same-origin", b"none"}, "POST": {b"same-origin"}}
"""By method, what Sec-Fetch-Site may say: our own page, or an address that was typed or opened by the user ("none"). What comes
from another port of this machine says "same-site". Older browsers say nothing."""
ALWAYS = (
    (b"cache-control", b"no-store"),
    (b"referrer-policy", b"no-referrer"),
    (b"x-content-type-options", b"nosniff"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
)
NOTHING_ALLOWED = b"default-src 'none'; frame-ancestors 'none'"


class Guard:
    """Asks every request for its host, its token and its origin before it goes on. origin: "http://127.0.0.1:PORT"."""

    def __init__(self, app: ASGIApp, origin: str, token: str) -> None:
        self.app, self.origin, self.token = app, origin, token

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve, or refuse in a sentence."""
        if scope["type"] != "http":
            return
        refused = self.refused(scope)
        if refused:
            await PlainTextResponse(refused, 403)(scope, receive, _with_headers(send))
            return
        scope = dict(scope)
        scope["path"] = scope["path"].removeprefix(f"/{self.token}")
        await self.app(scope, receive, _with_headers(send))

    def refused(self, scope: Scope) -> str:
        """Why a request is refused, or ""."""
        headers: list[tuple[bytes, bytes]] = scope["headers"]
        said = {name: [value for each, value in headers if each == name] for name, _ in headers}
        if said.get(b"host") != [self.origin.removeprefix("http://").encode()]:
            return REFUSED["host"]
        path: str = scope["path"]
        token = path.removeprefix("/").partition("/")[0]
        if not compare_digest(token.encode(), self.token.encode()):
            return REFUSED["token"]
        method = scope["method"]
        if method not in MAY_SAY:
            return REFUSED["method"]
        ours = [self.origin.encode()]
        if said.get(b"origin", [] if method == "POST" else ours) != ours:
            return REFUSED["origin"]
        sites = said.get(b"sec-fetch-site", [])
        return REFUSED["origin"] if len(sites) > 1 or not MAY_SAY[method].issuperset(sites) else ""


def _with_headers(send: Send) -> Send:
    """Every answer says that it is kept nowhere, read by no other page, and that it names no address it came from."""

    async def sent(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = list(message.get("headers", ()))
            if not any(name == b"content-security-policy" for name, _ in headers):
                headers.append((b"content-security-policy", NOTHING_ALLOWED))
            message = {**message, "headers": [*headers, *ALWAYS]}
        await send(message)

    return sent
