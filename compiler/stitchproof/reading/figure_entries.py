"""The photos and tutorial pages of pattern.yaml, as written."""

from __future__ import annotations

from msgspec import Struct

from stitchproof.reading.pattern_source import Words
from stitchproof.source import Span


class PhotoEntry(Struct, frozen=True, eq=False):
    """A photo. alt: what is to be seen, for those who do not see it. shown: the size and ease it is worn in.

    content: the file as it is, None until it was read, or where it could not be (reported).
    """

    name: str
    file: Words
    alt: Words
    caption: Words | None
    shown: Words | None
    span: Span
    content: bytes | None = None


class TutorialEntry(Struct, frozen=True, eq=False):
    """A page that shows how something is worked: the words that print for it, and its address."""

    name: str
    words: Words
    address: Words
    span: Span
