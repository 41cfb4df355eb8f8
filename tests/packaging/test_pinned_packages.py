"""The requirements files pin every package to one version by its hashes, and name no place to fetch it from."""

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

CLONE = Path(__file__).resolve().parents[2]
PINNED = re.compile(r"(?P<name>[a-z0-9][a-z0-9.-]*)==[0-9][\w.!+]*(?P<hashes>(?: --hash=sha256:[0-9a-f]{64})+)")


def requirement_lines(text: str) -> list[str]:
    """One line per requirement: continuation lines joined, comments and empty lines left out."""
    joined = re.sub(r"\\\n\s*", "", text)
    return [line.strip() for line in joined.splitlines() if line.strip() and not line.lstrip().startswith("#")]


def pinned_names(text: str) -> tuple[set[str], list[str]]:
    """The packages a requirements file pins by version and hash, and every line that does something else."""
    matches = [(line, PINNED.fullmatch(line)) for line in requirement_lines(text)]
    return {match["name"] for _, match in matches if match}, [line for line, match in matches if not match]


def declared(*tables: list[str]) -> set[str]:
    """Names of the distributions in tables of pyproject.toml, as the requirements files spell them."""
    names = (re.split(r"[^A-Za-z0-9._-]", line)[0] for table in tables for line in table)
    return {re.sub(r"[-_.]+", "-", name).lower() for name in names}


def project() -> dict[str, Any]:
    """pyproject.toml."""
    return tomllib.loads((CLONE / "pyproject.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", ["requirements.txt", "requirements-dev.txt"])
def test_every_line_pins_one_version_by_its_hashes(name: str) -> None:
    pinned, others = pinned_names((CLONE / name).read_text(encoding="utf-8"))
    assert others == []
    assert pinned


def test_all_that_is_declared_is_pinned() -> None:
    run, _ = pinned_names((CLONE / "requirements.txt").read_text(encoding="utf-8"))
    dev, _ = pinned_names((CLONE / "requirements-dev.txt").read_text(encoding="utf-8"))
    declares = project()
    needed = declared(declares["project"]["dependencies"], declares["build-system"]["requires"])
    assert sorted(needed - run) == []
    assert sorted(declared(declares["project"]["optional-dependencies"]["dev"]) - dev) == []


def test_both_files_pin_the_same_versions() -> None:
    run = requirement_lines((CLONE / "requirements.txt").read_text(encoding="utf-8"))
    dev = requirement_lines((CLONE / "requirements-dev.txt").read_text(encoding="utf-8"))
    assert sorted(set(run) - set(dev)) == []


def test_the_reader_finds_a_loose_line() -> None:
    text = (
        "# made up\n--index-url https://example.org/simple\npyyaml==6.0 \\\n    --hash=sha256:"
        + "0" * 64
        + "\nwcwidth>=0.2\n"
    )
    assert pinned_names(text) == ({"pyyaml"}, ["--index-url https://example.org/simple", "wcwidth>=0.2"])
