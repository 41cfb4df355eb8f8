"""`regauge`: what a new gauge, ease, size or number would do, shown or written."""

from __future__ import annotations

import argparse

from stitchproof.commands.edits_told import Told, add_edit_options, code_of, revised, tell
from stitchproof.commands.telling import CLEAN
from stitchproof.effects.size_requests import NewSize
from stitchproof.what_if import Sweeped, regauge


def add_options(parser: argparse.ArgumentParser) -> None:
    """The changes, and whether they are written."""
    parser.add_argument("pattern", metavar="PATTERN", help="a folder, or a name under pattern_sources/")
    parser.add_argument(
        "changes",
        metavar="NAME=VALUE",
        nargs="*",
        help="such as gauges.crown.stitches=17, hat_sts[Child]=72, or a sweep: ease='2 to 4 cm in halves'",
    )
    parser.add_argument(
        "--add-size", metavar="NAME", action=_NewSize, help="a size more, at the end; may be given again"
    )
    parser.add_argument(
        "--after", metavar="NAME", action=_Beside, help="the size that the one just added stands behind"
    )
    parser.add_argument(
        "--before", metavar="NAME", action=_Beside, help="the size that the one just added stands before"
    )
    parser.add_argument("--remove-size", metavar="NAME", action="append", default=[], help="may be given again")
    parser.add_argument(
        "--draw-on", action="store_true", help="for a new size, draw the lists on in a line that get no value"
    )
    add_edit_options(parser, "write the change into the pattern's files")
    parser.set_defaults(sizes=[])


def run(asked: argparse.Namespace) -> int:
    """Work the change out and tell what it does."""
    return tell(asked, _regauge, "working a change out")


class _NewSize(argparse.Action):
    """`--add-size NAME`: kept in order."""

    def __call__(self, parser: object, namespace: argparse.Namespace, values: object, option: object = None) -> None:
        namespace.sizes = [*namespace.sizes, [str(values), "", ""]]


class _Beside(argparse.Action):
    """`--after NAME`, `--before NAME`: said of the size that was added last."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace, values: object, option: object = None
    ) -> None:
        if not namespace.sizes:
            parser.error(f"{option} follows an --add-size")
        *others, (name, after, before) = namespace.sizes
        beside = (str(values), before) if self.dest == "after" else (after, str(values))
        namespace.sizes = [*others, [name, *beside]]


def _regauge(asked: argparse.Namespace) -> Told:
    found = regauge(
        asked.pattern,
        asked.changes,
        [NewSize(*size) for size in asked.sizes],
        asked.remove_size,
        asked.draw_on,
        asked.write,
    )
    if not isinstance(found, Sweeped):
        return revised(found)
    from stitchproof.effects.sweep_text import sweep_facts, sweep_text

    steps = [(value, step.effect, step.findings) for value, step in found.steps]
    findings = tuple(dict.fromkeys(each for _, _, step in steps for each in step))
    worst = max((code_of(step) for _, step in found.steps), default=CLEAN)
    effects = [(value, effect) for value, effect, _ in steps if effect]
    name = found.steps[0][1].before.name if found.steps else asked.pattern
    return Told(worst, findings, sweep_text(found.name, effects), sweep_facts(found.name, effects), pattern=name)
