"""Following a folder: many saves, a folder that goes and comes back, one that comes later, and pages that are closed."""

from __future__ import annotations

import asyncio
import re
import shutil
from collections.abc import Callable
from pathlib import Path

from stitchproof.preview.bell import Bell
from stitchproof.preview.follow import saves
from stitchproof.preview.prints import Stage
from stitchproof.preview.server import MOST_PAGES
from stitchproof.preview.words import REFUSED
from tests.preview.many_saves import many_saves
from tests.preview.running import HAT, PATIENCE, News, get, post, running, session_of, soon, workspace_with

SECONDS = 30.0


def followed(folders: tuple[Path, ...], *acts: Callable[[], object]) -> list[bool]:
    """Whether each act is told as a save, the ones before it over."""

    async def follow() -> list[bool]:
        told = saves(folders, look_round=50)
        await asyncio.wait_for(anext(told), SECONDS)  # the first look
        found = []
        for act in acts:
            act()
            try:
                await asyncio.wait_for(anext(told), SECONDS)
                found.append(True)
            except TimeoutError:
                found.append(False)
        await told.aclose()
        return found

    return asyncio.run(follow())


def test_each_sort_of_save_is_seen(tmp_path: Path) -> None:
    """Written in place, put in place by renaming as most editors do, taken away, a new file, a file in a folder of its own."""
    folder, file = tmp_path / "hat", tmp_path / "hat" / "pattern.yaml"
    folder.mkdir()
    file.write_text("1")
    beside = folder / ".pattern.yaml.new"

    def by_renaming() -> None:
        beside.write_text("2")
        beside.replace(file)

    def in_a_folder() -> None:
        (folder / "styles").mkdir()
        (folder / "styles" / "words.yaml").write_text("a: b")

    acts = (lambda: file.write_text("3"), by_renaming, file.unlink, lambda: file.write_text("4"), in_a_folder)
    assert followed((folder,), *acts) == [True] * 5


def test_folders_come_and_go(tmp_path: Path) -> None:
    folder, styles = tmp_path / "hat", tmp_path / "styles"
    folder.mkdir()
    (folder / "a.md").write_text("1")
    elsewhere = tmp_path / "elsewhere"
    acts = (
        lambda: styles.mkdir(),
        lambda: (styles / "words.yaml").write_text("a: b"),
        lambda: shutil.move(folder, elsewhere),
        lambda: shutil.move(elsewhere, folder),
        lambda: (folder / "a.md").write_text("2"),
        lambda: shutil.rmtree(styles),
        lambda: shutil.rmtree(folder),
        lambda: folder.mkdir(),
    )
    assert followed((folder, styles), *acts) == [True] * len(acts)


def test_a_bell_wakes_whoever_waits() -> None:
    async def waited() -> tuple[int, int, int]:
        bell = Bell()
        nothing = await bell.wait(0, 0.01)
        waiting = asyncio.create_task(bell.wait(0, SECONDS))
        await asyncio.sleep(0)
        bell.ring()
        bell.ring()
        return nothing, await waiting, await bell.wait(1, SECONDS)

    assert asyncio.run(waited()) == (0, 2, 2)


def test_many_saves(tmp_path: Path) -> None:
    """The short form of `python -m tests.preview.many_saves`, which saves a thousand times and looks at the memory."""
    assert many_saves(workspace_with(tmp_path, HAT), 30).told == 3


def test_what_is_the_same_is_no_news(tmp_path: Path) -> None:
    session = session_of(workspace_with(tmp_path, HAT))
    with running(session) as preview:
        page = News(preview)
        version = page.next()["shown"]
        file = session.folder / "pattern.yaml"
        text = file.read_text("utf-8")
        file.write_text(text, encoding="utf-8")
        file.write_text(text.replace("title: Cobblewick Hat", "title: Cobblewick Bonnet", 1), encoding="utf-8")
        assert page.until(version + 1)["shown"] == version + 1
        page.close()


def test_what_is_new_is_sent_ahead_of_the_news(tmp_path: Path) -> None:
    """What there was when the page was opened it has fetched for itself; and what is around it is sent where that is new too."""
    session = session_of(workspace_with(tmp_path, HAT))
    with running(session) as preview:
        page = News(preview)
        version = page.next()["shown"]
        assert page.sent == {}
        file = session.folder / "20_brim.md"
        file.write_text(file.read_text("utf-8").replace("Do not fasten off.", "Do not cut yarn.", 1), encoding="utf-8")
        news = page.until(version + 1)
        assert page.sent == {"page": [news["page"], get(preview, "page").body]}
        file = session.folder / "pattern.yaml"
        file.write_text(file.read_text("utf-8").replace("title: Cobblewick Hat", "title: Bonnet", 1), encoding="utf-8")
        news = page.until(version + 2)
        frame = re.sub(r"(?s)<(style|script)>.*?</\1>\n", "", get(preview, "").body)  # it has these
        assert page.sent == {"page": [news["page"], get(preview, "page").body], "frame": [news["frame"], frame]}
        page.close()


def test_pages_that_are_open_are_told_apart_from_none(tmp_path: Path) -> None:
    """Closed pages are let go; the others are told as before."""
    session = session_of(workspace_with(tmp_path, HAT))
    with running(session, still_here=0.1) as preview:
        pages = [News(preview) for _ in range(5)]
        version = max(page.next()["shown"] for page in pages)
        for page in pages[1:]:
            page.close()
        assert soon(lambda: preview.app.listening == 1)
        file = session.folder / "pattern.yaml"
        file.write_text(file.read_text("utf-8").replace("title: Cobblewick Hat", "title: Bonnet", 1), encoding="utf-8")
        pages[0].until(version + 1)
        assert "<h1>Bonnet</h1>" in get(preview, "page").body
        pages[0].close()


def test_more_pages_than_anybody_needs_are_refused(tmp_path: Path) -> None:
    with running(session_of(workspace_with(tmp_path, HAT))) as preview:
        pages = [News(preview) for _ in range(MOST_PAGES)]
        for page in pages:
            page.next()
        answer = get(preview, "events")
        assert (answer.status, answer.body) == (503, REFUSED["many"])
        for page in pages:
            page.close()


def test_pdfs_are_made_elsewhere_and_again_at_once(tmp_path: Path) -> None:
    """An open page is told how far they are, at once and not with the next sign of life; what has not changed is not laid out
    again."""
    with running(session_of(workspace_with(tmp_path, HAT)), still_here=PATIENCE) as preview:
        page, jobs = News(preview), preview.app.desk.prints_of.jobs
        assert page.next()["prints"] == 0
        order = (("edition", "all_sizes"), ("size", "2"))
        post(preview, "print", *order)
        seen = []
        while jobs[0].stage not in (Stage.DONE, Stage.FAILED):
            seen.append(page.next()["prints"])
        assert len(seen) >= 3
        assert seen == sorted(seen)
        told = get(preview, "prints").body
        (name,) = jobs[0].files
        assert ", size 2 Toddler" in told
        assert f'href="printed/1/{name}"' in told
        assert get(preview, f"printed/1/{name}").body.startswith("%PDF-")
        post(preview, "print", *order)
        assert soon(lambda: jobs[1].stage is Stage.DONE)
        assert jobs[1].files == jobs[0].files
        page.close()
