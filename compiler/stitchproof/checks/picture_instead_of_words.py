"""SP110 picture-instead-of-words

Severity  error
Checks    every picture has a text that says what it shows (neither empty nor the name of its file), and no step leaves it to
          a picture what is to be done ("as shown", "like this", "see photo"). A pointer in brackets beside the words is fine.
Matters   a maker who hears the pattern read, or prints it without its pictures, has no instruction.
Mend      say in the step what is to be done. Say what the picture shows between its square brackets: `![the cuff,
          folded](cuff.png)`.
Source    World Wide Web Consortium, Web Content Accessibility Guidelines 2.2, 1.1.1 (from memory); for steps common practice, no
          source.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn.
    Fold the corners as shown and sew the edges.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn.
    See photo 2.

Fires:
    ---
    Row 1: Ch 1, sc in each st across, turn.

    ::: note
    The corner. ![corner.jpg](pictures/corner.jpg)
    :::

Quiet:
    ---
    Row 1: Ch 1, sc in each st across, turn.
    Fold the corners to the middle (see photo 2) and sew the edges like this: whip stitch through both loops.
    Work the second square like this one, and its next rows as shown in the table, and in chart 2.

    ::: note
    ![Two corners folded to the middle of the square](pictures/corner.jpg)
    :::
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stitchproof.checks.parts import instructions_of
from stitchproof.checks.pattern_lines import Line
from stitchproof.checks.wording import REACH, sentence
from stitchproof.diagnostics.diagnostic import Diagnostic, Excerpt, used_from
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.expanded_pattern import ExpandedPattern
from stitchproof.late_pattern import LatePattern
from stitchproof.source import SourceFile, Span

PAGE = read_page(__doc__)
_PICTURE = r"(?:photo(?:graph)?|picture|image|illustration|drawing|pic)s?\b"
_PICTURES = ("photo", "pic", "image", "illustration", "drawing")
_LEFT_TO_IT = LatePattern(
    r"\b(?:(?:exactly\s+|just\s+)?as\s+(?:shown|pictured|illustrated)\b(?!\s+(?:below|above|for|by|under|in\s+(?:the\s+)?"
    rf"(?:table|chart|row|list|key|size)))|like\s+this(?=\s*(?:[.;]|$))|(?:as|like)\s+(?:in|on)\s+(?:the\s+)?{_PICTURE}"
    rf"|follow(?:ing)?\s+the\s+{_PICTURE})",
    re.IGNORECASE,
    ("shown", "illustrat", "like", *_PICTURES),
)
_ONLY_A_POINTER = LatePattern(
    rf"\s*(?:please\s+)?(?:see|look\s+at)\s+(?:the\s+)?{_PICTURE}[^.;,]{{0,30}}[.!]?\s*", re.IGNORECASE, _PICTURES
)
_LINKED = LatePattern(r"!\[(?P<words>[^\]\n]*)\]\((?P<file>[^()\s]+)[^()\n]*\)", needs=("![",))
_FILE_NAME = LatePattern(r"[\w -]+\.(?:jpe?g|png|gif|webp|svg|heic|tiff?)", re.IGNORECASE)


def steps(expanded: ExpandedPattern, report: Report) -> None:
    """Steps that only a picture explains."""
    for line in instructions_of(expanded.document):
        body = line.text[line.label_end :]
        if _ONLY_A_POINTER.fullmatch(body) and len(body) < REACH:
            report.add(_step_report(line, line.label_end + len(body) - len(body.lstrip()), len(line.text.rstrip())))
            continue
        for match in _LEFT_TO_IT.finditer(line.text, line.label_end):
            if not _is_in_brackets(line.text, match.start()):
                report.add(_step_report(line, *match.span()))


def pictures(expanded: ExpandedPattern, report: Report) -> None:
    """Pictures without words of their own."""
    source = expanded.sized.source
    for text in (*source.texts, *source.shared_texts):
        for match in _without_words(text.file):
            report.add(
                Diagnostic(
                    PAGE,
                    f"the picture {match['file'].rsplit('/', 1)[-1]} has no text that says what it shows",
                    Excerpt(Span(text.file, *match.span()), "nothing can be read out here"),
                    help=("write between its square brackets what it shows",),
                )
            )


def _without_words(file: SourceFile) -> Iterator[re.Match[str]]:
    for match in _LINKED.finditer(file.text):
        words, name = match["words"].strip(), match["file"].rsplit("/", 1)[-1]
        if not words or words.lower() in (name.lower(), name.rsplit(".", 1)[0].lower()) or _FILE_NAME.fullmatch(words):
            yield match


def _is_in_brackets(text: str, at: int) -> bool:
    begin, _ = sentence(text, at, at)
    return text.count("(", begin, at) > text.count(")", begin, at)


def _step_report(line: Line, start: int, end: int) -> Diagnostic:
    place = line.place(start, end)
    return Diagnostic(
        PAGE,
        f"what is to be done stands only in a picture: `{line.as_written(start, end).rstrip('.')}`",
        Excerpt(place.span, "the words are missing"),
        piece=line.piece,
        row=line.row,
        related=used_from(place),
        help=("say in words what the picture shows; it may still stand beside them, `(see photo 2)`",),
    )


CHECKS = (steps, pictures)
