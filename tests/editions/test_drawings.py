"""The schematics of the demos, read back from the page: to scale, bound to the numbers, readable, and told in words."""

from __future__ import annotations

import re
from functools import cache
from math import atan, hypot, pi
from xml.etree import ElementTree

import pytest

from stitchproof import check_pattern
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.house_words import with_words
from stitchproof.editions.print_document import PrintDocument, visible_text
from stitchproof.editions.set_type import set_type
from stitchproof.expansion.document import Document, Schematics, blocks_of
from stitchproof.measures.print_grid import cm_text, inch_text
from stitchproof.outlines.outline import measured
from tests.editions.drawn_pages import Page, drawings_on, overlapping, schematics_of

DEMOS = {"cobblewick_hat": 5, "pebblewold_cowl": 3, "saltmarrow_yoke_top": 9, "thornhollow_waistcoat": 10}
SIZES = [pytest.param(name, size, id=f"{name}-{size + 1}") for name, number in DEMOS.items() for size in range(number)]
ONE_PERCENT = 0.01


@cache
def document_of(name: str) -> Document:
    written = check_pattern(name).written
    assert written is not None
    return written.document


@cache
def one_size(name: str, size: int) -> PrintDocument:
    return set_type(choose_sizes(document_of(name), (size,)))


@cache
def pages_of(name: str, size: int | None, leaf: str = "paper") -> tuple[Page, ...]:
    """The drawings for one size, or for all."""
    return tuple(drawings_on(set_type(document_of(name)) if size is None else one_size(name, size), leaf))


def drawings_of(name: str) -> Schematics:
    (block,) = [each for each in blocks_of(document_of(name)) if isinstance(each, Schematics)]
    return block


@pytest.mark.parametrize(("name", "size"), SIZES)
def test_every_straight_measure_is_drawn_to_one_scale(name: str, size: int) -> None:
    """Millimetres on paper by centimetres in the pattern: the same in every line of every drawing, within 1 %."""
    scales: list[float] = []
    for drawing, page in zip(drawings_of(name).drawings, pages_of(name, size), strict=True):
        for measure in drawing.measures:
            value = measure.number.values[size]
            if measure.run != "along":
                scales.append(page.lines[measure.letter] * (2 if measure.around else 1) / float(value))  # type: ignore[arg-type]
    assert min(scales) >= max(scales) * (1 - ONE_PERCENT)


@pytest.mark.parametrize("size", range(9))
def test_the_yoke_keeps_the_length_of_both_edges(size: int) -> None:
    """Arc = radius times angle, read from the path; half of the neck and of the yoke, at the scale of the body's width."""
    yoke, body = pages_of("saltmarrow_yoke_top", size)[:2]
    drawn = {each.name: each for each in drawings_of("saltmarrow_yoke_top").drawings}
    numbers = {measure.letter: measure.number.values[size] for each in drawn.values() for measure in each.measures}
    scale = body.lines["D"] * 2 / float(numbers["D"])  # type: ignore[arg-type]
    lengths, here = [], (0.0, 0.0)
    for command, at in yoke.outline:
        if command == "A":
            chord = hypot(at[-2] - here[0], at[-1] - here[1])
            half = atan(chord / 2 / (at[0] ** 2 - chord**2 / 4) ** 0.5)
            lengths.append(at[0] * 2 * (pi - half if at[3] else half))
        here = (at[-2], at[-1]) if at else here
    assert [2 * each / scale for each in lengths] == pytest.approx(
        [float(numbers["B"]), float(numbers["A"])],  # type: ignore[arg-type]
        rel=ONE_PERCENT,
    )


@pytest.mark.parametrize(("name", "size"), SIZES)
def test_an_outline_is_as_wide_and_high_as_its_corners_say(name: str, size: int) -> None:
    """The path on paper, its curves' control points left out, spans what the outline in centimetres spans."""
    for drawing, page in zip(drawings_of(name).drawings, pages_of(name, size), strict=True):
        outline = drawing.outlines[size]
        assert outline is not None
        ends = [(at[-2], at[-1]) for _, at in page.outline if at]
        across = max(x for x, _ in ends) - min(x for x, _ in ends)
        up = max(y for _, y in ends) - min(y for _, y in ends)
        xs, ys = [corner.x for corner in outline.corners], [corner.y for corner in outline.corners]
        assert across / up == pytest.approx((max(xs) - min(xs)) / (max(ys) - min(ys)), rel=1e-3)


@pytest.mark.parametrize(("name", "size"), SIZES)
def test_the_numbers_on_a_drawing_are_those_of_the_pattern(name: str, size: int) -> None:
    """Each label says its letter and, in both units, the value of its quantity; the table says the same."""
    printed = one_size(name, size)
    table = schematics_of(printed).table
    assert table is not None
    in_table = {(visible_text(row.label)[0], row.unit): row.cells[0].text for row in table.rows}
    for drawing, page in zip(drawings_of(name).drawings, pages_of(name, size), strict=True):
        said = " ".join(page.labels).replace("\N{NO-BREAK SPACE}", " ")
        for measure in drawing.measures:
            value = measure.number.values[size]
            cm, inches = cm_text(value), inch_text(value)  # type: ignore[arg-type]
            assert re.search(rf"\b{measure.letter}\s+{re.escape(cm)} cm (/ )?{re.escape(inches)} in", said), said
            assert in_table[measure.letter, "cm"] == cm
            assert in_table[measure.letter, "in"] == inches


@pytest.mark.parametrize("name", DEMOS)
def test_in_all_sizes_letters_stand_on_the_drawing_and_numbers_in_the_table(name: str) -> None:
    printed = set_type(document_of(name))
    block = schematics_of(printed)
    letters = [label for page in drawings_on(printed) for label in page.labels]
    assert block.table is not None
    assert set(letters) == {visible_text(row.label)[0] for row in block.table.rows}
    assert not re.search(r"\d", "".join(letters))
    assert all(len(row.cells) == DEMOS[name] for row in block.table.rows)


@pytest.mark.parametrize("leaf", ["paper", "screen"])
@pytest.mark.parametrize("name", DEMOS)
def test_labels_stand_clear_of_each_other_and_on_the_paper(name: str, leaf: str) -> None:
    pages = [page for size in range(DEMOS[name]) for page in pages_of(name, size, leaf)]
    for page in [*pages, *pages_of(name, None, leaf)]:
        boxes, (width, height) = page.boxes(), page.size
        assert not list(overlapping(boxes))
        assert all(left >= 0 and top >= 0 and right <= width and low <= height for _, (left, top, right, low) in boxes)


@pytest.mark.parametrize("edition", ["one_size", "large_print"])
@pytest.mark.parametrize("size", range(DEMOS["saltmarrow_yoke_top"]))
def test_a_bent_line_runs_through_no_label(size: int, edition: str) -> None:
    """The neck of the yoke: three rows of label stand above the arms of its line, not between them."""
    pages = drawings_on(one_size("saltmarrow_yoke_top", size), "paper", edition)
    bent = [part for page in pages for part in page.bent]
    assert len(bent) > 10
    for page in pages:
        for words, (left, top, right, low) in page.boxes():
            through = [
                part for part in page.bent if part[0] < right and part[2] > left and part[1] < low and part[3] > top
            ]
            assert not through, words


@pytest.mark.parametrize("leaf", ["paper", "screen"])
@pytest.mark.parametrize("name", DEMOS)
def test_no_outline_runs_through_a_label(name: str, leaf: str) -> None:
    """The straight sides of the outline; a label inside the piece lies between them."""
    pages = [page for size in range(DEMOS[name]) for page in pages_of(name, size, leaf)]
    for page in [*pages, *pages_of(name, None, leaf)]:
        here = (0.0, 0.0)
        for command, at in page.outline:
            if command == "L":
                for words, (left, top, right, low) in page.boxes():
                    xs, ys = sorted((here[0], at[0])), sorted((here[1], at[1]))
                    level_or_upright = xs[1] - xs[0] < 0.01 or ys[1] - ys[0] < 0.01
                    through = xs[0] < right and xs[1] > left and ys[0] < low and ys[1] > top
                    assert not (level_or_upright and through), words
            here = (at[-2], at[-1]) if at else here


def test_a_designer_may_say_otherwise_how_drawings_are_read() -> None:
    own = {"drawn_pieces_of_size": "Drawn in size {size}.", "drawn_around": ""}
    assert schematics_of(with_words(set_type(document_of("cobblewick_hat")), own)).drawn_for == "Drawn in size 4 Adult."
    alone = schematics_of(with_words(one_size("cobblewick_hat", 0), own))
    assert alone.drawn_for == "All pieces are drawn to one scale."


def test_another_value_moves_the_line() -> None:
    """A drawing follows its numbers: a longer body, a longer line, and nothing else on that piece moves."""
    longer = check_pattern("cobblewick_hat", {"body_rnds[Adult]": "12 rnds"}).written
    assert longer is not None
    (block,) = [each for each in blocks_of(longer.document) if isinstance(each, Schematics)]
    before, after = drawings_of("cobblewick_hat").drawings[1], block.drawings[1]
    for drawing, rounds in ((before, 7), (after, 12)):
        outline = drawing.outlines[3]
        assert outline is not None
        straight = measured(outline, "body_start", "crown_start", "up")
        assert straight == pytest.approx((rounds - 1) / 1.2)
    assert before.outlines[2] == after.outlines[2]


def test_pages_of_two_builds_are_the_same() -> None:
    """Nothing of a drawing depends on when or in which order it is made."""
    one, two = (drawings_on(one_size("thornhollow_waistcoat", 2)) for _ in range(2))
    assert [page_text(each) for each in one] == [page_text(each) for each in two]


def page_text(page: Page) -> str:
    return ElementTree.tostring(page.root, encoding="unicode")
