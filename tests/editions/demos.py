"""The shipped patterns as editions, each made once for all tests."""

from functools import cache

from stitchproof import CheckOutcome, check_pattern
from stitchproof.editions.choose_sizes import choose_sizes
from stitchproof.editions.edition import Edition, make_editions
from stitchproof.editions.print_document import PrintDocument
from stitchproof.editions.put_out import gauges_asked
from stitchproof.editions.set_type import set_type
from stitchproof.editions.terms import in_terms
from stitchproof.editions.words_in_use import only_words_in_use
from stitchproof.expansion.document import Document
from stitchproof.rows.written_pattern import WrittenPattern
from tests.architecture.code_reader import CLONE

SHIPPED = ("cobblewick_hat", "pebblewold_cowl", "saltmarrow_yoke_top", "thornhollow_waistcoat")


@cache
def checked(name: str) -> CheckOutcome:
    """A shipped pattern, checked."""
    return check_pattern(CLONE / "pattern_sources" / name, within=CLONE)


def written(name: str) -> WrittenPattern:
    """A shipped pattern, read."""
    found = checked(name).written
    assert found is not None
    return found


def document_of(name: str) -> Document:
    """A shipped pattern as it prints, with the yarn that its rows come to."""
    found = checked(name).document
    assert found is not None
    return found


@cache
def in_one_size(name: str, size: int, terms: str = "US") -> Document:
    """A shipped pattern in one size."""
    turned = in_terms(document_of(name), terms).document
    return only_words_in_use(choose_sizes(turned, (size,)))


@cache
def set_in_one_size(name: str, size: int, terms: str = "US") -> PrintDocument:
    return set_type(in_one_size(name, size, terms))


@cache
def made(name: str, edition: str, size: int | None = None) -> Edition:
    """An edition of a shipped pattern: in all its sizes, or in one."""
    document = document_of(name) if size is None else in_one_size(name, size)
    gauges = tuple(gauges_asked(written(name).expanded.sized))
    return make_editions(document, [edition], gauges=gauges)[0]
