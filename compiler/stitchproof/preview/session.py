"""One pattern, followed: at each refresh what the source comes to now, and the page to show for it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from time import perf_counter

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.faults.internal_fault import internal_fault
from stitchproof.editions.fault_places import FaultPlaces
from stitchproof.editions.print_document import PrintDocument
from stitchproof.editions.put_out import style_finding
from stitchproof.editions.style_fault import StyleFault
from stitchproof.kept import Kept
from stitchproof.preview.findings import MOST, Places, finding_shown, in_text_order
from stitchproof.preview.offers import Offers, as_read
from stitchproof.preview.pages import PageMade, Pages, Signature, draft_of, errors_in
from stitchproof.preview.shown import FindingShown, Shown, State
from stitchproof.reading.folder import SHARED
from stitchproof.stages import CheckOutcome, checked_folder, where
from stitchproof.workspace import Workspace

Check = Callable[[], CheckOutcome]


class Session:
    """Follows one pattern. `shown` is what was last refreshed; of earlier refreshes only the last good page is held."""

    def __init__(self, workspace: Workspace, folder: Path, check: Check | None = None) -> None:
        """check: what the pattern comes to as it lies on the disk now; values that would work are looked for afterwards."""
        self.workspace, self.folder = workspace, folder
        kept = Kept()
        shown = workspace.shown(folder)
        self.check = check or (lambda: checked_folder(folder, shown, {}, offers=False, kept=kept, causes=False))
        self.check_for_causes: Check = lambda: checked_folder(folder, shown, {}, offers=False, kept=kept)
        self.offers = Offers(shown)
        self.styles = workspace.style_folders(folder)
        self.pages = Pages(self.styles)
        self.styled: Signature | None = None
        self.page: PageMade | None = None
        self.page_outcome: CheckOutcome | None = None
        self.shown: Shown | None = None

    @property
    def watched(self) -> tuple[Path, ...]:
        """The folders that the page is made from; some may not be there."""
        return (self.folder, self.folder.parent / SHARED, *self.styles[1:])

    def refresh(self) -> Shown:
        """Look at the source again. A fault of our own is among the findings, and the last good page stays.

        Of the values that would work, and of likely causes of faults in the rows, only those are told that were looked for
        before; `offer` looks for the others.
        """
        seconds: dict[str, float] = {}
        with _timed(seconds, "check"):
            outcome = self._checked()
            outcome = self.offers.completed(outcome, lambda: True) or outcome
        with _timed(seconds, "page"):
            outcome, faults, state = self._page_of(outcome)
        with _timed(seconds, "findings"):
            listed, left_out = self._listed(outcome, faults)
        counted = Counter(found.severity.value for found in outcome.findings if not found.accepted)
        document = self.page_outcome.document if self.page_outcome else None
        shown = Shown(
            1,
            state,
            document.title_block.title if document else outcome.name,
            self.page.html if self.page else "",
            document.sizes if document else None,
            outcome,
            self.page_outcome,
            listed,
            left_out,
            counted,
            seconds,
        )
        self.shown = _numbered(shown, self.shown, self._restyled())
        return self.shown

    def _restyled(self) -> bool:
        """Whether a file of the designer's styles changed, and with it perhaps the editions that she can choose from."""
        before, self.styled = self.styled, self.pages.prepared and self.pages.prepared[0]
        return before != self.styled

    def offer(self, give_up: Callable[[], bool]) -> bool:
        """Look for likely causes of faults in the rows, and for values that would work, where the findings that are shown propose
        some. Whether there is more to see now.

        give_up: whether there is something else to do; what was found by then is not looked for again.
        """
        before = self.shown
        if before is None or give_up():
            return False
        after = self._with_causes(before.outcome)
        after = self.offers.completed(after, give_up) if after and after.proposes else after
        if after is None or after is before.outcome:
            return False
        if self.page_outcome is before.outcome:
            self.page_outcome = after
        listed, left_out = self._listed(after, None)
        now = replace(before, outcome=after, page_outcome=self.page_outcome, findings=listed, left_out=left_out)
        self.shown = _numbered(now, before, False)
        return self.shown.version > before.version

    def page_for(self, outcome: CheckOutcome, dressed: Callable[[PrintDocument], PrintDocument]) -> PageMade | None:
        """The page of what the pattern would come to after a change; None where it has none. Raises StyleFault."""
        if outcome.document is None or outcome.sized is None or outcome.failed_inside:
            return None
        errors = errors_in(outcome.findings)
        draft = draft_of(FaultPlaces(outcome.document, outcome.sized), errors) if errors else None
        return self.pages.make(outcome.document, outcome.sized, outcome.worked, draft, dressed)

    def _with_causes(self, outcome: CheckOutcome) -> CheckOutcome | None:
        """The outcome with the likely causes of what is wrong in the rows; None where the source is another one by now."""
        if not outcome.causes_open:
            return outcome
        again = self.check_for_causes()
        if as_read(again) != as_read(outcome):
            return None
        told = {found.cause: found for found in again.findings}
        findings = [told.get(found.cause, found) if found.causes_open else found for found in outcome.findings]
        return replace(outcome, findings=tuple(replace(found, causes_open=False) for found in findings))

    def _checked(self) -> CheckOutcome:
        try:
            return self.check()
        except Exception as error:  # the last resort: our own bug, never shown as a traceback
            fault = internal_fault(self.workspace.shown(self.folder), "looking at the pattern", where(error))
            return CheckOutcome(self.folder.name, self.folder, (fault,), None, None)

    def _page_of(self, outcome: CheckOutcome) -> tuple[CheckOutcome, FaultPlaces | None, State]:
        """The outcome with what was found while the page was made, and how the page that is shown stands to it."""
        old = State.OLD if self.page else State.NONE
        if outcome.document is None or outcome.sized is None or outcome.failed_inside:
            return outcome, None, old
        faults = FaultPlaces(outcome.document, outcome.sized) if outcome.findings else None
        try:
            draft = draft_of(faults, outcome.findings) if faults else None
            page = self.pages.make(outcome.document, outcome.sized, outcome.worked, draft)
        except StyleFault as fault:
            return _with(outcome, style_finding(fault)), faults, old
        except Exception as error:  # the last resort, as above
            fault_found = internal_fault(self.workspace.shown(self.folder), "making the page", where(error))
            return _with(outcome, fault_found), faults, old
        outcome = _with(outcome, *page.findings)
        self.page, self.page_outcome = page, outcome
        return outcome, faults, State.DRAFT if errors_in(outcome.findings) else State.SOUND

    def _listed(self, outcome: CheckOutcome, faults: FaultPlaces | None) -> tuple[tuple[FindingShown, ...], int]:
        source = outcome.sized.source if outcome.sized else None
        found = in_text_order([each for each in outcome.findings if not each.accepted], source)
        places = None
        if found and outcome.document and outcome.sized and self.page:
            faults = faults or FaultPlaces(outcome.document, outcome.sized)
            places = Places(faults, outcome.document, self.page.parts)
        told = [finding_shown(each, outcome.name, *(places.of(each) if places else ("", ""))) for each in found[:MOST]]
        return tuple(told), len(found) - len(told)


def _numbered(now: Shown, before: Shown | None, restyled: bool) -> Shown:
    """The next version, where there is anything to be seen that was not there before."""
    if before is None:
        return now
    around = ("state", "title", "sizes", "findings", "left_out", "counted")
    same_frame = not restyled and all(getattr(now, part) == getattr(before, part) for part in around)
    same_page = now.page == before.page
    same_inputs = _header(now) == _header(before)
    version = before.version + (not (same_frame and same_page and same_inputs))
    return replace(
        now,
        version=version,
        frame_since=before.frame_since if same_frame else version,
        page_since=before.page_since if same_page else version,
    )


def _header(shown: Shown) -> str:
    """pattern.yaml, which holds what can be tried otherwise."""
    return shown.outcome.sized.source.header_file.text if shown.outcome.sized else ""


def _with(outcome: CheckOutcome, *more: Diagnostic) -> CheckOutcome:
    return replace(outcome, findings=(*outcome.findings, *more)) if more else outcome


@contextmanager
def _timed(seconds: dict[str, float], stage: str) -> Iterator[None]:
    start = perf_counter()
    try:
        yield
    finally:
        seconds[stage] = perf_counter() - start


def counted_words(counted: Mapping[str, int], order: Sequence[str] = ("error", "warning", "note")) -> str:
    """ "2 errors, 1 warning"; "" for none."""
    parts = [f"{counted[each]} {each}{'s' if counted[each] > 1 else ''}" for each in order if counted.get(each)]
    return ", ".join(parts)
