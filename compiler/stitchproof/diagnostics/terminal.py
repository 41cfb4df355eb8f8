"""Findings as text for a terminal, made from their facts alone."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import groupby
from unicodedata import category

from stitchproof.diagnostics.facts import Facts
from stitchproof.diagnostics.sums_told import sums_told
from stitchproof.measures.print_grid import change_text

SHOWN_OF_ONE_CODE = 20


def as_text(findings: Iterable[Facts]) -> str:
    """All findings, a blank line between them; after twenty of one code only how many more there are."""
    blocks: list[str] = []
    seen: dict[str, int] = {}
    for found in findings:
        code = found["code"]
        seen[code] = seen.get(code, 0) + 1
        if seen[code] <= SHOWN_OF_ONE_CODE:
            blocks.append(finding_text(found))
    for code, number in seen.items():
        if number > SHOWN_OF_ONE_CODE:
            blocks.append(f"and {number - SHOWN_OF_ONE_CODE} more of {code}\n")
    return "\n".join(blocks)


def finding_text(found: Facts) -> str:
    """One finding: headline, places with carets, the sum, nearest values, help."""
    gutter = _gutter([found["primary"], *found["related"]])
    lines = [f"{found['severity']}[{found['code']} {found['name']}]: {printable(found['headline'])}"]
    lines += _excerpt(found["primary"], gutter, "-->", "^")
    for related in found["related"]:
        lines += _excerpt(related, gutter, ":::", "-")
    pad = " " * gutter
    lines += _listed(pad, "sum", _sums(found["sum"]))
    lines += _listed(pad, "nearest", _nearest(found["alternatives"]))
    lines += _listed(pad, "left out", found["left_out"])
    lines += [f"{pad} = help: {printable(text)}" for text in found["help"]]
    lines.append(f"{pad} = more: {found['explain']}")
    return "\n".join(lines) + "\n"


def printable(text: str) -> str:
    """Text that cannot drive a terminal: control and direction characters become a visible sign."""
    return "".join("�" if category(c) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp") and c not in "\t‍" else c for c in text)


def _gutter(excerpts: list[Facts]) -> int:
    numbers = [line["number"] for excerpt in excerpts for line in excerpt["lines"]]
    return len(str(max(numbers, default=1)))


def _excerpt(excerpt: Facts, gutter: int, arrow: str, mark: str) -> list[str]:
    pad = " " * gutter
    start, end = excerpt["start"], excerpt["end"]
    lines = [f"{pad} {arrow} {printable(excerpt['path'])}:{start['line']}:{start['column']}"]
    if not excerpt["lines"]:
        return lines + ([f"{pad}  | {printable(excerpt['label'])}"] if excerpt["label"] else [])
    lines.append(f"{pad} |")
    for line in excerpt["lines"]:
        first = (
            start["column"] - 1 if line["number"] == start["line"] else len(line["text"]) - len(line["text"].lstrip())
        )
        last = end["column"] - 1 if line["number"] == end["line"] else len(line["text"]) + line["skipped"]
        before, under = _widths(line["text"], first - line["skipped"], last - line["skipped"])
        label = f" {printable(excerpt['label'])}" if line is excerpt["lines"][-1] and excerpt["label"] else ""
        lines.append(f"{line['number']:>{gutter}} | {printable(line['text']).replace(chr(9), ' ')}")
        lines.append(f"{pad} | {' ' * before}{mark * max(under, 1)}{label}")
    return [*lines, f"{pad} |"]


def _widths(text: str, first: int, last: int) -> tuple[int, int]:
    """Terminal columns before a stretch and under it: an emoji takes two, a combining accent none."""
    from wcwidth import wcswidth  # type: ignore[import-untyped,unused-ignore]  # only findings need it

    shown = printable(text).replace("\t", " ")
    first, last = max(first, 0), max(last, 0)
    before, under = wcswidth(shown[:first]), wcswidth(shown[first:last])
    return (before if before >= 0 else first), (under if under >= 0 else last - first)


def _listed(pad: str, title: str, texts: list[str]) -> list[str]:
    """Lines under one title, the later ones set below the first."""
    indent = " " * (len(title) + 2)
    return [
        f"{pad} = {title}: {printable(text)}" if n == 0 else f"{pad}   {indent}{printable(text)}"
        for n, text in enumerate(texts)
    ]


def _sums(sums: list[Facts]) -> list[str]:
    told = [("all of them" if line.all else ", ".join(line.sizes), line) for line in sums_told(sums)]
    width = max((len(sizes) for sizes, _ in told), default=0)
    column = width + 2 if width else 0
    return [f"{sizes:<{column}}{line.expression}{'   ' + line.note if line.note else ''}" for sizes, line in told]


def _nearest(alternatives: list[Facts]) -> list[str]:
    width = max((len(each["size"]) for each in alternatives), default=0)
    lines = []
    for size, group in groupby(alternatives, key=lambda each: str(each["size"])):
        offers = [each["value"] + _change(each) for each in group]
        lines.append(f"{size:<{width}}  {'   or  '.join(offers)}")
    return lines


def _change(alternative: Facts) -> str:
    change = alternative["change_cm"]
    return f" ({change_text(Fraction(change['exact']))})" if change else ""
