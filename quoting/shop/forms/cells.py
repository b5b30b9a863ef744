"""One setting's value as a cell of the form, and a cell back as the value."""

from __future__ import annotations

import json
import re
from datetime import date, datetime, time, timedelta
from decimal import Decimal, InvalidOperation
from typing import Any

from quoting.core import RollwrightError
from quoting.shop.book import UNIT_WORDS, typed_number, unit_of
from quoting.shop.findings import Rule
from quoting.tables import Cell, CellError

NUMBERS = frozenset({"number", "whole", "money", "share", "quantity", "money_per", "band", "counts"})
_YES, _NO = frozenset(("yes", "true", "y", "x", "1")), frozenset(("no", "false", "n", "0"))


class CellUnfitError(RollwrightError):
    """A cell that cannot be the setting that it stands for; `would_do` says what to write."""

    def __init__(self, what: str, would_do: str = "") -> None:
        super().__init__(what)
        self.would_do = would_do


def to_cell(value: Any) -> str | float | date:
    """Return what to write for a value: a number where it is exact, else a text; yes or no; a date.

    >>> to_cell(Decimal("0.62")), to_cell(True), to_cell([1, 2]), to_cell(["Mon", "Tue"])
    (0.62, 'yes', '1 / 2', 'Mon; Tue')
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, Decimal)):
        return float(value) if _number(float(value)) == value else str(value)
    if isinstance(value, time):
        return value.isoformat("minutes" if not value.second else "auto")
    if isinstance(value, list):
        if all(isinstance(part, str) for part in value):
            plain = all(part and part == part.strip() and not set(part) & set(';["') for part in value)
            return _joined(value) if plain and value else json.dumps(value, ensure_ascii=False)
        return " / ".join(str(part) for part in value)
    return value if isinstance(value, (str, date)) else str(value)


def from_cell(cell: Cell, rule: Rule) -> Any:
    """Return the value that a cell holds for a setting; CellUnfitError says what else to write.

    A number with a unit of its own stays text where the readers take that.
    """
    if isinstance(cell, CellError):
        raise CellUnfitError(
            "shows no value", "write the value itself, or save the workbook again where it was made"
        )
    if rule.kind in NUMBERS:
        return _numeric(cell, rule)
    if rule.kind == "flag":
        return _flag(cell)
    if rule.kind == "day":
        return _day(cell)
    if rule.kind == "texts":
        return _texts(_plain(cell))
    if rule.kind == "clock" and isinstance(cell, (datetime, timedelta)):
        return cell.time() if isinstance(cell, datetime) else (datetime.min + cell).time()
    return cell if isinstance(cell, time) else _plain(cell)


def unit_and_value(value: Any, rule: Rule, unit: str) -> tuple[str, Any]:
    """Return unit and value where a cell names a unit of its own; the column's unit where it does not."""
    if isinstance(value, str) and rule.quantity and (found := typed_number(value)):
        own = unit_of(found[1], rule.quantity)
        if own and "/" not in value.removesuffix(found[1]):
            return own, _narrow(found[0])
        if own:
            return own, value.removesuffix(found[1]).strip()
    return unit, value


def with_unit(value: Any, unit: str) -> str:
    """Return a value as text with its own unit, for a cell under a heading of another unit."""
    text = str(value)
    found = typed_number(text)
    return f"{text} {UNIT_WORDS[unit]}" if found and not found[1] else text


def _numeric(cell: Cell, rule: Rule) -> Any:
    if isinstance(cell, (date, time, timedelta)):
        raise CellUnfitError(
            "is a date or a time and no number: the spreadsheet may have made it of a fraction",
            "write 0 3/8 for three eighths, or 3/8 in",
        )
    if isinstance(cell, bool):
        raise CellUnfitError("must be a number")
    if isinstance(cell, float | int):
        return [_number(cell)] if rule.kind == "counts" else _number(cell)
    cell = str(cell)
    parts = re.split("[,;/]", cell)
    if rule.kind in ("band", "counts") and len(parts) > (1 if rule.kind == "counts" else 2):
        return [_plain_number(part, rule) for part in parts]
    return [_plain_number(cell, rule)] if rule.kind == "counts" else _plain_number(cell, rule)


def _plain_number(text: str, rule: Rule) -> Any:
    try:
        return _narrow(Decimal(text.strip()))
    except InvalidOperation:
        pass
    found = typed_number(text)
    if found and found[1] == "%" and rule.kind in ("share", "number"):
        return found[0] / 100
    if found and not found[1] and rule.kind != "quantity":
        return _narrow(found[0])
    if rule.quantity and rule.kind != "band":
        return text.strip()
    raise CellUnfitError("must be a number", f"write the number alone, {_alone(text)}")


_DIGITS = re.compile(r"\d+(?:[.,]\d+)?")


def _alone(text: str) -> str:
    """Return the one number in a text as it should be typed, or an example.

    >>> _alone("45.50 USD"), _alone("12,5"), _alone("4 to 5")
    ('45.50', '12.5', 'such as 12.5')
    """
    found = _DIGITS.findall(text)
    return found[0].replace(",", ".") if len(found) == 1 else "such as 12.5"


def _number(value: float) -> Any:
    return _narrow(Decimal(repr(float(value))))


def _narrow(number: Decimal) -> Any:
    return int(number) if number.is_finite() and number == number.to_integral_value() else number


def _flag(cell: Cell) -> bool:
    word = _plain(cell).casefold()
    if word in _YES or word in _NO:
        return word in _YES
    raise CellUnfitError("must be yes or no")


def _day(cell: Cell) -> Any:
    if isinstance(cell, datetime):
        return cell.date()
    if isinstance(cell, date):
        return cell
    try:
        return date.fromisoformat(_plain(cell))
    except ValueError as error:
        raise CellUnfitError("must be a date", "write it as 2026-12-25") from error


def _plain(cell: Cell) -> str:
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, (int, float)):
        return str(_number(cell))
    return str(cell)


def _joined(texts: list[str]) -> str:
    return "; ".join(texts) + (";" if len(texts) == 1 and "," in texts[0] else "")


def _texts(text: str) -> list[str]:
    if text.startswith("["):
        try:
            listed = json.loads(text)
        except ValueError:
            listed = None
        if isinstance(listed, list):
            return [str(part) for part in listed]
    parts = text.split(";" if ";" in text else ",")
    return [part.strip() for part in parts if part.strip()]
