"""What a line is called: where it stands, and how it begins."""

from __future__ import annotations

from stitchproof.record.record import RecordedBlock, RecordedSlot, Token

LONGEST = 48


def label_of(block: RecordedBlock) -> str:
    """ "Crown: Dec Rnd <k>", "Body: Rep Rnd 3 until <body_rnds> rnds are complete", "Sizes: To fit head"."""
    return f"{block.under}: {beginning(block)}"


def beginning(block: RecordedBlock) -> str:
    """The label of a row or measure, or else its first words; numbers as they are written."""
    parts = [each for each in map(written, block.parts) if each]
    text = parts[0].rstrip(":") if parts else ""
    if block.kind in ("measure", "drawn measure"):
        text = text.partition(":")[0]
    return shortened(text)


def shortened(text: str) -> str:
    """Words that are short enough to name a line by."""
    return text if len(text) <= LONGEST else text[: LONGEST - 1].rsplit(" ", 1)[0] + " …"


def written(tokens: tuple[Token, ...]) -> str:
    """Words with the numbers as the designer wrote them: "Ch <brim_chain>."."""
    return "".join(f"<{each.written}>" if isinstance(each, RecordedSlot) else each for each in tokens).strip()
