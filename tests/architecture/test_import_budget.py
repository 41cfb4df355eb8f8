"""What a check loads. Said as a list of libraries rather than a time, so that a slow machine changes nothing."""

import json
import subprocess
import sys

from tests.architecture.code_reader import CLONE, SOURCE_ROOT

ALLOWED = frozenset(
    {
        "yaml",
        "_yaml",
        "cython_runtime",
        "jinja2",
        "markupsafe",
        "markdown_it",
        "mdurl",
        "msgspec",
        "typing_extensions",
        "wcwidth",
    }
)
ALWAYS_THERE = frozenset({"stitchproof", "__main__", "__mp_main__", "sitecustomize", "usercustomize"})

LOADED_BY = """
import json, sys
before = set(sys.modules)
{work}
print(json.dumps(sorted({{name.partition(".")[0] for name in set(sys.modules) - before}})))
"""
CHECK = """
import pathlib, stitchproof
stitchproof.check_pattern(pathlib.Path("pattern_sources/cobblewick_hat"))
"""


def libraries_loaded_by(work: str) -> set[str]:
    """The libraries from outside that a fresh Python has loaded once `work` has run in the clone."""
    program = [sys.executable, "-c", LOADED_BY.format(work=work)]
    ended = subprocess.run(
        program, cwd=CLONE, env={"PYTHONPATH": str(SOURCE_ROOT)}, capture_output=True, text=True, check=False
    )
    assert ended.returncode == 0, ended.stderr
    loaded = set(json.loads(ended.stdout.splitlines()[-1]))
    # A library built with Cython brings a module named after the version that built it.
    loaded = {name for name in loaded if not name.startswith("_cython_")}
    return loaded - sys.stdlib_module_names - ALWAYS_THERE


def test_a_check_loads_no_library_beyond_its_list() -> None:
    loaded = libraries_loaded_by(CHECK)
    assert "weasyprint" not in loaded
    assert loaded <= ALLOWED
    assert "yaml" in loaded, "the check did not read the pattern"
    assert not loaded & {"jinja2", "markdown_it"}, "its texts use none of their signs"


def test_the_count_sees_a_library_that_is_loaded() -> None:
    assert "pypdf" in libraries_loaded_by("import pypdf")


def test_pages_are_set_without_what_speaks_to_the_network() -> None:
    """Before a press can begin: such modules take longer than a page, and nothing of ours uses them."""
    work = (
        "import stitchproof.commands.build, stitchproof.editions.put_out\nimport sys\nassert 'http' not in sys.modules"
    )
    assert "weasyprint" not in libraries_loaded_by(work)
