"""One row of the jobs book, cell by cell; what cannot be is noted with its address."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

from quoting.shop import Findings, did_you_mean
from quoting.tables import SheetTable

FIRST_YEAR, LAST_YEAR = 2000, 2099


@dataclass(frozen=True, slots=True)
class CellReader:
    """Reads the cells of one row by their field; an empty cell is None, an empty text or False."""

    table: SheetTable
    row: int
    cells: Mapping[str, Any]
    found: Findings

    def wrong(self, name: str, what: str, would_do: str = "") -> None:
        """Note that a cell cannot be."""
        where = str(self.table.at(self.row, name))
        self.found.problem(where, what, read=self.cells.get(name, ""), would_do=would_do)

    def value(self, name: str) -> Any:
        """Return what stands in a cell, None when it is empty."""
        value = self.cells.get(name, "")
        return None if value == "" else value

    def moment(self, name: str) -> datetime | None:
        """Return a date and time; a day alone is its midnight."""
        value = self.value(name)
        if isinstance(value, str):
            try:
                value = datetime.fromisoformat(value)
            except ValueError:
                self.wrong(name, "is no date and time", "write it as 2026-12-01 08:00")
                return None
        if isinstance(value, date):
            if not FIRST_YEAR <= value.year <= LAST_YEAR:
                self.wrong(name, "is no day to plan on", f"give one from {FIRST_YEAR} to {LAST_YEAR}")
                return None
            if isinstance(value, datetime):
                return value.replace(second=0, microsecond=0, tzinfo=None)
            return datetime.combine(value, time())
        if value is not None:
            self.wrong(name, "is no date", "write it as 2026-12-01")
        return None

    def day(self, name: str) -> date | None:
        """Return a day."""
        found = self.moment(name)
        return None if found is None else found.date()

    def number(self, name: str) -> float | None:
        """Return a number above 0."""
        value = self.value(name)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, (int, float)) or not 0 < value < 1e6:
            self.wrong(name, "is no number above 0", "write a number, without its unit")
            return None
        return float(value)

    def whole(self, name: str, *, least: int = 0) -> int | None:
        """Return a whole number of at least so much."""
        value = self.value(name)
        if value is None:
            return None
        number = isinstance(value, (int, float)) and not isinstance(value, bool)
        if not number or not least <= value < 1e6 or value != int(value):
            self.wrong(name, f"is no whole number of {least} or more", "write a number, without its unit")
            return None
        return int(value)

    def flag(self, name: str) -> bool:
        """Return whether a cell says yes."""
        value = self.value(name)
        word = str(value).strip().casefold()
        if value is None or word in ("no", "false", "0"):
            return False
        if word not in ("yes", "x", "true", "1"):
            self.wrong(name, "says neither yes nor no", "write yes, or clear the cell")
        return True

    def one_of(self, name: str, known: Collection[str], problem: str) -> str:
        """Return one of the known words, written in any letters; an empty text when the cell is empty."""
        value = self.value(name)
        if value is None:
            return ""
        text = str(value).strip()
        for word in known:
            if word.casefold() == text.casefold():
                return word
        hint = did_you_mean(text, known) or "known are: " + ", ".join(known)
        self.wrong(name, problem, hint)
        return ""
