"""A page as markup of Typst, a general typesetting program: the same words in the same order, headings, lists and tables as such.

It is measured against, and prints nothing for anybody: no drawings, no page heads, no look.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser

HEADINGS = {"h1": 1, "h2": 2, "h3": 3, "h4": 4, "h5": 5, "h6": 6}
BLOCKS = ("p", "li", "figcaption", "div", "section", "header", "footer")
BOLD = ("b", "strong", "th")
LEFT_OUT = ("style", "title", "svg", "script")
SIGNS = re.compile(r"([\\#$*_`<>@\[\]=\-+/~\"'])")
BEGINS = """\
#set page(width: 210mm, height: 279.4mm, margin: (top: 19mm, right: 22mm, bottom: 25mm, left: 24mm), numbering: "1 of 1")
#set text(font: "Source Sans Pro", size: 11pt, lang: "en")
#set par(leading: 0.6em, spacing: 0.9em)
#show heading: set text(font: "Source Serif Pro", weight: 600)
#set document(title: "A pattern")
"""


class _Markup(HTMLParser):
    """What it hears, it writes: cells into the table that is open, all else into the page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.written = [BEGINS]
        self.left_out = 0
        self.rows: list[list[str]] | None = None
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        if tag in LEFT_OUT:
            self.left_out += 1
        elif tag == "table":
            self.flush()
            self.rows = []
        elif tag == "tr" and self.rows is not None:
            self.rows.append([])
        elif tag in (*HEADINGS, *BLOCKS):
            self.flush()
        elif tag == "br":
            self.words.append(" \\ ")
        elif tag in ("b", "strong"):
            self.words.append("#strong[")

    def handle_endtag(self, tag: str) -> None:
        if tag in LEFT_OUT:
            self.left_out -= 1
        elif tag in ("td", "th") and self.rows:
            text = self.said()
            self.rows[-1].append(f"*{text}*" if tag == "th" and text else text)
        elif tag == "table" and self.rows is not None:
            self.written.append(_table(self.rows))
            self.rows = None
        elif tag in HEADINGS:
            self.flush(f"{'=' * HEADINGS[tag]} ")
        elif tag == "li":
            self.flush("- ")
        elif tag in BLOCKS:
            self.flush()
        elif tag in ("b", "strong"):
            self.words.append("]")

    def handle_data(self, data: str) -> None:
        if not self.left_out:
            self.words.append(SIGNS.sub(r"\\\1", data))

    def said(self) -> str:
        """What was heard since the last time."""
        text = " ".join("".join(self.words).split())
        self.words.clear()
        return text

    def flush(self, before: str = "") -> None:
        """Write a block, unless a cell of a table is open."""
        if self.rows is None and (text := self.said()):
            self.written.append(f"{before}{text}\n")


def as_typst(html: str) -> str:
    """The markup of a page."""
    reader = _Markup()
    reader.feed(html[html.index("<body") :])
    reader.close()
    reader.flush()
    return "\n".join(reader.written)


def _table(rows: list[list[str]]) -> str:
    wide = max(map(len, rows), default=0)
    cells = [f"[{cell}]" for row in rows for cell in (*row, *[""] * (wide - len(row)))]
    return f"#table(columns: {wide}, stroke: none, {', '.join(cells)})\n" if wide else ""
