"""What pages are made with: the compiler, the shipped styles, the renderer with all it stands on, and the fonts."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Mapping
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path

from msgspec import Struct

from stitchproof.editions.assets import Assets
from stitchproof.editions.fonts import font_folders
from stitchproof.editions.renderer import RENDERER
from stitchproof.editions.styles import shipped_styles

SYSTEM_LIBRARIES = Path("/etc/ld.so.cache")
"""Written anew whenever a library is installed, Pango and HarfBuzz among them. Elsewhere than on Linux there is none."""


class KeptPdfs(Struct, frozen=True):
    """PDFs of an earlier build. made_with: as `made_with` tells it. by_key: what each was made from, its bytes, and on which
    page each of its lines stands."""

    made_with: str = ""
    by_key: Mapping[str, tuple[bytes, dict[str, int]]] = {}

    def key(self, html: str, assets: Assets, record: bytes = b"") -> str:
        """What a PDF is made from, all of it, in one word."""
        digest = sha256(f"{self.made_with}\n{sha256(record).hexdigest()}\n{html}\n".encode())
        for name, asset in sorted(assets.items()):
            digest.update(f"\n{name} {asset.media_type} {len(asset.content)}\n".encode())
            digest.update(asset.content)
        return digest.hexdigest()


NOTHING_KEPT = KeptPdfs()


def made_with() -> str:
    """All of it in one word, which is another one after any of it is changed. Files count by size and time of change."""
    package = Path(__file__).resolve().parent.parent
    digest = sha256(sys.version.encode())
    for folder in dict.fromkeys((package, shipped_styles().resolve(), *font_folders())):
        for line in _files_below(folder):
            digest.update(f"{line}\n".encode())
    digest.update("\n".join(_installed()).encode())
    digest.update(_state(SYSTEM_LIBRARIES).encode())
    return digest.hexdigest()


def _files_below(folder: Path) -> Iterator[str]:
    for path, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if name != "__pycache__")
        below = os.path.relpath(path, folder)
        for name in sorted(files):
            yield f"{below}/{name} {_state(os.path.join(path, name))}"


def _state(path: str | Path) -> str:
    try:
        facts = os.stat(path)
    except OSError:
        return "none"
    return f"{facts.st_size} {facts.st_mtime_ns}"


def _installed() -> list[str]:
    """The libraries beside the renderer: their folders carry names and versions."""
    spec = find_spec(RENDERER)
    if spec is None or spec.origin is None:
        return []
    return sorted(
        name for name in os.listdir(Path(spec.origin).parent.parent) if name.endswith((".dist-info", ".egg-info"))
    )
