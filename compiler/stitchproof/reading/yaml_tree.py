"""pattern.yaml as a tree of located text. Every scalar stays text: `no`, `010` and `2.50` mean what was typed.

Built from the parser's events, not recursively, so that deep nesting and repeated references are bounded here.
"""

from __future__ import annotations

from unicodedata import category

import yaml
from msgspec import Struct, field

from stitchproof.diagnostics.faults.source_too_large import source_too_large
from stitchproof.diagnostics.report import Report
from stitchproof.expressions import expression
from stitchproof.late_pattern import LatePattern
from stitchproof.reading.faults.key_written_twice import key_written_twice
from stitchproof.reading.faults.tag_not_allowed import tag_not_allowed
from stitchproof.reading.faults.yaml_not_readable import yaml_not_readable
from stitchproof.reading.faults.yaml_trap import Trap, yaml_trap
from stitchproof.reading.yaml_traps import cut_by_number_sign, in_curly_quotes, split_at_comma, trap_at
from stitchproof.source import TURNS_THE_LINE, SourceFile, Span

DEEPEST = 24
MOST_NODES = 20_000
MOST_ALIASES = 200
_NOT_YAML = LatePattern(r"[^\t\n\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufeff\uff00-\ufffd\U00010000-\U0010ffff]")
"""What YAML does not count as printable: YAML 1.2 specification, section 5.1."""
_ANCHOR = expression(r"&\S+(?:\s+|#[^\n]*\n)*")


class Scalar(Struct, frozen=True, eq=False):
    """A value as typed. `span`: its characters in the file, quotes and block signs left out; `is_empty`: nothing was typed."""

    text: str
    span: Span
    quoted: bool = False

    @property
    def is_empty(self) -> bool:
        return not self.quoted and not self.text


class Mapping(Struct, frozen=True, eq=False):
    """Keys and values in the order written; no key twice."""

    entries: tuple[tuple[Scalar, YamlNode], ...]
    span: Span
    in_braces: bool

    def get(self, key: str) -> YamlNode | None:
        """The value of a key; None where it is not there."""
        for name, value in self.entries:
            if name.text == key:
                return value
        return None


class Listing(Struct, frozen=True, eq=False):
    """A list, in the order written."""

    items: tuple[YamlNode, ...]
    span: Span


YamlNode = Scalar | Mapping | Listing


class _Open(Struct):
    """A mapping or list that is still being read."""

    event: yaml.CollectionStartEvent
    nodes: list[YamlNode] = field(default_factory=list)

    @property
    def is_mapping(self) -> bool:
        return isinstance(self.event, yaml.MappingStartEvent)


def read_yaml(file: SourceFile, report: Report) -> YamlNode | None:
    """The tree of a file, or None where it cannot be read (reported)."""
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    builder = _Builder(file, report)
    try:
        for event in yaml.parse(file.text, Loader=loader):
            if not builder.take(event):
                return None
    except yaml.MarkedYAMLError as error:
        if builder.cut:
            return None
        unclosed = "quoted" in str(error.context) or "flow" in str(error.context)
        mark = (error.context_mark if unclosed else None) or error.problem_mark or error.context_mark
        offset = min(mark.index, len(file.text)) if mark else 0
        trap = trap_at(file, offset)
        report.add(
            yaml_trap(*trap) if trap else yaml_not_readable(file, offset, f"{error.context or ''} {error.problem}")
        )
        return None
    except yaml.YAMLError:  # of a character that YAML does not allow it tells no place, and each parser another one
        refused = _NOT_YAML.search(file.text)
        report.add(yaml_not_readable(file, refused.start() if refused else 0, "a character that YAML does not allow"))
        return None
    return builder.root


class _Builder:
    """Puts the parser's events together, one at a time."""

    def __init__(self, file: SourceFile, report: Report) -> None:
        self.file = file
        self.report = report
        self.open: list[_Open] = []
        self.anchors: dict[str, tuple[YamlNode, int]] = {}
        self.nodes = 0
        self.aliases = 0
        self.documents = 0
        self.cut = False
        self.root: YamlNode | None = None

    def take(self, event: yaml.Event) -> bool:
        """False where reading has to stop (reported)."""
        if isinstance(event, yaml.NodeEvent):
            self.nodes += 1
            if self.nodes > MOST_NODES or len(self.open) > DEEPEST or self.aliases > MOST_ALIASES:
                self.report.add(source_too_large(self._span(event), self._bound()))
                return False
        if isinstance(event, yaml.ScalarEvent):
            return self._check_tag(event) and self._check_signs(event) and self._put(self._scalar(event), event.anchor)
        if isinstance(event, yaml.DocumentStartEvent):
            return self._document(event)
        if isinstance(event, yaml.AliasEvent):
            return self._alias(event)
        if isinstance(event, yaml.CollectionStartEvent):
            self.open.append(_Open(event))
            return self._check_tag(event)
        if isinstance(event, yaml.CollectionEndEvent):
            return self._close(event)
        return True

    def _document(self, event: yaml.Event) -> bool:
        self.documents += 1
        if self.documents > 1:
            what = "a second document begins here; a pattern is one"
            self.report.add(yaml_not_readable(self.file, self._span(event).start, what))
        return self.documents == 1

    def _check_signs(self, event: yaml.ScalarEvent) -> bool:
        """Refuse what only an escape in double quotes can bring in: signs that do not print, or that no text may hold."""
        if event.value.isprintable():  # no sign of it is refused, whichever it is
            return True
        refused = next((sign for sign in event.value if _does_not_print(sign)), "")
        if refused:
            what = f"an escape stands for a character that does not print (U+{ord(refused):04X})"
            self.report.add(yaml_not_readable(self.file, self._span(event).start, what))
        return not refused

    def _span(self, event: yaml.Event) -> Span:
        start, end = event.start_mark, event.end_mark
        return Span(self.file, start.index if start else 0, end.index if end else 0)

    def _bound(self) -> str:
        if len(self.open) > DEEPEST:
            return f"nested more than {DEEPEST} deep"
        return (
            f"more than {MOST_ALIASES} references" if self.aliases > MOST_ALIASES else f"more than {MOST_NODES} values"
        )

    def _alias(self, event: yaml.AliasEvent) -> bool:
        self.aliases += 1
        held = self.anchors.get(event.anchor or "")
        here = self._span(event)
        if held is None:
            trap = trap_at(self.file, here.start)
            whole = trap[1] if trap and trap[0] is Trap.STAR and trap[1].start == here.start else here
            self.report.add(yaml_trap(Trap.STAR, whole))
            return False
        self.nodes += held[1]
        return self._put(held[0], None)

    def _check_tag(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> bool:
        if event.tag is None:
            return True
        self.report.add(tag_not_allowed(self._span(event), event.tag))
        return False

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        whole, text = self._span(event), self.file.text
        start, end = whole.start, whole.end
        if event.anchor and (anchor := _ANCHOR.match(text, start, end)):
            start = anchor.end()
        quoted = event.style in ("'", '"')
        if quoted:
            start, end = start + 1, end - 1
        elif event.style in ("|", ">"):
            start = min(text.find("\n", start) + 1, end)
        while not quoted and end > start and text[end - 1].isspace():
            end -= 1
        while not quoted and start < end and text[start].isspace():
            start += 1
        span = Span(self.file, start, end)
        if not event.style and cut_by_number_sign(self.file, end):
            self.cut = True
            self.report.add(yaml_trap(Trap.NUMBER_SIGN, self.file.line_span(self.file.line_column(end)[0])))
        if not event.style and in_curly_quotes(event.value):
            self.report.add(yaml_trap(Trap.CURLY, span))
        return Scalar(event.value, span, quoted)

    def _close(self, event: yaml.CollectionEndEvent) -> bool:
        done = self.open.pop()
        span = self._span(done.event).to(self._span(event))
        broken = split_at_comma(_plain(done.nodes)) if done.event.flow_style else None
        if broken is None and done.event.flow_style and done.is_mapping:
            broken = _key_after_comma(done.nodes)
        if broken:
            self.report.add(yaml_trap(Trap.COMMA, broken))
            return False
        if not done.is_mapping:
            return self._put(Listing(tuple(done.nodes), span), done.event.anchor)
        entries: dict[str, tuple[Scalar, YamlNode]] = {}
        for key, value in zip(done.nodes[::2], done.nodes[1::2], strict=True):
            if (curly := _in_curly_quotes(key, value)) is not None:
                self.report.add(yaml_trap(Trap.CURLY, curly))
                return False
            if not isinstance(key, Scalar):
                self.report.add(yaml_not_readable(self.file, key.span.start, "a list or map stands where a key should"))
                return False
            if key.text in entries:
                self.report.add(key_written_twice(key.span, entries[key.text][0].span))
                continue
            entries[key.text] = (key, value)
        return self._put(Mapping(tuple(entries.values()), span, bool(done.event.flow_style)), done.event.anchor)

    def _put(self, node: YamlNode, anchor: str | None) -> bool:
        if anchor:
            self.anchors[anchor] = (node, _weight(node))
        if self.open:
            self.open[-1].nodes.append(node)
        else:
            self.root = node
        return True


def _plain(nodes: list[YamlNode]) -> list[Scalar]:
    return [node for node in nodes if isinstance(node, Scalar) and not node.quoted]


def _key_after_comma(nodes: list[YamlNode]) -> Span | None:
    """Of a `{ }`, the value and what a comma cut off from it: a key that has no value and no colon."""
    for before, key, value in zip(nodes[1::2], nodes[2::2], nodes[3::2], strict=False):
        cut = isinstance(key, Scalar) and not key.quoted and isinstance(value, Scalar) and value.is_empty
        if cut and isinstance(before, Scalar) and not before.is_empty and ":" not in _between(key, value):
            return before.span.to(key.span)
    return None


def _in_curly_quotes(key: YamlNode, value: YamlNode) -> Span | None:
    """Where a colon parted what stands in curly quotes into a key and a value."""
    plain = all(isinstance(each, Scalar) and not each.quoted and not each.is_empty for each in (key, value))
    whole = key.span.to(value.span) if plain else None
    return whole if whole and "\n" not in whole.text and in_curly_quotes(whole.text) else None


def _between(key: YamlNode, value: YamlNode) -> str:
    return key.span.file.text[key.span.end : value.span.end]


def _weight(node: YamlNode) -> int:
    """How many values a repeated reference to this node stands for."""
    if isinstance(node, Mapping):
        return 1 + sum(1 + _weight(value) for _, value in node.entries)
    return 1 + sum(_weight(item) for item in node.items) if isinstance(node, Listing) else 1


def _does_not_print(sign: str) -> bool:
    return (category(sign) in ("Cc", "Cs", "Co") and sign not in "\n\t") or sign in TURNS_THE_LINE
