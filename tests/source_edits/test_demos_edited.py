"""Any value of any demo, changed and changed back: the file is the same to the byte, and between the two one value differs."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from stitchproof.diagnostics.report import Report
from stitchproof.formulas.kind import Kind
from stitchproof.measures.units import UNITS
from stitchproof.measures.values import Absent
from stitchproof.reading.pattern_source import Definition, Header
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import Quantity, SizedPattern
from stitchproof.source_edits.edit_source import EditedSource, edited_texts, known_names
from stitchproof.source_edits.pattern_tree import named_entries, pattern_tree
from stitchproof.source_edits.set_values import noun_of
from stitchproof.source_edits.value_forms import value_form
from tests.architecture.code_reader import CLONE
from tests.source_edits.edited import HEADER, asked_for, edit, sized_of

DEMOS = ("cobblewick_hat", "saltmarrow_yoke_top", "thornhollow_waistcoat", "pebblewold_cowl")


@cache
def demo(name: str) -> SizedPattern:
    return sized_of(CLONE / "pattern_sources" / name)


def exact(value: Fraction, kind: Kind) -> str:
    """A value as a formula that gives it exactly."""
    noun = noun_of(kind)
    value = value / UNITS[noun].size if noun in UNITS else value
    return f"{value} {noun}" if value.denominator == 1 else f"({value.numerator} {noun}) / {value.denominator}"


def worked_out(quantity: Quantity, size: int) -> str:
    """What to ask for so that a value is as its formula gives it."""
    value = quantity.values[size]
    return value.value if isinstance(value, Absent) else exact(Fraction(value), quantity.kind)


def texts_in(header: Header) -> dict[str, tuple[str, ...]]:
    """Every number and formula of pattern.yaml as typed, by the name it belongs to."""
    found = {}
    for each in (*header.definitions, *(one for yarn in header.yarns for one in yarn.numbers)):
        found[each.name] = _texts(each)
    for gauge in header.gauges:
        for word in ("stitches", "rows", "over", "rows_per_rib"):
            formula = getattr(gauge, word)
            found[f"{gauge.name} {word}"] = (formula.text,) if formula else ()
    for rate in header.rates:
        found[f"{rate.name} rate"] = tuple(each.text for each in (rate.sts, rate.per, rate.left_over) if each)
    for plan in header.plans:
        for given_to in plan.inputs:
            found[f"{plan.name} {given_to.key}"] = tuple(each.text for each in given_to.formulas if each)
    return found


def _texts(definition: Definition) -> tuple[str, ...]:
    columns = definition.inches.formulas if definition.inches else ()
    formulas = (*definition.formulas, *columns, definition.start, *(each for _, each in definition.in_size))
    return tuple(each.text for each in formulas if each) + tuple(size.text for size, _ in definition.in_size)


def written_again(now: SizedPattern, edited: EditedSource, change: str) -> EditedSource:
    """A change made in a pattern that was edited in memory. now: the pattern that the edited files give."""
    return edited_texts(edited.after, now, [asked_for(now, change)])


@settings(max_examples=15, phases=(Phase.explicit, Phase.reuse, Phase.generate))
@given(st.data())
def test_a_value_changed_and_changed_back(data: st.DataObject) -> None:
    folder = data.draw(st.sampled_from(DEMOS))
    sized = demo(folder)
    name = data.draw(st.sampled_from([each for each in known_names(sized) if not each.endswith("crown_dec.plain")]))
    tree = pattern_tree(sized.source.header_file)
    assert tree is not None
    entry = named_entries(sized.source.header, tree)[name]
    form = value_form(entry, tree)
    assert form is not None
    quantity = sized.scope.quantities.get(name)
    by_size = form.is_list or (form.takes_sizes and quantity is not None and bool(quantity.values))
    by_size = by_size and (form.is_list or not name.startswith(("gauges.", "rates.", "plans.", "yarn.")))
    size = data.draw(st.integers(0, len(sized.sizes) - 1)) if by_size else None
    at = f"[{sized.sizes[size]}]" if size is not None else ""
    number = data.draw(st.integers(1, 400))
    noun = noun_of(quantity.kind) if quantity and not name.startswith("gauges.") else ""
    new = f"{number} {noun}".strip() if data.draw(st.booleans()) or noun in ("", "g", "cm") else str(number)
    held = form.columns[0].scalar(size or 0)
    assert held is not None
    old = held.text if form.is_list or size is None or quantity is None else worked_out(quantity, size)
    edited = edit(CLONE / "pattern_sources" / folder, sized, f"{name}{at}={new}")
    assert edited.faults == ()
    before, after = texts_in(sized.source.header), texts_in(edited.source.header)
    other = [each for each in before if before[each] != after[each]]
    assert other == [] if edited.changed == () else len(other) == 1
    now = size_pattern(edited.source, Report(sized.sizes))
    if quantity and quantity.values and size is not None:
        tried = size_pattern(sized.source, Report(sized.sizes), {(name, size): new})
        assert now.scope.quantities[name].values == tried.scope.quantities[name].values
    back = written_again(now, edited, f"{name}{at}={old}")
    assert back.faults == ()
    assert back.after[HEADER] == edited.before[HEADER]
