"""Loops over a plan: `::: for each dec rnd of crown_dec`. How far they count, and for which sizes each round is."""

from __future__ import annotations

from fractions import Fraction

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.expansion.document import Served
from stitchproof.expansion.faults.loop_does_not_fit_plan import another_word, no_such_plan, plan_counts_nothing
from stitchproof.measures.values import Absent
from stitchproof.reading.pattern_source import Island
from stitchproof.sizing.sized_pattern import PatternScope
from stitchproof.source import Span


def count_to(island: Island, scope: PatternScope) -> range | Diagnostic:
    """1 to the largest k over the sizes, or why there is none; nothing where the plan has a fault of its own."""
    named, what = island.plan or island.span, island.what or island.span
    plan = None if island.shared else scope.plans.get(named.text)
    if plan is None:
        hidden = not island.shared and (named.text in scope.silent or scope.has_gaps)
        return range(0) if hidden else no_such_plan(named, () if island.shared else scope.plans)
    from stitchproof.plans.loop_words import loop_words  # only a text with such a loop needs the plans
    from stitchproof.plans.no_plan import NoPlan

    made = [each for each in plan.plans if not isinstance(each, NoPlan | Absent)]
    words = tuple(dict.fromkeys(word for each in made for word in loop_words(each)))
    if made and not words:
        return plan_counts_nothing(named, plan.entry.kind)
    if made and not _fits(what, words):
        return another_word(what, named.text, words)
    return range(1, max(plan.lengths) + 1)


def sizes_with(island: Island, k: Fraction | str | None, served: Served, scope: PatternScope) -> Served:
    """The sizes whose plan has a k so large. One whose plan has a fault keeps it, so that no other fault follows from it."""
    plan = scope.plans.get(island.plan.text) if island.plan else None
    if plan is None or not isinstance(k, Fraction):
        return ()
    from stitchproof.plans.no_plan import NoPlan  # as above

    unknown = [each is Absent.UNKNOWN or isinstance(each, NoPlan) for each in plan.plans]
    return tuple(size for size in served if unknown[size] or k <= plan.lengths[size])


def _fits(what: Span, words: tuple[str, ...]) -> bool:
    """Whether the loop says what the plan makes: in full, by its last word ("rnd"), or with a counter of its own."""
    said = " ".join(what.text.lower().split()).replace("round", "rnd").replace("buttonhole", "hole")
    every = {form for word in words for form in (word, word.split()[-1], word.split()[0])}
    return said in every or (said.isidentifier() and said not in ("rnd", "row", "hole", "dec", "inc"))
