"""Reads the data files that ship with the compiler."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""A safe one, in C where PyYAML was built with it."""
_WORDS = "tag:yaml.org,2002:str"


def read_shipped(path: Path) -> dict[str, Any]:
    """One of our own YAML files. A check reads a few, and what a loader makes of any YAML there is costs as much again as to read
    it; ours is maps, lists and single values, without references."""
    loader = _LOADER(path.read_text("utf-8"))
    data: dict[str, Any] = _plain(loader.get_single_node(), loader)
    return data


def _plain(node: yaml.Node, loader: Any) -> Any:
    if isinstance(node, yaml.MappingNode):
        return {_plain(key, loader): _plain(value, loader) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_plain(each, loader) for each in node.value]
    return node.value if node.tag == _WORDS else loader.construct_object(node)
