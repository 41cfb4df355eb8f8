"""stitchproof: a pattern-writing compiler for crochet designers."""

from stitchproof.pipeline import BuildOutcome, Explanation, build_pattern, check_pattern, explain
from stitchproof.stages import CheckOutcome

__all__ = ["BuildOutcome", "CheckOutcome", "Explanation", "build_pattern", "check_pattern", "explain"]
__version__ = "0.1.0"
