"""A Document in other terms, and the report of what was left in the old ones."""

from __future__ import annotations

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.editions.faults.terms_left_over import terms_left_over
from stitchproof.editions.terms import in_terms
from stitchproof.expansion.document import Document


def in_terms_told(document: Document, terms: str) -> tuple[Document, tuple[Diagnostic, ...]]:
    """The Document in "US" or "UK" terms, and a finding where words of the old terms stand there still."""
    turned = in_terms(document, terms)
    return turned.document, (terms_left_over(terms, turned.left),) if turned.left else ()
