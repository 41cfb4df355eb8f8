"""The cells of a grading sheet that were changed, as changes of the pattern."""

from __future__ import annotations

from stitchproof.formulas.tree import Amount
from stitchproof.grading.read_back import ReadBack
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile
from stitchproof.source_edits.asked import SetValue


def set_values_of(read: ReadBack, sized: SizedPattern, shown: str) -> tuple[SetValue, ...]:
    """One for each changed number; one for all sizes where a number that stands for all was changed alike in each."""
    whole = SourceFile(shown, "").whole
    by_name: dict[str, dict[int, str]] = {}
    for (name, size), text in read.values.items():
        by_name.setdefault(name, {})[size] = text
    found: list[SetValue] = []
    for name, texts in by_name.items():
        alike = len(texts) == len(sized.sizes) and len(set(texts.values())) == 1
        if alike and _stands_for_all(name, sized):
            found.append(SetValue(name, None, None, texts[0], whole))
        else:
            found += [SetValue(name, None, size, text, whole) for size, text in texts.items()]
    return tuple(found)


def _stands_for_all(name: str, sized: SizedPattern) -> bool:
    """Whether one number is typed for all sizes."""
    definition = sized.definition(name.removeprefix("body."))
    formula = definition.formulas[0] if definition and not definition.by_hand and not definition.in_size else None
    return formula is not None and isinstance(formula.node, Amount)
