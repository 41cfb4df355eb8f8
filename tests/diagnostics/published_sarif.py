"""Logs read back against the published schema of SARIF 2.1.0, and the text that their regions name.

sarif-schema-2.1.0.json beside this file is the JSON Schema of the OASIS standard SARIF 2.1.0 in the edition of the JSON
Schema Store (sarif-2.1.0-rtm.5.json), byte for byte as the npm package @microsoft/jest-sarif 1.0.0-beta.0 ships it under
the MIT licence. It declares draft 4. Formats ("uri-reference") are not checked through it; URIs have a test of their own.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from jsonschema import Draft4Validator

SCHEMA = json.loads(Path(__file__).with_name("sarif-schema-2.1.0.json").read_text("utf-8"))
PUBLISHED = Draft4Validator(SCHEMA)


def valid(text: str) -> dict[str, Any]:
    """A log read back, after the schema has found nothing in it."""
    log: dict[str, Any] = json.loads(text)
    assert [f"{error.json_path}: {error.message}" for error in PUBLISHED.iter_errors(log)] == []
    return log


def only_run(log: dict[str, Any]) -> dict[str, Any]:
    (run,) = log["runs"]
    assert isinstance(run, dict)
    return run


def cut(text: str, region: dict[str, int]) -> str:
    """The text that a region names, by §3.30: lines and columns from 1, the end column one past the last character."""
    lines = text.split("\n")[region["startLine"] - 1 : region["endLine"]]
    lines[-1] = lines[-1][: region["endColumn"] - 1]
    lines[0] = lines[0][region["startColumn"] - 1 :]
    return "\n".join(lines)
