"""Writes the committed records of the demos anew, and the schema: `make records`. Read the difference before you commit it."""

from __future__ import annotations

import json
from pathlib import Path

from stitchproof.pipeline import check_pattern, record_of
from stitchproof.record.json_form import as_bytes, schema

CLONE = Path(__file__).resolve().parents[2]

if __name__ == "__main__":
    text = json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"
    (CLONE / "compiler/stitchproof/record/record.schema.json").write_text(text)
    for source in sorted((CLONE / "pattern_sources").glob("*/pattern.yaml")):
        record = record_of(check_pattern(source.parent, within=CLONE))
        if record is None:
            raise SystemExit(f"{source.parent.name} cannot be read")
        folder = CLONE / "build" / record.pattern
        folder.mkdir(exist_ok=True)
        (folder / "record.json").write_bytes(as_bytes(record))
