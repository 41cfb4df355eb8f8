"""The plans cost nothing to a pattern that has none: they lie on the path of `check`."""

import subprocess
import sys

import pytest

from tests.architecture.code_reader import CLONE, SOURCE_ROOT

CHECK = """
import sys, stitchproof
assert not stitchproof.check_pattern("{pattern}").findings
print(sorted(name for name in sys.modules if name.startswith("stitchproof.plans")))
"""


@pytest.mark.parametrize(("pattern", "loads"), [("pebblewold_cowl", False), ("cobblewick_hat", True)])
def test_plans_are_loaded_by_a_pattern_that_has_some(pattern: str, loads: bool) -> None:
    run = subprocess.run(
        [sys.executable, "-c", CHECK.format(pattern=pattern)],
        cwd=CLONE,
        env={"PYTHONPATH": str(SOURCE_ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert ("stitchproof.plans" in run.stdout) is loads, run.stdout
