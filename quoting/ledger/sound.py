"""Rows of the ledger as values that can be reckoned with, or one message: its file may have been damaged."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from functools import cache
from typing import Annotated, Any, TypeVar

from pydantic import AfterValidator, ConfigDict, TypeAdapter, ValidationError, with_config

from quoting.core import InputError, Place, on_one_line

_Row = TypeVar("_Row")
FIRST_YEAR, LAST_YEAR = 2000, 2099
_MOST = Decimal(10) ** 15
_STRICT = ConfigDict(strict=True, allow_inf_nan=False, revalidate_instances="always")


def damaged(what: str, read: object = "") -> InputError:
    """Return the message for a ledger in which this cannot be."""
    return InputError(
        f"{what}: the ledger is damaged",
        place=Place("the ledger"),
        read=on_one_line(str(read), 60),
        would_do="bring back a dated copy with `rollwright ledger restore`",
    )


def sound(kind: type[_Row], values: Sequence[Any]) -> _Row:
    """Return a row as its class; InputError when a value of it cannot be."""
    try:
        plain: Any = kind
        found: _Row = _adapter(plain).validate_python(kind(*values))
        return found
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = ".".join(str(step) for step in first["loc"])
        row = kind(*values)
        name = on_one_line(str(getattr(row, "line", "") or getattr(row, "name", "")), 60)
        raise damaged(f"{where} of {name or kind.__name__} cannot be", first["input"]) from error


@cache
def _adapter(kind: Any) -> TypeAdapter[Any]:
    return TypeAdapter(with_config(_STRICT)(kind))


def _day(text: str) -> str:
    if text:
        _known(date.fromisoformat(text))
    return text


def _set_day(text: str) -> str:
    _known(date.fromisoformat(text))
    return text


def _moment(text: str) -> str:
    if text:
        _known(datetime.fromisoformat(text))
    return text


def _known(day: date) -> None:
    if not FIRST_YEAR <= day.year <= LAST_YEAR or getattr(day, "tzinfo", None):
        raise ValueError("no day of a job shop")


def _money(text: str) -> str:
    try:
        if not abs(Decimal(text or "0")) < _MOST:
            raise ValueError("no sum of money")
    except InvalidOperation as error:
        raise ValueError("no sum of money") from error
    return text


DayText = Annotated[str, AfterValidator(_day)]
SetDayText = Annotated[str, AfterValidator(_set_day)]
"""A day that is never left open."""
MomentText = Annotated[str, AfterValidator(_moment)]
MoneyText = Annotated[str, AfterValidator(_money)]
