"""Small repairs of the structure that the renderer gives a PDF, so that a screen reader hears what a page shows.

Made through the renderer's own hook for this, on its objects before they are written. The names are those of ISO 32000-1
(PDF 1.7), section 14.8; what is asked for here is asked for by ISO 14289-1 (PDF/UA-1), from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stitchproof.editions.written_once import as_written, write_once

POINTS_PER_PIXEL = 0.75
HEADINGS = ("/H1", "/H2", "/H3", "/H4", "/H5", "/H6")
IN_A_LIST = ("/LI", "/L", "/Caption")

Element = Any
"""A structure element: the renderer's dictionary, with its kind under "S", its parent under "P" and its kids under "K"."""


def repair(document: Any, pdf: Any) -> None:
    """Mend the structure of a PDF in place: what is repeated on each page is an artifact, parts run on over pages, table
    headers say what they head, captions belong to their figures, lists hold items alone, a heading holds no heading."""
    Repair(pdf).run([page.height * POINTS_PER_PIXEL for page in document.pages])
    _associate(pdf)
    write_once(pdf)


class Repair:
    """One PDF under repair."""

    def __init__(self, pdf: Any) -> None:
        self.pdf = pdf
        root = self.at(pdf.catalog["StructTreeRoot"])
        (self.document,) = self.kids(root)
        nums = self.at(root["ParentTree"])["Nums"]
        self.marked = dict(zip(nums[::2], nums[1::2], strict=True))
        self.pages = {reference: number for number, reference in enumerate(pdf.page_references)}

    def run(self, heights: list[float]) -> None:
        """All repairs, one after the other. heights: of the pages, in points."""
        self.repeated_on_each_page()
        self.parts_over_pages()
        self.below(self.document, heights)
        self.margins()

    def at(self, reference: bytes) -> Any:
        """What a reference stands for."""
        return self.pdf.objects[int(reference.split()[0])]

    def kids(self, element: Element) -> list[Element]:
        """Those that are elements themselves, without marked content and links."""
        kids = (self.at(kid) for kid in element["K"] if isinstance(kid, bytes))
        return [kid for kid in kids if "S" in kid]

    def adopt(self, parent: Element, kids: list[Any], place: int | None = None) -> None:
        """Give kids another parent, at a place among its own."""
        for kid in kids:
            if isinstance(kid, bytes) and "S" in self.at(kid):
                self.at(kid)["P"] = parent.reference
        own = parent["K"]
        at = len(own) if place is None else place
        own[at:at] = kids

    def repeated_on_each_page(self) -> None:
        """What stands directly in the page and reads the same on every page is a watermark, and not part of the text."""
        shown: dict[bytes, list[Element]] = {}
        for kid in self.kids(self.document):
            if kid["S"] == "/P":
                shown.setdefault(self.reads(kid), []).append(kid)
        for same in shown.values():
            if len(same) == len(self.pages) > 1:
                for kid in same:
                    self.document["K"].remove(kid.reference)

    def reads(self, element: Element) -> bytes:
        """Its marked content as the page shows it."""
        stream = self.stream_of(self.pages[element["Pg"]])
        numbers = set(self.contents(element))
        shown = []
        for place, number in _marks(stream):
            if number in numbers:
                shown.append(b" ".join(map(as_written, stream[place + 3 : stream.index(b"EMC", place)])))
        return b"\n".join(shown)

    def contents(self, element: Element) -> Iterator[int]:
        """The numbers of its marked content."""
        yield from (kid for kid in element["K"] if isinstance(kid, int))
        for kid in self.kids(element):
            yield from self.contents(kid)

    def stream_of(self, page: int) -> list[Any]:
        """What paints a page, piece by piece."""
        stream: list[Any] = self.at(self.at(self.pdf.page_references[page])["Contents"]).stream
        return stream

    def parts_over_pages(self) -> None:
        """A part, and a section in it, that goes on over a page is one and not two: the rest of it has no heading."""
        first = None
        for part in [kid for kid in self.kids(self.document) if kid["S"] == "/Part"]:
            if first is None:
                first = part
                continue
            sections, going_on = self.kids(first), self.kids(part)
            if sections and going_on and {sections[-1]["S"], going_on[0]["S"]} == {"/Sect"}:
                rest = self.kids(going_on[0])
                if rest and rest[0]["S"] not in HEADINGS:
                    self.adopt(sections[-1], going_on[0]["K"])
                    part["K"].remove(going_on[0].reference)
            self.adopt(first, part["K"])
            self.document["K"].remove(part.reference)

    def below(self, element: Element, heights: list[float], in_head: bool = False) -> None:
        """Mend what an element holds, and those below it. in_head: whether it stands in the head of a table."""
        kind = element["S"]
        if kind in (*HEADINGS, "/P"):
            self.no_block_in_itself(element)
        elif kind == "/L":
            self.items_alone(element)
        elif kind == "/TH":
            element["A"]["Scope"] = "/Column" if in_head else "/Row"
        for kid in self.kids(element):
            self.below(kid, heights, in_head or kind == "/THead")
            if kid["S"] == "/Figure":
                self.box_in_points(kid, heights[self.pages[kid["Pg"]]])
                self.with_caption(element, kid)
            if kid["S"] == "/NonStruct" and not kid["K"]:
                element["K"].remove(kid.reference)

    def no_block_in_itself(self, element: Element) -> None:
        """What the renderer takes for a second block in a heading or a paragraph is its text."""
        for kid in self.kids(element):
            if kid["S"] == element["S"] and not any(isinstance(each, int) for each in kid["K"]):
                place = element["K"].index(kid.reference)
                element["K"].remove(kid.reference)
                self.adopt(element, kid["K"], place)

    def items_alone(self, element: Element) -> None:
        """The space between items belongs to the one before it."""
        body = None
        for kid in self.kids(element):
            if kid["S"] not in IN_A_LIST and body is not None:
                element["K"].remove(kid.reference)
                self.adopt(body, [kid.reference])
            elif kid["S"] == "/LI":
                body = next((each for each in reversed(self.kids(kid)) if each["S"] == "/LBody"), None)

    def box_in_points(self, figure: Element, height: float) -> None:
        """Where a figure stands, told in points from the lower left corner and not in pixels from the upper one."""
        left, top, right, bottom = (side * POINTS_PER_PIXEL for side in figure["A"]["BBox"])
        figure["A"]["BBox"][:] = (left, height - bottom, right, height - top)

    def with_caption(self, parent: Element, figure: Element) -> None:
        """A caption that stands beside one figure is the caption of this figure."""
        others = [each for each in self.kids(parent) if each is not figure]
        if parent["S"] == "/NonStruct" and [each["S"] for each in others] == ["/Caption"]:
            (caption,) = others
            place = 0 if parent["K"].index(caption.reference) < parent["K"].index(figure.reference) else None
            parent["K"].remove(caption.reference)
            self.adopt(figure, [caption.reference], place)

    def margins(self) -> None:
        """Marked content that leads to no element of the structure stands in a margin or a watermark: an artifact."""
        reached = {self.document.reference, *self.descendants(self.document)}
        for page in self.pages.values():
            elements, stream = self.marked[page], self.stream_of(page)
            for place, number in _marks(stream):
                if elements[number] not in reached:
                    elements[number] = b"null"
                    stream[place] = b"/Artifact"
                    stream[place + 1] = type(self.document)({"Type": "/Pagination"})

    def descendants(self, element: Element) -> Iterator[bytes]:
        """References of all below it."""
        for kid in self.kids(element):
            yield kid.reference
            yield from self.descendants(kid)


def _marks(stream: list[Any]) -> Iterator[tuple[int, int]]:
    """Where marked content begins in a page, and its number."""
    for place, item in enumerate(stream):
        facts = stream[place - 1] if item == b"BDC" else None
        if isinstance(facts, dict) and "MCID" in facts:
            yield place - 2, facts["MCID"]


def _associate(pdf: Any) -> None:
    """Say of each attached file that it holds the data of the document (ISO 32000-2, 7.11.3 and 14.13, from memory)."""
    files: list[Any] = [each for each in pdf.objects if isinstance(each, dict) and each.get("Type") == "/Filespec"]
    for each in files:
        each["AFRelationship"] = "/Data"
    if files:
        pdf.catalog["AF"] = type(pdf.pages["Kids"])([each.reference for each in files])
