"""What it costs to hold two records against each other, beyond the start of the compiler: `python -m tests.bench.comparing`."""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path

from tests.bench.stages import ROOT, process_time


def main() -> None:
    """Print the seconds beyond start-up, for the record of a demo and one in which every count of a size is another."""
    name = sys.argv[1] if len(sys.argv) > 1 else "saltmarrow_yoke_top"
    record = ROOT / "build" / name / "record.json"
    with tempfile.TemporaryDirectory() as folder:
        other = Path(folder) / "record.json"
        other.write_text(json.dumps(_other(json.loads(record.read_bytes()))), encoding="utf-8")
        start = process_time("-c", "import stitchproof.command_line, stitchproof.commands.check")
        compare = process_time("-m", "stitchproof", "compare", str(record), str(other))
    print(
        f"\ncompare two records of {name}: {compare - start:.2f} s beyond start-up ({compare / start:.2f} × start-up)"
    )


def _other(record: dict[str, object]) -> dict[str, object]:
    """The record with one more in every number of its last size."""
    sizes = record["by_size"]
    assert isinstance(sizes, dict)
    last = sizes[list(sizes)[-1]]
    for value in last["quantities"].values():
        if str(value.get("value", "")).isdecimal():
            value["value"] = str(int(value["value"]) + 1)
    for block, parts in last["blocks"].items():
        last["blocks"][block] = [[str(int(each) + 1) if each.isdecimal() else each for each in part] for part in parts]
    return record


if __name__ == "__main__":
    main()
