"""`explain` of every name of every demo reads like a worked sum: no line says the same twice or works with what is not worked."""

import re
from pathlib import Path

import pytest

from stitchproof import check_pattern
from stitchproof.expansion.k_values import ks_asked_for
from stitchproof.sizing.derivation import derivation
from stitchproof.source import SourceFile, Span

ROOT = Path(__file__).parents[2]
DEMOS = sorted(folder.name for folder in (ROOT / "pattern_sources").iterdir() if folder.is_dir())


@pytest.mark.parametrize("demo", DEMOS)
def test_every_name_is_told_in_all_sizes_and_in_each(demo: str) -> None:
    found = check_pattern(ROOT / "pattern_sources" / demo, within=ROOT)
    assert found.sized is not None and found.written is not None
    in_use = ks_asked_for(found.sized, found.written.expanded.in_use)
    for quantity in found.sized.quantities:
        for asked in (quantity.name, f"{quantity.name}[{found.sized.sizes[-1]}]"):
            text = derivation(found.sized, Span(SourceFile("asked", asked), 0, len(asked)), in_use)
            assert isinstance(text, str)
            sums = text.partition("\n\n")[2].partition("\n\nused by")[0]
            assert not re.search(r"not worked [=÷×+−]|unknown|no k is in use|\d+ \w+ per \w+s\b", sums), text
            for line in sums.splitlines():
                steps = [step.strip() for step in re.split(r"  +", line)[-1].split(" = ")]
                assert len(steps) == len(set(steps)), line


def test_every_k_of_the_demos_is_in_use() -> None:
    """A value with a k that nothing asks for would be left over from an earlier draft; a plan gives more than a row needs."""
    for demo in DEMOS:
        found = check_pattern(ROOT / "pattern_sources" / demo, within=ROOT)
        assert found.sized is not None and found.written is not None
        with_k = {
            quantity.name for quantity in found.sized.quantities if quantity.parameter and quantity.section != "plans"
        }
        in_use = set(ks_asked_for(found.sized, found.written.expanded.in_use))
        assert with_k == {name for name in in_use if found.sized.scope.quantities[name].section != "plans"}
