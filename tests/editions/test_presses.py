"""PDFs side by side: the same bytes, every message, no traceback, and nothing left running."""

import os
import shutil
import signal
import subprocess
import sys
from multiprocessing import active_children
from pathlib import Path
from time import monotonic, sleep

import pytest

from stitchproof import build_pattern
from stitchproof.editions import put_out
from stitchproof.editions.assets import Assets
from stitchproof.editions.made_with import NOTHING_KEPT
from stitchproof.editions.pdf import write_pdf
from stitchproof.editions.presses import Asked, Presses, PrintingFailed, presses_for
from stitchproof.processes import can_fork, processors
from tests.architecture.code_reader import CLONE

PAGES = [
    f"<html lang=en><title>{word}</title><p>{word} of 88 (96, 104) sts</p></html>" for word in ("Brim", "Body", "Top")
]
BROKEN = PAGES[0].replace("<p>", "<p style='colour: red'>")


def printed(pages: list[str], at_once: int) -> list[object]:
    with Presses(at_once) as presses:
        return [presses.fetch(asked) for asked in [presses.ask(page, {}) for page in pages]]


def test_several_at_once_give_the_same_bytes_and_messages() -> None:
    together = printed([*PAGES, BROKEN], 2)
    assert together == [write_pdf(page) for page in (*PAGES, BROKEN)] == printed([*PAGES, BROKEN], 1)
    assert any("colour" in message for message in together[-1].messages)  # type: ignore[attr-defined]


def test_a_mistake_of_ours_comes_back_in_one_line() -> None:
    no_page: str = None  # type: ignore[assignment]
    with pytest.raises(PrintingFailed, match=r"^\w+\.py:\d+ TypeError: ") as failed:
        printed([*PAGES, no_page], 2)
    assert "\n" not in str(failed.value)


def test_one_pdf_or_one_processor_starts_no_process(monkeypatch: pytest.MonkeyPatch) -> None:
    assert presses_for(1) == presses_for(0) == 1
    assert presses_for(8) == min(processors(), 4)
    monkeypatch.setattr(Presses, "start", None)
    assert len(printed(PAGES[:1], 2)) == 1
    assert len(printed(PAGES, 1)) == 3


def test_presses_that_are_warm_and_have_no_work_end_by_themselves() -> None:
    """A check that finds a fault prints nothing; nobody waits for the renderer."""
    with Presses(3) as presses:
        presses.start()
        assert presses.pool is not None
    assert not active_children()


def test_a_failure_while_pages_are_printed_is_a_finding(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def fails(*arguments: object) -> None:
        raise PrintingFailed("draw.py:7 KeyError: 'x'")

    monkeypatch.setattr(put_out, "EditionsToMake", fails)
    outcome = build_pattern(CLONE / "pattern_sources" / "cobblewick_hat", to=tmp_path, within=CLONE)
    assert [found.page.code for found in outcome.check.findings] == ["SP000"]
    assert outcome.files == ()
    assert list(tmp_path.iterdir()) == []


def test_a_fault_that_is_found_when_pages_are_asked_for_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Pages are begun before the pattern is judged. A draft waits, as it shows what was found."""
    asked: list[bytes | None] = []
    ask = Presses.ask

    def noted(presses: Presses, html: str, assets: Assets, record: bytes | None = b"") -> Asked:
        asked.append(record)
        return ask(presses, html, assets, record)

    monkeypatch.setattr(Presses, "ask", noted)
    monkeypatch.setattr("stitchproof.editions.presses.processors", lambda: 2)
    pattern = Path(shutil.copytree(CLONE / "pattern_sources" / "cobblewick_hat", tmp_path / "cobblewick_hat"))
    brim = pattern / "20_brim.md"
    brim.write_text(brim.read_text("utf-8").replace("Ch <brim_chain>.", "Ch <brim_chain + 1>."), "utf-8")
    for draft in (False, True):
        made = build_pattern(pattern, editions=("all_sizes",), to=tmp_path / "build", draft=draft, within=tmp_path)
        assert [found.page.code for found in made.check.findings] == ["SP135"]
        assert not active_children()
        assert bool(made.files) == (tmp_path / "build").exists() == draft
    ahead, of_the_draft = asked
    assert of_the_draft
    assert (ahead is None) == can_fork()


@pytest.mark.skipif(not sys.platform.startswith("linux") or processors() < 2, reason="nothing runs beside the build")
@pytest.mark.parametrize("begin", ["command_line import run as start", "__main__ import start"])
def test_a_build_that_is_stopped_leaves_the_earlier_one_and_nothing_running(begin: str, tmp_path: Path) -> None:
    earlier = tmp_path / "cobblewick_hat" / "record.json"  # what a build is known by
    earlier.parent.mkdir()
    earlier.write_bytes(b"an earlier build")
    arguments = ["build", "cobblewick_hat", "--edition", "one_size", "--to", str(tmp_path)]  # it has an early press
    code = f"import sys; sys.path[:0] = {[entry for entry in sys.path if entry]!r}; sys.argv[1:] = {arguments!r}\n"
    stopped = "import signal\nsignal.signal(signal.SIGINT, signal.default_int_handler)\n"
    run = f"{code}{stopped}from stitchproof.{begin}\nstart()"
    build = subprocess.Popen(
        [sys.executable, "-c", run], cwd=CLONE, start_new_session=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )
    children = Path(f"/proc/{build.pid}/task/{build.pid}/children")
    until(lambda: len(children.read_text().split()) >= 2)
    os.killpg(build.pid, signal.SIGINT)
    said, _ = build.communicate(timeout=30)
    assert (build.returncode, said) == (130, b"")
    until(lambda: not alive(build.pid))
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == [earlier]
    assert list(tmp_path.iterdir()) == [earlier.parent]


def until(holds: object) -> None:
    last = monotonic() + 30
    while not holds():  # type: ignore[operator]
        assert monotonic() < last
        sleep(0.01)


def alive(group: int) -> bool:
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True


@pytest.mark.skipif(not can_fork(), reason="nothing is asked for ahead")
def test_a_record_that_is_told_later_gives_the_same_pdf() -> None:
    record = b'{"format": "record"}\n'
    with Presses(2) as presses:
        cold = presses.can_wait
        presses.warm_up()
        assert (cold, presses.can_wait) == (False, True)
        asked = [presses.ask(page, {}, record) for page, record in zip(PAGES, (None, b"", None), strict=True)]
        presses.tell_record(record)
        made = [presses.fetch(each) for each in asked]
    assert made == [write_pdf(PAGES[0], None, record), write_pdf(PAGES[1]), write_pdf(PAGES[2], None, record)]
    assert [each.key for each in asked] == [
        Asked(page, {}, record, NOTHING_KEPT).key for page, record in zip(PAGES, (record, b"", record), strict=True)
    ]
