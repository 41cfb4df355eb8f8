"""The libraries as a command loads them: less of them, and all that they do."""

import subprocess
import sys

from tests.architecture.code_reader import CLONE, SOURCE_ROOT

LOADED = """
import sys
from stitchproof.libraries import load_libraries
load_libraries()
import re, msgspec, yaml
"""


def told_by(work: str) -> list[str]:
    """What a fresh Python prints that has loaded the libraries as a command does."""
    program = [sys.executable, "-c", LOADED + work]
    env = {"PYTHONPATH": str(SOURCE_ROOT)}
    return subprocess.run(program, cwd=CLONE, env=env, capture_output=True, text=True, check=True).stdout.splitlines()


def test_what_inspects_source_code_is_not_loaded_and_can_still_be() -> None:
    asked = '*("typing_extensions" in sys.modules, "inspect" in sys.modules)'
    assert told_by(f"print({asked})\nimport typing_extensions\nprint({asked})") == ["False False", "True True"]


def test_a_module_that_is_there_already_stays() -> None:
    program = "import typing_extensions as there\nload_libraries()\nprint(sys.modules['typing_extensions'] is there)"
    assert told_by(program) == ["True"]


def test_expressions_are_compiled_at_once_again() -> None:
    assert told_by("print(type(re.compile('a')).__name__)") == ["Pattern"]


def test_the_reader_in_python_reads_what_it_does_elsewhere() -> None:
    """Its expressions of what does not print, of dates and of what a plain value is were left for later."""
    text = "day: 2026-11-27\\nat: 2026-11-27 10:00:00\\nnumber: 0x1F\\nwhole: [1_000, 1.5, ~, yes, .inf, word]"
    work = f'''
print(yaml.load("{text}", Loader=yaml.SafeLoader))
print(yaml.reader.Reader.NON_PRINTABLE.groups)
try:
    yaml.load("a: \\x07", Loader=yaml.SafeLoader)
except yaml.YAMLError as refused:
    print(type(refused).__name__)
'''
    assert told_by(work) == [
        "{'day': datetime.date(2026, 11, 27), 'at': datetime.datetime(2026, 11, 27, 10, 0), 'number': 31, "
        "'whole': [1000, 1.5, None, True, inf, 'word']}",
        "0",
        "ReaderError",
    ]


def test_values_are_read_into_what_their_annotations_say() -> None:
    work = """
class Row(msgspec.Struct):
    number: int
    words: tuple[str, ...] = ()

print(msgspec.json.decode(b'{"number": 3, "words": ["sc"]}', type=Row))
"""
    assert told_by(work) == ["Row(number=3, words=('sc',))"]
