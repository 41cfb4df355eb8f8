"""The local server of a preview: what each address gives, one piece of work after the other, and news for every open page."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from typing import TypeVar
from urllib.parse import parse_qsl

import msgspec
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route
from starlette.types import ASGIApp

from stitchproof.preview.bell import Bell
from stitchproof.preview.desk import Desk, NotOnThePage
from stitchproof.preview.follow import saves
from stitchproof.preview.frame import PAGE_POLICY, frame_policy
from stitchproof.preview.guard import Guard
from stitchproof.preview.words import REFUSED

MOST_BODY = 64 * 1024
"""Bytes of a form: over a hundred times what the what-if sends."""
MOST_FIELDS = 100
PATIENCE = 5.0
"""Seconds for a form to arrive."""
STILL_HERE = 10.0
"""Seconds between signs of life to an open page, by which one that was closed is noticed as well."""
QUIET = 0.3
"""Seconds without work after which it is tidied up; nobody waits for that."""
MOST_UNTIDIED = 20
"""Pieces of work after which it is tidied up although there is no quiet."""
MOST_PAGES = 32
"""Pages that are told of news at the same time."""
FORM = "application/x-www-form-urlencoded"
Answer = TypeVar("Answer")


class PreviewApp:
    """Serves one desk. All that looks at the pattern goes through one thread, in the order in which it was asked for."""

    def __init__(self, desk: Desk, still_here: float = STILL_HERE) -> None:
        self.desk, self.still_here = desk, still_here
        self.bell = Bell()
        self.thread = ThreadPoolExecutor(1, "preview")
        self.listening = 0
        self.ended = False
        self.untidied = 0
        self.tidying: asyncio.TimerHandle | None = None
        self.waiting = 0

    def guarded(self, origin: str, token: str) -> ASGIApp:
        """The app behind its guard."""
        return Guard(self.routes(), origin, token)

    def routes(self) -> Starlette:
        """What each address gives. The names in an address are looked up; none of them is ever a path."""
        gets: Mapping[str, Callable[[Mapping[str, str]], str]] = {
            "/number": self.desk.number,
            "/explain": self.desk.explanation,
            "/drawings": self.desk.drawings,
            "/prints": self.desk.prints,
            "/inputs": self.desk.inputs,
        }
        posts: Mapping[str, Callable[[list[tuple[str, str]]], str]] = {
            "/try": self.desk.try_out,
            "/write": self.desk.write,
            "/print": self.desk.print,
        }
        return Starlette(
            routes=[
                Route("/", self.frame),
                Route("/page", self.page),
                Route("/events", self.events),
                Route("/printed/{job}/{name}", self.printed),
                *(Route(path, self._getting(work)) for path, work in gets.items()),
                *(Route(path, self._posting(work), methods=["POST"]) for path, work in posts.items()),
            ],
            exception_handlers={HTTPException: _refused, Exception: _failed},
        )

    async def follow(self) -> None:
        """Refresh at each save, for as long as the preview runs. Saves that come while it works are one. What is printed
        meanwhile is told as well."""
        loop = asyncio.get_running_loop()
        self.desk.told = lambda: self.ring_from_elsewhere(loop)
        while not self.ended:
            try:
                async for _ in saves(self.desk.session.watched):
                    await self.refresh()
            except Exception:  # the last resort: whatever it was, the next save is followed again
                await asyncio.sleep(1)

    async def refresh(self) -> None:
        """Look at the source again, and tell every open page."""
        await self.at_the_desk(self.desk.look)
        self.bell.ring()

    async def at_the_desk(self, work: Callable[[], Answer]) -> Answer:
        """Do a piece of work in the one thread that there is for it."""
        loop = asyncio.get_running_loop()
        self.waiting += 1
        try:
            return await loop.run_in_executor(self.thread, work)
        finally:
            self.waiting -= 1
            self.untidied += 1
            if self.tidying:
                self.tidying.cancel()
            self.tidying = loop.call_later(0 if self.untidied > MOST_UNTIDIED else QUIET, self.tidy, loop)

    def tidy(self, loop: asyncio.AbstractEventLoop) -> None:
        """What is done when nobody waits, and not while a page is made: values that would work are looked for, and what went
        round in circles is let go. What begins meanwhile goes first, and asks for this again."""
        if self.waiting and self.untidied <= MOST_UNTIDIED:
            return
        self.untidied = 0
        if not self.ended:
            self.thread.submit(self.offer, loop)
            self.thread.submit(self.desk.tidy)

    def offer(self, loop: asyncio.AbstractEventLoop) -> None:
        """Look for values that would work, until somebody waits for something."""
        with suppress(Exception):  # the page goes on as it is
            if self.desk.offer(lambda: self.waiting > 0 or self.ended):
                self.ring_from_elsewhere(loop)

    async def frame(self, _: Request) -> Response:
        """The page around the page."""
        html = await self.at_the_desk(self.desk.frame)
        return HTMLResponse(html, headers={"content-security-policy": frame_policy()})

    async def page(self, request: Request) -> Response:
        """The page of the pattern, in which nothing runs."""
        asked = dict(request.query_params)
        ready = self.desk.session.shown  # frozen, and so there for whoever asks, whatever the desk is at
        if ready and ready.page and not asked:
            html = ready.page
        else:
            html = await self.at_the_desk(lambda: self.desk.page(asked))
        return HTMLResponse(html, headers={"content-security-policy": PAGE_POLICY})

    async def printed(self, request: Request) -> Response:
        """A PDF that was ordered."""
        names = request.path_params
        content = await self.at_the_desk(lambda: self.desk.printed(names["job"], names["name"]))
        headers = {
            "content-disposition": f'inline; filename="{names["name"]}"',
            "content-security-policy": "script-src 'none'; frame-ancestors 'none'",  # a browser's viewer needs the rest
        }
        return Response(content, media_type="application/pdf", headers=headers)

    async def events(self, _: Request) -> Response:
        """News for an open page, for as long as it is open."""
        if self.listening >= MOST_PAGES:
            raise HTTPException(503)  # a page that is told nothing new is of no use
        return StreamingResponse(self.news(), media_type="text/event-stream")

    async def news(self) -> AsyncIterator[str]:
        """What an open page is told: the version of what is shown, and of what is being printed. What is new comes ahead of the
        news of it: whoever hears these would ask for it at once."""
        self.listening += 1
        try:
            seen, told, has = -1, "", dict[str, int]()
            while not self.ended:
                seen = await self.bell.wait(seen, self.still_here)
                versions = self.desk.versions()
                new = self.desk.new_since(has, versions) if has else None
                if new:
                    yield f"event: new\ndata: {msgspec.json.encode(new).decode()}\n\n"
                has = versions
                news = msgspec.json.encode(versions).decode()
                yield f"data: {news}\n\n" if news != told else ": still here\n\n"
                told = news
        finally:
            self.listening -= 1

    def ring_from_elsewhere(self, loop: asyncio.AbstractEventLoop) -> None:
        """Ring the bell from another thread, as long as there is somebody to hear it."""
        with suppress(RuntimeError):
            loop.call_soon_threadsafe(self.bell.ring)

    def end(self) -> None:
        """Let go of every page that is open."""
        self.ended = True
        self.bell.ring()

    def _getting(self, work: Callable[[Mapping[str, str]], str]) -> Callable[[Request], object]:
        async def answer(request: Request) -> Response:
            asked = dict(request.query_params)
            return HTMLResponse(await self.at_the_desk(lambda: work(asked)))

        return answer

    def _posting(self, work: Callable[[list[tuple[str, str]]], str]) -> Callable[[Request], object]:
        async def answer(request: Request) -> Response:
            fields = await _form(request)
            return HTMLResponse(await self.at_the_desk(lambda: work(fields)))

        return answer


async def _form(request: Request) -> list[tuple[str, str]]:
    """The fields of a form. Raises HTTPException for what is too long, too slow, or none."""
    if request.headers.get("content-type", "").partition(";")[0].strip() != FORM:
        raise HTTPException(415)
    body = bytearray()
    try:
        async with asyncio.timeout(PATIENCE):
            async for part in request.stream():
                body += part
                if len(body) > MOST_BODY:
                    raise HTTPException(413)
    except TimeoutError:
        raise HTTPException(408) from None
    try:
        return parse_qsl(body.decode(), keep_blank_values=True, strict_parsing=bool(body), max_num_fields=MOST_FIELDS)
    except ValueError:
        raise HTTPException(415) from None


async def _refused(_: Request, error: Exception) -> Response:
    code = error.status_code if isinstance(error, HTTPException) else 500
    key = {413: "body", 408: "slow", 415: "form", 405: "method", 503: "many"}.get(code, "unknown")
    headers = {"connection": "close"} if code in (408, 413) else None
    return PlainTextResponse(REFUSED[key], code, headers)


async def _failed(_: Request, error: Exception) -> Response:
    if isinstance(error, NotOnThePage):
        return PlainTextResponse(REFUSED["unknown"], 404)
    return PlainTextResponse(REFUSED["inside"], 500)
