"""HTML to PDF. The renderer is imported here, when the first PDF is asked for, and nowhere else."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any

from msgspec import Struct

from stitchproof.editions.assets import Assets, asset_at
from stitchproof.editions.fonts import only_packaged_fonts
from stitchproof.editions.renderer import RENDERER, load_renderer, without_garbage_search
from stitchproof.editions.structure import repair

VARIANT = "pdf/ua-1"
"""Tagged, with language, title and outline: ISO 14289-1."""
RECORD_NAME = "record.json"
RECORD_IS = "The numbers and rows of this pattern as data, as stitchproof worked them out"
LONG_AGO = datetime(1980, 1, 1, tzinfo=UTC)
"""When an attached file was made, for every build: the same pattern gives the same bytes."""


class Pdf(Struct, frozen=True):
    """content: the file. messages: everything the renderer had to say, and every address it was refused. places: by anchor, on
    which page the line stands that has it."""

    content: bytes
    messages: tuple[str, ...]
    places: dict[str, int] = {}


def write_pdf(html: str, assets: Assets | None = None, record: bytes = b"") -> Pdf:
    """The PDF of a page, its style sheet inside. The same HTML gives the same bytes; only named assets are fetched.

    record: of the pattern, which goes into the PDF as an attached file where there is one.
    """
    with only_packaged_fonts():
        return lay_out(html, assets, record)


def lay_out(html: str, assets: Assets | None = None, record: bytes = b"") -> Pdf:
    """The same, where the packaged fonts are the only ones already."""
    messages: list[str] = []
    with _collecting(messages), without_garbage_search():
        content, places = _rendered(html, assets or {}, record, messages)
    return Pdf(content, tuple(messages), places)


def _rendered(html: str, assets: Assets, record: bytes, messages: list[str]) -> tuple[bytes, dict[str, int]]:
    load_renderer()
    from weasyprint import HTML, Attachment
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
    attached = Attachment(
        string=record, name=RECORD_NAME, description=RECORD_IS, created=LONG_AGO, modified=LONG_AGO, relationship="Data"
    )
    places: dict[str, int] = {}

    def finish(document: Any, pdf: Any) -> None:
        repair(document, pdf)
        for number, each in enumerate(document.pages, start=1):
            for name in each.anchors:
                places.setdefault(name, number)

    content: bytes = page.write_pdf(
        finisher=finish,
        font_config=FontConfiguration(),
        pdf_variant=VARIANT,
        pdf_identifier=sha256(html.encode()).hexdigest()[:32].encode(),
        attachments=[attached] if record else None,
    )
    return content, places


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
