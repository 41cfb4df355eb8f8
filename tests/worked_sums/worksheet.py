"""A worked sum as a designer has it: a small pattern.yaml, its values in every size, and what the rules say of it."""

from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from textwrap import dedent

from stitchproof import check_pattern
from stitchproof.diagnostics.page import Example
from stitchproof.measures.values import Value
from tests.checks.smallest_pattern import write_example
from tests.sizing.written_pattern import Sized

Finding = tuple[str, tuple[str, ...]]
"""The name of what is reported, and the sizes it concerns."""


def numbers(found: Sized, name: str) -> list[Fraction]:
    """A value in every size; each size has one."""
    values: list[Value] = list(found.values(name))
    whole = [value for value in values if isinstance(value, Fraction)]
    assert len(whole) == len(values), name
    return whole


def number(found: Sized, name: str, size: int = 0) -> Fraction:
    """A value in one size."""
    return numbers(found, name)[size]


def unrounded(found: Sized, name: str, size: int = 0) -> Fraction:
    """What a value came to before it was rounded."""
    raw = found.quantity(name).raw[size]
    assert isinstance(raw, Fraction)
    return raw


def checked(yaml: str, text: str = "") -> list[Finding]:
    """What `check` reports of a fragment of pattern.yaml and of text; the rest is the smallest pattern."""
    with TemporaryDirectory() as folder:
        pattern = write_example(Example(dedent(yaml).lstrip("\n"), dedent(text).lstrip("\n"), None), Path(folder))
        outcome = check_pattern(pattern, within=Path(folder))
    return [(found.page.name, found.sizes) for found in outcome.findings]


def sizes(number_of_them: int) -> str:
    """The line of pattern.yaml for so many sizes, named 1, 2, 3 …"""
    return f"sizes: {{names: [{', '.join(str(each) for each in range(1, number_of_them + 1))}]}}"


def per_size(values: Iterable[int | Fraction], unit: str) -> str:
    """A list for pattern.yaml, one value per size."""
    return f"[{', '.join(f'{value} {unit}'.strip() for value in values)}]"
