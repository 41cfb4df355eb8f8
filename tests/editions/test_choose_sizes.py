"""Choosing sizes: what serves none vanishes, what says nothing any more goes unsaid, every number stays."""

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import make_editions
from stitchproof.editions.print_document import PrintBlock, PrintPassage, PrintStep, Vector
from stitchproof.editions.set_type import set_type
from stitchproof.expansion.document import Document, Note, Part, Passage, Section, SizeTable, Step, Tag
from tests.editions.page_text import block_texts, document_blocks, html_blocks, html_of, line_vectors
from tests.editions.samples import (
    ALL7,
    ALL9,
    count,
    document,
    length,
    line,
    mitt,
    part,
    passage,
    prose,
    row,
    size_line,
    sizes_of,
    step,
    times,
    yoke,
)

MITT, YOKE = mitt(), yoke()
FIVE = sizes_of("A B C D E", (4,), by_number=True)
ALL = (0, 1, 2, 3, 4)


def test_choosing_every_size_changes_nothing() -> None:
    assert choose_sizes(MITT, ALL7) == MITT
    assert choose_sizes(YOKE, ALL9) == YOKE


def test_choosing_no_size_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one size"):
        choose_sizes(MITT, (99,))


def test_places_that_serve_none_of_the_chosen_vanish() -> None:
    table = SizeTable((size_line("Strap", length(1, 2, None, None, None)),))
    only_small = passage((0, 1), Tag.ONLY, row("Rnd 2:", "Sc around.", (0, 1)))
    whole = document(
        FIVE, row("Rnd 1:", "Sc around.", ALL), only_small, Note((only_small,)),
        front=(Section("sizes", "Sizes", (table,)),),
    )  # fmt: skip
    chosen = choose_sizes(whole, (3, 4))
    assert chosen.front == ()
    assert [type(block) for block in chosen.pieces[0].blocks] == [Step]
    assert chosen.sizes.chosen == (3, 4)


def test_a_piece_without_a_chosen_size_vanishes() -> None:
    whole = document(FIVE, row("Row 1:", "Sc across.", (0,)), served=(0,))
    assert choose_sizes(whole, (1, 2)).pieces == ()


def test_a_tag_stays_while_it_tells_sizes_apart() -> None:
    whole = document(
        FIVE, passage((0, 1), Tag.ONLY, row("Rnd 2:", "Sc.", (0, 1))), passage(ALL, Tag.ALL, row("", "End.", ALL))
    )
    both = [block.tag for block in choose_sizes(whole, (1, 2)).pieces[0].blocks if isinstance(block, Passage)]
    assert both == [Tag.ONLY, Tag.ALL]
    inside = [block.tag for block in choose_sizes(whole, (0, 1)).pieces[0].blocks if isinstance(block, Passage)]
    assert inside == [Tag.NONE, Tag.NONE]
    outside = [block.tag for block in choose_sizes(whole, (3, 4)).pieces[0].blocks if isinstance(block, Passage)]
    assert outside == [Tag.NONE]


def test_parts_of_a_step_are_chosen_one_by_one() -> None:
    two = step("Rnd 2:", part("Hdc.", (0, 1), Tag.ONLY), part("Sc.", (2, 3, 4), Tag.OTHER), part("End.", ALL, Tag.ALL))
    (chosen,) = choose_sizes(document(FIVE, two), (2,)).pieces[0].blocks
    assert isinstance(chosen, Step)
    assert [(each.served, each.tag) for each in chosen.parts] == [((2,), Tag.NONE), ((2,), Tag.NONE)]


@pytest.mark.parametrize(
    ("chosen", "groups"),
    [
        ((0,), ()),
        ((3, 4, 6), (2,)),
        ((0, 1, 2, 3, 4, 5), (5,)),
        ((0, 2, 3, 4, 5, 6, 8), (3, 3)),
        ((4, 5, 6, 7, 8), (4,)),
    ],
)
def test_few_sizes_stand_in_one_bracket_more_keep_theirs(chosen: tuple[int, ...], groups: tuple[int, ...]) -> None:
    assert choose_sizes(YOKE, chosen).sizes.groups == groups


@given(st.sets(st.sampled_from(ALL7), min_size=1), st.sets(st.sampled_from(ALL7), min_size=1))
def test_choosing_twice_is_choosing_what_both_leave(one: set[int], other: set[int]) -> None:
    left = tuple(sorted(one & other))
    if left and len(left) < len(ALL7):
        twice = choose_sizes(choose_sizes(MITT, tuple(sorted(one))), tuple(sorted(other)))
        assert twice == choose_sizes(MITT, left)


@pytest.mark.parametrize(("whole", "sizes"), [(MITT, ALL7), (YOKE, ALL9)])
def test_one_size_reads_the_numbers_it_reads_among_all(whole: Document, sizes: tuple[int, ...]) -> None:
    among_all = {each.identity: each for each in _steps(_blocks(whole))}
    for size in sizes:
        alone = list(_steps(_blocks(choose_sizes(whole, (size,)))))
        assert alone
        for each in alone:
            assert _numbers(each, size) == _numbers(among_all[each.identity], size)


def _blocks(whole: Document) -> list[PrintBlock]:
    return [block for section in set_type(whole).sections for block in section.blocks]


@pytest.mark.parametrize("size", ALL7)
def test_an_edition_for_one_size_has_no_vector_dash_or_tag(size: int) -> None:
    for text in document_blocks(set_type(choose_sizes(MITT, (size,)))):
        assert "–" not in text
        assert " only" not in text.replace("loop only", "")
        assert "All sizes" not in text


def _steps(blocks: list[PrintBlock]) -> Iterator[PrintStep]:
    for block in blocks:
        if isinstance(block, PrintStep):
            yield block
        elif isinstance(block, PrintPassage):
            yield from _steps(list(block.blocks))


def _numbers(printed: PrintStep, size: int) -> list[str]:
    """What a size reads in a step; a dash is nothing to read. Lines for other sizes hold only their numbers."""
    vectors = [vector for each in printed.lines for vector in line_vectors(each.inlines)]
    return [text for vector in vectors if (text := _read(vector, size)) not in (None, "–")]


def _read(vector: Vector, size: int) -> str | None:
    entries = [entry for group in vector.groups for entry in group]
    return next((entry.text for entry in entries if entry.size in (None, size)), None)


def test_in_one_size_the_parts_of_a_step_run_on() -> None:
    every = part("Rep Rnd 2, working Dec Rnd every 3 rnds {t} times.", ALL, t=times(4, 5, 6, 7, 8))
    some = part("Then every 4 rnds {t} times.", (0, 2), Tag.ONLY, t=times(2, None, 3, None, None))
    close = part("— {n} `sc`", ALL, Tag.ALL, n=count(62, 72, 80, 87, 95))
    whole = document(FIVE, step("", every, some, close))
    assert shown(whole, (0,)) == ["Rep Rnd 2, working Dec Rnd every 3 rnds 4 times. Then every 4 rnds 2 times. — 62 sc"]
    assert shown(whole, (1,)) == ["Rep Rnd 2, working Dec Rnd every 3 rnds 5 times. — 72 sc"]


def test_one_size_does_not_read_the_same_count_twice() -> None:
    around = part("Sc {t} times. — {n} `sc`", ALL, t=times(12, 14, 16, 17, 19), n=count(60, 70, 80, 85, 95))
    some = part("Sc in next 2. ({n} `sc`)", (0, 1, 3), Tag.ONLY, n=count(62, 72, None, 87, None))
    close = part("— {n} `sc`", ALL, Tag.ALL, n=count(62, 72, 80, 87, 95))
    whole = document(FIVE, step("Rnd 1:", around, some, close))
    assert shown(whole, (0,)) == ["Rnd 1: Sc 12 times. — 60 sc", " Sc in next 2. — 62 sc"]
    assert shown(whole, (2,)) == ["Rnd 1: Sc 16 times. — 80 sc"]
    assert shown(whole, (0, 2))[-1] == "All sizes: — 62 (80) sc"
    assert shown(whole, ALL)[-1] == "All sizes: — 62 (72, 80, 87, 95) sc"


@pytest.mark.parametrize(
    ("first", "last"),
    [
        ("Sc around. — {n} `sc`", "— {m} `sc`"),
        ("Sc around. — {n} `sc`", "— {n} `hdc`"),
        ("Sc in each of {n} sts.", "— {n} `sc`"),
        ("Sc around. — {n} `sc`", "Turn. — {n} `sc`"),
        ("Sc around. — {n} `sc`, {m} `ch`", "— {n} `sc`"),
    ],
)
def test_a_count_that_was_not_just_stated_stays(first: str, last: str) -> None:
    words = [line(text, n=count(62, 72, 80, 87, 95), m=count(1, 2, 3, 4, 5)) for text in (first, last)]
    two = step("Rnd 1:", *(Part(ALL, tag, tokens) for tag, tokens in zip((Tag.NONE, Tag.ALL), words, strict=True)))
    assert len(shown(document(FIVE, two), (3,))) == 2


def shown(whole: Document, sizes: tuple[int, ...]) -> list[str]:
    return [text for block in _blocks(choose_sizes(whole, sizes)) for text in block_texts(block)]


@pytest.mark.parametrize(
    ("chosen", "stem", "label"),
    [
        ((5,), "fernhythe_mitts_size_l", "Size L"),
        ((0, 3), "fernhythe_mitts_sizes_tot_s", "Sizes Tot and S"),
        ((0, 1, 6), "fernhythe_mitts_sizes_tot_child_xl", "Sizes Tot, Child and XL"),
        (ALL7, "fernhythe_mitts_all_sizes", "All sizes"),
    ],
)
def test_files_and_title_name_the_sizes_that_are_in_them(chosen: tuple[int, ...], stem: str, label: str) -> None:
    (edition,) = make_editions(choose_sizes(MITT, chosen), ["all_sizes"])
    assert [file.name for file in edition.files] == [f"{stem}.html", f"{stem}.pdf"]
    assert label in html_blocks(html_of(edition))


def test_sizes_called_by_number_are_named_beside_it() -> None:
    assert set_type(choose_sizes(YOKE, (2, 3))).chosen == "Sizes 3 M and 4 L"


def test_a_size_without_a_letter_that_files_can_hold_is_named_by_its_number() -> None:
    whole = document(sizes_of("小 中 大", (2,)), row("Row 1:", "Sc across.", (0, 1, 2)))
    (edition,) = make_editions(choose_sizes(whole, (1,)), ["all_sizes"])
    assert edition.files[0].name == "sample_size_2.html"


def test_prose_keeps_its_words() -> None:
    whole = document(FIVE, prose("Turn. Then go on."))
    assert choose_sizes(whole, (0,)).pieces[0].blocks == whole.pieces[0].blocks
