"""The wheel holds all that the compiler needs, and works in an empty folder."""

import os
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from configparser import ConfigParser
from email.parser import Parser
from pathlib import Path

import pytest

import stitchproof

CLONE = Path(__file__).resolve().parents[2]
PACKAGE = CLONE / "compiler" / "stitchproof"
STYLES = CLONE / "styles"


def run_python(*arguments: str, folder: Path, **environment: str) -> str:
    """What this Python prints when it runs with these arguments in a folder. No index of packages is asked."""
    ended = subprocess.run(
        [sys.executable, *arguments],
        cwd=folder,
        env={**os.environ, "PIP_NO_INDEX": "1", "PIP_DISABLE_PIP_VERSION_CHECK": "1", **environment},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ended.returncode == 0, ended.stdout + ended.stderr
    return ended.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The wheel, built once from the clone."""
    folder = tmp_path_factory.mktemp("dist")
    run_python("-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(CLONE), folder=folder)
    (built,) = folder.glob("*.whl")
    yield built
    shutil.rmtree(folder)


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder with the installed wheel alone; what it depends on comes from the Python that runs the tests."""
    folder = tmp_path_factory.mktemp("installed")
    run_python("-m", "pip", "install", "--no-deps", "--target", str(folder), str(wheel), folder=folder)
    yield folder
    shutil.rmtree(folder)


def files_below(folder: Path) -> set[str]:
    """Every file below a folder, from that folder; what Python or a system leaves behind left out."""
    paths = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix() for path in paths if "__pycache__" not in path.parts}


def read_from(wheel: Path, name: str) -> str:
    """The text of one file of the wheel's metadata."""
    with zipfile.ZipFile(wheel) as archive:
        (place,) = [place for place in archive.namelist() if place.endswith(f".dist-info/{name}")]
        return archive.read(place).decode("utf-8")


def test_the_wheel_holds_every_file_of_the_package_and_every_style(wheel: Path) -> None:
    expected = {f"stitchproof/{place}" for place in files_below(PACKAGE)}
    expected |= {f"stitchproof/styles/{place}" for place in files_below(STYLES)}
    with zipfile.ZipFile(wheel) as archive:
        held = {place for place in archive.namelist() if ".dist-info/" not in place}
    assert held == expected


@pytest.mark.parametrize("ending", [".py", ".yaml", ".json", ".css", ".j2", ".js"])
def test_the_wheel_holds_each_kind_of_file(wheel: Path, ending: str) -> None:
    with zipfile.ZipFile(wheel) as archive:
        assert [place for place in archive.namelist() if place.endswith(ending)]


def test_the_wheel_names_the_command_and_the_licence(wheel: Path) -> None:
    commands = ConfigParser()
    commands.read_string(read_from(wheel, "entry_points.txt"))
    assert dict(commands["console_scripts"]) == {"stitchproof": "stitchproof.__main__:start"}
    metadata = Parser().parsestr(read_from(wheel, "METADATA"))
    assert metadata["Name"] == "stitchproof"
    assert metadata["Version"] == stitchproof.__version__
    assert metadata["Requires-Python"] == ">=3.11"
    assert metadata["License-Expression"] == "MIT"
    assert "MIT License" in read_from(wheel, "licenses/LICENSE")


def test_the_installed_wheel_starts_and_builds_a_pattern_in_an_empty_folder(installed: Path, tmp_path: Path) -> None:
    found = run_python(
        "-c", "import stitchproof; print(stitchproof.__file__)", folder=tmp_path, PYTHONPATH=str(installed)
    )
    assert Path(found.strip()).is_relative_to(installed)
    run_python("-m", "stitchproof", "new", "my_hat", folder=tmp_path, PYTHONPATH=str(installed))
    assert list(tmp_path.rglob("pattern.yaml"))
    run_python("-m", "stitchproof", "build", "my_hat", folder=tmp_path, PYTHONPATH=str(installed))
    products = files_below(tmp_path / "build" / "my_hat")
    assert {Path(product).suffix for product in products} >= {".html", ".pdf"}
    for product in products:
        assert (tmp_path / "build" / "my_hat" / product).stat().st_size > 0
