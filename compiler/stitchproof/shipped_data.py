"""Reads the data files that ship with the compiler."""

from __future__ import annotations

from binascii import crc32
from pathlib import Path
from typing import Any

import msgspec
import yaml

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""A safe one, in C where PyYAML was built with it."""
_WORDS = "tag:yaml.org,2002:str"


class QuickForm(msgspec.Struct, frozen=True):
    """What a YAML file holds, as JSON beside it. made_from: the checksum of that file; made from another one it is not used."""

    made_from: int
    data: dict[str, Any]


def read_shipped(path: Path) -> dict[str, Any]:
    """One of our own YAML files. A check reads a few, and each takes thirty times as long as its quick form."""
    content = path.read_bytes()
    try:
        quick = msgspec.json.decode(quick_form_of(path).read_bytes(), type=QuickForm)
    except (OSError, msgspec.MsgspecError):
        return read_as_yaml(content)
    return quick.data if quick.made_from == crc32(content) else read_as_yaml(content)


def quick_form_of(path: Path) -> Path:
    """Where the quick form of a file lies."""
    return path.with_suffix(".json")


def quick_form(content: bytes) -> bytes:
    """The quick form of what a YAML file holds."""
    form = QuickForm(crc32(content), read_as_yaml(content))
    return msgspec.json.format(msgspec.json.encode(form), indent=1) + b"\n"


def read_as_yaml(content: bytes) -> dict[str, Any]:
    """The same from the YAML itself. What a loader makes of any YAML there is costs as much again as to read it; ours is maps,
    lists and single values, without references."""
    loader = _LOADER(content.decode())
    data: dict[str, Any] = _plain(loader.get_single_node(), loader)
    return data


def _plain(node: yaml.Node, loader: Any) -> Any:
    if isinstance(node, yaml.MappingNode):
        return {_plain(key, loader): _plain(value, loader) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_plain(each, loader) for each in node.value]
    return node.value if node.tag == _WORDS else loader.construct_object(node)
