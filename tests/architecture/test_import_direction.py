"""Imports run downward only, and from a stage only its types are imported."""

from collections.abc import Iterable

from tests.architecture.code_reader import PACKAGE, Module, compiler_modules, imports, lies_in, read_module
from tests.architecture.house import FAULTS_FOR_ALL, GROUND_FLOOR, MAY_IMPORT


def wrong_imports(modules: Iterable[Module]) -> list[str]:
    """Each import of ours that the table does not allow, as `place:line: importer imports imported`."""
    found = []
    for module in modules:
        for imported in imports(module):
            if not lies_in(imported.name, PACKAGE):
                continue
            target = imported.name.removeprefix(PACKAGE).removeprefix(".")
            if not may_import(module.room, target):
                found.append(f"{module.place}:{imported.line}: {module.room or PACKAGE} imports {target or PACKAGE}")
    return found


def may_import(room: str, target: str) -> bool:
    """Whether a module of a room may import a dotted name below the package."""
    if lies_in(target, room):
        return True
    if is_fault(target) and not any(lies_in(target, faults) for faults in FAULTS_FOR_ALL):
        return False
    return any(lies_in(target, place) for place in MAY_IMPORT[room])


def is_fault(target: str) -> bool:
    """Whether a dotted name lies in the faults of a room."""
    return target.split(".")[1:2] == ["faults"]


def test_every_import_of_ours_is_allowed_by_the_table() -> None:
    assert wrong_imports(compiler_modules()) == []


def test_every_room_has_its_line_in_the_table() -> None:
    rooms = {module.room for module in compiler_modules()}
    assert sorted(rooms - MAY_IMPORT.keys()) == []


def test_the_table_itself_runs_downward() -> None:
    order = list(MAY_IMPORT)
    for room, places in MAY_IMPORT.items():
        below = order if room == "" else order[: order.index(room)]
        upward = [place for place in places if place.partition(".")[0] not in (*below, "__version__")]
        assert upward == [], room


def test_the_ground_floor_sees_no_stage() -> None:
    for room in GROUND_FLOOR:
        assert set(MAY_IMPORT[room]) <= set(GROUND_FLOOR)


def test_the_reader_finds_an_upward_import() -> None:
    upward = read_module("measures.units", "from stitchproof.source import Span\nimport stitchproof.sizing.rounding\n")
    assert wrong_imports([upward]) == ["made_up.py:2: measures imports sizing.rounding"]


def test_the_reader_finds_a_call_into_another_stage() -> None:
    text = (
        "from stitchproof.expansion.document import Step\n"
        "def read(step: Step) -> None:\n"
        "    from stitchproof.expansion.blocks import build_blocks\n"
        "    from stitchproof import check_pattern\n"
    )
    assert wrong_imports([read_module("rows.steps", text)]) == [
        "made_up.py:3: rows imports expansion.blocks.build_blocks",
        "made_up.py:4: rows imports check_pattern",
    ]


def test_the_reader_finds_a_fault_used_outside_its_room() -> None:
    text = (
        "from stitchproof.reading.faults.key_twice import key_twice\n"
        "from stitchproof.formulas.faults.unknown_name import unknown_name\n"
    )
    assert wrong_imports([read_module("pipeline", text)]) == [
        "made_up.py:1: pipeline imports reading.faults.key_twice.key_twice"
    ]
    assert wrong_imports([read_module("reading.header", text)]) == []
