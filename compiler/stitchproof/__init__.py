"""stitchproof: a pattern-writing compiler for crochet designers."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stitchproof.pipeline import BuildOutcome, Explanation, build_pattern, check_pattern, explain
    from stitchproof.stages import CheckOutcome

__all__ = ["BuildOutcome", "CheckOutcome", "Explanation", "build_pattern", "check_pattern", "explain"]
__version__ = "0.1.0"


def __getattr__(name: str) -> object:
    """What a program asks for is loaded when it is asked for, so that the command can be stopped while it starts."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    if name == "CheckOutcome":
        from stitchproof.stages import CheckOutcome

        return CheckOutcome
    from stitchproof import pipeline

    return getattr(pipeline, name)
