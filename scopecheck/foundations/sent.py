"""What one process sends another: records as bytes, with the things that both of them know by their place."""

from __future__ import annotations

import pickle
from collections.abc import Sequence
from io import BytesIO
from typing import Any, BinaryIO


def send(found: object, known: Sequence[object], file: BinaryIO) -> None:
    """Writes what was found; of what is known, and of all that is in it, only the place."""
    _Writer(file, known).dump(found)


def received(data: bytes, known: Sequence[object]) -> Any:
    """What was sent: a copy, but for what is known, which is the same object again."""
    return _Reader(BytesIO(data), known).load()


class _Writer(pickle.Pickler):
    def __init__(self, file: BinaryIO, known: Sequence[object]) -> None:
        super().__init__(file, pickle.HIGHEST_PROTOCOL)
        self._places = {id(item): i for i, item in enumerate(known)}

    def persistent_id(self, item: object) -> int | None:
        return self._places.get(id(item))


class _Reader(pickle.Unpickler):
    def __init__(self, file: BinaryIO, known: Sequence[object]) -> None:
        super().__init__(file)
        self._known = known

    def persistent_load(self, place: int) -> object:
        return self._known[place]
