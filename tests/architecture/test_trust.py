"""The compiler runs nothing that a pattern's text could name: no evaluated code, no pickles, no shell, no network."""

import ast
from collections.abc import Iterable

from tests.architecture.code_reader import Module, called, compiler_modules, imports, lies_in, read_module

CALLS = frozenset(
    {
        "eval",
        "exec",
        "compile",
        "__import__",
        "os.system",
        "os.popen",
        "yaml.load",
        "yaml.load_all",
        "yaml.full_load",
        "yaml.unsafe_load",
        "yaml.Loader",
        "yaml.FullLoader",
        "yaml.UnsafeLoader",
        "jinja2.Template",
        "jinja2.from_string",
    }
)
ALLOWED = tuple(f"compiler/stitchproof/{name}.py" for name in ("delivery", "editions/renderer"))
SERVER = {
    "compiler/stitchproof/preview/bell.py": {"asyncio"},
    "compiler/stitchproof/preview/follow.py": {"asyncio"},
    "compiler/stitchproof/preview/server.py": {"asyncio"},
    "compiler/stitchproof/preview/serve.py": {"asyncio", "socket", "webbrowser"},
}
"""The preview serves pages to this machine, and opens the browser of whoever started it; each module and what it may take for
that. Who may ask it is in preview/guard.py, what is tried against it in tests/preview/test_attacks.py."""
CALL_FAMILIES = ("os.exec", "os.spawn", "os.posix_spawn")
MODULES = (
    *("pickle", "marshal", "shelve", "dill", "ctypes", "subprocess", "pty", "runpy", "code", "webbrowser"),
    *("socket", "ssl", "asyncio", "urllib.request", "http", "ftplib", "smtplib", "telnetlib", "xmlrpc"),
    *("requests", "httpx", "aiohttp", "urllib3"),
)


def untrusted(modules: Iterable[Module]) -> list[str]:
    """Each such call and import, as `place:line: name`."""
    found = []
    for module in modules:
        for imported in imports(module):
            if any(lies_in(imported.name, banned) for banned in MODULES) or imported.name in CALLS:
                found.append(f"{module.place}:{imported.line}: {imported.name}")
        for node in ast.walk(module.tree):
            if not isinstance(node, ast.Call):
                continue
            name = called(node)
            if name in CALLS or name.startswith(CALL_FAMILIES):
                found.append(f"{module.place}:{node.lineno}: {name}")
            if any(keyword.arg == "shell" and not is_false(keyword.value) for keyword in node.keywords):
                found.append(f"{module.place}:{node.lineno}: {name} with a shell")
    return found


def is_allowed(found: str) -> bool:
    """The places that have a reason: our own data files by a safe loader, the system call that swaps folders, the search for
    the renderer's libraries, which is left out, and the preview's server."""
    place, _, name = found.partition(":")
    return any(each in found for each in ALLOWED) or name.rpartition(" ")[2] in SERVER.get(place, ())


def is_false(node: ast.expr) -> bool:
    """Whether an expression is the word False itself."""
    return isinstance(node, ast.Constant) and node.value is False


def test_the_compiler_evaluates_pickles_shells_and_calls_nothing() -> None:
    assert [found for found in untrusted(compiler_modules()) if not is_allowed(found)] == []


def test_the_reader_finds_each_kind() -> None:
    text = (
        "import pickle\n"
        "from os import system\n"
        "import re, subprocess\n"
        "pattern = re.compile('a')\n"
        "value = eval('1')\n"
        "subprocess.run(['ls'], shell=True)\n"
        "subprocess.run(['ls'], shell=False)\n"
        "from urllib.parse import quote\n"
        "from urllib.request import urlopen\n"
    )
    assert untrusted([read_module("reading.header", text)]) == [
        "made_up.py:1: pickle",
        "made_up.py:2: os.system",
        "made_up.py:3: subprocess",
        "made_up.py:9: urllib.request.urlopen",
        "made_up.py:5: eval",
        "made_up.py:6: subprocess.run with a shell",
    ]
