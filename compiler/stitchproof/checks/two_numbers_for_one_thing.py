"""SP106 two-numbers-for-one-thing

Severity  error
Checks    where the text gives a typed number for the thing that a count in pattern.yaml is named for (`12 underarm sts` where
          `underarm` is 10 sts), it is that count. A number for a part of it ("first 4", "dec 2", "half of") is not judged.
Matters   body and sleeve are sewn together stitch by stitch; two numbers for one underarm cannot both be right.
Mend      print the count by its name in < > in both places, or give the other thing a name of its own.
Source    common practice, no source.

Fires in S, M:
    counts:
      underarm: 10 sts
    ---
    Row 1: Ch 1, sc in each st to last <underarm> sts, turn.
    Sew the 12 underarm sts of body and sleeve together.

Fires in M:
    counts:
      body_rows: {by_hand: [30 rows, 32 rows]}
    ---
    Row 1: Ch 1, sc in each st across, turn.
    Rep Row 1 until 30 (31) body rows are complete.

Quiet:
    counts:
      underarm: 10 sts
      body_rows: {by_hand: [30 rows, 32 rows]}
    ---
    Row 1: Ch 1, sc in each of first 4 underarm sts, dec 2 sts at underarm, turn.
    Row 2: Pick up 2 sts at the underarm, sc in each of 3 underarm sts, sc in each st to end, turn.
    Work 3 body rows even. Sew the 10 underarm sts together. Leave 12 sts at the neck.
"""

from __future__ import annotations

from fractions import Fraction

from stitchproof.checks.things_counted import things_said
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, SumLine, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.measures.values import Value, exact_text

PAGE = read_page(__doc__)


def things(expanded: ExpandedPattern, report: Report) -> None:
    """Numbers that are another count than the one whose name stands beside them."""
    names = expanded.sized.sizes
    for said in things_said(expanded):
        wrong, name = said.wrong_in(), said.quantity.name
        # One number for all sizes that suits some of them is a report of its own.
        if not wrong or (not said.is_list and len(wrong) < len(names)):
            continue
        place = said.line.place(said.start, said.end)
        sums = [
            SumLine(names[size], f"typed {_words(said.values[size])}, `{name}` is {_words(said.quantity.values[size])}")
            for size in wrong
        ]
        report.add(
            Diagnostic(
                PAGE,
                f"the text has `{said.line.text[said.start : said.end]}` where `{name}` is another number",
                Excerpt(place.span, f"not `{name}`"),
                sizes=tuple(names[size] for size in wrong),
                piece=said.line.piece,
                row=said.line.row,
                related=(Excerpt(said.quantity.value_span, "one of the two is wrong"), *used_from(place)),
                sums=tuple(sums),
                help=(f"write `<{name}>`, or give the other thing a name of its own",),
            )
        )


def _words(value: Value) -> str:
    return exact_text(value) if isinstance(value, Fraction) else "not worked"


CHECKS = (things,)
