"""Addresses as QR codes (ISO/IEC 18004), one path of black squares, for a maker who reads on paper."""

from __future__ import annotations

from html import escape

QUIET = 4
"""Modules of white around a code: ISO/IEC 18004 asks for four."""
MODULE = 0.7
"""Millimetres: fine enough for the margin, coarse enough for any camera (common practice, no source)."""


def code_of(address: str) -> str:
    """The code of an address as SVG, its title the address. Correction level M, which lives with a fold or a stain."""
    import segno  # only where there is a tutorial

    rows = segno.make(address, error="m", micro=False, boost_error=False).matrix
    side = len(rows) + 2 * QUIET
    squares = "".join(
        f"M{x + QUIET} {y + QUIET}h1v1h-1z" for y, row in enumerate(rows) for x, module in enumerate(row) if module
    )
    millimetres = f"{side * MODULE:.1f}mm"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="code" role="img" aria-label="{escape(f"Code for {address}")}" '
        f'viewBox="0 0 {side} {side}" width="{millimetres}" height="{millimetres}">'
        f"<title>{escape(f'Code for {address}', False)}</title>"
        f'<path fill="#fff" d="M0 0h{side}v{side}h-{side}z"/><path fill="#000" d="{squares}"/></svg>'
    )
