"""What is tried with changed sources: each kind reads or works them in this process and tells what came of it in a word."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from msgspec.structs import replace

from stitchproof import check_pattern
from stitchproof.checks.catalogue import all_pages
from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.diagnostics.facts import as_json, facts_of
from stitchproof.diagnostics.report import Report
from stitchproof.diagnostics.terminal import as_text
from stitchproof.expansion.expand_pattern import expand_pattern
from stitchproof.formulas.evaluation import evaluate
from stitchproof.formulas.kinds import kind_of
from stitchproof.formulas.reader import read_formula
from stitchproof.formulas.tree import Formula
from stitchproof.reading.folder import read_pattern
from stitchproof.reading.header import read_header
from stitchproof.reading.pattern_source import TextFile
from stitchproof.reading.templates import Registry, make_template
from stitchproof.reading.yaml_tree import read_yaml
from stitchproof.rows.labels import read_label
from stitchproof.rows.line import line_of_text
from stitchproof.rows.read_row import read_row
from stitchproof.rows.row_tree import NotRead
from stitchproof.sizing.size_pattern import size_pattern
from stitchproof.sizing.sized_pattern import SizedPattern
from stitchproof.source import SourceFile, Span
from tests.checks.smallest_pattern import SMALLEST, SMALLEST_TEXT, write_example
from tests.formulas.small_scope import NAMES, SCOPE, SIZES
from tests.rows.notation import WORDS

SOURCES = Path(__file__).parents[2] / "pattern_sources"
HEADER, TEXT = "pattern.yaml", "text.md"
PARTED = "\n%%%%\n"
"""Between pattern.yaml and the text of a whole pattern, so that one change may move what stands in one into the other."""
Outcome = str
"""Codes, or the first words of what stopped a reader: a source that brings a new one is worth changing further."""


class CameApart(AssertionError):
    """A changed source was not answered by a report."""


def demo_files(ending: str) -> list[str]:
    """The texts of all demos' files of an ending."""
    return [path.read_text(encoding="utf-8") for path in sorted(SOURCES.rglob(f"*{ending}"))]


@cache
def examples() -> tuple[tuple[str, str], ...]:
    """pattern.yaml and text of every example in the explanation pages: between them they use everything there is."""
    held = []
    for example in (each for page in all_pages() for each in page.examples if not each.files):
        with tempfile.TemporaryDirectory() as folder:
            pattern = write_example(example, Path(folder))
            held.append(((pattern / HEADER).read_text("utf-8"), (pattern / TEXT).read_text("utf-8")))
    return tuple(dict.fromkeys(held))


def as_read(text: str) -> str:
    """Lines end as they do after reading a file."""
    return text.replace("\r\n", "\n").replace("\r", "\n")


def try_yaml(text: str) -> Outcome:
    """pattern.yaml read, and its keys."""
    report = Report()
    file = SourceFile(HEADER, as_read(text))
    tree = read_yaml(file, report)
    if tree is not None:
        read_header(tree, file, report)
    return told(report.findings())


def try_formula(text: str) -> Outcome:
    """A formula read, its kind, and its value in each size."""
    formula = read_formula(Span(SourceFile("formula", text), 0, len(text)))
    if not isinstance(formula, Formula):
        return told((formula,))
    kind = kind_of(formula, SCOPE)
    if isinstance(kind, Diagnostic):
        return told((kind,))
    values = [evaluate(formula, SCOPE, size) for size in range(SIZES)]
    faults = tuple(each for each in values if isinstance(each, Diagnostic))
    return f"{kind} {told(faults)}"


def try_row(text: str) -> Outcome:
    """A line read as a row, in either country's terms."""
    line = line_of_text(text, ("S", "M", "L"), Span(SourceFile("row", text), 0, len(text)))
    said = []
    for words in WORDS.values():
        read_label(line, words)
        reading = read_row(line, words)
        said.append(
            reading.words[:12] if isinstance(reading, NotRead) else " ".join(type(i).__name__ for i in reading.items)
        )
    return " / ".join(said)


@cache
def _sized() -> SizedPattern:
    """The numbers of the hat, whose text is put in for each try."""
    report = Report()
    source = read_pattern(SOURCES / "cobblewick_hat", "hat", report)
    assert source is not None
    return size_pattern(source, report)


def try_text(text: str) -> Outcome:
    """A text with slots, blocks and Jinja unfolded for all sizes."""
    sized, report, registry = _sized(), Report(), Registry()
    file = SourceFile(TEXT, as_read(text))
    template = make_template(file, False, registry, report)
    if template is not None:
        texts = (TextFile(TEXT, file, template, False, ()),)
        source = replace(sized.source, texts=texts, islands=tuple(registry.islands), marks=tuple(registry.marks))
        expand_pattern(replace(sized, source=source), report)
    return told(report.findings())


class WholePatterns:
    """Whole patterns in a folder of their own, checked as the command does, and told in both forms."""

    def __init__(self) -> None:
        self.held = tempfile.TemporaryDirectory()
        self.root = Path(self.held.name)
        self.folder = self.root / "pattern_sources" / "changed"
        self.folder.mkdir(parents=True)

    def close(self) -> None:
        """Take the folder away."""
        self.held.cleanup()

    def __call__(self, text: str) -> Outcome:
        header, _, body = text.partition(PARTED)
        (self.folder / HEADER).write_text(header, encoding="utf-8", errors="surrogatepass")
        (self.folder / TEXT).write_text(body, encoding="utf-8", errors="surrogatepass")
        outcome = check_pattern(self.folder, within=self.root)
        printed = as_text(facts_of(found) for found in outcome.findings)
        as_json(map(facts_of, outcome.findings))
        if outcome.failed_inside:
            raise CameApart(printed)
        return told(outcome.findings)


def told(findings: tuple[Diagnostic, ...]) -> Outcome:
    """The codes, and how each headline ends."""
    return " ".join(sorted({f"{found.page.code}{_ending(found.headline)}" for found in findings}))


def _ending(headline: str) -> str:
    words = re.sub(r"`[^`]*`|[\d.,]+", "", headline).split()
    return " ".join(words[-3:])


def formula_seeds() -> list[str]:
    """Whatever stands behind a colon in the demos' pattern.yaml, and formulas over the names that the small scope has."""
    behind = [line.partition(": ")[2].strip("{}[] ") for text in demo_files(".yaml") for line in text.split("\n")]
    own = [f"{name} * 2 + {other}" for name in NAMES for other in NAMES]
    own += [
        "largest(n, 1, 40, hat_sts - n * 8 > 0)",
        "edge_for(brim_edge, hat_sts)",
        "after_dec(3)[Large]",
        "lowest(width)",
    ]
    own += [
        "1 if hat_sts > 64 sts else 2",
        "not (1 > 2) and 3 >= 3 or 1 = 2",
        "round_to(width * crown.stitches, 8)",
        "abs(1/3)",
    ]
    return [*{*own, *filter(None, behind)}]


def row_seeds() -> list[str]:
    """The rows of the demos and of the examples, slots as they stand."""
    texts = [*demo_files(".md"), *(text for _, text in examples())]
    rows = [line.strip() for text in texts for line in text.split("\n") if ":" in line and not line.startswith(":::")]
    return [*{re.sub(r"<([^<>]*)>", "2 (3, 4)", row) for row in rows}, *rows]


def pattern_seeds() -> list[str]:
    """The examples, the smallest pattern, and (rarely drawn, as each takes long) the demo hat."""
    hat = SOURCES / "cobblewick_hat"
    whole = [f"{header}{PARTED}{text}" for header, text in examples()]
    body = "\n".join(path.read_text("utf-8") for path in sorted(hat.glob("*.md")))
    smallest = f"{''.join(SMALLEST.values())}{PARTED}{SMALLEST_TEXT}"
    return [*whole, smallest, f"{(hat / HEADER).read_text('utf-8')}{PARTED}{body}"]


Kind = tuple[Callable[[], Callable[[str], Outcome]], Callable[[], list[str]]]
"""What tries a source, and the sources that are changed."""

SOURCES_CHANGED: dict[str, Kind] = {
    "yaml": (lambda: try_yaml, lambda: [*demo_files(".yaml"), *(header for header, _ in examples())]),
    "formulas": (lambda: try_formula, formula_seeds),
    "rows": (lambda: try_row, row_seeds),
    "expansion": (lambda: try_text, lambda: [*demo_files(".md"), *(text for _, text in examples())]),
    "patterns": (WholePatterns, pattern_seeds),
}
"""By name."""
