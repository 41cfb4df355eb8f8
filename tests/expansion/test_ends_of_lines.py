"""A step stands where its line stands in the file: from its first sign to its last, whatever slots it holds."""

import pytest

from stitchproof.expansion.document import steps_of
from tests.editions.demos import document_of
from tests.kept.edits import DEMOS


@pytest.mark.parametrize("demo", DEMOS)
def test_each_step_of_the_demos_stands_at_its_whole_line(demo: str) -> None:
    for piece in document_of(demo).pieces:
        for step in steps_of(piece.blocks):
            span = step.place.span
            assert span == span.file.line_span(span.file.line_column(span.start)[0])
