"""Git's objects, none of them unpacked before it has said how large it is: a few bytes of a pack can unpack to thousands of
millions, and a chain of differences multiplies them.

The form of packs is that of git's documentation (gitformat-pack), from memory. What an object says of itself is held to: the
library stops where one unpacks to more.
"""

from __future__ import annotations

import zlib
from pathlib import Path
from typing import BinaryIO

from dulwich.object_store import DiskObjectStore
from dulwich.objects import ObjectID, RawObjectID
from dulwich.pack import PackIndex, load_pack_index
from msgspec import Struct

MOST_IN_OBJECT = 100_000_000
MOST_IN_CHAIN = 400_000_000
"""Bytes: of an object, and of all that is unpacked to make it, differences and what they are made on."""
LONGEST_CHAIN = 4_096
"""Git's own limit of a chain of differences."""
ON_A_PLACE, ON_A_NAME = 6, 7
"""Kinds of an object in a pack that is a difference: to the one so many bytes before it, and to one that is named."""
LONGEST_NUMBER = 10
"""Bytes of a number of seven bits each."""


class TooLarge(Exception):
    """An object would unpack to more than is read."""


class Entry(Struct, frozen=True):
    """An object in a pack, as it says of itself. size: unpacked. base: for a difference the place or the name of what it is made
    on, else None. data: where its packed bytes begin."""

    size: int
    base: int | bytes | None
    data: int


class BoundedObjects(DiskObjectStore):
    """The objects of a repository on the disk. Raises TooLarge for one that would unpack to too much."""

    def get_raw(self, name: RawObjectID | ObjectID) -> tuple[int, bytes]:
        """The kind and content of an object, by its name."""
        for index, pack in self._packs():
            try:
                place = index.object_offset(name)
            except KeyError:
                continue
            with pack.open("rb") as opened:
                self._look_over(opened, index, place)
        return super().get_raw(name)

    def _packs(self) -> tuple[tuple[PackIndex, Path], ...]:
        if not hasattr(self, "_indexes"):
            paths = sorted(Path(self.pack_dir).glob("*.idx"))
            self._indexes = tuple(
                (load_pack_index(path, self.object_format), path.with_suffix(".pack")) for path in paths
            )
        return self._indexes

    def close(self) -> None:
        """Let go of the files."""
        for index, _ in getattr(self, "_indexes", ()):
            index.close()
        super().close()

    def _look_over(self, pack: BinaryIO, index: PackIndex, place: int) -> None:
        """Go down the chain that an object is made of. One that is named and lies elsewhere is asked for by itself."""
        whole = 0
        for _ in range(LONGEST_CHAIN):
            entry = entry_at(pack, place, self.object_format.oid_length)
            sizes = (entry.size, *(() if entry.base is None else sizes_of_difference(pack, entry)))
            whole += sum(sizes)
            if max(sizes) > MOST_IN_OBJECT or whole > MOST_IN_CHAIN:
                raise TooLarge
            if entry.base is None:
                return
            try:
                place = entry.base if isinstance(entry.base, int) else index.object_offset(RawObjectID(entry.base))
            except KeyError:
                return
        raise TooLarge


def entry_at(pack: BinaryIO, place: int, name_length: int) -> Entry:
    """What the object at a place of a pack says of itself. Raises ValueError where there is none."""
    pack.seek(place)
    head = pack.read(2 * LONGEST_NUMBER + name_length)
    if not head or place <= 0:
        raise ValueError("no object there")
    kind, size, at = head[0] >> 4 & 7, head[0] & 15, 1
    if head[0] & 0x80:
        more, at = number_at(head, at)
        size |= more << 4
    if kind == ON_A_PLACE:
        back, at = _distance_at(head, at)
        return Entry(size, place - back, place + at)
    if kind == ON_A_NAME:
        return Entry(size, head[at : at + name_length], place + at + name_length)
    return Entry(size, None, place + at)


def sizes_of_difference(pack: BinaryIO, entry: Entry) -> tuple[int, int]:
    """Of what a difference is made on, and of what it makes: the two numbers that it begins with."""
    pack.seek(entry.data)
    begins = zlib.decompressobj().decompress(pack.read(256), 2 * LONGEST_NUMBER)
    base, at = number_at(begins, 0)
    return base, number_at(begins, at)[0]


def number_at(data: bytes, at: int) -> tuple[int, int]:
    """A number of seven bits a byte, the lowest first, and where it ends."""
    number = 0
    for shift, byte in enumerate(data[at : at + LONGEST_NUMBER]):
        number |= (byte & 0x7F) << 7 * shift
        if not byte & 0x80:
            return number, at + shift + 1
    raise ValueError("a number without an end")


def _distance_at(data: bytes, at: int) -> tuple[int, int]:
    """A distance, the highest bits first, one added for each further byte; and where it ends."""
    distance = -1
    for place, byte in enumerate(data[at : at + LONGEST_NUMBER], at):
        distance = distance + 1 << 7 | byte & 0x7F
        if not byte & 0x80:
            return distance, place + 1
    raise ValueError("a number without an end")
