"""Puts into a template what keeps it within bounds. On its tree, because signs in the text would move its blanks.

Loops and macros count their rounds; what compares, tests or takes apart gets its values through filters of the sandbox.
"""
# ruff: noqa: N802  # Jinja finds the methods by these names

from __future__ import annotations

from typing import Any

from jinja2 import nodes
from jinja2.visitor import NodeTransformer

_TESTS_OF_ANYTHING = frozenset({"defined", "undefined"})


class Bounds(NodeTransformer):
    """Gives a template the filters `tick`, `plain`, `judged`, `taken_from`, `gone_through` and `joined` where they belong."""

    def visit_Template(self, node: nodes.Template) -> nodes.Node:
        return self._ticking(node)

    def visit_Macro(self, node: nodes.Macro) -> nodes.Node:
        return self._ticking(node)

    def visit_CallBlock(self, node: nodes.CallBlock) -> nodes.Node:
        return self._ticking(node)

    def visit_Block(self, node: nodes.Block) -> nodes.Node:
        return self._ticking(node)

    def visit_For(self, node: nodes.For) -> nodes.Node:
        """Its rounds are counted, and what it goes through is opened up."""
        self._ticking(node)
        node.iter = _through("gone_through", node.iter)
        node.test = _through("judged", node.test) if node.test else None
        return node

    def _ticking(self, node: Any) -> nodes.Node:
        self.generic_visit(node)
        line = node.lineno
        tick = _through("tick", nodes.Const(0, lineno=line))
        node.body.insert(0, nodes.Output([tick], lineno=line))
        return node  # type: ignore[no-any-return]

    def visit_Include(self, node: nodes.Include) -> nodes.Node:
        """Jinja's own way would print the text in front of the macro or `set` that it stands in."""
        self.generic_visit(node)
        missing = nodes.Const(node.ignore_missing, lineno=node.lineno)
        return nodes.Output([_through("included", node.template, missing)], lineno=node.lineno)

    def visit_Import(self, node: nodes.Import) -> nodes.Node:
        return self._cut_off(node)

    def visit_FromImport(self, node: nodes.FromImport) -> nodes.Node:
        return self._cut_off(node)

    def _cut_off(self, node: Any) -> nodes.Node:
        node.with_context = False
        return self.generic_visit(node)

    def visit_Concat(self, node: nodes.Concat) -> nodes.Node:
        """What `~` joins is looked at before it is joined."""
        self.generic_visit(node)
        return _through("joined", nodes.List(node.nodes, lineno=node.lineno))

    def visit_Compare(self, node: nodes.Compare) -> nodes.Node:
        """Both sides are compared as they read."""
        self.generic_visit(node)
        node.expr = _through("plain", node.expr)
        for operand in node.ops:
            operand.expr = _through("plain", operand.expr)
        return node

    def visit_Test(self, node: nodes.Test) -> nodes.Node:
        """What is tested is tested as it reads."""
        self.generic_visit(node)
        if node.name not in _TESTS_OF_ANYTHING:
            node.node = _through("plain", node.node)
            node.args = [_through("plain", argument) for argument in node.args]
        return node

    def visit_Getitem(self, node: nodes.Getitem) -> nodes.Node:
        """Items are taken from what reads."""
        self.generic_visit(node)
        node.node = _through("taken_from", node.node)
        return node

    def visit_If(self, node: nodes.If) -> nodes.Node:
        return self._choosing(node)

    def visit_CondExpr(self, node: nodes.CondExpr) -> nodes.Node:
        return self._choosing(node)

    def _choosing(self, node: Any) -> nodes.Node:
        self.generic_visit(node)
        node.test = _through("judged", node.test)
        return node  # type: ignore[no-any-return]

    def visit_And(self, node: nodes.And) -> nodes.Node:
        return self._joining(node)

    def visit_Or(self, node: nodes.Or) -> nodes.Node:
        return self._joining(node)

    def _joining(self, node: Any) -> nodes.Node:
        self.generic_visit(node)
        node.left, node.right = _through("judged", node.left), _through("judged", node.right)
        return node  # type: ignore[no-any-return]

    def visit_Not(self, node: nodes.Not) -> nodes.Node:
        """An empty text counts as no."""
        self.generic_visit(node)
        node.node = _through("judged", node.node)
        return node


def _through(name: str, node: Any, *arguments: nodes.Expr) -> nodes.Expr:
    return nodes.Filter(node, name, [*arguments], [], None, None, lineno=node.lineno)
