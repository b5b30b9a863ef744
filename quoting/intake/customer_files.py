"""What the shop's folder keeps of a customer: the column map, which a person may edit, and the last sheets.

`customers/NAME.toml` is the map (`quoting.intake.layout.column_map`); it is written once and never changed by
a run. `customers/NAME.json` is the memory (`quoting.intake.answers.memory`); every run with `--customer`
writes it anew, and keeps beside it what a person has changed in it.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from quoting.core import CannotWriteError, InputError, Order, Place, first_few, safe_name
from quoting.intake.answers import Memory, WrittenAnswer, memory_of, with_answers, with_revision_questions
from quoting.intake.layout import CustomerMap, Meaning, columns_read, customer_map
from quoting.intake.read_orders import read_all
from quoting.shop import Shop
from quoting.tables import digest_of

FOLDER = "customers"
_MOST_NAMED = 6


@dataclass(slots=True)
class CustomerFiles:
    """The files of one customer in a shop's folder; `notes` is what the user should be told."""

    shop_dir: Path
    name: str
    notes: list[str] = field(default_factory=list)

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
        text = _text(self.map_path)
        return None if text is None else customer_map(text, self.map_path.name)

    def memory(self) -> Memory:
        """Return what is kept of the customer's sheets."""
        text = _text(self.memory_path)
        return Memory(self.name) if text is None else memory_of(text, self.memory_path.name)[0]

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
        orders = read_all(
            paths, shop, today=today, customer=self.name, customer_map=pinned, prefixes=prefixes
        )
        recalled = 0
        found = []
        for path, order in zip(paths, orders, strict=True):
            done = self._settled(order, memory, digest_of(path), answers, shop)
            recalled += sum(given.question not in answers for given in done.answers)
            found.append(done)
        if recalled:
            self.notes.append(f"{recalled} answers taken again from {self.memory_path}")
        return tuple(found)

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
            for header, meaning in columns_read(path, pinned=pinned).columns
            if header not in known
        ]
        if new:
            headers = first_few(new, _MOST_NAMED)
            self.notes.append(f"{self.map_path} says nothing about {headers}; read by their words")

    def keep(self, paths: Sequence[Path], orders: Sequence[Order], today: date) -> None:
        """Write the map if there is none, and the memory; the map of a person is never touched."""
        if not os.path.lexists(self.map_path):
            offered = self._offered(paths)
            _write(self.map_path, offered.to_text())
            self.notes.append(f"columns as read are pinned in {self.map_path}; edit it where it is wrong")
        text = _text(self.memory_path)
        memory, edited = (
            (Memory(self.name), False) if text is None else memory_of(text, self.memory_path.name)
        )
        for path, order in zip(paths, orders, strict=True):
            memory = memory.with_order(order, digest_of(path), today)
        if edited and text is not None:
            aside = _free(self.memory_path)
            _write(aside, text)
            self.notes.append(
                f"{self.memory_path.name} was changed by hand; that text is kept in {aside.name}"
            )
        _write(self.memory_path, memory.to_text())

    def _offered(self, paths: Sequence[Path]) -> CustomerMap:
        columns: dict[str, Meaning] = {}
        for path in paths:
            for header, meaning in columns_read(path).columns:
                columns.setdefault(header, meaning)
        return CustomerMap(self.name, tuple(columns.items()))


def map_path(shop_dir: Path, name: str) -> Path:
    """Return where the map of a customer of this name is, or would be."""
    return shop_dir / FOLDER / f"{safe_name(name)}.toml"


def offers(shop_dir: Path, orders: Sequence[Order]) -> list[str]:
    """Return what to tell a user who gave no customer: which maps exist unused, and where one would go."""
    names = dict.fromkeys(order.customer for order in orders if order.customer)
    there = [path for name in names if (path := map_path(shop_dir, name)).is_file()]
    said = [f"{path} was not used; --customer NAME does that" for path in there]
    new = [map_path(shop_dir, name) for name in names if map_path(shop_dir, name) not in there]
    if new:
        first = f"{new[0]}{' and so on' if len(new) > 1 else ''}"
        said.append(f"columns were read by their headers; --customer NAME would pin them in {first}")
    return said


def _text(path: Path) -> str | None:
    try:
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        return None
    except (OSError, UnicodeDecodeError) as error:
        raise InputError(
            "cannot be read", place=Place(str(path)), read=str(error)[:80], would_do="mend it or move it away"
        ) from error


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
