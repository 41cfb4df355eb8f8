"""SP068 gauge-incomplete

Severity  error
Checks    a gauge that a piece, or a part of it (`### Hem {gauge: rib}`), is worked at says its rows or rounds, the
          stitch it was worked in, the hook, and the state in which it was measured (blocked, relaxed, hung).
Matters   the maker cannot match a gauge that is only half told, and the piece comes out in another size.
Mend      add what is missing.
Source    common practice; gauges are often incomplete in patterns that makers publish themselves.

Fires:
    gauges:
      fabric: {stitches: 16, over: 10 cm, stitch: sc, hook: 4 mm}

Fires:
    gauges:
      fabric: {stitches: 16, rows: 12, over: 10 cm, stitch: sc, worked: rows, hook: 4 mm}

Quiet:
    gauges:
      fabric: {stitches: 16, rounds: 12, over: 10 cm, stitch: sc, hook: 4 mm, state: blocked}
      edge: {stitches: 18, over: 10 cm, stitch: sc}
"""

from __future__ import annotations

from collections.abc import Iterator

from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt
from stitchproof.diagnostics.nearest import nearest
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import blocks_of, steps_of
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.expressions import expression
from stitchproof.reading.pattern_source import Gauge

PAGE = read_page(__doc__)
KEYS = frozenset({"stitches", "rows", "rounds", "over", "rows_per_rib", "stitch", "worked", "hook", "state"})
_END = expression(r"\n {0,2}\S|\n\s*\n|\}")
_KEY = expression(r"(?:^:\s*\{|,|\n)\s*(\w+)\s*:")


def gauges(expanded: ExpandedPattern, report: Report) -> None:
    """Gauges of pieces, and of headings inside them, that leave something out."""
    header = expanded.sized.source.header
    below = {step.gauge for step in steps_of(tuple(blocks_of(expanded.document)))}
    for gauge in header.gauges:
        used = [each for each in header.pieces if each.gauge and each.gauge.text.strip() == gauge.name]
        missing = list(_missing(gauge)) if used or gauge.name in below else []
        if not missing:
            continue
        report.add(
            Diagnostic(
                PAGE,
                f'the gauge "{gauge.name}" leaves out: {", ".join(missing)}',
                Excerpt(gauge.span, "incomplete"),
                related=tuple(Excerpt(piece.span, "worked at this gauge") for piece in used[:3]),
                help=(f"add {_in_words([f'`{_key(word)}`' for word in missing])} to the gauge",),
            )
        )


def _missing(gauge: Gauge) -> Iterator[str]:
    """What a gauge leaves out. A gauge, or a key of it, that could not be read is reported for itself."""
    if gauge.stitches is None or gauge.over is None:
        return
    keys = _keys_written(gauge)
    if gauge.rows is None and not keys & {"rows", "rounds"}:
        yield "rows or rounds"
    misspelt = {nearest(key, KEYS) for key in keys - KEYS}
    for word, held in (("stitch", gauge.stitch), ("hook", gauge.hook), ("state", gauge.state)):
        if not held and word not in misspelt:
            yield word


def _keys_written(gauge: Gauge) -> set[str]:
    """The keys that stand in its entry, those that are not known included."""
    entry = _END.split(gauge.span.file.text[gauge.span.end :], 1)[0]
    return set(_KEY.findall(entry))


def _key(word: str) -> str:
    return "rows" if word.startswith("rows") else word


def _in_words(parts: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(parts[:-1]), parts[-1])))


CHECKS = (gauges,)
