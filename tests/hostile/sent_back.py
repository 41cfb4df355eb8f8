"""What a stranger may send besides a pattern: worksheets, sheets, records, registers, repositories; and edits of her pattern."""

# ruff: noqa: E501  # a line to an attack

from __future__ import annotations

import hashlib
import struct
import tempfile
import zlib
from collections.abc import Callable
from functools import cache
from pathlib import Path

from stitchproof import check_pattern
from stitchproof.pipeline import record_of
from stitchproof.record.json_form import as_bytes
from tests.checks.smallest_pattern import SMALLEST_TEXT
from tests.hostile.attacks import (
    CHECK,
    ENTITIES,
    FORMULAS,
    IMAGE,
    LAUGHS,
    ROW,
    SCRIPT,
    Attack,
    Content,
    link,
    packed,
    pipe,
    yaml,
)  # fmt: skip

RETURNED = [
    Attack(
        "a worksheet that is a pipe", {"../../w.yaml": pipe}, "no plain file", ("check", "bad", "--worksheet", "w.yaml")
    ),
    Attack(
        "a worksheet that is endless",
        {"../../w.yaml": link("/dev/zero")},
        "no plain file",
        ("check", "bad", "--worksheet", "w.yaml"),
    ),
    Attack(
        "a worksheet of a command",
        {"../../w.yaml": "size: !!python/object/apply:os.system ['id']\n"},
        "SP",
        ("check", "bad", "--worksheet", "w.yaml"),
    ),
    Attack(
        "a worksheet of references", {"../../w.yaml": LAUGHS}, "references", ("check", "bad", "--worksheet", "w.yaml")
    ),
    Attack(
        "a worksheet of a million brackets",
        {"../../w.yaml": "[" * 999_000},
        "too deep",
        ("check", "bad", "--worksheet", "w.yaml"),
    ),
    Attack(
        "a worksheet of a hundred thousand maps",
        {"../../w.yaml": "a: {b: c}\n" * 95_000},
        "too much",
        ("check", "bad", "--worksheet", "w.yaml"),
    ),
    Attack(
        "a worksheet of a million blanks",
        {"../../w.yaml": "size:" + " " * 990_000},
        "size",
        ("check", "bad", "--worksheet", "w.yaml"),
    ),
    Attack(
        "a worksheet of a million commas",
        {"../../w.csv": "what,line,value" + "," * 980_000},
        "size",
        ("check", "bad", "--worksheet", "w.csv"),
    ),
    Attack(
        "a worksheet of digits",
        {"../../w.yaml": f"size: S\ngrams: 0x{'f' * 90_000}\n"},
        "no number",
        ("check", "bad", "--worksheet", "w.yaml"),
    ),
    Attack(
        "a worksheet in sixties",
        {"../../w.yaml": f"size: S\ngrams: 1{':1' * 200_000}\n"},
        "no number",
        ("check", "bad", "--worksheet", "w.yaml"),
    ),
    Attack(
        "a worksheet that drives a terminal",
        {"../../w.csv": "what,line,value\nsize,,S\nunclear,1,\x1b]0;x\x07\u202eb\n"},
        "clean",
        ("check", "bad", "--worksheet", "w.csv"),
    ),
    Attack("a sheet that is a pipe", {"../../s.xlsx": pipe}, "no plain file", ("grade", "bad", "s.xlsx")),
    Attack(
        "a sheet packed to burst",
        {"../../s.xlsx": packed(xl__workbook=b"\0" * 60_000_000)},
        "unpacks",
        ("grade", "bad", "s.xlsx"),
    ),
    Attack(
        "a sheet with entities",
        {"../../s.xlsx": packed(xl__workbook=ENTITIES.encode())},
        "entities",
        ("grade", "bad", "s.xlsx"),
    ),
    Attack("a sheet of nothing", {"../../s.xlsx": packed(a=b"b")}, "not readable", ("grade", "bad", "s.xlsx")),
    Attack("a sheet of a million commas", {"../../s.csv": "," * 1_000_000}, "columns", ("grade", "bad", "s.csv")),
    Attack("a record that is a pipe", {"../../r/record.json": pipe}, "no plain file", ("compare", "r", "bad")),
    Attack(
        "a record that is a link out",
        {"../../r/record.json": link("outside/secret.md")},
        "leads out",
        ("compare", "r", "bad"),
    ),
    Attack(
        "a record nested without end",
        {"../../r.json": '{"format":' + "[" * 200_000},
        "record",
        ("compare", "r.json", "bad"),
    ),
    Attack("a repository that is a pipe", {"../../.git/HEAD": pipe}, "git", ("compare", "bad@HEAD", "bad")),
    Attack(
        "a repository that lies elsewhere",
        {"../../.git": "gitdir: ../outside/repository\n"},
        "git",
        ("compare", "bad@HEAD", "bad"),
    ),
    Attack(
        "a repository whose head is a link out",
        {"../../.git/HEAD": link("outside/secret.md"), "../../.git/refs/x": "", "../../.git/objects/x": ""},
        "git",
        ("compare", "bad@HEAD", "bad"),
    ),
    Attack(
        "a repository that includes a file",
        {
            "../../.git/HEAD": "ref: refs/heads/main\n",
            "../../.git/refs/x": "",
            "../../.git/objects/x": "",
            "../../.git/config": "[include]\n\tpath = ../../outside/secret.md\n",
        },
        "git",
        ("compare", "bad@HEAD", "bad"),
    ),
    Attack(
        "a repository that borrows objects",
        {
            "../../.git/HEAD": "ref: refs/heads/main\n",
            "../../.git/refs/heads/main": "1" * 40 + "\n",
            "../../.git/objects/info/alternates": "../../../outside\n",
        },
        "git",
        ("compare", "bad@HEAD", "bad"),
    ),
    Attack(
        "a name of git that is a path",
        {"../../.git/HEAD": "ref: ../../outside/secret.md\n", "../../.git/refs/x": "", "../../.git/objects/x": ""},
        "git",
        ("compare", "bad@HEAD", "bad"),
    ),
]


@cache
def record() -> bytes:
    """The record of a small pattern with a number, of another gauge than that of `REVISED`."""
    with tempfile.TemporaryDirectory() as held:
        folder = Path(held) / "bad"
        folder.mkdir()
        for name, content in {**REVISED, "text.md": f"{SMALLEST_TEXT}\n{ROW}"}.items():
            text = str(content).replace("{a: 4 sts}", "{a: 5 sts}").replace("revision: 2", "revision: 1")
            (folder / name).write_text(text, encoding="utf-8")
        made = record_of(check_pattern(folder, within=Path(held)))
    assert made is not None
    return as_bytes(made)


def old_record(path: Path) -> None:
    """The record of the earlier revision."""
    path.write_bytes(record())


def record_with(old: str, new: str) -> Content:
    """The same with other words in it, once."""

    def put(path: Path) -> None:
        assert old.encode() in record(), old
        path.write_bytes(record().replace(old.encode(), new.encode("utf-8", "surrogatepass"), 1))

    return put


REVISED: dict[str, Content] = {
    **yaml("revision: 2\n", "counts: {a: 4 sts}\n"),
    "text.md": f"{SMALLEST_TEXT}\n{ROW}::: note\n<a>.\n:::\n",
}
ERRATA = ("compare", "r.json", "bad", "--errata")
COMPARE = ("compare", "r.json", "bad")


def register(content: Content) -> dict[str, Content]:
    """Two revisions, and who has the old one."""
    return {**REVISED, "../../r.json": old_record, "register.yaml": content}


def copies(*more: str) -> dict[str, Content]:
    """A register of one copy that tells so of itself."""
    return register("copies:\n- " + "\n  ".join(("revision: 1", *more)) + "\n")


def other_record(old: str, new: str) -> dict[str, Content]:
    """A record that is not what it should be, and the pattern it is of."""
    return {**REVISED, "../../r.json": record_with(old, new)}


def returned(cells: str, head: str = "Name,Unit,Size S,Size M\n") -> dict[str, Content]:
    """A grading sheet that comes back for a pattern with a number `a` of two sizes."""
    return {**yaml(FORMULAS, "counts: {a: [4 sts, 5 sts]}\n"), "../../s.csv": head + cells}


GRADE = ("grade", "bad", "s.csv", "--write")
REGAUGE = ("regauge", "bad", "a=5 sts", "--write")
SHEET_OUT = ("grade", "bad", "--out", "out.csv")
FORMULA = '=HYPERLINK("http://evil.example")'


def git_object(kind: str, content: bytes) -> tuple[str, bytes]:
    """The name of an object of git, and its loose file unpacked."""
    whole = f"{kind} {len(content)}\0".encode() + content
    return hashlib.sha1(whole, usedforsecurity=False).hexdigest(), whole


def tree(*entries: tuple[str, str, str]) -> bytes:
    """A folder of git: mode, name and object of each entry."""
    return b"".join(f"{mode} {name}\0".encode() + bytes.fromhex(sha) for mode, name, sha in entries)


def repository(*trees: Callable[[str], bytes], blob: bytes = b"words", with_blob: bool = True) -> dict[str, Content]:
    """A repository with a commit of `pattern_sources/bad`: each tree holds the one before, the first a file; loose objects."""
    name, whole = git_object("blob", blob)
    objects = {name: whole} if with_blob else {}
    way: list[Callable[[str], bytes]] = [*trees]
    way += [lambda name: tree(("40000", "bad", name)), lambda name: tree(("40000", "pattern_sources", name))]
    for make in way:
        name, whole = git_object("tree", make(name))
        objects[name] = whole
    who = "a <a@example.org> 1700000000 +0000"
    name, whole = git_object("commit", f"tree {name}\nauthor {who}\ncommitter {who}\n\nwords\n".encode())
    objects[name] = whole
    loose = {f"../../.git/objects/{name[:2]}/{name[2:]}": zlib.compress(whole) for name, whole in objects.items()}
    return {"../../.git/HEAD": "ref: refs/heads/main\n", "../../.git/refs/heads/main": f"{name}\n", **loose}


def packed_repository(blob: bytes, size: int) -> dict[str, Content]:
    """The same with the file in a pack, which says so of its size."""
    files = repository(lambda name: tree(("100644", "pattern.yaml", name)), blob=blob, with_blob=False)
    name, _ = git_object("blob", blob)
    first, rest = 3 << 4 | size & 15, size >> 4
    head = bytearray([first])
    while rest:
        head[-1] |= 0x80
        head.append(rest & 0x7F)
        rest >>= 7
    pack = b"PACK" + struct.pack(">II", 2, 1) + bytes(head) + zlib.compress(blob)
    pack += hashlib.sha1(pack, usedforsecurity=False).digest()
    raw = bytes.fromhex(name)
    counts = b"".join(struct.pack(">I", int(raw[0] <= n)) for n in range(256))
    index = b"\377tOc" + struct.pack(">I", 2) + counts + raw + struct.pack(">II", 0, 12) + pack[-20:]
    index += hashlib.sha1(index, usedforsecurity=False).digest()
    folder = "../../.git/objects/pack/pack-" + "1" * 40
    return {**files, f"{folder}.pack": pack, f"{folder}.idx": index}


PAST = ("compare", "bad@HEAD", "bad")
IN_GIT = ("100644", "pattern.yaml")
BURST = 120_000_000
"""Zeros, which pack to a thousandth."""

PLANS = (
    ",".join(f'{{"name":"p{n}","keys":{{}},"inputs":["p{max(n - 1, 0)}","p{max(n - 2, 0)}"]}}' for n in range(1000))
    + ',{"name":"plan","keys":{"a":"1"},"inputs":["p999"]}'
)
REVISIONS = [
    Attack("a register of references", register(LAUGHS), "SP016", ERRATA),
    Attack("a register of a command", register("copies: !!python/object/apply:os.system ['id']\n"), "SP015", ERRATA),
    Attack("a register of two million letters", copies(f"where: {'x' * 2_100_000}"), "SP016", ERRATA),
    Attack("a register ten thousand deep", register("copies: " + "[" * 10_000), "SP01", ERRATA),
    Attack("a register of a hundred thousand copies", register("copies:\n" + "- {revision: 1, where: w}\n" * 100_000), "SP016", ERRATA),
    Attack("a register that is a link out", register(link("outside/secret.md")), "SP011", ERRATA),
    Attack("a register that is a pipe", register(pipe), "SP011", ERRATA),
    Attack("a register that is endless", register(link("/dev/zero")), "SP011", ERRATA),
    Attack("a register that is a folder", {**register(""), "register.yaml": lambda path: path.mkdir()}, "SP011", ERRATA),
    Attack("a register that drives a terminal", copies(f'where: "a{chr(92)}x1b]0;x{chr(92)}x07"'), "SP012", ERRATA),
    Attack("a register that turns a line", copies("where: \u202eabc"), "SP011", ERRATA),
    Attack("a buyer called like a script", copies(f"where: '{SCRIPT}'", f"tell: '[a](javascript:alert(1)) {IMAGE}'"), "to tell", (*ERRATA, "--affects", "1"), (SCRIPT, IMAGE, "javascript:")),
    Attack("a buyer called like a formula", copies(f"where: '{FORMULA}'"), "to tell", (*ERRATA, "--affects", "1"), (FORMULA,)),
    Attack("a register of a key twice", copies("where: a", "where: b"), "SP01", ERRATA),
    Attack("a record of a million brackets", other_record('"blocks": ', '"blocks": ' + "[" * 1_000_000 + '0, "x": '), "SP230", COMPARE),
    Attack("a record of maps in maps", other_record('"blocks": ', '"blocks": ' + '{"a":' * 100_000), "SP230", COMPARE),
    Attack("a record of another kind", {**REVISED, "../../r.json": "[1, 2]"}, "SP230", COMPARE),
    Attack("a record with a number for its title", other_record('"title": {', '"title": 7, "x": {'), "SP230", COMPARE),
    Attack("a record that is no number", other_record('"version": ', '"version": NaN, "x": '), "SP230", COMPARE),
    Attack("a record of an endless number", other_record('"version": ', '"version": 1e999999, "x": '), "SP230", COMPARE),
    Attack("a record of ten thousand digits", other_record('"version": ', f'"version": {"9" * 10_000}, "x": '), "SP230", COMPARE),
    Attack("a record of half a sign", other_record('"pattern": "', '"pattern": "\\ud800'), "SP230", COMPARE),
    Attack("a record of half a sign, raw", other_record('"pattern": "', '"pattern": "\ud800'), "SP230", COMPARE),
    Attack("a record with a key twice", other_record('"blocks": ', '"format": "stitchproof-record", "blocks": '), "Inputs", COMPARE),
    Attack("a value with an exponent without end", other_record('"value":"5"', '"value":"1e999999999"'), "a", COMPARE),
    Attack("a value of a hundred thousand digits", other_record('"value":"5"', f'"value":"{"9" * 100_000}"'), "a", COMPARE),
    Attack("a value over nothing", other_record('"value":"5"', '"value":"1/0"'), "a", COMPARE),
    Attack("a record that drives a terminal", other_record('"value":"5"', '"value":"\\u001b[2J\\u202e"'), "a", COMPARE),
    Attack("a record of scripts, as a page", other_record('"title": "Smallest"', f'"title": "{SCRIPT}"') | {"../../build/a": ""}, "", (*COMPARE, "--format", "html", "--output", "build/page.html"), (SCRIPT,)),
    Attack("a record whose names do not go together", other_record('"name":"a"', '"name":"b"'), "do not go together", COMPARE),
    Attack("a record with a line twice", other_record('"identity":"help/paragraph/1"', '"identity":"hands/paragraph/1"'), "twice", COMPARE),
    Attack("a record with a number for no slot", other_record('"help/paragraph/1": []', '"help/paragraph/1": [["1"]]'), "do not go together", COMPARE),
    Attack("a record of a thousand plans that hang on one another twice", other_record('"plans": []', f'"plans": [{PLANS}]'), "plan", COMPARE),
    Attack("a record of plans that go round", other_record('"plans": []', '"plans": [{"name":"p","keys":{"a":"1"},"inputs":["q"]},{"name":"q","keys":{},"inputs":["p"]}]'), "p ", COMPARE),
    Attack("pages of a build that are a link out", {**REVISED, "../../r/record.json": old_record, "../../r/pages.json": link("outside/secret.md")}, "a", ("compare", "r", "bad")),
    Attack("pages of a build that are endless", {**REVISED, "../../r/record.json": old_record, "../../r/pages.json": link("/dev/zero")}, "a", ("compare", "r", "bad")),
    Attack("pages of a build that are a pipe", {**REVISED, "../../r/record.json": old_record, "../../r/pages.json": pipe}, "a", ("compare", "r", "bad")),
    Attack("pages of a build ten thousand deep", {**REVISED, "../../r/record.json": old_record, "../../r/pages.json": "[" * 100_000}, "a", ("compare", "r", "bad")),
    Attack("a comparison into a link out", {**REVISED, "../../r.json": old_record, "../../out": link("outside/secret.md")}, "leads out", (*COMPARE, "--output", "out")),
    Attack("a file of git packed to burst", lambda: repository(lambda name: tree((*IN_GIT, name)), blob=bytes(BURST)), "SP231", PAST),
    Attack("a file in a pack of git, packed to burst", lambda: packed_repository(bytes(BURST), BURST), "unpacks to more", PAST),
    Attack("a file in a pack of git that says less than it is", lambda: packed_repository(bytes(BURST), 10), "SP231", PAST),
    Attack("folders of git that hold the same one", repository(lambda name: b"", *[lambda name: tree(*(("40000", f"f{n:03}", name) for n in range(400)))] * 4), "more than", PAST),
]  # fmt: skip

EDITS = [
    Attack("a number set in a pattern.yaml that is a link out", {"pattern.yaml": link("outside/secret.md")}, "SP011", REGAUGE),
    Attack("a number set in a pattern.yaml that is a pipe", {"pattern.yaml": pipe}, "SP011", REGAUGE),
    Attack("a number set in a pattern.yaml that is endless", {"pattern.yaml": link("/dev/zero")}, "SP011", REGAUGE),
    Attack("a number set beside a text that is a pipe", {**REVISED, "z.md": pipe}, "SP011", REGAUGE),
    Attack("a number set beside a body table that is a link out", {**yaml("body: {csv: b.csv}\ncounts: {a: 4 sts}\n"), "b.csv": link("outside/secret.md")}, "SP011", REGAUGE),
    Attack("a number set in a folder whose name drives a terminal", {f"../e\n\x1b[2J\u202e/{name}": content for name, content in REVISED.items()}, "written", ("regauge", "e\n\x1b[2J\u202e", "a=5 sts", "--write")),
    Attack("a number set to a script", REVISED, "SP", ("regauge", "bad", f"a={SCRIPT}", "--write"), (SCRIPT,)),
    Attack("a number set to a line more", REVISED, "SP", ("regauge", "bad", "a=5 sts}\ntexts: [../../../outside/secret.md", "--write")),
    Attack("a number set to a hundred thousand digits", REVISED, "SP", ("regauge", "bad", f"a={'9' * 100_000}", "--write")),
    Attack("a sweep of a thousand million steps", REVISED, "SP", ("regauge", "bad", "a=1 to 999999999 in tenths")),
    Attack("a size added that is called like a path", REVISED, "written", ("regauge", "bad", "--add-size", "../../x", "--write")),
    Attack("a size called like a path", yaml('sizes: {names: ["../../../outside/x", M]}\n'), "clean", ("build", "bad", "--edition", "one_size")),
    Attack("a sheet of formulas", returned("a,sts,=1+1,=cmd|' /C calc'!A0\n"), "SP223", GRADE),
    Attack("a sheet of formulas with full-width signs", returned("a,sts,\uff1d1\uff0b1,5\n"), "SP223", GRADE),
    Attack("a sheet of a hundred thousand digits", returned(f"a,sts,{'9' * 100_000},5\n"), "SP223", GRADE),
    Attack("a sheet of an exponent", returned("a,sts,1e999999999,5\n"), "SP223", GRADE),
    Attack("a sheet of a name that drives a terminal", returned("\x1b]0;x\x07\u202ea,sts,4,5\n"), "SP223", GRADE),
    Attack("a sheet of numbers of other writings", returned("a,sts,\u0664,\u0665\n"), "SP223", GRADE),
    Attack("a sheet of quotes without an end", returned('"a,sts,4,5\n' * 3), "SP22", GRADE),
    Attack("a sheet of half signs", {**returned(""), "../../s.csv": b"Name,Unit,Size S\n\xed\xa0\x80,sts,4\n"}, "UTF-8", GRADE),
    Attack("a sheet of nothing but zeros", {**returned(""), "../../s.csv": b"\0" * 100_000}, "SP222", GRADE),
    Attack("a sheet written where a link leads out", {**REVISED, "../../out.csv": link("outside/new.csv")}, "leads out", SHEET_OUT),
    Attack("a sheet written where a link leads out to a file", {**REVISED, "../../out.csv": link("outside/secret.md")}, "leads out", SHEET_OUT),
    Attack("a sheet written where a pipe lies", {**REVISED, "../../out.csv": pipe}, "no plain file", SHEET_OUT),
    Attack("findings written where a link leads out", {**REVISED, "../../out": link("outside/secret.md")}, "leads out", (*CHECK, "--output", "out")),
    Attack("a correction entered in a pattern.yaml that is a link out", {**register(""), "pattern.yaml": link("outside/secret.md")}, "SP011", (*ERRATA, "--enter")),
]  # fmt: skip

SENT_BACK = (*RETURNED, *REVISIONS, *EDITS)
