"""Every line to be worked gets a number, so that a tester can say which one she means."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.editions.print_document import PrintBlock, PrintDocument, PrintPassage, PrintStep


def numbered(document: PrintDocument) -> PrintDocument:
    """The document with its steps numbered from 1, in the order in which they are read."""
    count = _Count()
    return replace(
        document,
        sections=tuple(replace(section, blocks=count.blocks(section.blocks)) for section in document.sections),
    )


class _Count:
    def __init__(self) -> None:
        self.last = 0

    def blocks(self, blocks: tuple[PrintBlock, ...]) -> tuple[PrintBlock, ...]:
        return tuple(self.block(block) for block in blocks)

    def block(self, block: PrintBlock) -> PrintBlock:
        match block:
            case PrintStep():
                self.last += 1
                return replace(block, number=self.last)
            case PrintPassage():
                return replace(block, blocks=self.blocks(block.blocks))
            case _:
                return block
