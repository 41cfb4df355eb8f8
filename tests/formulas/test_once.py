"""A value that is worked out once is the same each time, also of values that are frozen."""

from msgspec import Struct

from stitchproof.once import once


class Counted(Struct, frozen=True, dict=True):
    """Counts how often its value is worked out."""

    told: list[str]

    @once
    def value(self) -> tuple[str, ...]:
        """What is worked out."""
        self.told.append("worked out")
        return tuple(self.told)


def test_a_value_is_worked_out_when_it_is_first_asked_for() -> None:
    counted, other = Counted([]), Counted(["before"])
    assert counted.told == []
    assert counted.value is counted.value
    assert (counted.told, other.value) == (["worked out"], ("before", "worked out"))


def test_it_tells_what_it_is() -> None:
    assert Counted.value.__doc__ == "What is worked out."
