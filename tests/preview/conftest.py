"""One preview of the hat for every test of a module that changes nothing in it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from stitchproof.preview.serve import Preview
from tests.preview.running import HAT, running, session_of, workspace_with


@pytest.fixture(scope="module")
def hat(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Preview]:
    with running(session_of(workspace_with(tmp_path_factory.mktemp("hat"), HAT))) as preview:
        yield preview
