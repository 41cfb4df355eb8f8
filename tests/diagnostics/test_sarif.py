"""The SARIF form, against the published schema and against the sources that its places point into.

Section numbers are those of the OASIS standard SARIF 2.1.0.
"""

from __future__ import annotations

import json
import re
from fractions import Fraction
from typing import Any
from urllib.parse import unquote, urljoin, urlsplit

import pytest
from jsonschema import Draft4Validator

from stitchproof.checks.catalogue import all_pages
from stitchproof.diagnostics.diagnostic import Alternative, Diagnostic, Excerpt, SumLine
from stitchproof.diagnostics.facts import Facts, as_json, facts_of
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.diagnostics.page import read_page
from stitchproof.diagnostics.sarif import as_sarif
from stitchproof.source import SourceFile
from tests.diagnostics.published_sarif import PUBLISHED, SCHEMA, cut, only_run, valid

WARNING = read_page(
    """SP901 made-up

Severity  warning
Checks    one sentence.
Matters   for a * and `a*b`.
Mend      mend <it>.
Source    none.

Fires in M, XL:
    counts:
      rows: 2
    ---
    Row {{ r }}: ```

Quiet:
    a: 1
"""
)
TEXT = "Rang 1: «ça» e\u0301 👩‍🦰🧶 Rep [dc, inc](2)\nRow 2: sc\n"
FILE = SourceFile("pattern_sources/châle d'été/20 #1.md", TEXT)


def found(wrong: str = "inc", text: str = TEXT, **changed: Any) -> Diagnostic:
    """A finding of the made-up page at the first place of `wrong`."""
    file = SourceFile(FILE.path, text)
    start = text.index(wrong)
    held: dict[str, Any] = {"sizes": ("M", "XL"), "piece": "yoke", "row": "Row 3", **changed}
    return Diagnostic(WARNING, "does not fit", Excerpt(file.whole.part(start, start + len(wrong))), **held)


def log_of(*findings: Diagnostic, executed: bool = True, accepted: str = "", **more: Any) -> dict[str, Any]:
    """The log of findings, read back; it must keep to the schema."""
    facts = [{**facts_of(each), **({"accepted": accepted} if accepted else {})} for each in findings]
    return valid(as_sarif(facts, [each.page for each in findings], "1.2.3", executed, **more))


def result_of(*findings: Diagnostic, **options: Any) -> dict[str, Any]:
    (result,) = only_run(log_of(*findings, **options))["results"]
    assert isinstance(result, dict)
    return result


def test_the_schema_is_one_and_refuses() -> None:
    """The schema itself is sound, and a log that breaks it does not pass."""
    Draft4Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "http://json-schema.org/draft-04/schema#"
    log = log_of(found())
    only_run(log)["results"][0]["level"] = "fatal"
    assert not PUBLISHED.is_valid(log)
    log = log_of(found())
    only_run(log)["columnKind"] = "bytes"
    assert not PUBLISHED.is_valid(log)


def test_every_page_is_a_rule() -> None:
    """All pages at once, in the order of their codes: the schema holds for what each says."""
    pages = [page for page in all_pages() if page.code != "SP000"]
    findings = [Diagnostic(page, "headline", Excerpt(FILE.whole)) for page in reversed(pages)]
    run = only_run(log_of(*findings))
    assert [rule["id"] for rule in run["tool"]["driver"]["rules"]] == sorted(page.code for page in pages)
    for page, rule in zip(pages, run["tool"]["driver"]["rules"], strict=True):
        assert rule["shortDescription"]["text"] == page.checks
        for part in (page.matters, page.mend, page.source):
            assert part in rule["help"]["text"]
        for example in page.examples:
            for text in (example.yaml, example.text):
                assert text.rstrip("\n") in rule["help"]["text"]
                assert text.rstrip("\n") in rule["help"]["markdown"]


def test_help_as_markdown() -> None:
    """Signs of type are escaped in prose and left in code; a fence is longer than any inside."""
    (rule,) = only_run(log_of(found()))["tool"]["driver"]["rules"]
    assert rule["help"]["markdown"] == (
        "# SP901 made-up\n\n**Checks** one sentence.\n\n**Matters** for a \\* and `a*b`.\n\n**Mend** mend \\<it\\>.\n\n"
        "**Source** none.\n\nIs reported in M, XL:\n\n```yaml\ncounts:\n  rows: 2\n```\n\nwith this text:\n\n"
        "````markdown\nRow {{ r }}: ```\n````\n\nPasses:\n\n```yaml\na: 1\n```\n"
    )


def test_clean_run() -> None:
    """Nothing found: no rules, no results, and the run succeeded."""
    log = log_of(patterns=["hat"], files=[])
    run = only_run(log)
    assert log["version"] == "2.1.0"
    assert run["columnKind"] == "unicodeCodePoints"
    assert run["tool"]["driver"] == {"name": "stitchproof", "version": "1.2.3", "rules": []}
    assert run["invocations"] == [{"executionSuccessful": True, "toolExecutionNotifications": []}]
    assert run["results"] == []
    assert run["properties"] == {"patterns": ["hat"], "files": []}


def test_same_facts_as_the_json_form() -> None:
    """Order, sizes, sums, values that work and help are those of the JSON form, findings of one code or of many."""
    sums = (
        SumLine("M", "114 = 28 × 4 + 2", Fraction(114), Fraction(112), "2 stitches left over"),
        SumLine("XL", "138 = 34 × 4 + 2", Fraction(138), Fraction(136), "2 stitches left over"),
    )
    offers = (Alternative("M", "112", Fraction(-1)), Alternative("M", "116", None))
    findings = [
        found("sc", sums=sums, alternatives=offers, left_out=("110",), help=("take one of these",)),
        Diagnostic(all_pages()[3], "another", Excerpt(FILE.whole)),
        found("dc", sizes=("S",)),
    ]
    told = json.loads(as_json(map(facts_of, findings)))["diagnostics"]
    results = only_run(log_of(*findings))["results"]
    assert [result["ruleId"] for result in results] == [each["code"] for each in told]
    for result, each in zip(results, told, strict=True):
        assert result["message"]["text"].split("\n")[0] == each["headline"]
        assert result["properties"] == {key: each[key] for key in result["properties"]}
        assert {"piece", "row", "sizes", "sum", "alternatives", "left_out", "help"} == result["properties"].keys()
    assert results[0]["message"]["text"].split("\n")[1:] == [
        "M: 114 = 28 × 4 + 2 (2 stitches left over)",
        "XL: 138 = 34 × 4 + 2 (2 stitches left over)",
    ]


def test_equal_sums_share_a_line() -> None:
    """A sum that is the same in several sizes is said once; one without a size stands alone."""
    same = [SumLine(size, "20 + 2 = 22") for size in ("S", "M")]
    text = result_of(found(sums=(*same, SumLine("", "1 + 1 = 3", note="no"))))["message"]["text"]
    assert text == "does not fit (sizes M, XL)\nS, M: 20 + 2 = 22\n1 + 1 = 3 (no)"


def test_columns_count_code_points() -> None:
    """Accents, a combining accent, and an emoji of several code points before the fault (§3.14.27)."""
    region = result_of(found("inc"))["locations"][0]["physicalLocation"]["region"]
    # "Rang 1: " 8 + "«ça» " 5 + e and its accent 2 + a blank 1 + the woman with red hair 3 + the yarn 1 + " Rep [dc, " 10
    # = 30 code points; UTF-16 would count 33.
    assert region == {"startLine": 1, "startColumn": 31, "endLine": 1, "endColumn": 34}
    assert cut(TEXT, region) == "inc"


def test_fault_over_two_lines() -> None:
    """The end is one past the last character, on the last line."""
    region = result_of(found("inc](2)\nRow 2"))["locations"][0]["physicalLocation"]["region"]
    assert region == {"startLine": 1, "startColumn": 31, "endLine": 2, "endColumn": 6}


def test_whole_file_has_no_region() -> None:
    """A fault of a file as a whole names the file alone, read or not."""
    for file in (FILE, SourceFile(FILE.path, "")):
        result = result_of(Diagnostic(WARNING, "not there", Excerpt(file.whole, "why")))
        (location,) = result["locations"]
        assert location["physicalLocation"].keys() == {"artifactLocation"}
        assert location["message"]["text"] == "why"


@pytest.mark.parametrize(
    "path",
    [
        "pattern_sources/hat/20_yoke.md",
        "pattern_sources/châle d'été/20 #1.md",
        "pattern_sources/100% wool?/a&b=c.md",
        "a:b/毛糸 🧶.md",
        "/elsewhere/my pattern/text.md",
    ],
)
def test_uri(path: str) -> None:
    """Only the characters of RFC 3986 §2, never read as a scheme or host; read back it is the path."""
    (location,) = result_of(Diagnostic(WARNING, "x", Excerpt(SourceFile(path, "").whole)))["locations"]
    uri = location["physicalLocation"]["artifactLocation"]["uri"]
    assert re.fullmatch(r"(?:[A-Za-z0-9._~/:-]|%[0-9A-F]{2})+", uri)
    assert urlsplit(uri).scheme == ("file" if path.startswith("/") else "")
    assert unquote(urlsplit(urljoin("file:///base/", uri)).path) == (path if path.startswith("/") else f"/base/{path}")


def test_related_places_are_numbered() -> None:
    """The same place twice is no fault of the log: §3.27.22 wants the members to differ."""
    twice = Excerpt(FILE.whole.part(0, 4), "used from here")
    result = result_of(found(related=(twice, twice)))
    assert [place["id"] for place in result["relatedLocations"]] == [1, 2]
    assert [place["message"]["text"] for place in result["relatedLocations"]] == ["used from here"] * 2
    assert len(result["locations"]) == 1
    assert "relatedLocations" not in result_of(found())


def test_fingerprint_stays_when_lines_move() -> None:
    """Other lines before the fault, another label and other sums change nothing."""
    first = result_of(found())
    moved = result_of(found(text="New first line\n\n" + TEXT, sums=(SumLine("M", "1 = 2"),)))
    assert first["locations"] != moved["locations"]
    assert first["partialFingerprints"] == moved["partialFingerprints"]


def test_fingerprint_tells_faults_apart() -> None:
    """Code, piece, row and sizes each count, and where one ends and the next begins."""
    apart = [
        found(),
        found(sizes=("M",)),
        found(sizes=("M", "XL", "2XL")),
        found(piece="sleeve"),
        found(row="Row 4"),
        found(piece="", row="yoke"),
        found(piece="yoke", row=""),
        Diagnostic(all_pages()[3], "x", Excerpt(FILE.whole), sizes=("M", "XL"), piece="yoke", row="Row 3"),
    ]
    prints = {json.dumps(result_of(each)["partialFingerprints"]) for each in apart}
    assert len(prints) == len(apart)


def test_accepted_warning() -> None:
    """Suppressed with its reason; the others of the run say that they are not (§3.27.23: all or none)."""
    assert result_of(found(), accepted="eased in on purpose")["suppressions"] == [
        {"kind": "external", "justification": "eased in on purpose"}
    ]
    facts: list[Facts] = [{**facts_of(found()), "accepted": "on purpose"}, {**facts_of(found("sc")), "accepted": ""}]
    results = only_run(valid(as_sarif(facts, [WARNING], "1", True)))["results"]
    assert [len(result["suppressions"]) for result in results] == [1, 0]


def test_braces_and_links_are_plain_text() -> None:
    """§3.11.5 and §3.11.6: braces are doubled, and brackets before a parenthesis do not become a link."""
    shown = Diagnostic(WARNING, "`{piece}` and [dc, inc](2)", Excerpt(FILE.whole, "{0}"))
    result = result_of(shown)
    assert result["message"]["text"] == "`{{piece}}` and [dc, inc] (2)"
    assert result["locations"][0]["message"]["text"] == "{{0}}"


def test_internal_fault_is_a_notification() -> None:
    """Our own bug is no result; the findings made before it still are."""
    run = only_run(log_of(found(), internal_fault("pattern_sources/hat", "reading", "what {it} was"), executed=False))
    (invocation,) = run["invocations"]
    assert invocation["executionSuccessful"] is False
    (notice,) = invocation["toolExecutionNotifications"]
    assert notice["level"] == "error"
    assert "our mistake, not yours" in notice["message"]["text"]
    assert notice["locations"][0]["message"]["text"] == "what {{it}} was"
    assert [result["ruleId"] for result in run["results"]] == ["SP901"]
    assert [rule["id"] for rule in run["tool"]["driver"]["rules"]] == ["SP901"]
    descriptor = run["tool"]["driver"]["notifications"][notice["descriptor"]["index"]]
    assert descriptor["id"] == notice["descriptor"]["id"] == "SP000"


def test_half_a_character_can_be_written() -> None:
    """YAML can spell a lone surrogate, UTF-8 cannot hold it."""
    text = as_sarif([facts_of(Diagnostic(WARNING, "\ud83e", Excerpt(FILE.whole)))], [WARNING], "1", True)
    assert only_run(valid(text.encode("utf-8").decode("utf-8")))["results"][0]["message"]["text"] == "?"
