"""What a cell puts into a row, kept for the next row with the same cell in the same column.

Long sheets say the same in most of their cells. A cell is read once into an empty record that watches what is
looked at; another row may take what it put there if that row holds nothing of what was looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any, NoReturn

from quoting.core import Place, Reading
from quoting.intake.row_record import Doubt, Record, RowText

SOMEWHERE = Place("", "", -1)
"""Stands for the place of the cell in what is kept."""


class _LookedAtError(Exception):
    """A reader looked at all of a record: what it did may be another thing in another row."""


class _Watched(dict[str, Any]):
    """An empty mapping that notes every key that is asked for or set, and lets nobody walk over it."""

    def __init__(self) -> None:
        super().__init__()
        self.touched: set[str] = set()

    def __contains__(self, key: object) -> bool:
        self.touched.add(str(key))
        return super().__contains__(key)

    def __getitem__(self, key: str) -> Any:
        self.touched.add(key)
        return super().__getitem__(key)

    def __setitem__(self, key: str, value: Any) -> None:
        self.touched.add(key)
        super().__setitem__(key, value)

    def __delitem__(self, key: str) -> None:
        self.touched.add(key)
        super().__delitem__(key)

    def get(self, key: str, default: Any = None) -> Any:
        self.touched.add(key)
        return super().get(key, default)

    def setdefault(self, key: str, default: Any = None) -> Any:
        self.touched.add(key)
        return super().setdefault(key, default)

    def pop(self, key: str, *default: Any) -> Any:
        self.touched.add(key)
        return super().pop(key, *default)

    def update(self, *given: Any, **named: Any) -> None:
        for key, value in dict(*given, **named).items():
            self[key] = value

    def _all(self, *_: Any) -> NoReturn:
        raise _LookedAtError

    __iter__ = __len__ = __bool__ = __or__ = __ior__ = __ror__ = __eq__ = _all
    keys = values = items = copy = popitem = clear = _all


class _Added(list[Any]):
    """A list that takes what is put behind it and shows nothing."""

    def _all(self, *_: Any) -> NoReturn:
        raise _LookedAtError

    __iter__ = __len__ = __bool__ = __contains__ = __eq__ = __reversed__ = _all
    index = count = copy = remove = pop = insert = sort = reverse = _all  # type: ignore[assignment]
    __getitem__ = __add__ = _all
    __setitem__ = __delitem__ = _all


def _taken(watched: list[Any]) -> Iterator[Any]:
    return list.__iter__(watched)


@dataclass(frozen=True, slots=True)
class KnownCell:
    """What a cell puts into a row that holds none of `looked`, `asked` and `placed` among its values, doubts
    and places.
    """

    looked: frozenset[str]
    asked: frozenset[str]
    placed: frozenset[str]
    values: dict[str, str]
    places: tuple[tuple[str, str], ...]
    readings: tuple[tuple[str, str, str], ...]
    texts: tuple[RowText, ...]
    remarks: tuple[str, ...]
    assumptions: tuple[str, ...]
    work: tuple[tuple[str, str, str], ...]

    def put(self, record: Record, place: Place) -> bool:
        """Put it into a row; return False, with nothing done, where the row holds what was looked at."""
        if not (
            record.values.keys().isdisjoint(self.looked)  # goes over the smaller of the two
            and (not self.asked or record.doubts.keys().isdisjoint(self.asked))
            and (not self.placed or record.places.keys().isdisjoint(self.placed))
        ):
            return False
        record.values.update(self.values)
        for name, text in self.places:
            record.places[name] = (place, text)
        for name, text, meaning in self.readings:
            record.readings.append(Reading(name, place, text, meaning))
        if self.texts:
            record.texts += [row.at(place) for row in self.texts]
        if self.remarks:
            record.remarks += self.remarks
        if self.assumptions:
            record.assumptions += self.assumptions
        if self.work:
            record.work += self.work
        return True


def known_cell(read: Callable[[Record, Place], None], place: Place) -> KnownCell | None:
    """Return what a reader puts into an empty record; None where that depends on the row, or is a doubt."""
    here = replace(place, row=SOMEWHERE.row)
    values, doubts, places = _Watched(), _Watched(), _Watched()
    record = Record(here, values, doubts, _Added(), _Added(), _Added(), places, _Added(), _Added())
    try:
        read(record, here)
    except _LookedAtError:
        return None
    readings: list[Reading] = list(_taken(record.readings))
    texts: list[RowText] = list(_taken(record.texts))
    stood: dict[str, tuple[Place, str]] = dict(dict.items(places))
    named = [one.place for one in readings] + [one.place for one in texts]
    named += [where for where, _ in stood.values()]
    kept: dict[str, Doubt] = dict(dict.items(doubts))
    if kept or any(where is not here for where in named):
        return None
    return KnownCell(
        frozenset(values.touched),
        frozenset(doubts.touched),
        frozenset(places.touched),
        dict(dict.items(values)),
        tuple((name, text) for name, (_, text) in stood.items()),
        tuple((one.name, one.text, one.meaning) for one in readings),
        tuple(texts),
        tuple(_taken(record.remarks)),
        tuple(_taken(record.assumptions)),
        tuple(_taken(record.work)),
    )
