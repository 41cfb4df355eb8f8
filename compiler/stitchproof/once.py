"""Values that are worked out when they are first asked for, and then held."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, TypeVar, overload

Value = TypeVar("Value")


class once(Generic[Value]):  # noqa: N801  # it reads like the decorator it is
    """What `functools.cached_property` does, without the lock that it takes before Python 3.12: where thousands of small values
    are held, that costs more than to work them out. Two threads that ask at the same time may both work one out."""

    def __init__(self, work: Callable[[Any], Value]) -> None:
        self.work = work
        self.name = work.__name__
        self.__doc__ = work.__doc__

    @overload
    def __get__(self, holder: None, of: type) -> once[Value]: ...

    @overload
    def __get__(self, holder: object, of: type) -> Value: ...

    def __get__(self, holder: object | None, of: type) -> Value | once[Value]:
        if holder is None:
            return self
        value = holder.__dict__[self.name] = self.work(holder)
        return value
