"""Tells every open page that something is new, and waits for it without asking again and again."""

from __future__ import annotations

import asyncio
from contextlib import suppress


class Bell:
    """Rung when something is new. Who waits says how often it had rung when she last looked."""

    def __init__(self) -> None:
        self.rung = 0
        self.next = asyncio.Event()

    def ring(self) -> None:
        """Wake all who wait."""
        self.rung += 1
        self.next.set()
        self.next = asyncio.Event()

    async def wait(self, seen: int, seconds: float) -> int:
        """How often it has rung, as soon as that is more than `seen`, or after so many seconds."""
        if self.rung <= seen:
            with suppress(TimeoutError):
                await asyncio.wait_for(self.next.wait(), seconds)
        return self.rung
