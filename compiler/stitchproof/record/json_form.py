"""The record as a file: one line for each number, row and finding, so that two records differ where their patterns do."""

from __future__ import annotations

from typing import Any

import msgspec

from stitchproof.record.coherent import what_does_not_fit
from stitchproof.record.record import FORMAT, VERSION, Record

MOST_BYTES = 64_000_000
"""A record of forty sizes and two thousand rows is a tenth of that."""


class NotARecord(ValueError):
    """What was read is no record that this version understands; the message says why, for people."""


def as_bytes(record: Record) -> bytes:
    """The same record gives the same bytes."""
    return "".join(_lines(msgspec.to_builtins(record), 0, 4)).encode() + b"\n"


def from_bytes(content: bytes) -> Record:
    """A record. Raises NotARecord for one that is damaged, cut off, of another kind or of a later version."""
    if len(content) > MOST_BYTES:
        raise NotARecord(f"it is larger than {MOST_BYTES // 1_000_000} MB")
    try:
        head = msgspec.json.decode(content, type=dict[str, Any])
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise NotARecord(f"it is no record, damaged or cut off ({error})") from None
    if head.get("format") != FORMAT:
        raise NotARecord(f"it does not say `{FORMAT}` under `format`")
    if head.get("version") != VERSION:
        raise NotARecord(f"it is of version {str(head.get('version'))[:20]}; this stitchproof reads version {VERSION}")
    try:
        record = msgspec.convert(head, Record)
    except msgspec.ValidationError as error:
        raise NotARecord(f"something in it is not what it should be: {error}") from None
    if fault := what_does_not_fit(record):
        raise NotARecord(fault)
    return record


def schema() -> dict[str, Any]:
    """The JSON Schema of a record, as it is shipped beside this module."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **msgspec.json.schema(Record)}


def _lines(value: Any, indent: int, depth: int) -> Any:
    """Maps and lists of the outer levels one entry a line, what stands inside on its entry's line."""
    if not depth or not value or not isinstance(value, dict | list | tuple):
        yield msgspec.json.encode(value).decode()
        return
    opened, closed = ("{", "}") if isinstance(value, dict) else ("[", "]")
    entries = list(value.items()) if isinstance(value, dict) else [(None, each) for each in value]
    yield opened + "\n"
    for number, (key, each) in enumerate(entries):
        name = "" if key is None else msgspec.json.encode(key).decode() + ": "
        yield " " * (indent + 1) + name
        yield from _lines(each, indent + 1, depth - 1 if isinstance(value, dict) else 0)
        yield ",\n" if number + 1 < len(entries) else "\n"
    yield " " * indent + closed
