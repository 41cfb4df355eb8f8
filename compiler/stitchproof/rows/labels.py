"""What a row is called: Row 4 (WS), Rnds 5–9, Next 6 rows, Dec Row, Inc Rnd 2, on yoke rnd 8."""

from __future__ import annotations

from stitchproof.rows.line import Line
from stitchproof.rows.reader import Reader, Stopped
from stitchproof.rows.row_names import ROW_WORDS, name_length, numbers_of, read_row_numbers
from stitchproof.rows.row_tree import Amount, Label, RowNumbers, Stretch
from stitchproof.rows.row_words import RowWords

_ROUNDS = ("rnd", "round")


def read_label(line: Line, words: RowWords) -> Label | None:
    """The label that a line is, its colon left out; None where it is none that is known."""
    reader = Reader(line, words)
    end = next((index for index, each in enumerate(reader.lexemes) if each.word == ":"), len(reader.lexemes))
    reader.end = min(end, reader.end)
    try:
        return _Labels(reader).label()
    except Stopped:
        return None


class _Labels:
    """Reads a label: what stands in brackets is kept apart from what the row is called."""

    def __init__(self, reader: Reader) -> None:
        self.reader = reader
        self.side = ""

    def label(self) -> Label | None:
        reader = self.reader
        self._side()
        parity = "even" if reader.accept("all", "even") or reader.accept("even") else ""
        parity = parity or ("odd" if reader.accept("all", "odd") or reader.accept("odd") else "")
        if parity or self._all_of_a_side():
            if not reader.accept("row") and not reader.accept("rnd"):
                return None
            return self._made(None, None, "", parity, None)
        if reader.accept("next"):
            return self._next()
        rows, name = self._rows()
        if rows is None and not name:
            return None
        self._brackets()
        on = self._on()
        return self._made(rows, None, name, "", on)

    def _made(
        self, rows: RowNumbers | None, number: Amount | None, name: str, parity: str, on: RowNumbers | None
    ) -> Label | None:
        reader = self.reader
        self._brackets()
        if reader.kind != "end" and reader.word not in (".", "--", "-"):
            return None
        whole = Stretch(reader.lexemes[0].start, reader.lexemes[reader.end - 1].end)
        text = reader.text(whole).lower()
        return Label(rows, number, name, self.side, parity, on, whole, any(word in text for word in _ROUNDS))

    def _next(self) -> Label | None:
        number = self.reader.number()
        if not (self.reader.accept("row") or self.reader.accept("rnd")):
            return None
        return self._made(None, number or self.reader.unwritten(1), "", "", None)

    def _rows(self) -> tuple[RowNumbers | None, str]:
        """Its numbers, or its name where it has none."""
        reader = self.reader
        first = reader.position
        if reader.kind == "ordinal":
            return self._ordinal(first), ""
        if reader.kind == "number":
            return numbers_of(reader, first, "Row"), ""
        ahead = 1 if reader.at("last") else 0  # "Last rnd" is the name of a row
        length = name_length(reader, ahead) + ahead if name_length(reader, ahead) else 0
        if not length:
            return None, ""
        if reader.peek(length).kind == "number":
            return read_row_numbers(reader), ""
        for _ in range(length):
            reader.take()
        return None, reader.text(reader.stretch(first))

    def _ordinal(self, first: int) -> RowNumbers | None:
        """ "3rd row", "7th to 12th rnds inclusive"."""
        reader = self.reader
        begin = self._nth()
        end = begin
        if reader.accept("to") or reader.accept("-") or reader.accept("through"):
            if reader.kind != "ordinal":
                return None
            end = self._nth()
        at = reader.position
        if reader.word not in ROW_WORDS:
            return None
        reader.take()
        word = reader.text(reader.stretch(at))
        reader.accept("inclusive") or reader.accept("incl")
        return RowNumbers(word, begin, end, (), reader.stretch(first))

    def _nth(self) -> Amount:
        lexeme = self.reader.take()
        return Amount(self.reader.line.scalar(lexeme.number), Stretch(lexeme.start, lexeme.end))

    def _on(self) -> RowNumbers | None:
        reader = self.reader
        start = reader.position
        reader.accept(",")
        if not reader.accept("on"):
            reader.position = start
            return None
        return read_row_numbers(reader)

    def _all_of_a_side(self) -> bool:
        """ "All WS rows"."""
        reader = self.reader
        if reader.word == "all" and reader.peek(1).word in ("rs", "ws"):
            reader.take()
            self.side = reader.take().word.upper()
            return True
        return False

    def _side(self) -> None:
        if self.reader.word in ("rs", "ws"):
            self.side = self.reader.take().word.upper()

    def _brackets(self) -> None:
        """What stands in brackets behind the name: the side, and notes."""
        reader = self.reader
        while reader.word in ("(", "[") and reader.kind == "sign":
            close = reader.close_of(reader.position)
            if close is None or close > reader.end:
                raise reader.stop()
            for lexeme in reader.lexemes[reader.position : close]:
                if lexeme.word in ("rs", "ws"):
                    self.side = lexeme.word.upper()
            reader.position = close + 1
        self._side()
