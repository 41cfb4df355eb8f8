"""The desk: all that the pages of a preview can ask for, one thing after the other. Each answer is HTML, its words from the
frame's templates."""

from __future__ import annotations

import gc
from collections.abc import Callable, Mapping
from contextlib import suppress

from stitchproof.checks.catalogue import page_for
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.editions.kept_parts import KeptParts
from stitchproof.editions.print_document import visible_text
from stitchproof.preview.drawings import drawings_for
from stitchproof.preview.findings import finding_shown
from stitchproof.preview.frame import fragment, frame_html, said
from stitchproof.preview.inputs import inputs_of
from stitchproof.preview.numbers import number_told
from stitchproof.preview.pages import Signature, state_of
from stitchproof.preview.prints import EditionOffered, Prints, editions_offered
from stitchproof.preview.session import Session, counted_words
from stitchproof.preview.shown import FindingShown, Shown, State
from stitchproof.preview.tries import Tries
from stitchproof.reading.pattern_source import Header

Asked = Mapping[str, str]
Fields = list[tuple[str, str]]
MOST_CHANGES = 40
LONGEST_CHANGE = 400


class NotOnThePage(LookupError):
    """What is asked for is not there, or not any more."""


class Desk:
    """Answers for one session."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.tries = Tries(session)
        self.told: Callable[[], None] = lambda: None
        self.prints_of = Prints(session.styles, lambda: self.told())
        self.parts = KeptParts()
        self.inputs_of: tuple[Header, str] | None = None
        self.offered_then: tuple[Signature, list[EditionOffered]] | None = None
        self.framed: tuple[int, str] | None = None

    def versions(self) -> dict[str, int]:
        """What an open page holds against what it has."""
        shown = self.shown
        since = {"frame": shown.frame_since, "page": shown.page_since}
        return {"shown": shown.version, **since, "prints": self.prints_of.version}

    def look(self) -> None:
        """Look at the source again, and have what is new ready for every open page."""
        self.session.refresh()
        self._have_frame_ready()

    def offer(self, give_up: Callable[[], bool]) -> bool:
        """Look for values that would work, as `Session.offer`."""
        found = self.session.offer(give_up)
        if found:
            self._have_frame_ready()
        return found

    def _have_frame_ready(self) -> None:
        since = self.shown.frame_since
        if self.framed is None or self.framed[0] != since:
            with suppress(Exception):  # an open page asks for it then, and is told
                self.framed = since, self.frame(bare=True)

    def new_since(self, has: Mapping[str, int], versions: Mapping[str, int]) -> dict[str, tuple[int, str]]:
        """What an open page has not got, as far as it is ready: its version and its HTML, by "frame" and "page"."""
        shown, framed = self.session.shown, self.framed
        page = (shown.page_since, shown.page) if shown and shown.page else None
        ready = {"frame": framed, "page": page}
        return {key: made for key, made in ready.items() if made and made[0] == versions[key] != has[key]}

    @property
    def shown(self) -> Shown:
        return self.session.shown or self.session.refresh()

    def tidy(self) -> None:
        """Let go of parts that are no longer shown, and of what went round in circles."""
        self.parts.begin(None)
        gc.collect()

    def close(self) -> None:
        """Give up what is being printed."""
        self.prints_of.close()

    def frame(self, bare: bool = False) -> str:
        """The page around the page; bare: without its style and its script, for a page that has them."""
        shown = self.shown
        sizes = _sizes(shown)
        return frame_html(
            bare,
            shown=shown,
            state=_state_words(shown),
            sizes=sizes,
            findings=self._findings(shown),
            editions=self._editions(sizes),
            jobs=self.prints_of.jobs,
        )

    def _findings(self, shown: Shown) -> str:
        key = ("findings", shown.findings, shown.left_out)
        return self.parts.get(
            key, lambda: fragment("findings.html.j2", findings=shown.findings, left_out=shown.left_out)
        )

    def inputs(self, _: Asked) -> str:
        """What may be tried; it hangs on pattern.yaml and its body table alone."""
        shown = self.shown
        sized = shown.outcome.sized or (shown.page_outcome.sized if shown.page_outcome else None)
        if sized is None:
            return ""
        if self.inputs_of is None or self.inputs_of[0] is not sized.source.header:
            self.inputs_of = sized.source.header, fragment("inputs.html.j2", inputs=inputs_of(sized), names=sized.sizes)
        return self.inputs_of[1]

    def _editions(self, sizes: list[tuple[int, str]]) -> str:
        offered = self.offered()
        return self.parts.get(
            ("editions", tuple(each.name for each in offered), tuple(sizes)),
            lambda: fragment("editions.html.j2", editions=offered, sizes=sizes),
        )

    def offered(self) -> list[EditionOffered]:
        """The editions that can be printed, looked for again where a file of the designer's styles changed."""
        state, settled = state_of(self.session.styles)
        if self.offered_then is None or self.offered_then[0] != state:
            offered = editions_offered(self.session.styles)
            if not settled:
                return offered
            self.offered_then = state, offered
        return self.offered_then[1]

    def page(self, asked: Asked) -> str:
        """The pattern's own page; with `tried`, as it would be after a change."""
        if asked.get("tried"):
            html = self.tries.page(asked["tried"])
            if not html:
                raise NotOnThePage(asked["tried"])
            return html
        return self.shown.page or fragment("empty.html.j2", text=said("no_page"))

    def number(self, asked: Asked) -> str:
        """How a number came about."""
        page, outcome = self.session.page, self.session.page_outcome
        if page is None or outcome is None:
            raise NotOnThePage("no page")
        parts = {visible_text(each.title): page.parts[each.key] for each in page.printed.sections}
        told = number_told(outcome, parts, asked.get("written", ""), asked.get("row", ""))
        if told is None:
            raise NotOnThePage(asked.get("written", ""))
        return fragment("number.html.j2", number=told)

    def explanation(self, asked: Asked) -> str:
        """What a finding's code means."""
        page = page_for(asked.get("code", ""))
        if page is None:
            raise NotOnThePage(asked.get("code", ""))
        return fragment("explanation.html.j2", page=page)

    def drawings(self, asked: Asked) -> str:
        """The drawings for a size, counted from 1; over: with the others."""
        outcome = self.session.page_outcome
        document = outcome.document if outcome else None
        if document is None:
            raise NotOnThePage("no page")
        chosen = document.sizes.chosen
        wanted = asked.get("size", "")
        size = int(wanted) - 1 if wanted.isdecimal() and int(wanted) - 1 in chosen else chosen[len(chosen) // 2]
        over = asked.get("over") == "yes"
        shown = drawings_for(document, size, over, said("overlay_in_words"))
        called, name = document.sizes.called(size), document.sizes.names[size]
        size_words = called if called == name else f"{called} {name}"
        return fragment("drawings.html.j2", drawings=shown, size=size_words, over=over)

    def prints(self, _: Asked) -> str:
        """What was ordered as PDF, and how far it is."""
        return fragment("prints.html.j2", jobs=self.prints_of.jobs, full=False)

    def print(self, fields: Fields) -> str:
        """Order an edition as PDF."""
        asked = dict(fields)
        offered = {each.name: each for each in self.offered()}
        edition, outcome = offered.get(asked.get("edition", "")), self.session.page_outcome
        if edition is None or outcome is None or outcome.document is None:
            raise NotOnThePage(asked.get("edition", ""))
        wanted = asked.get("size", "")
        chosen = outcome.document.sizes.chosen
        size = int(wanted) - 1 if wanted.isdecimal() and int(wanted) - 1 in chosen else None
        called = "" if size is None else said("one_size", size=dict(_sizes(self.shown)).get(size + 1, ""))
        taken = self.prints_of.order(edition, size, called, outcome)
        return fragment("prints.html.j2", jobs=self.prints_of.jobs, full=not taken)

    def printed(self, job: str, name: str) -> bytes:
        """A PDF that was ordered."""
        content = self.prints_of.file(job, name)
        if content is None:
            raise NotOnThePage(name)
        return content

    def try_out(self, fields: Fields) -> str:
        """Try changes, each `NAME=VALUE` or `NAME[SIZE]=VALUE`."""
        changes = [value for key, value in fields if key == "change" and value.strip()]
        if len(changes) > MOST_CHANGES or any(len(each) > LONGEST_CHANGE for each in changes):
            raise NotOnThePage("changes")
        tried = self.tries.try_out(changes)
        return fragment("tried.html.j2", tried=tried, findings=self._told(tried.findings), sizes=self._size_names())

    def write(self, fields: Fields) -> str:
        """Write a change that was tried."""
        done = self.tries.write(dict(fields).get("key", ""))
        findings = self._told(done.findings) if done else ()
        return fragment("written.html.j2", done=done, findings=findings)

    def _told(self, findings: tuple[Diagnostic, ...]) -> tuple[FindingShown, ...]:
        return tuple(finding_shown(each, self.session.folder.name, "", "") for each in findings)

    def _size_names(self) -> tuple[str, ...]:
        return self.shown.sizes.names if self.shown.sizes else ()


def _sizes(shown: Shown) -> list[tuple[int, str]]:
    """Every size, counted from 1, as it is called."""
    if shown.sizes is None:
        return []
    called = [(size, shown.sizes.called(size), shown.sizes.names[size]) for size in shown.sizes.chosen]
    return [(size + 1, name if name == words else f"{words} {name}") for size, words, name in called]


def _state_words(shown: Shown) -> str:
    """How the page stands to the source, in a sentence."""
    counted = counted_words(shown.counted)
    key = {State.SOUND: "state_sound", State.DRAFT: "state_draft", State.OLD: "state_old", State.NONE: "state_none"}
    if shown.state is State.SOUND and counted:
        return said("state_sound_but", counted=counted)
    return said(key[shown.state], counted=counted)
