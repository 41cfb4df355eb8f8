"""Goes through the lexemes of a line from left to right; where nothing fits, it stops and remembers the place."""

from __future__ import annotations

from collections.abc import Callable

from stitchproof.rows.lexemes import Lexeme, lexemes_of
from stitchproof.rows.line import Line
from stitchproof.rows.row_tree import Amount, Item, Loops, NotRead, Reach, Stated, Stretch, Target, Thing
from stitchproof.rows.row_words import LOOPS, RowWords

DEEPEST = 12
"""Brackets inside brackets that are followed; nobody works by more."""
WORDS_SHOWN = 5
_BREAKS = frozenset({",", ";", ".", ":", ")", "]", "*", "**", "--", "-", "=", "and", "then"})
SEPARATORS = frozenset({",", ";", "and", "then", "&", "+", "/", "also", "now"})


class Stopped(Exception):
    """Nothing fits the lexeme at `index`."""

    def __init__(self, index: int) -> None:
        super().__init__(index)
        self.index = index


class Reader:
    """The lexemes of a line and how far they are read.

    steps: lexemes read in all, for the tests of cost. stated: the counts read. said_loops: loops that a where-phrase named
    ("in back loop of next st"), for the stitch it belongs to. dashed: a dash joins what comes next to the item before.
    stars: asterisks that are open: another one closes, and is no times sign.
    items: reads a list of items (set by read_row).
    """

    def __init__(self, line: Line, words: RowWords) -> None:
        self.line = line
        self.words = words
        self.lexemes = lexemes_of(line, words)
        self.closing = _closing(self.lexemes)
        self.position = 0
        self.depth = 0
        self.steps = 0
        self.stated: list[Stated] = []
        self.said_loops: Loops | None = None
        self.dashed = False
        self.stars = 0
        self.end = len(self.lexemes)
        self.end_lexeme = Lexeme("end", "", len(line.text), len(line.text))
        self.items: Callable[[Reader, frozenset[str]], list[Item]] = _no_items

    def peek(self, ahead: int = 0) -> Lexeme:
        """The lexeme so many ahead; the end where there is none."""
        index = self.position + ahead
        return self.lexemes[index] if index < self.end else self.end_lexeme

    @property
    def word(self) -> str:
        return self.peek().word

    @property
    def kind(self) -> str:
        return self.peek().kind

    def take(self) -> Lexeme:
        """The next lexeme, and on."""
        lexeme = self.peek()
        self.position += 1
        self.steps += 1
        return lexeme

    def at(self, *words: str) -> bool:
        """Whether these words come next, one after the other; each may be several with | between."""
        index = self.position
        for word in words:
            lexeme = self.lexemes[index] if index < self.end else self.end_lexeme
            if lexeme.kind == "stitch" or (lexeme.word != word and lexeme.word not in word.split("|")):
                return False
            index += 1
        return True

    def accept(self, *words: str) -> bool:
        """Take these words if they come next."""
        if not self.at(*words):
            return False
        for _ in words:
            self.take()
        return True

    def stop(self) -> Stopped:
        """To be raised where nothing fits."""
        return Stopped(self.position)

    def stretch(self, first: int) -> Stretch:
        """From the lexeme at an index up to the last one read; empty where none was."""
        if self.position <= first:
            at = self.peek().start
            return Stretch(at, at)
        return Stretch(self.lexemes[first].start, self.lexemes[min(self.position, self.end) - 1].end)

    def text(self, at: Stretch) -> str:
        """The words of a stretch as written, blanks made one."""
        return " ".join(self.line.text[at.start : at.end].split())

    def at_break(self) -> bool:
        """Whether an item may end here: at a sign, or at the end."""
        return self.kind == "end" or (self.kind in ("sign", "word") and self.word in _BREAKS)

    @property
    def opens(self) -> bool:
        """Whether a bracket opens here."""
        return self.kind == "sign" and self.word in ("(", "[")

    def skip_separators(self) -> None:
        while self.word in SEPARATORS or (self.word in (".", "-") and self.kind == "sign"):
            self.take()

    def number(self) -> Amount | None:
        """A number, if one comes next."""
        lexeme = self.peek()
        if lexeme.kind != "number" or lexeme.values is None:
            return None
        self.take()
        return Amount(lexeme.values, Stretch(lexeme.start, lexeme.end))

    def unwritten(self, number: int) -> Amount:
        """A number that the words mean and do not write."""
        at = self.peek().start
        return Amount(self.line.scalar(number), Stretch(at, at), written=False)

    def loops(self) -> Loops | None:
        """Words for loops, if they come next."""
        if self.kind != "stitch" and self.word in LOOPS:
            return LOOPS[self.take().word]
        return None

    def next_st(self) -> Target:
        """The next place, unsaid."""
        at = Stretch(self.peek().start, self.peek().start)
        return Target(Reach.NEXT, (Thing("st", at),), None, at)

    def close_of(self, index: int) -> int | None:
        """The index of the bracket that closes the one at an index."""
        return self.closing.get(index)

    def not_read(self, index: int) -> NotRead:
        """The first words that could not be read."""
        if index >= self.end:
            index = max(self.end - 1, 0)
        if not self.lexemes:
            return NotRead("", Stretch(0, 0))
        last = self.lexemes[min(index + WORDS_SHOWN, self.end) - 1]
        at = Stretch(self.lexemes[index].start, last.end)
        return NotRead(self.text(at), at)


def _closing(lexemes: list[Lexeme]) -> dict[int, int]:
    """The closing bracket of each opening one. A bracket closed by the other kind counts as closed: it is a slip of the pen."""
    found: dict[int, int] = {}
    opened: list[int] = []
    for index, lexeme in enumerate(lexemes):
        if lexeme.kind != "sign":
            continue
        if lexeme.word in ("(", "["):
            opened.append(index)
        elif lexeme.word in (")", "]") and opened:
            found[opened.pop()] = index
    return found


def _no_items(reader: Reader, until: frozenset[str]) -> list[Item]:
    raise AssertionError("set by read_row")
