"""One change to the text of a pattern, as a slip of the pen would make it in one row."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stitchproof.measures.values import Absent, PerSize
from stitchproof.source import Span

TYPED = "typed_by_hand"


@dataclass(frozen=True)
class RowSlip:
    """kind: the sort of slip. span, put: the place and what is put there. size: the one size it touches, or None.

    typed: a value for each size that is entered by hand in pattern.yaml, under the name TYPED, with its unit.
    states: whether the number is a stated count.
    """

    demo: str
    kind: str
    span: Span
    put: str
    size: int | None = None
    typed: PerSize = ()
    unit: str = ""
    states: bool = False

    @property
    def text(self) -> str:
        """The text file with the slip in it."""
        text = self.span.file.text
        return text[: self.span.start] + self.put + text[self.span.end :]

    def header(self, text: str) -> str:
        """pattern.yaml with the typed values."""
        if not self.typed:
            return text
        values = ", ".join(_in_yaml(each) for each in self.typed)
        line = f"  {TYPED}: {{by_hand: [{values}], unit: {self.unit}}}\n"
        return text.replace("\ncounts:\n", f"\ncounts:\n{line}", 1)

    @property
    def line(self) -> int:
        return self.span.file.line_column(self.span.start)[0]

    @property
    def in_words(self) -> str:
        """What was put for what."""
        held = " ".join(self.span.text.split())
        typed = f" [{', '.join(_in_yaml(each) for each in self.typed)}]" if self.typed else ""
        return f"{self.span.file.path}:{self.line} {held} → {' '.join(self.put.split()) or 'nothing'}{typed}"


def _in_yaml(value: object) -> str:
    return "not worked" if isinstance(value, Absent) else str(Fraction(str(value)))
