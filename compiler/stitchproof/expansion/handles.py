"""What a template sees of a number: a handle that can be handed on, and nothing else."""

from __future__ import annotations

from typing import NoReturn


class HandleUsed(Exception):
    """A template tried to print, compare or compute with a number. Carries the name of the number."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.name = name


class _Untouchable:
    """Refuses whatever a template could do with it. Its name lies where templates cannot reach."""

    __slots__ = ("_name",)

    def __init__(self, name: str) -> None:
        self._name = name

    def _refuse(self, *_: object) -> NoReturn:
        raise HandleUsed(self._name)

    def __getattr__(self, name: str) -> NoReturn:
        # Python itself asks for names in double underscores and takes an AttributeError for "no".
        if name.startswith("__"):
            raise AttributeError(name)
        raise HandleUsed(self._name)

    __str__ = __repr__ = __bool__ = __iter__ = __len__ = __call__ = __html__ = __hash__ = _refuse
    __eq__ = __ne__ = __lt__ = __le__ = __gt__ = __ge__ = __contains__ = __getitem__ = _refuse
    __add__ = __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = __truediv__ = __rtruediv__ = _refuse
    __mod__ = __rmod__ = __floordiv__ = __pow__ = __neg__ = __pos__ = __int__ = __float__ = __index__ = __format__ = (
        _refuse
    )


class Handle(_Untouchable):
    """Stands for a named value in templates."""

    __slots__ = ()


class Group(_Untouchable):
    """Stands for a group of named values: `brim` of `brim.rows`."""

    __slots__ = ("_members",)

    def __init__(self, name: str, members: dict[str, Handle | Group]) -> None:
        super().__init__(name)
        self._members = members

    def __getattr__(self, name: str) -> Handle | Group:  # type: ignore[override]  # a member, where there is one
        if name.startswith("_") or name not in self._members:
            raise AttributeError(name)
        return self._members[name]

    def __getitem__(self, *name: object) -> NoReturn:
        raise KeyError(*name)


def full_name(handle: Handle | Group) -> str:
    """The dotted name that a handle stands for."""
    return handle._name


def handles_for(names: tuple[str, ...]) -> dict[str, Handle | Group]:
    """Handles by their first word; dotted names as groups within groups."""
    tree: dict[str, object] = {}
    for name in names:
        *groups, last = name.split(".")
        place = tree
        for group in groups:
            held = place.setdefault(group, {})
            if not isinstance(held, dict):
                break  # a value and a group of the same name: the value can be handed on, the group's members cannot
            place = held
        else:
            place.setdefault(last, Handle(name))
    return {name: _grouped(name, held) for name, held in tree.items()}


def _grouped(name: str, held: object) -> Handle | Group:
    if isinstance(held, dict):
        return Group(name, {inner: _grouped(f"{name}.{inner}", member) for inner, member in held.items()})
    return held if isinstance(held, Handle) else Group(name, {})
