"""The books of a run that was done before are taken from the user's cache: what they hold is all the same."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, is_dataclass
from datetime import date, time
from decimal import Decimal
from enum import Enum
from functools import cache, partial
from pathlib import Path
from types import FunctionType
from typing import Any

from quoting.commands.quote_files import Writer
from quoting.core import KnownPlace, known_place, results_are_kept

MOST_VALUES = 150_000
"""Books made of more values, those of some 400 lines, are not looked for: it would take seconds."""
_PLAIN = {bool, bytes, float, int, str, type(None), date, time, Decimal}


@dataclass(frozen=True, slots=True)
class KnownBooks:
    """What writes the books of a run: their own writers, or such as write what is `known` of them."""

    place: KnownPlace | None
    known: Mapping[str, bytes] | None

    def writers(self, own: Mapping[str, Writer]) -> dict[str, Writer]:
        """Return the writers, those of known books in place of their own."""
        known = self.known or {}
        return {name: partial(_put, known[name]) if name in known else own[name] for name in own}

    def keep(self, books: Mapping[str, Path]) -> None:
        """Keep the books by name as they were written, where they were not known."""
        if self.place is not None and self.known is None:
            self.place.keep({name: path.read_bytes() for name, path in books.items()})


def known_books(writers: Mapping[str, Writer]) -> KnownBooks:
    """Look for the books of these writers; where one could depend on more than is seen, none is known."""
    if not results_are_kept():
        return KnownBooks(None, None)
    digest = _Digest()
    try:
        given = digest.of(dict(writers))
    except (TypeError, OSError, OverflowError):
        return KnownBooks(None, None)
    place = known_place(sorted(digest.packages), given)
    return KnownBooks(place, None if place is None else place.read())


def _put(data: bytes, path: Path) -> None:
    path.write_bytes(data)


class _Digest:
    """Digests of values: equal ones have the same, whichever parts of them are one object.

    A path stands for the file there, a function for its name: `packages` are those of all functions. Raises
    TypeError for what is none of our values, OverflowError for too many.
    """

    def __init__(self) -> None:
        self.packages: set[str] = set()
        self._seen: dict[int, bytes] = {}

    def of(self, value: Any) -> bytes:
        """Return what tells this value from every other one."""
        kind = type(value)
        if kind in _PLAIN or isinstance(value, date):
            return f"{kind.__name__} {value!r}".encode()
        found = self._seen.get(id(value))
        if found is None:
            if len(self._seen) == MOST_VALUES:
                raise OverflowError
            digest = hashlib.blake2b(f"{kind.__module__} {kind.__qualname__}".encode(), digest_size=32)
            for part in self._parts(value, kind):
                digest.update(len(part).to_bytes(8, "little") + part)
            found = self._seen[id(value)] = digest.digest()
        return found

    def _parts(self, value: Any, kind: type) -> Iterable[bytes]:
        if kind in (tuple, list):
            return map(self.of, value)
        if is_dataclass(kind):
            return [self.of(getattr(value, name)) for name in _names(kind)]
        if isinstance(value, Enum):
            return (value.name.encode(),)
        if isinstance(value, Mapping):
            return [self.of(part) for pair in value.items() for part in pair]
        if kind in (set, frozenset):
            return sorted(map(self.of, value))
        return self._of_other(value)

    def _of_other(self, value: Any) -> Iterable[bytes]:
        if isinstance(value, partial):
            return map(self.of, (value.func, value.args, value.keywords))
        if isinstance(value, Path):
            return value.name.encode(), value.read_bytes()
        if isinstance(value, FunctionType) and value.__closure__ is None:
            self.packages.add(value.__module__.partition(".")[0])
            return value.__module__.encode(), value.__qualname__.encode()
        if hasattr(value, "item"):  # one of numpy's numbers
            return (self.of(value.item()),)
        raise TypeError(type(value))


@cache
def _names(kind: Any) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))
