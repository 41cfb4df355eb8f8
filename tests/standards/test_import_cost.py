"""The tables cost nothing until one is asked for: they lie on the path of `check`."""

import subprocess
import sys
from pathlib import Path

ROOM = Path(__file__).resolve().parents[2] / "compiler/stitchproof/standards"

WATCH = """
import sys
opened = []
sys.addaudithook(lambda event, args: opened.append(str(args[0])) if event == "open" else None)
import {imports}
imported = [name.rpartition("/")[2] for name in opened if name.endswith(".yaml")]
from stitchproof.standards.body import body_table, body_table_keys
body_table_keys()
body_table("children")
body_table("youth")
asked = [name.rpartition("/")[2] for name in opened if name.endswith(".yaml")]
print(imported, asked)
"""


def test_no_table_is_read_on_import_and_each_once_when_asked_for() -> None:
    modules = ", ".join(f"stitchproof.standards.{path.stem}" for path in sorted(ROOM.glob("[!_]*.py")))
    assert modules.count(",") > 10
    run = subprocess.run(
        [sys.executable, "-c", WATCH.format(imports=modules)],
        env={"PYTHONPATH": str(ROOM.parents[1])},
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.strip() == "[] ['children.yaml']"
