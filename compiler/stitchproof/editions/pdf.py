"""HTML to PDF. The renderer is imported here, when the first PDF is asked for, and nowhere else."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from typing import Any

from msgspec import Struct

from stitchproof.editions.assets import Assets, asset_at
from stitchproof.editions.fonts import only_packaged_fonts
from stitchproof.editions.renderer import RENDERER, load_renderer, without_garbage_search
from stitchproof.editions.structure import repair

VARIANT = "pdf/ua-1"
"""Tagged, with language, title and outline: ISO 14289-1."""


class Pdf(Struct, frozen=True):
    """content: the file. messages: everything the renderer had to say, and every address it was refused."""

    content: bytes
    messages: tuple[str, ...]


def write_pdf(html: str, assets: Assets | None = None) -> Pdf:
    """The PDF of a page, its style sheet inside. The same HTML gives the same bytes; only named assets are fetched."""
    with only_packaged_fonts():
        return lay_out(html, assets)


def lay_out(html: str, assets: Assets | None = None) -> Pdf:
    """The same, where the packaged fonts are the only ones already."""
    messages: list[str] = []
    with _collecting(messages), without_garbage_search():
        content = _rendered(html, assets or {}, messages)
    return Pdf(content, tuple(messages))


def _rendered(html: str, assets: Assets, messages: list[str]) -> bytes:
    load_renderer()
    from weasyprint import HTML
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class AssetsOnly(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: dict[str, str] | None = None) -> Any:
            asset = asset_at(url, assets)
            if asset is None:
                messages.append(f"refused to fetch {url[:200]}")
                raise ValueError("only the pattern's own assets are fetched")
            return URLFetcherResponse(url, asset.content, {"Content-Type": asset.media_type})

    page = HTML(string=html, base_url="asset:", url_fetcher=AssetsOnly())
    identifier = sha256(html.encode()).hexdigest()[:32].encode()
    content: bytes = page.write_pdf(
        finisher=repair, font_config=FontConfiguration(), pdf_variant=VARIANT, pdf_identifier=identifier
    )
    return content


class _Collector(logging.Handler):
    def __init__(self, messages: list[str]) -> None:
        super().__init__(logging.WARNING)
        self.messages = messages

    def emit(self, record: logging.LogRecord) -> None:
        self.messages.append(record.getMessage())


@contextmanager
def _collecting(messages: list[str]) -> Iterator[None]:
    """While it lasts, what the renderer logs goes into `messages` and nowhere else."""
    log = logging.getLogger(RENDERER)
    collector, passed_on = _Collector(messages), log.propagate
    log.addHandler(collector)
    log.propagate = False
    try:
        yield
    finally:
        log.removeHandler(collector)
        log.propagate = passed_on
