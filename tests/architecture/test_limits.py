"""Limits of the house: length of modules and functions, names that say nothing, docstrings on all that is public."""

import ast
from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath

from tests.architecture.code_reader import CLONE, Module, compiler_modules, read_module

LONGEST_MODULE = 400
LONGEST_FUNCTION = 50
EMPTY_NAMES = frozenset({"utils", "util", "helpers", "helper", "common", "misc", "core", "base"})

Definition = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


def too_long(modules: Iterable[Module]) -> list[str]:
    """Modules and functions (docstring included) over the limit."""
    found = []
    for module in modules:
        lines = len(module.text.splitlines())
        if lines > LONGEST_MODULE:
            found.append(f"{module.place}: {lines} lines")
        for node in ast.walk(module.tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                lines = (node.end_lineno or node.lineno) - node.lineno + 1
                if lines > LONGEST_FUNCTION:
                    found.append(f"{module.place}:{node.lineno}: {node.name} has {lines} lines")
    return found


def empty_names(places: Iterable[str]) -> list[str]:
    """Places with a folder or module whose name says nothing about its subject."""
    return [
        place for place in places if EMPTY_NAMES & {part.lower() for part in PurePosixPath(place).with_suffix("").parts}
    ]


def without_docstring(modules: Iterable[Module]) -> list[str]:
    """Public modules, classes, functions and methods without a docstring; a method of one statement needs none."""
    found = []
    for module in modules:
        if any(is_private(part) for part in module.name.split(".")):
            continue
        if ast.get_docstring(module.tree) is None:
            found.append(f"{module.place}:1: the module")
        found.extend(
            f"{module.place}:{node.lineno}: {node.name}"
            for node in public_definitions(module.tree.body)
            if ast.get_docstring(node) is None
        )
    return found


def public_definitions(body: list[ast.stmt]) -> Iterator[Definition]:
    """Public classes and functions, and the public methods of those classes; overloads and overrides left out."""
    for node in body:
        if isinstance(node, ast.If):
            yield from public_definitions(node.body)
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) or is_private(node.name):
            continue
        if {"overload", "override"} & {ast.unparse(decorator).rpartition(".")[2] for decorator in node.decorator_list}:
            continue
        yield node
        if isinstance(node, ast.ClassDef):
            yield from (inner for inner in public_definitions(node.body) if len(inner.body) > 1)


def is_private(name: str) -> bool:
    """Whether a name is private or one that Python itself calls; `__main__` is neither."""
    return name.startswith("_") and name != "__main__"


def test_modules_and_functions_keep_to_the_limit() -> None:
    assert too_long(compiler_modules()) == []


def test_no_folder_or_module_has_an_empty_name() -> None:
    tests = [path.relative_to(CLONE).as_posix() for path in (CLONE / "tests").rglob("*.py")]
    assert empty_names([*(module.place for module in compiler_modules()), *tests]) == []


def test_everything_public_has_a_docstring() -> None:
    assert without_docstring(compiler_modules()) == []


def test_the_reader_finds_what_is_too_long() -> None:
    function = "def knit() -> None:\n" + "    pass\n" * 50
    module = read_module("rows.knit", function + "\n" * 350)
    assert too_long([module]) == ["made_up.py: 401 lines", "made_up.py:1: knit has 51 lines"]
    assert too_long([read_module("rows.knit", function.replace("    pass\n", "", 1) + "\n" * 350)]) == []


def test_the_reader_finds_empty_names() -> None:
    places = [
        "compiler/stitchproof/rows/utils.py",
        "compiler/stitchproof/common/words.py",
        "compiler/stitchproof/rows/steps.py",
    ]
    assert empty_names(places) == places[:2]


def test_the_reader_finds_missing_docstrings() -> None:
    text = (
        "class Row:\n"
        "    'A row.'\n"
        "    def __len__(self): return 0\n"
        "    def width(self): return 0\n"
        "    def length(self):\n"
        "        rows = 1\n"
        "        return rows\n"
        "def _inside(): pass\n"
        "def outside():\n"
        "    'Said.'\n"
        "    def within(): pass\n"
    )
    assert without_docstring([read_module("rows.row", text)]) == ["made_up.py:1: the module", "made_up.py:5: length"]
