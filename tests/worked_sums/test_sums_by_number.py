"""The table of worked sums against the tests that there are."""

import ast
import re
from pathlib import Path

from tests.worked_sums.sums_by_number import LEFT_FOR_ROWS, TESTS

TESTS_FOLDER = Path(__file__).parents[1]
SAYS_WHENCE = re.compile(
    r"[Cc]ommon practice|[Ss]ources? |[Ss]ource:|[Ss]ources:|[Dd]erived|[Ii]nvented|withheld|\.(?:com|edu|org|ca)\b"
)


def docstrings_of_tests(module: Path) -> dict[str, str]:
    """The tests of a module by name, each with its docstring."""
    tree = ast.parse(module.read_text(encoding="utf-8"))
    return {
        node.name.removeprefix("test_"): ast.get_docstring(node) or ""
        for node in tree.body
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
    }


def test_every_sum_has_its_tests() -> None:
    assert list(TESTS) == [f"M{number}" for number in range(1, 29)]
    assert set(LEFT_FOR_ROWS) <= set(TESTS)
    for sum_, modules in TESTS.items():
        for module, names in modules.items():
            missing = set(names.split()) - set(docstrings_of_tests(TESTS_FOLDER / f"{module}.py"))
            assert not missing, (sum_, module, missing)


def test_every_test_here_belongs_to_a_sum_and_says_whence_it_comes() -> None:
    """Each names a published source, or common practice, or that it is derived or invented."""
    for module in Path(__file__).parent.glob("test_*.py"):
        if module == Path(__file__):
            continue
        named = {name for modules in TESTS.values() for name in modules.get(f"worked_sums/{module.stem}", "").split()}
        found = docstrings_of_tests(module)
        assert set(found) == named, module.name
        for name, docstring in found.items():
            assert SAYS_WHENCE.search(docstring), (module.name, name)
