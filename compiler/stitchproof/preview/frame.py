"""The page around the page: what stands beside it, printed by the templates of styles/preview.

They come from the shipped styles alone. A pattern that a stranger sends can bring templates for its own page, which runs no
script; what could write into the source is none of hers.
"""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from hashlib import sha256

from msgspec.structs import replace

from stitchproof.editions.edition_folder import EditionFolder, Leaf, find_edition
from stitchproof.editions.html import print_page

FRAME = "preview"


@cache
def frame_folder() -> EditionFolder:
    """The shipped folder of the frame."""
    return find_edition(FRAME, ())


@cache
def frame_leaf() -> Leaf:
    """The frame's template, style sheets and script."""
    leaf = frame_folder().screen
    assert leaf is not None, "the shipped frame is for a screen"  # noqa: S101
    return leaf


def said(key: str, **values: object) -> str:
    """A sentence of the frame, its places filled in."""
    text = frame_folder().words[key]
    for name, value in values.items():
        text = text.replace(f"{{{name}}}", str(value))
    return text


def frame_html(bare: bool, **values: object) -> str:
    """The frame; bare: without its style and its script."""
    leaf = replace(frame_leaf(), style=()) if bare else frame_leaf()
    return print_page(frame_folder(), leaf, script="" if bare else _script(), **values)


def fragment(template: str, **values: object) -> str:
    """A part of the frame that is asked for by itself."""
    return print_page(frame_folder(), replace(frame_leaf(), template=template, style=()), **values)


@cache
def frame_policy() -> str:
    """What a browser may do for the frame: its own style and script, requests to this server, and nothing else."""
    style, script = (_hash(text) for text in (frame_folder().style_of(frame_leaf()), _script()))
    return (
        f"default-src 'none'; style-src '{style}'; script-src '{script}'; connect-src 'self'; frame-src 'self'; "
        "img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    )


PAGE_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'self'"
)
"""Of the page inside: no script at all, whatever its template holds."""


@cache
def _script() -> str:
    return frame_folder().script_of(frame_leaf())


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"
