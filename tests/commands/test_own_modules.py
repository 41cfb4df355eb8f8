"""Modules of the compiler as a command finds them are as Python finds them."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.architecture.code_reader import CLONE, SOURCE_ROOT

TELL = """
import sys
from importlib import import_module
if sys.argv[1] == "own":
    from stitchproof.own_modules import find_own_modules
    find_own_modules()
    find_own_modules()
for name in ("stitchproof.source", "stitchproof.checks", "stitchproof.checks.judge", "stitchproof.reading.faults.yaml_trap"):
    module = import_module(name)
    spec = module.__spec__
    held = (spec.name, spec.origin, spec.cached, spec.has_location, spec.submodule_search_locations, spec.parent)
    print(held, module.__file__, module.__cached__, module.__package__, type(module.__loader__).__name__)
print(sum(type(finder).__name__ == "OwnModules" for finder in sys.meta_path))
try:
    import stitchproof.checks.no_such_rule
except ModuleNotFoundError as missing:
    print(missing)
"""


def told(how: str, *options: str) -> list[str]:
    """What a fresh Python tells of some modules."""
    program = [sys.executable, *options, "-c", TELL, how]
    env = {"PYTHONPATH": str(SOURCE_ROOT)}
    return subprocess.run(program, cwd=CLONE, env=env, capture_output=True, text=True, check=True).stdout.splitlines()


@pytest.mark.parametrize("kept", ["beside", "elsewhere", "optimized"])
def test_a_module_is_the_one_that_python_finds(kept: str, tmp_path: Path) -> None:
    options = {"beside": (), "elsewhere": ("-X", f"pycache_prefix={tmp_path}"), "optimized": ("-O",)}[kept]
    ours, pythons = told("own", *options), told("python", *options)
    assert ours[:-2] == pythons[:-2]
    assert ours[-2:] == ["1", "No module named 'stitchproof.checks.no_such_rule'"]
    assert pythons[-2:] == ["0", "No module named 'stitchproof.checks.no_such_rule'"]
    assert (str(tmp_path) in "".join(ours)) is (kept == "elsewhere")


def test_what_lies_in_no_folder_is_left_to_python(tmp_path: Path) -> None:
    archive = tmp_path / "packed.zip"
    with zipfile.ZipFile(archive, "w") as packed:
        for name in ("__init__", "own_modules", "once"):
            packed.write(SOURCE_ROOT / "stitchproof" / f"{name}.py", f"stitchproof/{name}.py")
    work = "from stitchproof.own_modules import find_own_modules\nfind_own_modules()\nimport stitchproof.once as found"
    program = [sys.executable, "-c", f"{work}\nprint(found.__file__)"]
    env = {"PYTHONPATH": str(archive)}
    run = subprocess.run(program, cwd=tmp_path, env=env, capture_output=True, text=True, check=True)
    assert run.stdout.strip() == str(archive / "stitchproof" / "once.py")
