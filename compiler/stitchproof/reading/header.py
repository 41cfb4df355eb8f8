"""pattern.yaml as a Header: every key it may have, and what each takes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from msgspec.structs import replace

from stitchproof.diagnostics.acceptance import Acceptance
from stitchproof.diagnostics.report import Report
from stitchproof.expressions import expression
from stitchproof.formulas.slot import Slot, slots_in
from stitchproof.reading.faults.dialect_not_known import dialect_not_known
from stitchproof.reading.faults.key_written_twice import key_written_twice
from stitchproof.reading.faults.wrong_kind_of_value import wrong_kind_of_value
from stitchproof.reading.header_body import read_body
from stitchproof.reading.header_claims import read_claims
from stitchproof.reading.header_numbers import read_definitions, read_gauges, read_rates, values_listed
from stitchproof.reading.pattern_source import (
    AtAGlance,
    CautionEntry,
    EditionEntry,
    FinishedLine,
    Header,
    Identity,
    OffsetFabric,
    PieceEntry,
    PlanEntry,
    Revision,
    Sizes,
    SpecialStitch,
    Words,
    YarnEntry,
)
from stitchproof.reading.shape import EXAMPLES, Shape, words_of
from stitchproof.reading.yaml_tree import Mapping, Scalar, YamlNode
from stitchproof.source import SourceFile

if TYPE_CHECKING:
    from stitchproof.reading.figure_entries import PhotoEntry, TutorialEntry
    from stitchproof.reading.schematic_entries import SchematicEntry

DIALECT = "1"
MOST_SIZES = 60
ALONE_AND_FIVE = 6
"""Up to this many sizes stand in one bracket after the first; more are split over several of at most five."""
_SO_MANY = expression(r"\s*[0-9]{1,3}\s*")
_RNDS = expression(r"\brnds\b")


def read_header(tree: YamlNode | None, file: SourceFile, report: Report) -> Header | None:
    """The header; None where there are no sizes to work with, or the dialect is another one (reported)."""
    top = Shape(tree, report, "", file.whole)
    dialect = top.scalar("dialect", required=True)
    if dialect and dialect.text.strip() != DIALECT:
        report.add(dialect_not_known(dialect.span, DIALECT))
        return None
    identity = _identity(top)
    definitions = tuple(read_definitions(top))
    sizes = _sizes(top, values_listed(definitions))
    photos, tutorials = _figures(top)
    header = Header(
        identity,
        sizes or Sizes((), (), False, (), None, file.whole),
        tuple(read_gauges(top)),
        tuple(read_rates(top)),
        definitions,
        _plans(top),
        tuple(read_claims(top)),
        tuple(_pieces(top)),
        tuple(_finished(top)),
        top.words_list("materials"),
        tuple(_special_stitches(top)),
        tuple(_cautions(top)),
        top.words_list("texts"),
        tuple(_acceptances(top)),
        body=read_body(top),
        yarns=_yarns(top),
        schematics=_schematics(top),
        photos=photos,
        tutorials=tutorials,
        editions=tuple(_editions(top)),
        at_a_glance=_at_a_glance(top),
        errata=top.words("errata"),
        thanks=top.words("thanks"),
        revisions=tuple(_revisions(top)),
    )
    top.close()
    return replace(header, unreadable=frozenset(top.refused)) if sizes else None


def _identity(top: Shape) -> Identity:
    units = top.choice("units", ("both", "cm", "in"), "both")
    return Identity(
        top.words("title", required=True) or Words("", top.span),
        top.words("revision"),
        top.words("date"),
        top.words("designer"),
        top.words("contact"),
        top.words("licence"),
        top.words("summary"),
        top.words_list("audience"),
        top.choice("terms", ("US", "UK"), "US"),
        ("cm", "in") if units == "both" else (units,),
    )


def _plans(top: Shape) -> tuple[PlanEntry, ...]:
    if top.take("plans") is None:
        return ()
    from stitchproof.reading.header_plans import (
        read_plans,  # knows all plans; a pattern without any starts without them
    )

    return tuple(read_plans(top))


def _yarns(top: Shape) -> tuple[YarnEntry, ...]:
    if top.take("yarn") is None:
        return ()
    from stitchproof.reading.header_yarn import read_yarns  # a pattern that counts no yarn starts without it

    return tuple(read_yarns(top))


def _figures(top: Shape) -> tuple[tuple[PhotoEntry, ...], tuple[TutorialEntry, ...]]:
    given = [top.take(key) for key in ("photos", "tutorials")]
    if given == [None, None]:
        return (), ()
    from stitchproof.reading.header_figures import read_photos, read_tutorials  # most patterns have none yet

    return tuple(read_photos(top)), tuple(read_tutorials(top))


def _schematics(top: Shape) -> tuple[SchematicEntry, ...]:
    if top.take("schematics") is None:
        return ()
    from stitchproof.reading.header_schematics import (
        read_schematics,  # knows all shapes; a pattern without drawings starts without them
    )

    return tuple(read_schematics(top))


def _sizes(top: Shape, listed: int) -> Sizes | None:
    """listed: how many values the lists have, where they agree; a name written twice then still stands for a size."""
    shape = top.group("sizes", "`sizes`")
    if shape is None:
        top.take("sizes", required=True)
        return None
    names = shape.words_list("names")
    called = shape.choice("called_by", ("name", "number"), "name")
    groups = shape.words_list("groups")
    choose, sample = shape.words("choose"), shape.words("sample")
    if len(names) > MOST_SIZES or (shape.readable and not shape.listing("names")):
        wanted = f"`names:` with a list of 1 to {MOST_SIZES} size names"
        shape.report.add(wrong_kind_of_value(shape.span, "`sizes`", wanted, EXAMPLES["sizes"]))
    shape.close()
    if not names or len(names) > MOST_SIZES:
        return None
    by_name: dict[str, Words] = {}
    for words in names:
        name = words.text.strip()
        if name in by_name:
            shape.report.add(key_written_twice(words.span, by_name[name].span))
            name = f"{name} again" if listed == len(names) else name
        by_name.setdefault(name, words)
    return Sizes(
        tuple(by_name),
        tuple(words.span for words in by_name.values()),
        called == "number",
        _groups(groups, len(by_name), listed, shape),
        choose,
        shape.span,
        listed,
        sample,
    )


def _groups(written: tuple[Words, ...], sizes: int, listed: int, shape: Shape) -> tuple[int, ...]:
    """How many sizes stand in each bracket after the first size. Usual: one bracket to six sizes, else brackets of up to five.

    listed: how many values the lists have. Brackets that suit these are right; it is the sizes that will be reported.
    """
    numbers = [int(words.text) for words in written if _SO_MANY.fullmatch(words.text)]
    suit_the_lists = sum(numbers) + 1 == listed != sizes
    if written and not suit_the_lists and (len(numbers) < len(written) or sum(numbers) != sizes - 1 or 0 in numbers):
        wanted = f"how many sizes stand in each bracket after the first, {sizes - 1} in all"
        shape.report.add(wrong_kind_of_value(written[0].span.to(written[-1].span), "`groups`", wanted))
    elif written and not suit_the_lists:
        return tuple(numbers)
    rest = sizes - 1
    if rest <= 0:
        return ()
    brackets = 1 if sizes <= ALONE_AND_FIVE else -(-rest // 5)
    least, more = divmod(rest, brackets)
    return tuple(least + (number >= brackets - more) for number in range(brackets))


def _pieces(top: Shape) -> Iterator[PieceEntry]:
    for key, value in top.entries("pieces"):
        shape = Shape(value, top.report, f"the piece `{key.text}`", key.span, "piece")
        fabric = shape.group("offset_fabric", f"`offset_fabric` of the piece `{key.text}`")
        offset = None
        if fabric:
            offset = OffsetFabric(
                fabric.formula("total", required=True), fabric.words("worked", required=True), fabric.span
            )
            fabric.close()
        yield PieceEntry(
            key.text,
            shape.words("gauge"),
            _way(shape.words("worked")),
            shape.words_list("sizes"),
            offset,
            key.span,
            shape.words_list("starts_from"),
            shape.formulas("edge"),
        )
        shape.close()


def _way(words: Words | None) -> Words | None:
    """How a piece is worked, with rounds written out: "joined rnds" is the same way."""
    return replace(words, text=_RNDS.sub("rounds", words.text)) if words else None


def _finished(top: Shape) -> Iterator[FinishedLine]:
    """Lines of the table of sizes: `Hat circumference: <hat_around>`."""
    for key, value in top.entries("finished"):
        slots = list(slots_in(value.span)) if isinstance(value, Scalar) else []
        if len(slots) == 1 and isinstance(slots[0], Slot) and slots[0].span.text == value.span.text:
            yield FinishedLine(words_of(key, top.report), slots[0])
            continue
        top.report.extend(slot for slot in slots if not isinstance(slot, Slot))
        if all(isinstance(slot, Slot) for slot in slots):
            top.report.add(
                wrong_kind_of_value(
                    value.span, f"the line `{key.text}`", "one slot, such as `<bust>` or `<length as cm>`"
                )
            )


def _special_stitches(top: Shape) -> Iterator[SpecialStitch]:
    for key, value in top.entries("special_stitches"):
        if not key.text.strip() or (isinstance(value, Scalar) and not value.text.strip()):
            what = f"the stitch `{key.text}`" if key.text.strip() else "a special stitch"
            there = value.span if key.text.strip() else key.span
            wanted = "an abbreviation and the stitch it stands for"
            top.report.add(wrong_kind_of_value(there, what, wanted, EXAMPLES["special_stitches"]))
            continue
        if isinstance(value, Scalar):
            yield SpecialStitch(key.text, words_of(value, top.report), None, key.span)
            continue
        shape = Shape(value, top.report, f"the stitch `{key.text}`", key.span, "stitch")
        if shape.readable:
            name, how = shape.words("name", required=True), shape.words("how")
            takes, makes = _whole(shape, "takes", 0), _whole(shape, "makes", 0)
            yield SpecialStitch(key.text, name, how, key.span, takes, makes, shape.words("as"))
        shape.close()


def _whole(shape: Shape, key: str, least: int) -> int | None:
    """A whole number of at most three digits under a key; None where it is absent, or something else (reported)."""
    value = shape.scalar(key)
    if value is None:
        return None
    if not re.fullmatch(r"\s*[0-9]{1,3}\s*", value.text) or int(value.text) < least:
        shape.report.add(wrong_kind_of_value(value.span, f"`{key}`", "a whole number of stitches, such as 1 or 2"))
        return None
    return int(value.text)


def _cautions(top: Shape) -> Iterator[CautionEntry]:
    for item in top.listing("cautions"):
        if isinstance(item, Scalar):
            yield CautionEntry(words_of(item, top.report), (), item.span)
            continue
        shape = Shape(item, top.report, "an entry of `cautions`", item.span, "caution")
        rules, sizes = shape.words_list("rules"), shape.words_list("sizes")
        shape.close()
        for rule in rules:
            yield CautionEntry(rule, sizes, rule.span)


def _editions(top: Shape) -> Iterator[EditionEntry]:
    """A list of names, or names with the sizes that are to have a file of their own: `one_size: each`."""
    value = top.take("editions")
    if not isinstance(value, Mapping):
        yield from (EditionEntry(words, (), False) for words in top.words_list("editions"))
        return
    shape = Shape(value, top.report, "`editions`", value.span, "editions")
    for key, _ in value.entries:
        sizes = shape.words_list(key.text)
        each = [words.text.strip() for words in sizes] == ["each"]
        yield EditionEntry(words_of(key, top.report), () if each else sizes, each)


def _at_a_glance(top: Shape) -> AtAGlance | None:
    shape = top.group("at_a_glance", "`at_a_glance`")
    if shape is None:
        return None
    found = AtAGlance(
        shape.words("difficulty"), shape.words("because"), shape.words_list("techniques"), shape.words_list("languages")
    )
    shape.close()
    return found


def _revisions(top: Shape) -> Iterator[Revision]:
    for item in top.listing("revisions"):
        shape = Shape(item, top.report, "an entry of `revisions`", item.span, "revision")
        revision = shape.words("revision", required=True)
        date, changes = shape.words("date"), shape.words("changes")
        shape.close()
        if revision:
            yield Revision(revision, date, changes)


def _acceptances(top: Shape) -> Iterator[Acceptance]:
    """Warnings that the designer accepts; each must say why."""
    for item in top.listing("accept"):
        shape = Shape(item, top.report, "an entry of `accept`", item.span, "acceptance")
        code, reason = shape.words("code", required=True), shape.words("reason", required=True)
        piece, row, name = shape.words("piece"), shape.words("row"), shape.words("name")
        shape.close()
        if code and reason:
            text = " ".join(reason.text.split())
            piece_row_name = (each.text.strip() if each else "" for each in (piece, row, name))
            in_piece, in_row, about = piece_row_name
            yield Acceptance(code.text.strip(), in_piece, in_row, text, code.span, about=about)
