"""What a template can do: choose and repeat text, and call macros. It opens nothing, computes nothing, and comes to an end.

Text that was captured (`{% set %}`, a macro, `{% filter %}`) carries its position marks. Whatever looks into such a text
gets it without them, so that a template chooses as it would have without the marks; a text that holds a number cannot be
looked into at all, because it has no one value.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from jinja2 import StrictUndefined, TemplateNotFound, Undefined, nodes, pass_context
from jinja2.loaders import BaseLoader
from jinja2.runtime import BlockReference, Context, LoopContext, Macro
from jinja2.sandbox import ImmutableSandboxedEnvironment

from stitchproof.expansion.handles import Group, Handle, HandleUsed, full_name
from stitchproof.expansion.placed_text import SLOT_MARK, without_position_marks
from stitchproof.expansion.spent import MOST_TEXT, Spent, TooMuchText
from stitchproof.expansion.template_bounds import Bounds
from stitchproof.reading.marks import BACK, CLOSE, OPEN, mark

FILTERS = frozenset(
    [
        "abs",
        "capitalize",
        "count",
        "d",
        "default",
        "first",
        "join",
        "last",
        "length",
        "list",
        "lower",
        "max",
        "min",
        "replace",
        "reverse",
        "sort",
        "title",
        "trim",
        "unique",
        "upper",
    ]
)
"""Jinja's filters that texts may use; the others format numbers, read files' worth of text, or draw by chance."""
_KEEP_NUMBERS = frozenset({"join", "list", "lower", "trim", "upper"})
_KEEP_ALL = frozenset({"d", "default"})


class NumberInText(Exception):
    """A template looks into a text that holds a number."""


class Sandbox(ImmutableSandboxedEnvironment):
    """Jinja within bounds; shared texts are cut off from what the pattern's own text sees.

    slot, each, upto: called where a slot, the head of a loop block, or `upto(…)` stands. spent: what other texts unfolded to.
    """

    intercepted_binops = frozenset({"+", "-", "%"})

    def __init__(
        self,
        loader: BaseLoader | None = None,
        slot: Callable[..., str] | None = None,
        each: Callable[..., range] | None = None,
        upto: Callable[[object], range] | None = None,
        spent: Spent | None = None,
    ) -> None:
        super().__init__(
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
            undefined=StrictUndefined,
            autoescape=False,
            loader=loader,
        )
        self.spent = spent or Spent()
        self.upto = upto
        self.globals = {"upto": upto} if upto else {}
        self.filters = {name: _guarded(name, self.filters[name]) for name in FILTERS}
        own: dict[str, Callable[..., object]] = {"tick": self.tick, "placed": _placed, "joined": self.joined}
        own["included"] = self.included
        own |= {"plain": _plain, "taken_from": _taken_from, "gone_through": _gone_through, "judged": _judged}
        if slot and each:
            own |= {"slot": slot, "each": each}
        self.filters |= {name: _in_context(function) for name, function in own.items()}
        self.concat = self.spent.bounded  # type: ignore[assignment,method-assign,unused-ignore]  # Jinja lets it be replaced

    def _parse(self, source: str, name: str | None, filename: str | None) -> nodes.Template:
        tree: nodes.Template = Bounds().visit(super()._parse(source, name, filename))
        return tree.set_environment(self)  # type: ignore[return-value]  # it returns the node itself

    def is_safe_callable(self, obj: Any) -> bool:
        """Macros, `upto`, loops and their `cycle`; no methods of texts and lists."""
        if isinstance(obj, Handle | Group):
            raise HandleUsed(full_name(obj))
        return (
            isinstance(obj, Macro | BlockReference | LoopContext)
            or obj == self.upto
            or (isinstance(getattr(obj, "__self__", None), LoopContext) and obj.__name__ == "cycle")
        )

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:
        """Loop counters may be counted on; everything else is text or a number of the pattern."""
        numbers = [_plain(side) for side in (left, right)]
        if not all(isinstance(number, int) for number in numbers):
            raise TypeError(f"`{operator}` works with loop counters only; texts are joined by `~`")
        return self.binop_table[operator](*numbers)

    def tick(self, _: object) -> str:
        """At each round of a loop and each call of a macro; ends what goes on too long."""
        self.spent.tick()
        return ""

    def included(self, names: str | list[str], ignore_missing: bool) -> str:
        """Another text as a whole; it sees nothing of the one that includes it."""
        try:
            template = self.get_or_select_template(_plain(names))  # type: ignore[arg-type]  # Jinja refuses what is no name
        except TemplateNotFound:
            if ignore_missing:
                return ""
            raise
        return template.render()

    def joined(self, values: list[object]) -> str:
        """What `~` joins, or `{{ }}` prints: texts and plain numbers."""
        for value in values:
            if isinstance(value, Handle | Group):
                raise HandleUsed(full_name(value))
            if not isinstance(value, str | int | float | Undefined | None):
                raise TypeError("only a text or a loop counter can be printed")
        texts = [str(value) for value in values]
        # Behind a captured text, whose characters have places of their own, what is joined on has none.
        return self.spent.bounded(
            text if text == without_position_marks(text) else text + mark(BACK, 0) for text in texts
        )


def _guarded(name: str, function: Callable[..., Any]) -> Callable[..., Any]:
    """One of Jinja's filters that gets texts without marks, and no numbers of the pattern."""
    if name in _KEEP_ALL:
        return function

    def guarded(*given: Any, **named: Any) -> Any:
        keep = name in _KEEP_NUMBERS
        held = [_unmarked(value, keep) if isinstance(value, _LOOKED_INTO) else value for value in given]
        length = 1
        for value in (*held, *named.values()):
            length *= _length(value) + 1
        if length > MOST_TEXT:
            raise TooMuchText(f"`{name}` makes more than {MOST_TEXT:,} characters")
        return function(*held, **{key: _unmarked(value, keep) for key, value in named.items()})

    # Jinja hands the environment to filters that carry this sign.
    guarded.__dict__.update(getattr(function, "__dict__", {}))
    return guarded


def _length(value: object) -> int:
    """How many characters a text has, or the texts of a list."""
    if isinstance(value, list | tuple):
        return sum(len(item) + 1 if isinstance(item, str) else 1 for item in value)
    return len(value) if isinstance(value, str) else 0


def _in_context(function: Callable[..., object]) -> Callable[..., object]:
    """A filter of our own; asking for the context keeps Jinja from working it out before the template runs."""

    @pass_context
    def filtered(_: Context, /, *given: object, **named: object) -> object:
        return function(*given, **named)

    return filtered


_LOOKED_INTO = (str, list, tuple, dict, range, Handle, Group)


def _unmarked(value: object, keep_numbers: bool = False) -> object:
    """A value as a template may look into it."""
    match value:
        case Handle() | Group():
            raise HandleUsed(full_name(value))
        case str():
            if not keep_numbers and SLOT_MARK.search(value):
                raise NumberInText
            return without_position_marks(value)
        case list() | tuple() | dict() if any(isinstance(item, list | tuple | dict) for item in _items(value)):
            # A list that holds another twice, and so on, is small to write and endless to look into.
            raise TypeError("lists inside lists can be gone through with `for` only")
        case list():
            return [_unmarked(item, keep_numbers) for item in value]
        case tuple():
            return tuple(_unmarked(item, keep_numbers) for item in value)
        case range():
            raise TypeError("the numbers of `upto` can be gone through with `for` only")
        case _:
            return value


def _items(value: list[object] | tuple[object, ...] | dict[object, object]) -> Iterable[object]:
    return (*value, *value.values()) if isinstance(value, dict) else value


def _plain(value: object) -> object:
    """A value that is compared or tested."""
    return _unmarked(value)


def _taken_from(value: object) -> object:
    """A value that an item is taken from: the items of a list stay as they are."""
    return value if isinstance(value, list | tuple | dict) else _unmarked(value)


def _gone_through(value: object) -> object:
    """A value that a loop goes through."""
    return value if isinstance(value, range) else _taken_from(value)


def _judged(value: object) -> object:
    """A value that is taken as yes or no: a text of nothing but marks is empty."""
    return "" if isinstance(value, str) and not without_position_marks(value) else value


def _placed(value: object, number: int) -> str:
    """What a filter made of a block, placed as a whole where the filter stands."""
    return f"{mark(OPEN, number)}{value}{mark(CLOSE, number)}"
