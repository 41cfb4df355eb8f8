"""The renderer: how it is loaded, and that each page is laid out once."""

import gc
import subprocess
import sys
import zlib
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from weasyprint import HTML

from stitchproof.editions import renderer_declarations, structure
from stitchproof.editions.edition import make_editions
from stitchproof.editions.renderer import without_garbage_search
from stitchproof.editions.written_once import as_written, write_once
from tests.editions.page_text import SAMPLES
from tests.editions.write_declarations import declarations, module_of

LOADING = """
import ctypes.util, sys
started = []
sys.addaudithook(lambda event, _: started.append(event) if event in ("subprocess.Popen", "os.posix_spawn") else None)
search = ctypes.util.find_library
from stitchproof.editions.renderer import load_renderer
load_renderer()
print(started, "weasyprint" in sys.modules, ctypes.util.find_library is search)
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere the libraries are searched for")
def test_the_renderer_is_loaded_without_starting_other_programs() -> None:
    path = f"import sys; sys.path[:0] = {[entry for entry in sys.path if entry]!r}"
    answer = subprocess.run([sys.executable, "-c", path + LOADING], capture_output=True, text=True, check=True)
    assert answer.stdout.split("\n")[0] == "[] True True"


PREPARED_OR_NOT = """
from hashlib import sha256
from stitchproof.editions import renderer
if not sys.argv[1:]:
    renderer.OF = "others"
from stitchproof.editions.pdf import write_pdf
content = write_pdf("<html lang=en><title>Rib</title><p>Work 12 rows of <b>rib</b>, &frac12; the depth.</p></html>").content
print("pycparser" in sys.modules, "fontTools.subset.cff" in sys.modules, sha256(content).hexdigest())
"""


def test_what_was_prepared_changes_nothing_but_the_time() -> None:
    """A renderer of which other declarations were prepared is loaded as ever; fonts are taken apart without fontTools."""
    path = f"import sys; sys.path[:0] = {[entry for entry in sys.path if entry]!r}"
    said = [
        subprocess.run(
            [sys.executable, "-c", path + PREPARED_OR_NOT, *more], capture_output=True, text=True, check=True
        )
        for more in (["prepared"], [])
    ]
    (parsed, taken_apart, content), (parsed_as_ever, _, content_as_ever) = (each.stdout.split() for each in said)
    assert (parsed, parsed_as_ever, taken_apart) == ("False", "True", "False")
    assert content == content_as_ever


def test_what_was_prepared_is_what_this_renderer_declares() -> None:
    """After another edition of it is pinned: `make quick-forms`."""
    assert Path(renderer_declarations.__file__).read_text("utf-8") == module_of(declarations())


def test_garbage_is_looked_for_again_after_a_layout() -> None:
    for at_work in (True, False):
        (gc.enable if at_work else gc.disable)()
        try:
            with pytest.raises(KeyError), without_garbage_search():
                assert not gc.isenabled()
                raise KeyError
            assert gc.isenabled() is at_work
        finally:
            gc.enable()


def test_each_pdf_is_laid_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lines are fitted and drawings placed by sums of our own, never by trying a layout."""
    laid_out: list[object] = []
    render = HTML.render

    def counted(page: HTML, *arguments: object, **options: object) -> object:
        laid_out.append(page)
        return render(page, *arguments, **options)

    monkeypatch.setattr(HTML, "render", counted)
    made = make_editions(SAMPLES["mitt"](), ["all_sizes", "listing"])
    pdfs = [file.name for edition in made for file in edition.files if file.name.endswith(".pdf")]
    assert len(laid_out) == len(pdfs) == 1


def test_what_is_written_once_is_what_the_renderer_would_write(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[tuple[list[Any], list[Any]]] = []

    def compared(pdf: Any) -> None:
        whole = [each for each in pdf.objects if each.free != "f"]
        before = [[*map(as_written, each.stream)] if hasattr(each, "stream") else each.data for each in whole]
        write_once(pdf)
        after = [each for each in pdf.objects if each.free != "f"]
        assert [each.reference for each in after] == [each.reference for each in whole]
        seen.append(
            (before, [zlib.decompress(*each.stream) if hasattr(each, "stream") else each.data for each in after])
        )

    monkeypatch.setattr(structure, "write_once", compared)
    make_editions(SAMPLES["mitt"](), ["all_sizes"])
    ((before, after),) = seen
    assert [b"\n".join(each) if isinstance(each, list) else each for each in before] == after
    assert sum(each.startswith(b"<</Type /StructElem") for each in after) > 100


@pytest.mark.parametrize("number", [0.0, 3.0, -2.0, 0.1, 12.5, 1 / 3, -0.0000001, 1e-9, 123456.789012])
def test_numbers_are_written_as_the_renderer_writes_them(number: float) -> None:
    pdf = import_module("pydyf")
    array = pdf.Array([number, True, 7, "/Name", b"4 0 R"])
    for held in (array, pdf.Dictionary({"A": array, "B": pdf.String("(x)")})):
        assert as_written(held) == held.data
