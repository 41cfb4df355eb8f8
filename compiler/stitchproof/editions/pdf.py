"""HTML to PDF. The renderer is imported here, when the first PDF is asked for, and nowhere else."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
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
Record = bytes | Callable[[], bytes]


class Pdf(Struct, frozen=True):
    """content: the file. messages: everything the renderer had to say, and every address it was refused. places: by anchor, on
    which page the line stands that has it."""

    content: bytes
    messages: tuple[str, ...]
    places: dict[str, int] = {}


def write_pdf(html: str, assets: Assets | None = None, record: Record = b"") -> Pdf:
    """The PDF of a page, its style sheet inside. The same HTML gives the same bytes; only named assets are fetched.

    record: of the pattern, which goes into the PDF as an attached file where there is one; or what gives it, which is asked when
    the pages are laid out.
    """
    left_over: list[object] = []
    with only_packaged_fonts(), without_garbage_search():
        pdf = lay_out(html, assets, record, left_over)
        left_over.clear()
    return pdf


_fonts: list[object] = []
"""What was made ready for the next page."""


def make_ready() -> None:
    """Load the renderer, and the fonts that there are, before there is a page. Raises OSError as `load_renderer` does."""
    load_renderer()
    from weasyprint.text.fonts import FontConfiguration

    _fonts[:] = [FontConfiguration()]


def lay_out(html: str, assets: Assets | None, record: Record, left_over: list[object]) -> Pdf:
    """The same, where the packaged fonts are the only ones already. left_over: takes what the layout was made of, so that the
    caller has the PDF before all that is taken apart."""
    messages: list[str] = []
    with _collecting(messages), without_garbage_search():
        content, places = _rendered(html, assets or {}, record, messages, left_over)
    return Pdf(content, tuple(messages), places)


def _rendered(
    html: str, assets: Assets, record: Record, messages: list[str], left_over: list[object]
) -> tuple[bytes, dict[str, int]]:
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
    laid_out = page.render(font_config=_fonts.pop() if _fonts else FontConfiguration(), pdf_variant=VARIANT)
    left_over += page, laid_out
    attached = Attachment(
        string=record() if callable(record) else record,
        name=RECORD_NAME,
        description=RECORD_IS,
        created=LONG_AGO,
        modified=LONG_AGO,
        relationship="Data",
    )
    places: dict[str, int] = {}

    def finish(document: Any, pdf: Any) -> None:
        left_over.append(pdf)
        repair(document, pdf)
        for number, each in enumerate(document.pages, start=1):
            for name in each.anchors:
                places.setdefault(name, number)

    content: bytes = laid_out.write_pdf(
        finisher=finish,
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
