"""What the shop's folder keeps of a customer: the column map, which a person may edit, and the last sheets.

`customers/NAME.toml` is the map (`quoting.intake.layout.column_map`); it is written once and never changed by
a run. `customers/NAME.json` is the memory (`quoting.intake.answers.memory`); every run with `--customer`
writes it anew, and keeps beside it what a person has changed in it. NAME is `customer_stem`: no two customers
share a file, and the name that stands in a file is compared with the one asked for. Files of earlier
versions, which had no hash in their names, are taken over when the name in them is the customer's.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from quoting.core import CannotWriteError, InputError, Order, Place, first_few, safe_name
from quoting.intake.answers import (
    Memory,
    WrittenAnswer,
    answered_columns,
    memory_of,
    with_answers,
    with_revision_questions,
)
from quoting.intake.customer_names import customer_stem, is_same_customer, plain_customer
from quoting.intake.layout import CustomerMap, Meaning, columns_read, customer_map
from quoting.intake.read_orders import Sender, read_all
from quoting.shop import Shop
from quoting.tables import digest_of, read_own_text

FOLDER = "customers"
_MOST_NAMED = 6


@dataclass(slots=True)
class CustomerFiles:
    """The files of one customer in a shop's folder; `notes` is what the user should be told."""

    shop_dir: Path
    name: str
    notes: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Take the name as it can be read, on one line."""
        self.name = plain_customer(self.name)

    @property
    def map_path(self) -> Path:
        """Return where the column map is, or would be."""
        return map_path(self.shop_dir, self.name)

    @property
    def memory_path(self) -> Path:
        """Return where the memory is, or would be."""
        return self.map_path.with_suffix(".json")

    def column_map(self) -> CustomerMap | None:
        """Return the map that is pinned for the customer; None when there is none yet."""
        for path in (self.map_path, self._old(".toml")):
            text = _text(path)
            pinned = None if text is None else customer_map(text, path.name)
            if pinned is not None and self._is_own(path, pinned.name):
                return pinned
        return None

    def language(self) -> str:
        """Return the language of the customer's quotes and mails; empty for English."""
        pinned = self.column_map()
        return pinned.language if pinned is not None else ""

    def memory(self) -> Memory:
        """Return what is kept of the customer's sheets."""
        return self._kept()[0]

    def _kept(self) -> tuple[Memory, bool, Path, str]:
        """Return the memory, whether a person has changed it, and the file and text that it was read from."""
        for path in (self.memory_path, self._old(".json")):
            text = _text(path)
            if text is None:
                continue
            memory, edited = memory_of(text, path.name)
            if self._is_own(path, memory.customer):
                return replace(memory, customer=self.name), edited, path, text
        return Memory(self.name), False, self.memory_path, ""

    def _old(self, suffix: str) -> Path:
        """Return where an earlier version kept a file of this customer, and of all whose names read alike."""
        return self.shop_dir / FOLDER / f"{safe_name(self.name)}{suffix}"

    def _is_own(self, path: Path, named: str) -> bool:
        """Return whether a file is this customer's by the name in it; one where this customer's should be is
        refused when it says that it is another's.
        """
        if is_same_customer(named, self.name) or (not named and path.suffix == ".toml"):
            return True
        if path.stem == customer_stem(self.name):
            raise InputError(
                "is kept for another customer",
                place=Place(str(path)),
                read=named[:80],
                would_do=f"write the name {self.name} in it, or move it away",
            )
        note = f"{path} is of {named[:80]}, not of {self.name}: it was not used"
        if note not in self.notes:
            self.notes.append(note)
        return False

    def read(
        self,
        paths: Sequence[Path],
        shop: Shop,
        *,
        today: date,
        answers: Mapping[str, WrittenAnswer],
        prefixes: Sequence[str] | None = None,
    ) -> tuple[Order, ...]:
        """Return the customer's orders, with what was pinned, answered before, and asked about changes."""
        pinned, memory = self.column_map(), self.memory()
        if pinned is not None:
            self._unpinned(paths, pinned)
        try:
            orders = read_all(paths, shop, today=today, sender=Sender(self.name, pinned), prefixes=prefixes)
        except InputError as error:
            raise self._with_map(paths, error) from error
        recalled = 0
        found = []
        for path, order in zip(paths, orders, strict=True):
            done = self._settled(order, memory, digest_of(path), answers, shop)
            recalled += sum(given.question not in answers for given in done.answers)
            found.append(done)
        if recalled:
            self.notes.append(f"{recalled} answers taken again from {self.memory_path}")
        return tuple(found)

    def _with_map(self, paths: Sequence[Path], error: InputError) -> InputError:
        """Write the map of a sheet that could not be read, for a person to mend, and say so in the error."""
        if os.path.lexists(self.map_path) or self.column_map() is not None:
            return error
        try:
            offered = self._offered(paths, ())
        except InputError:
            return error
        if not offered.columns:
            return error
        _write(self.map_path, offered.to_text())
        more = f"or say in {self.map_path} what its columns hold, and run again"
        return InputError(
            error.problem,
            place=error.place,
            read=error.read,
            would_do=f"{error.would_do}; {more}" if error.would_do else more,
        )

    def _settled(
        self, order: Order, memory: Memory, sheet: str, answers: Mapping[str, WrittenAnswer], shop: Shop
    ) -> Order:
        """Take answers, compare with the last sheet, and take the answers about that."""
        order = with_answers(order, answers, shop, memory)
        return with_answers(with_revision_questions(order, memory.parts_before(sheet)), answers, shop, memory)

    def _unpinned(self, paths: Sequence[Path], pinned: CustomerMap) -> None:
        """Tell which headers the map says nothing about."""
        known = dict(pinned.columns)
        new = [
            f'"{header}" ({meaning.field})'
            for path in paths
            for header, meaning in _columns(path, pinned)
            if header not in known
        ]
        if new:
            headers = first_few(new, _MOST_NAMED)
            self.notes.append(f"{self.map_path} says nothing about {headers}; read by their words")

    def keep(self, paths: Sequence[Path], orders: Sequence[Order], today: date) -> None:
        """Write the map if there is none, and the memory; the map of a person is never touched."""
        if not os.path.lexists(self.map_path):
            self._pin(paths, orders)
        memory, edited, read_from, text = self._kept()
        for path, order in zip(paths, orders, strict=True):
            if sheet := digest_of(path):  # one that was refused has taught nothing
                memory = memory.with_order(order, sheet, today)
        if edited:
            aside = _free(self.memory_path)
            _write(aside, text)
            self.notes.append(
                f"{self.memory_path.name} was changed by hand; that text is kept in {aside.name}"
            )
        _write(self.memory_path, memory.to_text())
        if read_from != self.memory_path:
            self._taken_over(read_from)

    def _pin(self, paths: Sequence[Path], orders: Sequence[Order]) -> None:
        """Write the map: the one of an earlier version as it stands, else the columns as they were read."""
        old = self._old(".toml")
        if self.column_map() is None:
            _write(self.map_path, self._offered(paths, orders).to_text())
            self.notes.append(f"columns as read are pinned in {self.map_path}; edit it where it is wrong")
        else:
            _write(self.map_path, _text(old) or "")
            self._taken_over(old)

    def _taken_over(self, old: Path) -> None:
        """Tell that a file of an earlier version has a new name, and remove the old one."""
        old.unlink(missing_ok=True)
        self.notes.append(f"{old.name} is {customer_stem(self.name)}{old.suffix} now: one file a customer")

    def _offered(self, paths: Sequence[Path], orders: Sequence[Order]) -> CustomerMap:
        """Return the columns as they were read, those that an answer has explained first."""
        columns: dict[str, Meaning] = dict(pair for order in orders for pair in answered_columns(order))
        for path in paths:
            for header, meaning in _columns(path, None):
                columns.setdefault(header, meaning)
        return CustomerMap(self.name, tuple(columns.items()))


def _columns(path: Path, pinned: CustomerMap | None) -> tuple[tuple[str, Meaning], ...]:
    """Return a sheet's headers and how they are understood; none of a sheet that was refused."""
    try:
        return columns_read(path, pinned=pinned).columns
    except InputError:
        return ()


def map_path(shop_dir: Path, name: str) -> Path:
    """Return where the map of a customer of this name is, or would be."""
    return shop_dir / FOLDER / f"{customer_stem(name)}.toml"


def offers(shop_dir: Path, orders: Sequence[Order]) -> list[str]:
    """Return what to tell a user who gave no customer: which maps exist unused, and where one would go."""
    names = dict.fromkeys(order.customer for order in orders if order.customer)
    there = {name: path for name in names if (path := map_path(shop_dir, name)).is_file()}
    said = [f"{path} was not used; --customer NAME does that" for path in there.values()]
    new = [map_path(shop_dir, name) for name in names if name not in there]
    if new:
        first = f"{new[0]}{' and so on' if len(new) > 1 else ''}"
        said.append(f"columns were read by their headers; --customer NAME would pin them in {first}")
    return said


def _text(path: Path) -> str | None:
    if not os.path.lexists(path):
        return None
    return read_own_text(path, "what is kept of this customer", mend="mend it or move it away")


def _free(path: Path) -> Path:
    """Return a name beside this one that is not taken."""
    number = 1
    while os.path.lexists(target := path.with_name(f"{path.stem}-edited-{number}{path.suffix}")):
        number += 1
    return target


def _write(path: Path, text: str) -> None:
    """Write a text whole or not at all."""
    try:
        path.parent.mkdir(exist_ok=True)
        draft = path.with_name(f".writing-{os.getpid()}-{path.name}")
        draft.write_text(text, encoding="utf-8", newline="\n")
        os.replace(draft, path)
    except OSError as error:
        raise CannotWriteError(
            f"cannot be written ({error.strerror or error})",
            place=Place(str(path)),
            would_do="leave --customer out, or get the right to write into the shop's folder",
        ) from error
