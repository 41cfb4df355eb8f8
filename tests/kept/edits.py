"""Edits of a pattern as its designer makes them, one save after the other, and what each save must come to.

`python -m tests.kept.edits --saves 500` tries more of them than the tests do.
"""

from __future__ import annotations

import argparse
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from random import Random

from stitchproof.diagnostics.facts import as_json, facts_of
from stitchproof.diagnostics.terminal import as_text
from stitchproof.kept import Kept
from stitchproof.pipeline import record_of
from stitchproof.record.json_form import as_bytes
from stitchproof.stages import CheckOutcome, checked_folder
from tests.architecture.code_reader import CLONE
from tests.fuzz.mutation import mutated

DEMOS = tuple(sorted(path.parent.name for path in (CLONE / "pattern_sources").glob("*/pattern.yaml")))
_NUMBER = re.compile(r"(?<![\w.])\d+(?![\w.])")
_SLOT = re.compile(r"<[a-z_.]+>")


def copied(demo: str, to: Path) -> Path:
    """A copy of a demo that may be written over."""
    return Path(shutil.copytree(CLONE / "pattern_sources" / demo, to / demo))


def saves(folder: Path, number: int, random: Random) -> Iterator[str]:
    """So many saves of one file each, on top of one another; now and then all files are put back as they were."""
    files = sorted(path for path in folder.iterdir() if path.suffix in (".md", ".yaml", ".csv"))
    first = {path: path.read_text("utf-8") for path in files}
    for save in range(number):
        if save % 5 == 4:
            for path, text in first.items():
                path.write_text(text, "utf-8")
            yield "all as it was"
            continue
        path = random.choice(files)
        text = path.read_text("utf-8") if path.exists() else first[path]
        how = random.choice((_other_number, _other_number, _other_slot, _line_more, _line_less, _anything, _away))
        text = how(text, random)
        if how is _away:
            path.unlink(missing_ok=True)
        else:
            path.write_text(text, "utf-8", newline="\n", errors="surrogatepass")
        yield f"{path.name}: {how.__name__[1:].replace('_', ' ')}"


def _other_number(text: str, random: Random) -> str:
    found = list(_NUMBER.finditer(text))
    if not found:
        return text
    match = random.choice(found)
    return f"{text[: match.start()]}{max(0, int(match[0]) + random.choice((-2, -1, 1, 2)))}{text[match.end() :]}"


def _other_slot(text: str, random: Random) -> str:
    found = list(_SLOT.finditer(text))
    if not found:
        return text
    one, other = random.choice(found), random.choice(found)
    return text[: one.start()] + other[0] + text[one.end() :]


def _line_more(text: str, random: Random) -> str:
    lines = text.split("\n")
    return "\n".join([*lines[: (at := random.randrange(len(lines)))], random.choice(lines), *lines[at:]])


def _line_less(text: str, random: Random) -> str:
    lines = text.split("\n")
    at = random.randrange(len(lines))
    return "\n".join([*lines[:at], *lines[at + 1 :]])


def _anything(text: str, random: Random) -> str:
    return mutated(text, (), random)


def _away(text: str, _: Random) -> str:
    return text


def told(check: CheckOutcome) -> tuple[str, str, bytes]:
    """All that is known of a check: its findings for people and for programs, and its record."""
    record = record_of(check)
    said = as_text(facts_of(found) for found in check.findings)
    return said, as_json(map(facts_of, check.findings)), as_bytes(record) if record else b""


def differences(demo: str, number: int, seed: int) -> Iterator[str]:
    """The saves after which a check that keeps its work says something else than one that begins anew."""
    random = Random(seed)  # noqa: S311  # a draw of tests, no secret
    with tempfile.TemporaryDirectory() as place:
        folder, kept = copied(demo, Path(place)), Kept()
        checked_folder(folder, demo, {}, kept=kept)
        for save in saves(folder, number, random):
            if random.random() < 0.5:  # a preview shows a page before it looks for causes
                checked_folder(folder, demo, {}, kept=kept, causes=False)
            followed, fresh = checked_folder(folder, demo, {}, kept=kept), checked_folder(folder, demo, {})
            if told(followed) != told(fresh):
                yield f"{demo}, seed {seed}, {save}"


def main() -> int:
    """Try a number of saves of each demo and tell those that come out otherwise."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--saves", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    wrong = [each for demo in DEMOS for each in differences(demo, asked.saves, asked.seed)]
    print("\n".join([*wrong, f"{asked.saves} saves of each of {len(DEMOS)} demos, {len(wrong)} come out otherwise"]))
    return int(bool(wrong))


if __name__ == "__main__":
    raise SystemExit(main())
