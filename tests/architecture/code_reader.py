"""Reads the compiler's modules as syntax trees, without importing them, for the tests of architecture."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

CLONE = Path(__file__).resolve().parents[2]
SOURCE_ROOT = CLONE / "compiler"
PACKAGE = "stitchproof"


@dataclass(frozen=True, slots=True)
class Module:
    """One module: its dotted name below the package ("" for the package itself), its place, its text and its tree."""

    name: str
    place: str
    text: str
    tree: ast.Module

    @property
    def room(self) -> str:
        """The room, or single module, at the top of the package that holds this module ("" for the package itself)."""
        return self.name.partition(".")[0]


@dataclass(frozen=True, slots=True)
class Import:
    """One imported module by its full dotted name, and the line that imports it."""

    name: str
    line: int


def read_module(name: str, text: str, place: str = "made_up.py") -> Module:
    """A module from its text."""
    return Module(name, place, text, ast.parse(text))


@cache
def compiler_modules() -> tuple[Module, ...]:
    """Every module of the compiler, by place."""
    modules = []
    for path in sorted((SOURCE_ROOT / PACKAGE).rglob("*.py")):
        parts = path.relative_to(SOURCE_ROOT / PACKAGE).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        modules.append(read_module(name, path.read_text(encoding="utf-8"), path.relative_to(CLONE).as_posix()))
    return tuple(modules)


def imports(module: Module) -> Iterator[Import]:
    """Everything a module imports, also inside functions, under `if TYPE_CHECKING` and through `import_module("…")`.

    `from a import b` yields `a.b`: whether b is a module or something in a does not matter to the judges, which compare
    from the left. A relative import is refused, since it hides the room it reaches into.
    """
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield Import(alias.name, node.lineno)
        elif isinstance(node, ast.ImportFrom):
            if node.level:
                raise ValueError(f"{module.place}:{node.lineno}: relative import; write the full name")
            for alias in node.names:
                yield Import(f"{node.module}.{alias.name}", node.lineno)
        elif isinstance(node, ast.Call) and called(node) in {"import_module", "importlib.import_module", "__import__"}:
            first = node.args[0] if node.args else None
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                yield Import(first.value, node.lineno)


def called(call: ast.Call) -> str:
    """The dotted name that is called, or "" where it is not a plain name."""
    return dotted(call.func)


def dotted(node: ast.expr) -> str:
    """`a.b.c` for such an expression, "" for any other."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        before = dotted(node.value)
        return f"{before}.{node.attr}" if before else ""
    return ""


def lies_in(name: str, place: str) -> bool:
    """Whether a dotted name is a place or lies inside it."""
    return name == place or name.startswith(place + ".")
