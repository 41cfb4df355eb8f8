"""Paragraphs, lists, tables and headings of ordinary Markdown, and emphasis and links in a line, as its library reads them."""

from __future__ import annotations

from markdown_it import MarkdownIt
from markdown_it.token import Token as MarkdownToken
from markdown_it.tree import SyntaxTreeNode

from stitchproof.diagnostics.faults.source_too_large import source_too_large
from stitchproof.diagnostics.report import Report
from stitchproof.expansion.document import Block, Bullets, Emphasis, Heading, Inline, Link, Prose, Strong, Table, Text
from stitchproof.expansion.inlines import NumberAt, with_numbers
from stitchproof.expansion.placed_text import PlacedLine
from stitchproof.source import Place

DEEPEST = 24
"""Levels of Markdown's tree; a list inside a list is two further down. Markdown itself stops a little below, and in silence."""


MARKDOWN = (
    MarkdownIt("commonmark", {"html": False, "maxNesting": 40})
    .enable("table")
    .disable(["image", "html_block", "html_inline", "code"])
)


def read_inline(text: str, place: Place, number_at: NumberAt) -> tuple[Inline, ...]:
    """One line of prose."""
    tokens = MARKDOWN.parseInline(text)
    return _inlines(tokens[0].children or [], place, number_at) if tokens else ()


def read_blocks(lines: list[PlacedLine], number_at: NumberAt, report: Report) -> tuple[Block, ...]:
    """The blocks of consecutive lines of prose; () with a finding where they are nested too deep."""
    return _Prose(lines, number_at, report).blocks()


class _Prose:
    """Turns Markdown's tree into blocks; every inline is placed by the line its block begins on."""

    def __init__(self, lines: list[PlacedLine], number_at: NumberAt, report: Report) -> None:
        self.lines = lines
        self.number = number_at
        self.report = report

    def blocks(self) -> tuple[Block, ...]:
        tokens = MARKDOWN.parse("\n".join(line.text for line in self.lines))
        deep = next((token for token in tokens if token.level > DEEPEST), None)
        if deep:
            line = self.lines[deep.map[0] if deep.map else 0]
            bound = f"quotations and lists are nested more than {DEEPEST // 2} deep"
            self.report.add(source_too_large(line.line_span, bound, "set the line in less"))
            return ()
        return tuple(block for node in SyntaxTreeNode(tokens).children for block in self.block(node))

    def block(self, node: SyntaxTreeNode) -> tuple[Block, ...]:
        match node.type:
            case "heading":
                return (Heading(int(node.tag[1]), self.inlines(node.children[0]), self.place(node)),)
            case "paragraph":
                return (Prose(self.inlines(node.children[0])),)
            case "bullet_list" | "ordered_list":
                items = tuple(self.item(item) for item in node.children)
                return (Bullets(items, node.type == "ordered_list"),)
            case "table":
                return (self.table(node),)
            case "fence" | "code_block":
                return (Prose(_inlines([*self.code(node)], self.place(node), self.number)),)
            case _:
                return tuple(block for child in node.children for block in self.block(child))

    def code(self, node: SyntaxTreeNode) -> list[MarkdownToken]:
        return MARKDOWN.parseInline(node.content.strip())[0].children or []

    def item(self, node: SyntaxTreeNode) -> tuple[Inline, ...]:
        blocks = [block for child in node.children for block in self.block(child)]
        return _in_one_line([inlines for block in blocks for inlines in _inlines_of(block)], self.place(node))

    def table(self, node: SyntaxTreeNode) -> Table:
        rows = [
            tuple(self.inlines(cell.children[0]) if cell.children else () for cell in row.children)
            for part in node.children
            for row in part.children
        ]
        return Table(rows[0], tuple(rows[1:]))

    def inlines(self, node: SyntaxTreeNode) -> tuple[Inline, ...]:
        tokens = node.to_tokens()
        return _inlines(tokens[0].children or [] if tokens else [], self.place(node), self.number)

    def place(self, node: SyntaxTreeNode) -> Place:
        line = node.map[0] if node.map else 0
        return self.lines[min(line, len(self.lines) - 1)].place


def _inlines(tokens: list[MarkdownToken], place: Place, number_at: NumberAt) -> tuple[Inline, ...]:
    """From Markdown's inline tokens."""
    stack: list[tuple[MarkdownToken | None, list[Inline]]] = [(None, [])]
    for token in tokens:
        if token.nesting == 1:
            stack.append((token, []))
        elif token.nesting == -1:
            opening, inner = stack.pop()
            stack[-1][1].append(_wrapped(opening, tuple(inner)))
        elif token.type in ("softbreak", "hardbreak"):
            stack[-1][1].append(Text(" ", place))
        else:
            stack[-1][1].extend(with_numbers(token.content, place, number_at))
    return tuple(stack[0][1])


def _wrapped(opening: MarkdownToken | None, inner: tuple[Inline, ...]) -> Inline:
    if opening is not None and opening.type == "link_open":
        return Link(inner, str(opening.attrGet("href") or ""))
    return Emphasis(inner) if opening is not None and opening.type == "em_open" else Strong(inner)


def _inlines_of(block: Block) -> tuple[tuple[Inline, ...], ...]:
    match block:
        case Prose() | Heading():
            return (block.inlines,)
        case Bullets():
            return block.items
        case Table():
            return tuple(cell for row in (block.head, *block.rows) for cell in row)
        case _:
            return ()


def _in_one_line(stretches: list[tuple[Inline, ...]], place: Place) -> tuple[Inline, ...]:
    """An item of a list is one line, whatever Markdown lets stand in it."""
    found: list[Inline] = []
    for stretch in stretches:
        found += [Text(" ", place), *stretch] if found else stretch
    return tuple(found)
