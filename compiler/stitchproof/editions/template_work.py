"""What the template of an edition may do: it comes to an end, and makes pages no longer than a pattern can be.

A pattern that a stranger sends can bring templates along. Jinja's sandbox keeps them from the machine, but bounds neither how
often loops go round nor how long texts grow; both are counted here, on the template's tree and in what it calls.
"""
# ruff: noqa: N802  # Jinja finds the methods by these names

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from pathlib import PurePath
from typing import Any

from jinja2 import nodes, pass_context
from jinja2.runtime import BlockReference, Context, LoopContext, Macro
from jinja2.sandbox import ImmutableSandboxedEnvironment
from jinja2.visitor import NodeTransformer
from msgspec import Struct

from stitchproof.editions.edition_folder import EditionFolder

MOST_ROUNDS = 3_000_000
"""Rounds of loops, and filters: over a hundred times what the shipped editions take for a top in nine sizes."""
ROUNDS_OF_A_CALL, ROUNDS_OF_A_FILE = 10, 100
"""A call, or an included template, counts as so many rounds."""
MOST_TEXT = 200_000_000
"""Characters that are put together, in all; what a macro makes is counted again where it is printed."""
LONGEST_VALUE = 20_000_000
"""Characters, or items, of any one value."""
LARGEST_NUMBER = 10**30
NOT_FOR_PAGES = "random pprint filesizeformat center format xmlattr batch slice wordwrap indent urlize tojson"
"""Filters that go by chance, show the inside of values, or make much of little."""
LONG_TEXTS = frozenset(
    ["ljust", "rjust", "center", "zfill", "expandtabs", "format", "format_map", "replace", "translate", "join"]
)
OF_LISTS = frozenset(
    [
        "length",
        "count",
        "list",
        "join",
        "map",
        "select",
        "selectattr",
        "reject",
        "rejectattr",
        "first",
        "last",
        "sort",
        "unique",
        "sum",
        "max",
        "min",
        "reverse",
        "groupby",
        "dictsort",
        "items",
        "default",
        "d",
    ]
)
"""Filters that take lists; the others take texts and numbers."""
OF_AN_EDITION = frozenset(
    ["name", "title", "parts", "words", "line_numbers", "worksheet", "each_size", "on_the_page", "holds", "usual_for"]
)
"""What a template may ask an edition for."""
Held = list[Any] | tuple[Any, ...] | dict[Any, Any]
HELD = (list, tuple, dict)
AROUND = {"_loop_vars", "_block_vars"}
"""What Jinja hands to every call besides what is written; a macro does not see it."""
KeepMacro = Callable[[str, tuple[Any, ...], Callable[[], Any]], Any]
"""What may give what a macro made before: it takes the macro's name, what it is given, and how it is made now."""


class TooMuchWork(Exception):
    """A template goes on too long, or makes too much; the message says of what."""


class BoundedTemplates(ImmutableSandboxedEnvironment):
    """Jinja's sandbox with an end to it."""

    intercepted_binops = frozenset({"+", "*", "**", "%"})

    def __init__(self, keep: KeepMacro | None = None, **options: Any) -> None:
        super().__init__(finalize=_printed, **options)
        self.keep = keep
        self.rounds = 0
        self.made = 0
        self.globals = {"namespace": self.globals["namespace"], "range": self.globals["range"]}
        without = NOT_FOR_PAGES.split()
        self.filters = {name: self.filter_of(name, held) for name, held in self.filters.items() if name not in without}
        own: dict[str, Callable[[Any], Any]] = {
            "counted": self.counted,
            "put_together": self.put_together,
            "flat": self.flat,
        }
        self.filters |= {name: _when_it_runs(function) for name, function in own.items()}
        self.concat = self.bounded  # type: ignore[assignment,method-assign,unused-ignore]  # Jinja lets it be replaced

    def _parse(self, source: str, name: str | None, filename: str | None) -> nodes.Template:
        tree: nodes.Template = _Counting().visit(super()._parse(source, name, filename))
        return tree.set_environment(self)  # type: ignore[return-value]  # it returns the node itself

    def get_template(self, *given: Any, **named: Any) -> Any:
        """Templates that include one another are counted as they are asked for."""
        self.count(ROUNDS_OF_A_FILE)
        return super().get_template(*given, **named)

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:
        """Nothing of where files lie: a path can be gone along, opened and written. What a template asks for most is a field
        of a Struct, which is never the inside of a function or a type."""
        if isinstance(obj, EditionFolder):
            return attr in OF_AN_EDITION
        if isinstance(obj, Struct):
            return not attr.startswith("_")
        return not isinstance(obj, PurePath) and super().is_safe_attribute(obj, attr, value)

    def is_safe_callable(self, obj: Any) -> bool:
        """Macros and loops, methods of texts and lists, and what a page is handed by its printer; no other function."""
        if isinstance(obj, Macro | BlockReference | LoopContext) or obj in self.globals.values():
            return super().is_safe_callable(obj)
        owner = getattr(obj, "__self__", None)
        room = str(getattr(obj, "__module__", "")) if owner is None else type(owner).__module__
        ours = room.startswith("stitchproof.") and not isinstance(owner, EditionFolder)
        known = ours or isinstance(owner, str | list | tuple | dict | LoopContext)
        return known and super().is_safe_callable(obj)

    def call(self, context: Context, obj: Any, /, *given: Any, **named: Any) -> Any:
        """Calls are counted, of macros and of methods; methods that make long texts are not called."""
        self.count(ROUNDS_OF_A_CALL)
        if isinstance(getattr(obj, "__self__", None), str) and obj.__name__ in LONG_TEXTS:
            raise TooMuchWork(f"`{obj.__name__}` can make too long a text; a filter does what a page needs")
        if self.keep and isinstance(obj, Macro) and named.keys() <= AROUND:
            make = partial(super().call, context, obj, *given, **named)
            return self.keep(obj.name, given, make)
        return super().call(context, obj, *given, **named)

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:
        """Numbers are counted with; texts and lists are joined, not multiplied or formatted."""
        if isinstance(left, int | float) and isinstance(right, int | float):
            if operator == "**" or (operator == "*" and abs(left) * abs(right) > LARGEST_NUMBER):
                raise TooMuchWork(f"a number grows too large by `{operator}`")
            return self.binop_table[operator](left, right)
        if operator != "+":
            raise TooMuchWork(f"`{operator}` works with numbers only")
        return self.put_together(self.binop_table[operator](left, right))

    def filter_of(self, name: str, function: Any) -> Any:
        """One of Jinja's filters that gets, and so makes, nothing longer than a value may be."""

        def bounded(*given: Any, **named: Any) -> Any:
            held = [list(value) if isinstance(value, Iterator) else value for value in given]
            length = 1
            for value in (*held, *named.values()):
                length *= _length(value, name) + 1
            if length > LONGEST_VALUE:
                raise TooMuchWork(f"`{name}` is given more than it can work through")
            self.count(1)
            return function(*held, **named)

        # Jinja hands the environment to filters that carry this sign.
        bounded.__dict__.update(getattr(function, "__dict__", {}))
        return bounded

    def counted(self, values: Any) -> Any:
        """What a loop goes through, its rounds counted before it begins."""
        held = values if hasattr(values, "__len__") else list(values)
        self.count(1 + len(held))
        return held

    def put_together(self, value: Any) -> Any:
        """What `~` or `+` joined."""
        self.add(len(value) if hasattr(value, "__len__") else 0)
        if hasattr(value, "__len__") and len(value) > LONGEST_VALUE:
            raise TooMuchWork(f"a value grows longer than {LONGEST_VALUE:,}")
        return value

    def flat(self, value: Any) -> Any:
        """A list as it is written. One that holds another twice, and so on, is small to write and endless to look into."""
        items = (*value, *value.values()) if isinstance(value, dict) else value
        self.count(len(items))
        if any(isinstance(inner, HELD) for item in items if isinstance(item, HELD) for inner in item):
            raise TooMuchWork("lists stand in lists of lists")
        return value

    def bounded(self, parts: Iterable[str]) -> str:
        """The parts of a text put together, as long as they stay within bounds."""
        return "".join(self._within(parts))

    def _within(self, parts: Iterable[str]) -> Iterator[str]:
        for part in parts:
            self.add(len(part))
            yield part

    def add(self, characters: int) -> None:
        """Count what is put together. Raises TooMuchWork."""
        self.made += characters
        if self.made > MOST_TEXT:
            raise TooMuchWork(f"it puts together more than {MOST_TEXT:,} characters")

    def count(self, rounds: int) -> None:
        """Count rounds. Raises TooMuchWork."""
        self.rounds += rounds
        if self.rounds > MOST_ROUNDS:
            raise TooMuchWork(f"its loops go on for more than {MOST_ROUNDS:,} rounds")


class _Counting(NodeTransformer):
    """Puts the filters of the sandbox where they belong, on the template's tree."""

    def visit_For(self, node: nodes.For) -> nodes.Node:
        self.generic_visit(node)
        node.iter = _through("counted", node.iter)
        return node

    def visit_Concat(self, node: nodes.Concat) -> nodes.Node:
        self.generic_visit(node)
        return _through("put_together", node)

    def visit_List(self, node: nodes.List) -> nodes.Node:
        self.generic_visit(node)
        return _through("flat", node)

    def visit_Dict(self, node: nodes.Dict) -> nodes.Node:
        self.generic_visit(node)
        return _through("flat", node)

    def visit_Tuple(self, node: nodes.Tuple) -> nodes.Node:
        self.generic_visit(node)
        return _through("flat", node) if node.ctx == "load" else node


def _through(name: str, node: Any) -> nodes.Filter:
    return nodes.Filter(node, name, [], [], None, None, lineno=node.lineno)


def _when_it_runs(function: Callable[[Any], Any]) -> Callable[..., Any]:
    """A filter of our own; asking for the context keeps Jinja from working it out before the template runs."""

    @pass_context
    def filtered(_: Context, /, value: object) -> object:
        return function(value)

    return filtered


def _length(value: object, name: str) -> int:
    """How much a filter has to go through."""
    if isinstance(value, str):
        return len(value)
    if not isinstance(value, HELD):
        return 0
    if name not in OF_LISTS:
        raise TooMuchWork(f"`{name}` takes texts and numbers")
    if name == "join" and any(isinstance(item, HELD) for item in value):
        raise TooMuchWork("`join` joins texts and numbers")
    return sum(len(item) + 1 if isinstance(item, str) else 1 for item in value)


def _printed(value: object) -> object:
    if isinstance(value, HELD):
        raise TooMuchWork("a list is printed by a loop, or joined")
    return value
