"""Files that a page may show: known by name, held in memory. Nothing else is ever fetched."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping

from msgspec import Struct

ADDRESS = "asset:"
"""How a template names an asset: asset:photo_1.jpg. A name, not a path: the same build gives the same bytes."""


class Asset(Struct, frozen=True):
    """A picture or another file that a page shows."""

    content: bytes
    media_type: str

    @property
    def as_data(self) -> str:
        """Its address where the page holds the file itself."""
        return f"data:{self.media_type};base64,{b64encode(self.content).decode()}"


Assets = Mapping[str, Asset]


def asset_at(address: str, assets: Assets) -> Asset | None:
    """The asset an address names, or None for every other address: a network one, a file, data inside the page."""
    return assets.get(address.removeprefix(ADDRESS)) if address.startswith(ADDRESS) else None
