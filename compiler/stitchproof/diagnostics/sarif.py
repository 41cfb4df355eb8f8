"""Findings as a SARIF 2.1.0 log: the form that code hosts and editors read. Made from the same facts as the JSON form.

Section numbers are those of the OASIS standard "Static Analysis Results Interchange Format (SARIF) Version 2.1.0".
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from hashlib import sha256
from itertools import groupby
from typing import Any
from urllib.parse import quote

from stitchproof.diagnostics.facts import Facts
from stitchproof.diagnostics.faults.internal_fault import PAGE as INTERNAL_FAULT
from stitchproof.diagnostics.page import Example, Page

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FINGERPRINT = "codePieceRowSizes/v1"
PROPERTIES = ("pattern", "piece", "row", "sizes", "sum", "alternatives", "left_out", "help")
"""What else is told of a result; its pattern where the run was one of several."""
Node = dict[str, Any]


def as_sarif(findings: Iterable[Facts], pages: Iterable[Page], version: str, executed: bool, **more: Any) -> str:
    """The SARIF log of a run, its results in the order of the findings.

    pages: the pages of the findings' codes, once or oftener; those of codes that do not occur are left out. version: of
    the compiler. executed: False where the run did not come to its end. more: further facts of the run.
    """
    held = list(findings)
    occurring = {found["code"] for found in held}
    by_code = {page.code: page for page in pages if page.code in occurring}
    internal = [by_code.pop(INTERNAL_FAULT.code)] if INTERNAL_FAULT.code in by_code else []
    rules = [by_code[code] for code in sorted(by_code)]
    index = {page.code: number for number, page in enumerate(rules)}
    driver: Node = {"name": "stitchproof", "version": version, "rules": [_descriptor(page) for page in rules]}
    if internal:
        driver["notifications"] = [_descriptor(page) for page in internal]
    notices = [_notification(found) for found in held if found["code"] == INTERNAL_FAULT.code]
    run: Node = {
        "tool": {"driver": driver},
        "invocations": [{"executionSuccessful": executed, "toolExecutionNotifications": notices}],
        "columnKind": "unicodeCodePoints",
        "results": [_result(found, index[found["code"]]) for found in held if found["code"] != INTERNAL_FAULT.code],
    }
    if more:
        run["properties"] = more
    text = json.dumps({"version": "2.1.0", "$schema": SCHEMA, "runs": [run]}, ensure_ascii=False, indent=2) + "\n"
    # YAML can spell half a character, which UTF-8 cannot hold.
    return text.encode("utf-8", "replace").decode("utf-8")


def _result(found: Facts, rule: int) -> Node:
    result: Node = {
        "ruleId": found["code"],
        "ruleIndex": rule,
        "level": found["severity"],
        "message": _message("\n".join([found["headline"], *_sums(found["sum"])])),
        "locations": [_location(found["primary"])],
        "partialFingerprints": {FINGERPRINT: _fingerprint(found)},
        # An empty list says "not accepted"; §3.27.23 wants it in all results of a run or in none.
        "suppressions": [{"kind": "external", "justification": found["accepted"]}] if found.get("accepted") else [],
        "properties": {key: found[key] for key in PROPERTIES if key in found},
    }
    if found["related"]:
        # The members of relatedLocations must differ (§3.27.22); their numbers see to it.
        result["relatedLocations"] = [
            {"id": number, **_location(excerpt)} for number, excerpt in enumerate(found["related"], 1)
        ]
    return result


def _notification(found: Facts) -> Node:
    """A fault of the compiler itself; it says nothing about the pattern and is no result."""
    return {
        "descriptor": {"id": found["code"], "index": 0},
        "level": found["severity"],
        "message": _message(found["headline"]),
        "locations": [_location(found["primary"])],
        "properties": {key: found[key] for key in ("pattern", "help") if key in found},
    }


def _message(text: str) -> Node:
    """A plain-text message (§3.11): braces would be placeholders unless doubled, and "[…](…)" would be a link."""
    return {"text": text.replace("{", "{{").replace("}", "}}").replace("](", "] (")}


def _sums(sums: list[Facts]) -> list[str]:
    """One line for each sum; sizes with the same sum share a line."""
    lines = []
    for (expression, note), group in groupby(sums, key=lambda line: (str(line["expression"]), str(line["note"]))):
        sizes = ", ".join(line["size"] for line in group if line["size"])
        lines.append(f"{f'{sizes}: ' if sizes else ''}{expression}{f' ({note})' if note else ''}")
    return lines


def _location(excerpt: Facts) -> Node:
    place: Node = {"artifactLocation": {"uri": _uri(excerpt["path"])}}
    start, end = excerpt["start"], excerpt["end"]
    whole_file = (start["line"], start["column"]) == (1, 1) and start == end
    if not whole_file:
        place["region"] = {
            "startLine": start["line"],
            "startColumn": start["column"],
            "endLine": end["line"],
            "endColumn": end["column"],
        }
    location: Node = {"physicalLocation": place}
    if excerpt["label"]:
        location["message"] = _message(excerpt["label"])
    return location


def _uri(path: str) -> str:
    """A path with forward slashes as a URI reference (RFC 3986): relative as it is, absolute as a file: URI."""
    return ("file://" if path.startswith("/") else "") + quote(path, safe="/", errors="surrogatepass")


def _fingerprint(found: Facts) -> str:
    """What stays the same of a fault when lines move: SHA-256 over code, piece, row and sizes."""
    held = json.dumps([found["code"], found["piece"], found["row"], found["sizes"]])
    return sha256(held.encode("ascii")).hexdigest()


def _descriptor(page: Page) -> Node:
    return {
        "id": page.code,
        "name": page.name,
        "shortDescription": {"text": page.checks},
        "fullDescription": {"text": f"{page.checks} {page.matters}"},
        "defaultConfiguration": {"level": page.severity.value},
        "help": {"text": _help_text(page), "markdown": _help_markdown(page)},
    }


def _help_text(page: Page) -> str:
    parts = [f"{title}: {text}" for title, text in _sections(page)]
    for example in page.examples:
        held = [example.yaml.rstrip("\n"), *(["---", example.text.rstrip("\n")] if example.text else [])]
        parts.append("\n".join([f"{_verdict(example)}:", *held]))
    return "\n\n".join(parts)


def _help_markdown(page: Page) -> str:
    parts = [f"# {page.code} {page.name}"]
    parts += [f"**{title}** {_escaped(text)}" for title, text in _sections(page)]
    for example in page.examples:
        parts += [f"{_escaped(_verdict(example))}:", _fenced(example.yaml, "yaml")]
        if example.text:
            parts += ["with this text:", _fenced(example.text, "markdown")]
    return "\n\n".join(parts) + "\n"


def _sections(page: Page) -> tuple[tuple[str, str], ...]:
    return (("Checks", page.checks), ("Matters", page.matters), ("Mend", page.mend), ("Source", page.source))


def _verdict(example: Example) -> str:
    if example.fires_in is None:
        return "Passes"
    return f"Is reported in {', '.join(example.fires_in)}" if example.fires_in else "Is reported"


def _escaped(text: str) -> str:
    """Prose of a page as Markdown: signs that would set type are escaped, code in backticks stays as it is."""
    return re.sub(r"(`[^`]*`)|([\\*_<>\[\]])", lambda match: match[1] or f"\\{match[2]}", text)


def _fenced(text: str, language: str) -> str:
    """A code block whose fence is longer than any run of backticks inside."""
    fence = "`" * max([3, *(len(run) + 1 for run in re.findall("`+", text))])
    return f"{fence}{language}\n{text.rstrip(chr(10))}\n{fence}"
