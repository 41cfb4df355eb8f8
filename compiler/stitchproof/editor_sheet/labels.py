"""How the worksheet calls a line: where it stands, and how it begins."""

from __future__ import annotations

from stitchproof.record.record import RecordedBlock, RecordedSlot, Token

LONGEST = 48


def label_of(block: RecordedBlock) -> str:
    """ "Crown: Dec Rnd <k>", "Body: Rep Rnd 3 until <body_rnds> rnds are complete", "Sizes and finished measurements, table"."""
    if block.kind == "row":
        return f"{block.under}: {beginning(block)}"
    words = {"prose": "paragraph", "sizetable": "table", "bullets": "list", "schematics": "drawings", "figure": "photo"}
    return f"{block.under}, {block.inside or words.get(block.kind, block.kind)} {block.identity.rpartition('/')[2]}"


def beginning(block: RecordedBlock) -> str:
    """The label of a row, or else its first words; numbers as they are written."""
    parts = [each for each in map(written, block.parts) if each]
    text = parts[0].rstrip(":") if parts else ""
    return text if len(text) <= LONGEST else text[: LONGEST - 1].rsplit(" ", 1)[0] + " …"


def written(tokens: tuple[Token, ...]) -> str:
    """Words with the numbers as the designer wrote them: "Ch <brim_chain>."."""
    return "".join(f"<{each.written}>" if isinstance(each, RecordedSlot) else each for each in tokens).strip()
