"""Steps, tags, labels, tables and the places where no line may break. Common practice, no source."""

import pytest
from msgspec.structs import replace

from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.print_document import (
    LinkText,
    PlainText,
    PrintCaution,
    PrintHeading,
    PrintPassage,
    PrintProse,
    PrintSizeTable,
    PrintStep,
    StrongText,
    Unbroken,
    visible_text,
)
from stitchproof.editions.set_type import set_type
from stitchproof.editions.size_tags import as_line, only_sizes
from stitchproof.expansion.document import (
    Block,
    Caution,
    Link,
    Prose,
    Section,
    Served,
    SizeList,
    SizeTable,
    Tag,
    Times,
)
from tests.editions.page_text import block_texts, plain
from tests.editions.samples import (
    HERE,
    count,
    document,
    heading,
    length,
    line,
    mitt,
    number,
    part,
    passage,
    prose,
    rnds,
    row,
    size_line,
    sizes_of,
    step,
    sts,
    times,
)

ALL: Served = (0, 1, 2, 3, 4)
NUMBERED = sizes_of("Baby Toddler Child Adult Large", (4,), by_number=True)
NAMED = sizes_of("Baby Toddler Child Adult Large", (4,))


def shown(*blocks: Block, sizes: SizeList = NUMBERED, only: Served = ALL, served: Served = ALL) -> list[str]:
    """The text of some blocks of a piece, block by block."""
    printed = set_type(choose_sizes(document(sizes, *blocks, served=served), only))
    return [plain(text) for block in printed.sections[0].blocks for text in block_texts(block) if text]


@pytest.mark.parametrize(
    ("served", "text"),
    [
        ((3,), "Size 4 only:"),
        ((0, 1), "Sizes 1 and 2 only:"),
        ((0, 1, 3), "Sizes 1, 2 and 4 only:"),
        ((1, 2, 3, 4), "Sizes 2 to 5 only:"),
        ((0, 2, 3, 4), "Sizes 1 and 3 to 5 only:"),
        ((0, 1, 2, 4), "Sizes 1 to 3 and 5 only:"),
    ],
)
def test_tags_name_sizes_by_number(served: Served, text: str) -> None:
    assert as_line(only_sizes(served, NUMBERED)) == text


def test_tags_name_sizes_by_name() -> None:
    assert as_line(only_sizes((0, 1), NAMED)) == "Sizes Baby and Toddler only:"
    assert as_line(only_sizes((1, 2, 3), NAMED)) == "Sizes Toddler to Adult only:"


def test_a_step_with_one_tagged_part_says_so_in_its_label() -> None:
    last = step("Dec Rnd 11:", part("[Hdc2tog] 8 times. — {n} hdc", (4,), Tag.ONLY, n=count(None, None, None, None, 8)))
    assert shown(last) == ["Dec Rnd 11, size 5 only: [Hdc2tog] 8 times. — 8 hdc"]


def test_a_step_of_a_tagged_passage_says_so_in_its_label() -> None:
    inc = row("Dec Rnd 7:", "[Hdc2tog] 8 times.", (1, 2, 3, 4))
    assert shown(passage((1, 2, 3, 4), Tag.ONLY, inc)) == ["Dec Rnd 7, sizes 2 to 5 only: [Hdc2tog] 8 times."]


def test_a_short_label_is_held_together_and_a_long_one_is_not() -> None:
    labels = []
    blanks = []
    for label in ("Dec Rnd 11:", "Joining row (both edges held together):"):
        (printed,) = set_type(document(NUMBERED, row(label, "Sc across.", ALL))).sections[0].blocks
        assert isinstance(printed, PrintStep)
        labels.append("".join(getattr(each, "text", "") for each in printed.label))
        blanks.append(printed.lines[0].inlines[0])
    assert labels == ["Dec\u00a0Rnd\u00a011:", "Joining row (both edges held together):"]
    assert blanks == [PlainText("\u00a0"), PlainText(" ")]


def test_a_step_that_serves_few_is_tagged_though_nobody_asked() -> None:
    assert shown(row("Rnd 4:", "Hdc around.", (0, 1))) == ["Rnd 4, sizes 1 and 2 only: Hdc around."]


def test_a_step_without_label_begins_with_its_tag() -> None:
    assert shown(row("", "Work 3 rnds even.", (0,))) == ["Size 1 only: Work 3 rnds even."]


def test_a_step_with_several_parts_prints_each_on_its_own_line() -> None:
    first = part("Sc {a} times.", ALL, a=times(12, 14, 16, 17, 19))
    some = part(
        "Sc in next {b} sts. — {c} sc", (0, 1, 3), Tag.ONLY, b=sts(2, 2, None, 2, None), c=count(62, 72, None, 87, None)
    )
    close = part("— {d} sc", ALL, Tag.ALL, d=count(62, 72, 80, 87, 95))
    assert shown(step("Rnd 1:", first, some, close)) == [
        "Rnd 1: Sc 12 (14, 16, 17, 19) times.",
        "Sizes 1, 2 and 4 only: Sc in next 2 sts. — 62 (72, –, 87, –) sc",
        "All sizes: — 62 (72, 80, 87, 95) sc",
    ]


def test_a_tagged_first_part_leaves_the_label_alone() -> None:
    two = step("Rnd 2:", part("Hdc around.", (1, 2), Tag.ONLY), part("Sc around.", (0, 3, 4), Tag.OTHER))
    assert shown(two) == ["Rnd 2:", "Sizes 2 and 3 only: Hdc around.", "Sizes 1, 4 and 5 only: Sc around."]


def test_all_sizes_again_is_said_by_the_first_step_only() -> None:
    again = passage(ALL, Tag.ALL, row("Rnd 2:", "Sc around.", ALL), row("Rnd 3:", "Sc around.", ALL))
    assert shown(again) == ["Rnd 2, all sizes: Sc around.", "Rnd 3: Sc around."]


def test_a_passage_with_prose_stands_under_a_line() -> None:
    mixed = passage((0,), Tag.ONLY, prose("Use a small needle."), row("Rnd 2:", "Sc around.", (0,)))
    assert shown(mixed) == ["Size 1 only:", "Use a small needle.", "Rnd 2: Sc around."]
    (printed,) = set_type(document(NUMBERED, mixed)).sections[0].blocks
    assert isinstance(printed, PrintPassage)


def test_a_piece_for_some_sizes_says_so_under_its_heading() -> None:
    printed = set_type(document(NUMBERED, row("Row 1:", "Sc across.", (3, 4)), served=(3, 4)))
    assert printed.sections[0].tag == "Sizes 4 and 5 only:"
    assert shown(row("Row 1:", "Sc across.", (3, 4)), served=(3, 4)) == ["Row 1: Sc across."]


def test_make_two_and_cautions() -> None:
    assert shown(Times(2, (row("Row 1:", "Sc across.", ALL),), HERE)) == ["Make 2:", "Row 1: Sc across."]
    (caution,) = set_type(document(NAMED, Caution((0, 1), Tag.ONLY, (prose("Add no cord."),)))).sections[0].blocks
    assert isinstance(caution, PrintCaution)
    assert caution.tag == "Sizes Baby and Toddler only:"


@pytest.mark.parametrize(
    ("text", "value", "expected"),
    [
        ("in next {n} sts, hdc2tog", 1, "in next 1 st, hdc2tog"),
        ("in next {n} `sts`, hdc2tog", 1, "in next 1 st, hdc2tog"),
        ("until there are {n} rows.", 1, "until there are 1 row."),
        ("work {n} rnds even", 1, "work 1 rnd even"),
        ("[sc, dec] {n} times.", 1, "[sc, dec] once."),
        ("[sc, dec] {n} more times.", 1, "[sc, dec] once more."),
        ("{n} ribs", 1, "1 rib"),
        ("{n} sl sts", 1, "1 sl st"),
        ("{n} row-ends", 1, "1 row-end"),
        ("{n} sts", 2, "2 sts"),
        ("{n} times", 2, "2 times"),
        ("{n} stsaddle", 1, "1 stsaddle"),
    ],
)
def test_one_of_a_thing_is_singular_where_one_size_is_left(text: str, value: int, expected: str) -> None:
    one = row("", text, ALL, n=sts(value, 3, 4, 5, 6))
    assert shown(one, only=(0,)) == [expected]


def test_one_of_a_thing_is_singular_where_it_is_one_in_all_sizes() -> None:
    assert shown(row("", "each of next {n} sts", ALL, n=sts(1, 1, 1, 1, 1))) == ["each of next 1 st"]
    assert shown(row("", "[sc] {n} times", ALL, n=sts(1, 1, 1, 1, 1))) == ["[sc] once"]
    assert shown(row("", "next {n} sts", (0, 1), n=sts(1, 1, None, None, None))) == ["Sizes 1 and 2 only: next 1 st"]


def test_plurals_stay_where_the_number_is_not_one_in_all_sizes() -> None:
    assert shown(row("", "next {n} sts", ALL, n=sts(1, 1, 2, 1, 1))) == ["next 1 (1, 2, 1, 1) sts"]
    assert shown(row("", "next {n} sts", (0, 1), n=sts(1, 2, None, None, None))) == [
        "Sizes 1 and 2 only: next 1 (2, –, –, –) sts"
    ]


def test_a_line_for_one_size_has_the_singular_among_all_sizes() -> None:
    assert shown(row("", "next {n} sts", (3,), n=sts(None, None, None, 1, None))) == ["Size 4 only: next 1 st"]


def test_a_length_of_one_keeps_its_words() -> None:
    assert shown(row("", "{n} times", ALL, n=length(1, 2, 3, 4, 5)), only=(0,)) == ["1 cm / ½ in times"]


def test_no_line_ends_between_a_count_and_the_word_before_it() -> None:
    closing = row(
        "Rnd 3:", "[Sc in next {a} sts] 8 times. — {n} sc-blo", ALL, a=sts(1, 2, 3, 4, 5), n=count(8, 16, 24, 32, 40)
    )
    (printed,) = set_type(document(NUMBERED, closing)).sections[0].blocks
    assert isinstance(printed, PrintStep)
    text = "".join(getattr(each, "text", "") for each in printed.lines[0].inlines)
    assert "8\u00a0times.\u00a0—\u00a08\u00a0(16," in text
    assert "next 1\u00a0(2,\u00a03,\u00a04,\u00a05)\u00a0sts]" in text
    assert Unbroken("sc-blo") in printed.lines[0].inlines
    assert "".join(getattr(each, "text", "") for each in printed.label) == "Rnd\u00a03:"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rep Row {n} once", "Rep Row\u00a02\u00a0(3,"),
        ("then every 2nd row {n} more times", "2nd row 2\u00a0(3,"),
        ("on rnd {n} and every 4th rnd 5 times", "4th rnd 5\u00a0times"),
        ("Work even. Ch {n}, turn", "Ch\u00a02\u00a0(3,"),
        ("Ch 1, hdc in next {n} sts, ch 3", "Ch\u00a01, hdc"),
    ],
)
def test_a_row_keeps_its_number_but_not_a_number_of_times(text: str, expected: str) -> None:
    (printed,) = set_type(document(NUMBERED, row("", text, ALL, n=rnds(2, 3, 4, 5, 6)))).sections[0].blocks
    assert isinstance(printed, PrintStep)
    assert expected in "".join(getattr(each, "text", "") for each in printed.lines[0].inlines)


def test_short_words_with_hyphens_stay_whole_in_prose_too() -> None:
    (printed,) = set_type(document(NUMBERED, prose("Each ch-1 sp of the wool-blend yarn."))).sections[0].blocks
    assert isinstance(printed, PrintProse)
    assert printed.inlines == (PlainText("Each "), Unbroken("ch-1"), PlainText("\u00a0sp of the wool-blend yarn."))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Hdc around. ({n} hdc)", "Hdc around. — 64 (72, 80, 88, 96) hdc"),
        ("Hdc around. — {n} hdc", "Hdc around. — 64 (72, 80, 88, 96) hdc"),
        ("Hdc around. ({n} hdc, {m} ch)", "Hdc around. — 64 (72, 80, 88, 96) hdc, 16 ch"),
        ("Hdc around. ({n} hdc) (the last rnd)", "Hdc around. — 64 (72, 80, 88, 96) hdc (the last rnd)"),
        ("({n} hdc (and more))", "(64 (72, 80, 88, 96) hdc (and more))"),
        ("({n} `hdc`)", "— 64 (72, 80, 88, 96) hdc"),
        ("Work [({m} dc, ch 1) in next sp] {n}", "Work [(16 dc, ch 1) in next sp] 64 (72, 80, 88, 96)"),
    ],
)
def test_a_count_in_brackets_prints_after_a_dash(text: str, expected: str) -> None:
    both = row("", text, ALL, n=count(64, 72, 80, 88, 96), m=sts(16, 16, 16, 16, 16))
    assert shown(both) == [expected]


def test_blanks_and_line_ends_of_the_source_are_one_blank() -> None:
    assert shown(row("Rnd 1:", "  Sc in\n    each st.  ", ALL)) == ["Rnd 1: Sc in each st."]


def test_a_size_table_has_a_row_for_each_unit_and_never_collapses() -> None:
    table = SizeTable((size_line("Around", length(40, 40, 40, 40, 40)), size_line("Rows", rnds(1, 2, 3, None, 5))))
    printed = set_type(document(NUMBERED, front=(Section("sizes", "Sizes", (table,)),)))
    (block,) = printed.sections[0].blocks
    assert isinstance(block, PrintSizeTable)
    assert [(row.unit, [cell.text for cell in row.cells]) for row in block.rows] == [
        ("cm", ["40"] * 5),
        ("in", ["15¾"] * 5),
        ("", ["1", "2", "3", "–", "5"]),
    ]
    assert [(column.called, column.name) for column in block.columns][:2] == [("1", "Baby"), ("2", "Toddler")]


def test_how_numbers_are_written_is_shown_on_the_sizes() -> None:
    assert "in the order 1\u00a0(2,\u00a03,\u00a04,\u00a05)." in set_type(document(NUMBERED)).how_to_read
    assert "in the order Baby\u00a0(Toddler, Child, Adult, Large)." in set_type(document(NAMED)).how_to_read
    assert set_type(choose_sizes(document(NAMED), (1,))).how_to_read == ""


def test_headings_inside_a_section_skip_no_level() -> None:
    blocks = set_type(document(NUMBERED, heading(3, "A"), heading(5, "B"), heading(3, "C"))).sections[0].blocks
    assert [block.level for block in blocks if isinstance(block, PrintHeading)] == [3, 4, 3]


def test_only_web_and_mail_addresses_become_links() -> None:
    words = line("here")
    good, bad = Link(words, "https://example.org/a"), Link(words, "javascript:alert(1)")
    (block,) = set_type(document(NUMBERED, Prose((good, bad)))).sections[0].blocks
    assert isinstance(block, PrintProse)
    assert [type(each) for each in block.inlines] == [LinkText, StrongText]
    assert visible_text(block.inlines) == "here (https://example.org/a)here"


def test_a_licence_is_told_once() -> None:
    whole = mitt()
    own = replace(whole, back=(Section("licence", "Use of this pattern", (prose(whole.title_block.licence),)),))
    assert set_type(whole).title.licence == whole.title_block.licence
    assert set_type(own).title.licence == ""


def test_terms_are_told_in_words() -> None:
    assert set_type(document(NUMBERED)).title.terms == "US terms"


def test_a_number_that_nobody_works_is_a_dash() -> None:
    assert shown(row("", "[sc] {n} times", ALL, n=number(0, 2, 3, 4, 5, served=(1, 2, 3, 4))), only=(0,)) == [
        "[sc] – times"
    ]
