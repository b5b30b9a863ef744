"""One table of the shop's book: texts, flags and choices, and which keys nobody asked for."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from enum import StrEnum
from typing import Any, TypeVar

from quoting.shop.findings import Findings, Rule, did_you_mean

E = TypeVar("E", bound=StrEnum)


class BookTable:
    """Reads one TOML table. A wrong value is noted in `findings` and a harmless stand-in is returned.

    `fallback` holds the values for keys that are left out: with `announce` the use of one is a warning,
    because then the shop works with an example instead of its own figure.
    """

    def __init__(
        self,
        own: Mapping[str, Any],
        *,
        label: str,
        path: str,
        findings: Findings,
        lines: Mapping[tuple[str, str], int | str],
        fallback: Mapping[str, Any] | None = None,
        announce: bool = False,
    ) -> None:
        self.own, self.label, self.path = own, label, path
        self.findings, self.lines = findings, lines
        self.fallback: Mapping[str, Any] = fallback or {}
        self.announce = announce
        self.known: list[str] = []
        self._problems_before, self._lacks = len(findings.problems), False

    @property
    def sound(self) -> bool:
        """Return whether nothing wrong has been found since this table was opened."""
        return len(self.findings.problems) == self._problems_before and not self._lacks

    def where(self, key: str = "") -> str:
        """Return the address of a key: `shop.toml line 12, [roll] top_roll_in`, or sheet and cell."""
        line = self.lines.get((self.path, key)) or self.lines.get((self.path, ""))
        place = self.findings.file
        if line:
            place += f" line {line}" if isinstance(line, int) else f", {line}"
        return f"{place}, {self.label}{' ' + key if key else ''}"

    def wrong(self, key: str, what: str, would_do: str = "") -> None:
        """Note that the value of a key cannot be used."""
        self.findings.problem(self.where(key), what, read=plain(self.own.get(key)), would_do=would_do)

    def flawed(self, what: str, would_do: str = "") -> None:
        """Note that the table as a whole cannot be used."""
        self.findings.problem(self.where(), what, would_do=would_do)

    def has(self, *keys: str) -> bool:
        """Return whether the table itself (not the fallback) holds one of the keys."""
        return any(key in self.own for key in keys)

    def raw(self, key: str, *, needed: bool = True) -> Any:
        """Return the value as TOML gave it, the fallback's, or None (a problem when it is needed)."""
        self.known.append(key)
        if key in self.own:
            return self.own[key]
        if key in self.fallback:
            self.say_example(key)
            return self.fallback[key]
        if needed:
            self.missing((key,), f"add {key} = ...")
        return None

    def missing(self, keys: Sequence[str], would_do: str) -> None:
        """Note that a needed setting is not there, by whichever of its keys; of a cell said once."""
        self._lacks = True
        if not self.findings.form:
            self.flawed(f"{keys[0]} is missing", would_do)
            return
        key = next((one for one in keys if (self.path, one) in self.lines), keys[0])
        cell = f", {self.lines.get((self.path, key))}, "
        if not any(cell in told for told in self.findings.problems):
            self.findings.problem(self.where(key), "is empty", would_do="fill it in")

    def note(self, rule: Rule, *keys: str) -> None:
        """Keep what is taken for these keys, for whoever writes the book as a form."""
        for key in keys:
            self.findings.rules[re.sub(r"\[\d+\]", "", self.path), key] = rule

    def text(self, key: str, default: str | None = None) -> str:
        """Return a text; needed unless a default is given."""
        self.note(Rule("text"), key)
        value = self.raw(key, needed=default is None)
        if value is None:
            return default or ""
        if not isinstance(value, str):
            self.wrong(key, "must be a text in quotation marks")
            return default or ""
        if default is None and not value.strip():
            self.wrong(key, "must not be empty")
        return value.strip()

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of texts, empty when it is left out."""
        self.note(Rule("texts"), key)
        value = self.raw(key, needed=False)
        if value is None:
            return ()
        if not isinstance(value, list) or not all(isinstance(part, str) for part in value):
            self.wrong(key, "must be a list of texts", f'for example {key} = ["one", "two"]')
            return ()
        return tuple(value)

    def flag(self, key: str, default: bool | None = None) -> bool:
        """Return true or false; needed unless a default is given."""
        self.note(Rule("flag"), key)
        value = self.raw(key, needed=default is None)
        if value is None:
            return bool(default)
        if not isinstance(value, bool):
            self.wrong(key, "must be true or false, without quotation marks")
            return bool(default)
        return value

    def choice(self, key: str, kind: type[E]) -> E:
        """Return one of the values of an enumeration."""
        value = self.raw(key)
        members = list(kind)
        self.note(Rule("choice", words=tuple(member.value for member in members)), key)
        for member in members:
            if isinstance(value, str) and value.strip().casefold() == member.value:
                return member
        if value is not None:
            words = [member.value for member in members]
            hint = did_you_mean(str(value), words)
            self.wrong(key, f"must be one of {', '.join(map(repr, words))}", hint)
        return members[0]

    def rows(self, key: str) -> Sequence[Mapping[str, Any]]:
        """Return the tables of an array of tables, empty when it is left out."""
        value = self.raw(key, needed=False)
        if value is None:
            return ()
        if not isinstance(value, list) or not all(isinstance(part, dict) for part in value):
            self.wrong(key, f"must be tables with the heading [[{self.path.split('[')[0]}.{key}]]")
            return ()
        return value

    def close(self) -> None:
        """Note every key that nobody asked for, with the nearest one that would have been understood."""
        for key in self.own:
            if key not in self.known:
                hint = did_you_mean(key, self.known) or f"known here: {', '.join(sorted(set(self.known)))}"
                self.findings.problem(self.where(key), "is not a setting of this table", would_do=hint)

    def say_example(self, key: str) -> None:
        """Warn that the fallback's value of a key is used, when that is news to the shop."""
        if not self.announce:
            return
        value = self.fallback[key]
        rows = isinstance(value, list) and bool(value) and isinstance(value[0], Mapping)
        example = "rows of the example are" if rows else f"example value {plain(value)} is"
        place = self.where(key) if (self.path, key) in self.lines else f"{self.where()} {key}"
        self.findings.warn(f"{place} is not given: the {example} used")


def plain(value: object) -> object:
    """Return a TOML value as a person would have typed it."""
    if isinstance(value, list):
        return "[" + ", ".join(str(plain(part)) for part in value) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    return value
