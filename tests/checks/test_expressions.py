"""Expressions in the form that lies beside the compiler are those that Python compiles."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys

import msgspec
import pytest

from stitchproof import expressions
from stitchproof.expressions import Form, expression, file_of_forms, pattern_of
from tests.architecture.code_reader import CLONE, SOURCE_ROOT
from tests.checks.write_expressions import form_of

FORMS: tuple[Form, ...] = (
    msgspec.json.decode(file_of_forms().read_bytes(), type=tuple[Form, ...]) if file_of_forms().exists() else ()
)
"""Of this Python; one that compiles in another way has none."""
SORTS = [
    ("sc", 0),
    (r"(?P<n>\d+)\s*(?:sts?|(stitch(?:es)?))(?=\W|$)", re.IGNORECASE),
    (r"^[ \t]*(?P<words>[^\n]*?)$", re.MULTILINE),
    (r"(?i:ROW)\b(?<!th)[½¼—‘]{2,}?.", re.DOTALL),
    (r"(['\"]) (?P<said> .*? ) \1", re.VERBOSE),
    ("[^a-zà-ÿŒſ]|(?=a)b|c{3}", re.IGNORECASE),
]


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.text[:40])
def test_a_form_is_what_this_python_compiles(form: Form) -> None:
    """Two expressions are the same to Python where their text, flags and code are."""
    compiled = re.compile(form.text, form.flags)
    made = pattern_of(form)
    assert made == compiled
    assert (made.groupindex, made.groups, made.flags) == (compiled.groupindex, compiled.groups, compiled.flags)
    assert form == form_of(form.text, form.flags)


@pytest.mark.parametrize(("text", "flags"), SORTS)
def test_what_a_form_finds_is_what_its_expression_finds(text: str, flags: int) -> None:
    ready = msgspec.json.decode(msgspec.json.encode(form_of(text, int(flags))), type=Form)
    said = "Row 1: 4 sts, 5 STITCHES — “½½” 'a b' ROW½¼. ccc ſ\n  Œ 12 stitch"
    for found, wanted in zip(pattern_of(ready).finditer(said), re.finditer(text, said, flags), strict=True):
        assert (found.span(), found.groupdict(), found.lastgroup) == (
            wanted.span(),
            wanted.groupdict(),
            wanted.lastgroup,
        )


def of_a_fresh_python() -> set[tuple[str, int]]:
    """The expressions of our modules, each with its flags."""
    work = "import json\nfrom tests.checks.write_expressions import of_our_modules\nprint(json.dumps(of_our_modules()))"
    env = {"PYTHONPATH": f"{SOURCE_ROOT}{os.pathsep}{CLONE}"}
    run = subprocess.run([sys.executable, "-c", work], env=env, cwd=CLONE, capture_output=True, text=True, check=True)
    return {(text, flags) for text, flags in json.loads(run.stdout)}


def test_most_expressions_of_our_modules_have_their_form() -> None:
    """A few may be missing, and are compiled: whoever changes one need not think of it at once."""
    ours, held = of_a_fresh_python(), {(form.text, form.flags) for form in FORMS}
    assert len(ours) > 300
    if file_of_forms().name == "expressions.20220615.json":
        assert len(ours - held) < len(ours) // 10, "`make quick-forms` writes them anew"
        assert len(held - ours) < len(ours) // 10, "`make quick-forms` leaves out those that nobody asks for"


def test_an_expression_without_a_form_is_compiled(monkeypatch: pytest.MonkeyPatch) -> None:
    assert expression("of no module of ours", re.IGNORECASE) == re.compile("of no module of ours", re.IGNORECASE)
    with pytest.raises(re.error):
        expression("(")
    monkeypatch.setattr(expressions, "_forms", dict)
    assert expression(FORMS[0].text if FORMS else "a").search("") is None


def test_what_python_could_not_run_is_refused() -> None:
    broken = Form("sc", 0, 32, 0, {}, msgspec.Raw(b"[19, 900, 1]"))
    with pytest.raises(RuntimeError, match="invalid SRE code"):
        pattern_of(broken)
