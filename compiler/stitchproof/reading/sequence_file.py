"""Reads a file of published rows. What does not belong in it is reported; the sequences that can be read are handed on."""

from __future__ import annotations

from stitchproof.diagnostics.faults.source_too_large import source_too_large
from stitchproof.diagnostics.report import Report
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.shape import Shape
from stitchproof.reading.written_sequence import Figures, Published, WrittenRow, WrittenSequence
from stitchproof.reading.yaml_tree import Listing, Mapping, Scalar, YamlNode, read_yaml
from stitchproof.source import SourceFile

MOST_ROWS = 5_000
LONGEST_TEXT = 20_000
MOST_DIGITS = 9
STYLES = ("clean", "loose")
_SEQUENCE = "a sequence"
_ROW = "a row"


def read_sequences(file: SourceFile, report: Report) -> tuple[WrittenSequence, ...]:
    """The sequences of a file, in order; () where there are none (reported)."""
    errors_before = report.has_errors
    tree = read_yaml(file, report)
    if tree is None and report.has_errors and not errors_before:
        return ()
    if isinstance(tree, Scalar) and tree.is_empty:
        tree = None
    if not isinstance(tree, Listing) or not tree.items:
        span = tree.span if tree is not None else file.whole
        report.add(wrong_kind_of_value(span, "a file of rows", "a list of sequences", "- id: hat"))
        return ()
    found: list[WrittenSequence] = []
    rows = 0
    for item in tree.items:
        sequence = _sequence(item, report)
        rows += len(sequence.rows) if sequence else 0
        if rows > MOST_ROWS:
            report.add(source_too_large(item.span.part(0, 0), f"more than {MOST_ROWS} rows"))
            break
        if sequence:
            found.append(sequence)
    return tuple(found)


def _sequence(node: YamlNode, report: Report) -> WrittenSequence | None:
    shape = Shape(node, report, _SEQUENCE, node.span, "sequence")
    if not shape.readable:
        return None
    id_ = shape.scalar("id", required=True)
    source = shape.group("source", "a source")
    title, address = (source.scalar("title"), source.scalar("address")) if source else (None, None)
    if source:
        source.close()
    sizes = tuple(each.text for each in shape.listing("sizes") if isinstance(each, Scalar))
    terms = shape.choice("terms", ("us", "uk"), "us").upper()
    start, convention = shape.scalar("start"), shape.scalar("convention")
    start_count = _figures(shape.take("start_count"), len(sizes) or 1, report, "`start_count`")
    rows = _rows(shape, len(sizes) or 1, report)
    for known in ("tags", "expected", "error_class", "numbers", "note"):
        shape.take(known)
    shape.close()
    if id_ is None or not rows:
        return None
    return WrittenSequence(id_, _text(title), _text(address), terms, sizes, start, start_count, convention, rows)


def _text(scalar: Scalar | None) -> str:
    return " ".join(scalar.text.split()) if scalar else ""


def _rows(shape: Shape, sizes: int, report: Report) -> tuple[WrittenRow, ...]:
    value = shape.take("rows", required=True)
    if value is None:
        return ()
    if not isinstance(value, Listing) or not value.items:
        report.add(wrong_kind_of_value(value.span, "`rows`", "a list of rows", "- {label: Row 1, text: …}"))
        return ()
    found = [_row(item, sizes, report) for item in value.items]
    return tuple(row for row in found if row)


def _row(node: YamlNode, sizes: int, report: Report) -> WrittenRow | None:
    shape = Shape(node, report, _ROW, node.span, "row")
    if not shape.readable:
        return None
    label, text = shape.scalar("label"), shape.scalar("text", required=True)
    style = shape.choice("style", STYLES, "loose")
    printed_as = _text(shape.scalar("stated_as"))
    stated = _published(shape, "stated", "stated_parts", sizes, report)
    derived = _published(shape, "derived", "derived_parts", sizes, report)
    derived_as = _text(shape.scalar("derived_as"))
    ok = shape.choice("row_ok", ("true", "false", "yes", "no"), "true") in ("true", "yes")
    for known in ("consumes", "note"):
        shape.take(known)
    shape.close()
    if text is None:
        return None
    if len(text.text) > LONGEST_TEXT:
        report.add(source_too_large(text.span.part(0, 0), f"a row of more than {LONGEST_TEXT} characters"))
        return None
    return WrittenRow(label, text, style, stated, printed_as, derived, derived_as, ok)


def _published(shape: Shape, key: str, parts_key: str, sizes: int, report: Report) -> tuple[Published, ...]:
    found = []
    total = _figures(shape.take(key), sizes, report, f"`{key}`")
    if total is not None:
        found.append(Published(total))
    parts = shape.take(parts_key)
    if isinstance(parts, Mapping):
        for noun, value in parts.entries:
            figures = _figures(value, sizes, report, f"`{noun.text}`")
            if figures is not None:
                found.append(Published(figures, noun.text.strip()))
    elif parts is not None and not _is_null(parts):
        report.add(
            wrong_kind_of_value(parts.span, f"`{parts_key}`", "kinds with their numbers", f"{parts_key}: {{sc: 12}}")
        )
    return tuple(found)


def _figures(node: YamlNode | None, sizes: int, report: Report, what: str) -> Figures | None:
    """One number per size; a single number holds for all. None where there is none, or it is no number (reported)."""
    if node is None or _is_null(node):
        return None
    if isinstance(node, Scalar):
        number = _number(node)
        if number is None:
            report.add(wrong_kind_of_value(node.span, what, "a whole number, or one for each size"))
            return None
        return (number,) * sizes
    items = node.items if isinstance(node, Listing) else ()
    numbers = [_number(each) if isinstance(each, Scalar) else None for each in items]
    wrong = [each for each, number in zip(items, numbers, strict=True) if number is None and not _is_null(each)]
    if len(items) != sizes or wrong:
        where = wrong[0] if wrong else node
        report.add(wrong_kind_of_value(where.span, what, f"{sizes} whole numbers, one for each size"))
        return None
    return tuple(numbers)


def _number(scalar: Scalar) -> int | None:
    text = scalar.text.strip()
    return int(text) if text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS else None


def _is_null(node: YamlNode) -> bool:
    return isinstance(node, Scalar) and not node.quoted and node.text.strip().lower() in ("", "null", "~")
