"""One table of the shop's book: numbers with their units, money, shares and bands of minutes."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, TypeGuard

from quoting.core import RangeError
from quoting.shop.book.key_table import BookTable
from quoting.shop.book.typed_numbers import NoNumberError, typed_amount
from quoting.shop.findings import Rule
from quoting.shop.model import Band
from quoting.shop.quantities import MINUTES, Quantity

_NUMBER = "must be a plain number: no quotation marks, a point before the decimals"
_LARGEST = 10**12
_SMALLEST_MONEY = Decimal("0.000001")
MOST_MONEY = Decimal(100_000_000)
"""No rate, charge or minimum of a job shop is more, in whatever currency."""
MOST_NUMBER = 10_000
"""No factor and no count of a job shop is more, where a setting does not say otherwise."""
_CHECK = "check its unit and its decimal point"


class SettingsTable(BookTable):
    """Reads the numbers of one TOML table into the inside units, each inside its range."""

    def quantity(
        self, stem: str, kind: Quantity, *, least: float | None = None, positive: bool = False
    ) -> float:
        """Return a needed quantity in the inside unit; the key is `stem` plus exactly one unit suffix."""
        value = self._quantity(stem, kind, least=least, positive=positive, needed=True)
        return 1.0 if value is None else value

    def optional_quantity(
        self, stem: str, kind: Quantity, *, least: float | None = None, positive: bool = False
    ) -> float | None:
        """Return a quantity in the inside unit, or None when the key is left out."""
        return self._quantity(stem, kind, least=least, positive=positive, needed=False)

    def money_per(self, stem: str, kind: Quantity) -> Decimal:
        """Return an amount of money per unit of `kind`, per the inside unit (kg, m), to 6 decimals."""
        self.note(Rule("money_per", least=0, stem=stem, quantity=kind), *kind.keys(stem))
        key, value = self._with_unit(stem, kind, needed=True)
        if key is None:
            return Decimal(0)
        factor = kind.units[key.removeprefix(f"{stem}_")]
        amount = self._amount(key, value)
        if amount * Decimal(factor) > Decimal(kind.most):
            self.wrong(key, f"is more than any {kind.name} that a shop can mean", _CHECK)
            return Decimal(0)
        return amount if factor == 1 else (amount * Decimal(factor)).quantize(_SMALLEST_MONEY)

    def band(self, stem: str, kind: Quantity = MINUTES) -> Band:
        """Return [low, likely, high], or three times one number."""
        self.note(Rule("band", least=0, stem=stem, quantity=kind), *kind.keys(stem))
        key, value = self._with_unit(stem, kind, needed=True)
        if key is None:
            return Band(0, 0, 0)
        parts = value if isinstance(value, list) else [value] * 3
        factor = kind.units[key.removeprefix(f"{stem}_")]
        would_do = f"for example {key} = [2, 3, 5]"
        if len(parts) != 3 or not all(is_number(part) for part in parts):
            self.wrong(key, "must be [low, likely, high]", would_do)
            return Band(0, 0, 0)
        if any(float(part) * factor > kind.most for part in parts):
            self.wrong(key, f"is more than any {kind.name} that a shop can mean", _CHECK)
            return Band(0, 0, 0)
        try:
            return Band(*(float(part) * factor for part in parts))
        except RangeError:
            self.wrong(key, "must rise from low to high, none below 0", would_do)
            return Band(0, 0, 0)

    def number(self, key: str, *, least: float, most: float | None = None) -> float:
        """Return a needed plain number inside its range."""
        self.note(Rule("number", least=least, most=most), key)
        value = self.raw(key)
        if value is None:
            return least
        if not is_number(value):
            self.wrong(key, _NUMBER)
            return least
        if value < least or (most is not None and value > most):
            allowed = f"{least:g} or more" if most is None else f"between {least:g} and {most:g}"
            self.wrong(key, f"must be {allowed}")
            return least
        if value > MOST_NUMBER and most is None:
            self.wrong(key, f"must be at most {MOST_NUMBER:,}", _CHECK)
            return least
        return float(value)

    def whole(self, key: str, *, least: int = 0, most: int = MOST_NUMBER) -> int:
        """Return a needed whole number of `least` or more, `most` at most."""
        self.note(Rule("whole", least=least, most=most), key)
        value = self.raw(key)
        if value is None:
            return least
        if isinstance(value, bool) or not isinstance(value, int) or value < least:
            self.wrong(key, f"must be a whole number, {least} or more")
            return least
        if value > most:
            self.wrong(key, f"must be at most {most:,}", _CHECK)
            return least
        return value

    def money(self, key: str, *, most: Decimal = MOST_MONEY) -> Decimal:
        """Return a needed amount of money, 0 or more, `most` at most, exact."""
        self.note(Rule("money", least=0, most=float(most)), key)
        value = self.raw(key)
        amount = Decimal(0) if value is None else self._amount(key, value)
        if amount > most:
            self.wrong(key, f"must be at most {most:,}", _CHECK)
            return Decimal(0)
        return amount

    def share(self, key: str, *, most: Decimal = Decimal(3)) -> Decimal:
        """Return a needed fraction: 0.30 is thirty per cent."""
        amount = self.money(key)
        self.note(Rule("share", least=0, most=float(most)), key)
        if amount > most:
            self.wrong(key, f"must be at most {most}", "write 30 per cent as 0.30")
            return Decimal(0)
        return amount

    def _quantity(
        self, stem: str, kind: Quantity, *, least: float | None, positive: bool, needed: bool
    ) -> float | None:
        rule = Rule("quantity", least=least, positive=positive, stem=stem, quantity=kind)
        self.note(rule, *kind.keys(stem))
        key, value = self._with_unit(stem, kind, needed=needed)
        if key is None:
            return None
        unit = key.removeprefix(f"{stem}_")
        number = self._typed(key, value, kind, unit) if isinstance(value, str) else value
        if not is_number(number):
            if number is not None:
                self.wrong(key, _NUMBER)
            return None
        if (positive and not number > 0) or (least is not None and number < least):
            self.wrong(key, "must be more than 0" if positive else f"must be {least:g} or more")
            return None
        found = round(float(number) * kind.units[unit], 9)
        if abs(found) > kind.most:
            self.wrong(key, f"is more than any {kind.name} that a shop can mean", _CHECK)
            return None
        return found

    def _typed(self, key: str, text: str, kind: Quantity, unit: str) -> Decimal | None:
        """Return the number, in the key's unit, of a text such as "3/16", "5'-6" or "80 cwt"."""
        try:
            return typed_amount(text, kind, unit)
        except NoNumberError as error:
            self.wrong(key, f"is no {kind.name}: {error}", f'for example {key} = "{error.example}"')
            return None

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
                    self.say_example(found[0])
                return found[0], source[found[0]]
            if stem in source:
                self.known.append(stem)
                self.wrong(stem, "does not say its unit", f"write {' or '.join(keys)}")
                return None, None
        if needed:
            self.missing(keys, f"add {' or '.join(keys)}")
        return None, None

    def _amount(self, key: str, value: object) -> Decimal:
        if not is_number(value):
            self.wrong(key, _NUMBER)
            return Decimal(0)
        amount = Decimal(str(value))
        if amount < 0:
            self.wrong(key, "must be 0 or more")
            return Decimal(0)
        return amount


def is_number(value: object) -> TypeGuard[int | Decimal]:
    """Return whether a TOML value is a number that a shop could mean: finite, and no true or false."""
    if isinstance(value, bool) or not isinstance(value, (int, Decimal)):
        return False
    number = Decimal(value)
    return number.is_finite() and abs(number) < _LARGEST
