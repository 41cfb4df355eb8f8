"""How much the texts of a pattern have unfolded to: what bounds them, whether Jinja unfolds a text or not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

MOST_ROUNDS = 20_000
MOST_TEXT = 4_000_000


class TooMuchText(Exception):
    """The loops of a text go on too long."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


class Spent:
    """rounds: of loops, calls of macros and slots so far. made: characters put together so far."""

    def __init__(self, rounds: int = 0, made: int = 0) -> None:
        self.rounds = rounds
        self.made = made

    def tick(self) -> None:
        """One round more; ends what goes on too long."""
        self.rounds += 1
        if self.rounds > MOST_ROUNDS:
            raise TooMuchText(f"its loops go on for more than {MOST_ROUNDS:,} rounds")

    def bounded(self, parts: Iterable[str]) -> str:
        """The parts of a text put together, as long as they stay within bounds."""
        return "".join(self._counted(parts))

    def _counted(self, parts: Iterable[str]) -> Iterator[str]:
        for part in parts:
            self.made += len(part)
            if self.made > MOST_TEXT:
                raise TooMuchText(f"it unfolds to more than {MOST_TEXT:,} characters")
            yield part
