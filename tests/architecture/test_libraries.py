"""A library from outside is imported in its own rooms only, and is one of the declared dependencies."""

import re
import sys
import tomllib
from collections.abc import Iterable

from tests.architecture.code_reader import CLONE, PACKAGE, Module, compiler_modules, imports, lies_in, read_module
from tests.architecture.house import EVERYWHERE, LIBRARIES


def libraries_outside_their_room(modules: Iterable[Module]) -> list[str]:
    """Each import of a library where the table does not allow it, as `place:line: library`."""
    found = []
    for module in modules:
        for imported in imports(module):
            library = imported.name.partition(".")[0]
            if library == PACKAGE or library in sys.stdlib_module_names:
                continue
            _, places = LIBRARIES.get(library, ("", ()))
            if places != EVERYWHERE and not any(lies_in(module.name, place) for place in places):
                found.append(f"{module.place}:{imported.line}: {library}")
    return found


def declared_dependencies() -> set[str]:
    """Names of the distributions that the installed compiler depends on."""
    project = tomllib.loads((CLONE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    return {re.split(r"[^A-Za-z0-9.-]", line)[0].lower() for line in project["dependencies"]}


def test_each_library_stays_in_its_rooms() -> None:
    assert libraries_outside_their_room(compiler_modules()) == []


def test_the_table_and_the_declared_dependencies_agree() -> None:
    assert {distribution for distribution, _ in LIBRARIES.values()} == declared_dependencies()


def test_the_reader_finds_the_renderer_outside_its_module() -> None:
    text = "import json\ndef print_page() -> None:\n    from weasyprint import HTML\n"
    assert libraries_outside_their_room([read_module("editions.screen", text)]) == ["made_up.py:3: weasyprint"]
    assert libraries_outside_their_room([read_module("editions.pdf", text)]) == []


def test_the_reader_finds_an_undeclared_library() -> None:
    text = "from importlib import import_module\nimport_module('numpy')\n"
    assert libraries_outside_their_room([read_module("reading.header", text)]) == ["made_up.py:2: numpy"]
