"""Prepares anew what the renderer declares, after another edition of it is pinned: `make quick-forms`."""

from __future__ import annotations

import ast
from contextlib import redirect_stdout
from hashlib import sha256
from importlib import import_module
from importlib.util import find_spec
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory

from stitchproof.editions import renderer_declarations

HEAD = '''"""What the renderer declares of the libraries that it draws with, prepared for cffi: made by `make quick-forms`.

Source: `text/ffi.py` of WeasyPrint (BSD license), of which the declarations have the checksum `OF`.
"""

OF = "{of}"
PREPARED = dict(
{prepared})
'''


def declarations() -> str:
    """What the renderer that is installed declares."""
    spec = find_spec("weasyprint")
    assert spec and spec.origin
    tree = ast.parse((Path(spec.origin).parent / "text" / "ffi.py").read_text("utf-8"))
    (call,) = (
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "cdef"
    )
    text: str = ast.literal_eval(call.args[0])
    return text


def module_of(text: str) -> str:
    """The module with these declarations."""
    maker = import_module("cffi").FFI()
    maker.set_source("declared", None)
    maker.cdef(text)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "declared.py"
        with redirect_stdout(StringIO()):
            maker.emit_python_code(str(path))
        made = path.read_text("utf-8")
    prepared = made.partition("_cffi_backend.FFI('declared',\n")[2].rpartition(")")[0]
    assert prepared
    return HEAD.format(of=sha256(text.encode()).hexdigest(), prepared=prepared)


if __name__ == "__main__":
    Path(renderer_declarations.__file__).write_text(module_of(declarations()), "utf-8")
