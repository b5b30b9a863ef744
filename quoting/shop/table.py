"""One table of the shop's book: reads settings with their units, and knows which keys nobody asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from enum import StrEnum
from typing import Any, TypeVar

from quoting.errors import RangeError
from quoting.shop.findings import Findings, did_you_mean
from quoting.shop.model import Band
from quoting.shop.quantities import MINUTES, Quantity

E = TypeVar("E", bound=StrEnum)


class Table:
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
        lines: Mapping[tuple[str, str], int],
        fallback: Mapping[str, Any] | None = None,
        announce: bool = False,
    ) -> None:
        self.own, self.label, self.path = own, label, path
        self.findings, self.lines = findings, lines
        self.fallback: Mapping[str, Any] = fallback or {}
        self.announce = announce
        self.known: list[str] = []
        self._problems_before = len(findings.problems)

    @property
    def sound(self) -> bool:
        """Return whether nothing wrong has been found since this table was opened."""
        return len(self.findings.problems) == self._problems_before

    def where(self, key: str = "") -> str:
        """Return the address of a key: `shop.toml line 12, [roll] top_roll_in`."""
        line = self.lines.get((self.path, key)) or self.lines.get((self.path, ""))
        place = f"{self.findings.file} line {line}" if line else self.findings.file
        return f"{place}, {self.label}{' ' + key if key else ''}"

    def wrong(self, key: str, what: str, would_do: str = "") -> None:
        """Note that the value of a key cannot be used."""
        self.findings.problem(self.where(key), what, read=_plain(self.own.get(key)), would_do=would_do)

    def has(self, *keys: str) -> bool:
        """Return whether the table itself (not the fallback) holds one of the keys."""
        return any(key in self.own for key in keys)

    def raw(self, key: str, *, needed: bool = True) -> Any:
        """Return the value as TOML gave it, the fallback's, or None (a problem when it is needed)."""
        self.known.append(key)
        if key in self.own:
            return self.own[key]
        if key in self.fallback:
            self._announce(key, self.fallback[key])
            return self.fallback[key]
        if needed:
            self.findings.problem(self.where(), f"{key} is missing", would_do=f"add {key} = ...")
        return None

    def quantity(
        self, stem: str, kind: Quantity, *, least: float | None = None, positive: bool = False
    ) -> float:
        """Return a needed quantity in the inside unit; the key is `stem` plus exactly one unit suffix."""
        value = self.optional_quantity(stem, kind, least=least, positive=positive, needed=True)
        return 1.0 if value is None else value

    def optional_quantity(
        self,
        stem: str,
        kind: Quantity,
        *,
        least: float | None = None,
        positive: bool = False,
        needed: bool = False,
    ) -> float | None:
        """Return a quantity in the inside unit, or None when the key is left out."""
        key, value = self._with_unit(stem, kind, needed=needed)
        if key is None:
            return None
        number = self._number(key, value)
        if number is None:
            return None
        if (positive and not number > 0) or (least is not None and number < least):
            self.wrong(key, f"must be {'more than 0' if positive else f'at least {least:g}'}")
            return None
        return round(number * kind.units[key.removeprefix(f"{stem}_")], 9)

    def money_per(self, stem: str, kind: Quantity) -> Decimal:
        """Return an amount of money per unit of `kind`, per the inside unit (kg, m), exact to 6 places."""
        key, value = self._with_unit(stem, kind, needed=True)
        amount = None if key is None else self._amount(key, value)
        if key is None or amount is None:
            return Decimal(0)
        factor = kind.units[key.removeprefix(f"{stem}_")]
        return amount if factor == 1 else (amount * Decimal(factor)).quantize(Decimal("0.000001"))

    def band(self, stem: str, kind: Quantity = MINUTES) -> Band:
        """Return [low, likely, high], or three times one number."""
        key, value = self._with_unit(stem, kind, needed=True)
        if key is None:
            return Band(0, 0, 0)
        parts = value if isinstance(value, list) else [value] * 3
        if len(parts) != 3 or not all(_is_number(part) for part in parts):
            self.wrong(key, "must be [low, likely, high]", f"for example {key} = [2, 3, 5]")
            return Band(0, 0, 0)
        factor = kind.units[key.removeprefix(f"{stem}_")]
        try:
            return Band(*(float(part) * factor for part in parts))
        except RangeError:
            self.wrong(key, "must rise from low to high, none below 0", f"for example {key} = [2, 3, 5]")
            return Band(0, 0, 0)

    def number(self, key: str, *, least: float | None = None, most: float | None = None) -> float:
        """Return a needed plain number inside its range."""
        value = self.raw(key)
        number = None if value is None else self._number(key, value)
        if number is None:
            return least if least is not None else 1.0
        if (least is not None and number < least) or (most is not None and number > most):
            self.wrong(key, f"must be {_range(least, most)}")
            return least if least is not None else 1.0
        return number

    def whole(self, key: str, *, least: int = 0) -> int:
        """Return a needed whole number of `least` or more."""
        value = self.raw(key)
        if value is None:
            return least
        if isinstance(value, bool) or not isinstance(value, int) or value < least:
            self.wrong(key, f"must be a whole number, {least} or more")
            return least
        return value

    def money(self, key: str) -> Decimal:
        """Return a needed amount of money, 0 or more, exact."""
        value = self.raw(key)
        amount = None if value is None else self._amount(key, value)
        return Decimal(0) if amount is None else amount

    def share(self, key: str, *, below_one: bool = False) -> Decimal:
        """Return a needed fraction: 0.30 is thirty per cent; `below_one` for a margin."""
        value = self.raw(key)
        amount = None if value is None else self._amount(key, value)
        if amount is None:
            return Decimal(0)
        if below_one and amount >= 1:
            self.wrong(key, "must be less than 1", "write 30 per cent as 0.30")
            return Decimal(0)
        return amount

    def text(self, key: str, default: str | None = None) -> str:
        """Return a text; needed unless a default is given."""
        value = self.raw(key, needed=default is None)
        if value is None:
            return default or ""
        if not isinstance(value, str):
            self.wrong(key, "must be a text in quotation marks")
            return default or ""
        return value.strip()

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of texts, empty when it is left out."""
        value = self.raw(key, needed=False)
        if value is None:
            return ()
        if not isinstance(value, list) or not all(isinstance(part, str) for part in value):
            self.wrong(key, "must be a list of texts", f'for example {key} = ["A36", "mild steel"]')
            return ()
        return tuple(value)

    def flag(self, key: str, default: bool | None = None) -> bool:
        """Return true or false; needed unless a default is given."""
        value = self.raw(key, needed=default is None)
        if value is None:
            return bool(default)
        if not isinstance(value, bool):
            self.wrong(key, "must be true or false (without quotation marks)")
            return bool(default)
        return value

    def choice(self, key: str, kind: type[E]) -> E:
        """Return one of the values of an enumeration."""
        value = self.raw(key)
        members = list(kind)
        for member in members:
            if isinstance(value, str) and value.strip().casefold() == member.value:
                return member
        if value is not None:
            self.wrong(key, f"must be one of {', '.join(repr(m.value) for m in members)}")
        return members[0]

    def rows(self, key: str) -> Sequence[Mapping[str, Any]]:
        """Return the tables of an array of tables, empty when it is left out."""
        value = self.raw(key, needed=False)
        if value is None:
            return ()
        if not isinstance(value, list) or not all(isinstance(part, dict) for part in value):
            self.wrong(key, f"must be written as [[{key}]]")
            return ()
        return value

    def close(self) -> None:
        """Note every key that nobody asked for, with the nearest one that would have been understood."""
        for key in self.own:
            if key not in self.known:
                hint = did_you_mean(key, self.known) or f"known here: {', '.join(sorted(set(self.known)))}"
                self.findings.problem(self.where(key), "is not a setting of this table", would_do=hint)

    def _with_unit(self, stem: str, kind: Quantity, *, needed: bool) -> tuple[str | None, Any]:
        keys = kind.keys(stem)
        self.known.extend(keys)
        for source in (self.own, self.fallback):
            found = [key for key in keys if key in source]
            if len(found) > 1:
                self.wrong(found[1], f"is given twice, as {' and '.join(found)}", "keep one of them")
                return None, None
            if found:
                if source is self.fallback:
                    self._announce(found[0], source[found[0]])
                return found[0], source[found[0]]
        if stem in self.own:
            self.known.append(stem)
            self.wrong(stem, "does not say its unit", f"write {' or '.join(keys)}")
        elif needed:
            self.findings.problem(self.where(), f"{keys[0]} is missing", would_do=f"add {' or '.join(keys)}")
        return None, None

    def _announce(self, key: str, value: object) -> None:
        if self.announce:
            self.findings.warnings.append(
                f"{self.where()} {key} is not given: the example value {_plain(value)} is used"
            )

    def _number(self, key: str, value: object) -> float | None:
        if _is_number(value):
            return float(value)  # type: ignore[arg-type]
        self.wrong(key, "must be a number (no quotation marks, a point before the decimals)")
        return None

    def _amount(self, key: str, value: object) -> Decimal | None:
        if not _is_number(value):
            self.wrong(key, "must be a number (no quotation marks, a point before the decimals)")
            return None
        amount = Decimal(str(value))
        if amount < 0:
            self.wrong(key, "must be 0 or more")
            return None
        return amount


def _is_number(value: object) -> bool:
    if isinstance(value, bool):
        return False
    return isinstance(value, int) or (isinstance(value, Decimal) and value.is_finite())


def _range(least: float | None, most: float | None) -> str:
    if least is not None and most is not None:
        return f"between {least:g} and {most:g}"
    return f"at least {least:g}" if least is not None else f"at most {most:g}"


def _plain(value: object) -> object:
    if isinstance(value, list):
        return "[" + ", ".join(str(_plain(part)) for part in value) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    return value
