"""The structure of a PDF as a screen reader meets it, read back with a general PDF library."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from msgspec import Struct
from pypdf import PdfReader
from pypdf.generic import IndirectObject


class Element(Struct, frozen=True):
    """A structure element. kids: elements; marked: (page, number) of the content that stands in it directly."""

    kind: str
    facts: dict[str, Any]
    page: int
    kids: tuple[Element, ...]
    marked: tuple[tuple[int, int], ...]

    def all(self, *kinds: str) -> Iterator[Element]:
        """It and those below it, in reading order; of these kinds, if any are named."""
        if not kinds or self.kind in kinds:
            yield self
        for kid in self.kids:
            yield from kid.all(*kinds)


def structure_of(pdf: PdfReader) -> Element:
    """The document's element."""
    pages = {page.indirect_reference.idnum: number for number, page in enumerate(pdf.pages) if page.indirect_reference}
    root: Any = pdf.root_object["/StructTreeRoot"]
    (document,) = root["/K"]
    return _element(document.get_object(), pages)


def _element(found: Any, pages: dict[int, int]) -> Element:
    page = pages[found.raw_get("/Pg").idnum] if "/Pg" in found else -1
    kids: list[Any] = [kid.get_object() if isinstance(kid, IndirectObject) else kid for kid in found.get("/K", [])]
    return Element(
        str(found["/S"]),
        {str(key): value for key, value in found.items() if key not in ("/K", "/P", "/Pg", "/S")},
        page,
        tuple(_element(kid, pages) for kid in kids if not isinstance(kid, int) and "/S" in kid),
        tuple((page, int(kid)) for kid in kids if isinstance(kid, int)),
    )


def text_marks(pdf: PdfReader, page: int) -> Iterator[str | int]:
    """For each run of text on a page, in the order it is painted: the number it is marked with, "artifact", or ""."""
    contents = pdf.pages[page].get_contents()
    assert contents is not None
    held: list[str | int] = []
    before: list[bytes] = []
    for line in contents.get_data().splitlines():
        if line in (b"BMC", b"BDC"):
            number = before[-1].partition(b"/MCID ")[2]
            tag = before[-1] if line == b"BMC" else before[-2]
            held.append("artifact" if tag == b"/Artifact" else int(number.strip(b">")) if number else "")
        elif line == b"EMC":
            held.pop()
        elif line == b"BT":
            yield next((mark for mark in reversed(held) if mark != ""), "")
        before = [*before[-1:], line]
