"""The demo hat with characters and lines taken out, put in and doubled: whatever comes of it, a report, never a crash."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest

from stitchproof import check_pattern
from stitchproof.diagnostics.facts import as_json, facts_of
from stitchproof.diagnostics.terminal import as_text

HAT = Path(__file__).parents[2] / "pattern_sources" / "cobblewick_hat"
FILES = {path.name: path.read_text(encoding="utf-8") for path in sorted(HAT.iterdir()) if path.is_file()}
LONG_SIGNS = ("{{", "}}", "{%", "%}", ":::", "<<", "> ", "- ", "&a ", "*a", "!!")
SIGNS: tuple[str, ...] = (*"<>()[]{}:#|*-%\\\"'`@!&,.=~ \n\t0é🧶kR—\u202e", *LONG_SIGNS)
MUTATIONS = 42
"""`make fuzz` tries more."""


def mutated(text: str, random: Random) -> str:
    """A text with one to three changes."""
    for _ in range(random.randint(1, 3)):
        change: Callable[[str, Random], str] = random.choice(CHANGES)
        text = change(text, random)
    return text


def without(text: str, random: Random) -> str:
    """A stretch of up to twelve characters gone."""
    at = random.randrange(len(text) or 1)
    return text[:at] + text[at + random.randint(1, 12) :]


def doubled(text: str, random: Random) -> str:
    """A character twice."""
    at = random.randrange(len(text) or 1)
    return text[:at] + text[at : at + 1] * 2 + text[at + 1 :]


def with_sign(text: str, random: Random) -> str:
    """A sign that means something to one of the languages of a source."""
    at = random.randrange(len(text) + 1)
    return text[:at] + random.choice(SIGNS) + text[at:]


def with_line(text: str, random: Random) -> str:
    """A line twice."""
    lines = text.split("\n")
    at = random.randrange(len(lines))
    return "\n".join([*lines[: at + 1], *lines[at:]])


def without_line(text: str, random: Random) -> str:
    """A line gone."""
    lines = text.split("\n")
    at = random.randrange(len(lines))
    return "\n".join([*lines[:at], *lines[at + 1 :]])


def with_stretch(text: str, random: Random) -> str:
    """A stretch of the text somewhere else."""
    at, to = random.randrange(len(text) or 1), random.randrange(len(text) or 1)
    return text[:to] + text[at : at + random.randint(1, 40)] + text[to:]


CHANGES: tuple[Callable[[str, Random], str], ...] = (
    without,
    doubled,
    with_sign,
    with_line,
    without_line,
    with_stretch,
)


def ends_in_a_report(files: dict[str, str], tmp_path: Path) -> None:
    """Clean or with findings, never a fault of our own; both forms of the findings can be made."""
    folder = tmp_path / "pattern_sources" / "hat"
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    findings = check_pattern(folder, within=tmp_path).findings
    printed = as_text(facts_of(found) for found in findings)
    assert "SP000" not in printed, printed
    assert as_text(json.loads(as_json(map(facts_of, findings)))["diagnostics"]) == printed


@pytest.mark.parametrize("name", FILES)
def test_a_mutated_file_ends_in_a_report(name: str, tmp_path: Path) -> None:
    random = Random(name)  # noqa: S311  # the same mutations each time
    for _ in range(MUTATIONS // len(FILES)):
        ends_in_a_report({**FILES, name: mutated(FILES[name], random)}, tmp_path)
