"""The kinds of value in a record: what may stand in one field, and how it is written."""

from __future__ import annotations

import re
from datetime import date, datetime
from decimal import Decimal
from typing import Annotated, TypeAlias

from pydantic import Field, PlainSerializer, PlainValidator, WithJsonSchema

MOST = 1e12
"""No number of a record is larger, money neither: enough for any quantity, length or sum that is meant."""

_MONEY = re.compile(r"-?\d+(\.\d+)?(E[+-]?\d{1,2})?", re.ASCII)
_MOST_DIGITS = 60
_FIRST, _LAST = date(1900, 1, 1), date(2999, 12, 31)


def _money(value: object) -> Decimal:
    if isinstance(value, str) and len(value) <= _MOST_DIGITS and _MONEY.fullmatch(value):
        amount = Decimal(value)
        if abs(amount) <= MOST:
            return amount
    raise ValueError('an amount as text, such as "12.50"')


Money: TypeAlias = Annotated[
    Decimal,
    PlainValidator(_money),
    PlainSerializer(str, return_type=str, when_used="json"),
    WithJsonSchema({"type": "string", "pattern": f"^{_MONEY.pattern}$"}),
]
"""Money in the shop's currency, and a share or rate kept as exactly: decimal text."""

Number: TypeAlias = Annotated[float, Field(ge=-MOST, le=MOST, allow_inf_nan=False)]
"""Any measured number; an angle in degrees, a weight in kg."""

Length: TypeAlias = Annotated[float, Field(ge=0, le=MOST, allow_inf_nan=False)]
"""Millimetres, 0 or more."""

Minutes: TypeAlias = Annotated[float, Field(ge=0, le=MOST, allow_inf_nan=False)]
"""Minutes, 0 or more."""

Chance: TypeAlias = Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]
"""A share of all draws, 0 to 1."""

Count: TypeAlias = Annotated[int, Field(ge=0, le=int(MOST))]
"""How many, 0 or more."""

OneOrMore: TypeAlias = Annotated[int, Field(ge=1, le=int(MOST))]
"""How many, at least one."""

LeadDays: TypeAlias = Annotated[int, Field(ge=0, le=36_500)]
"""Days until something is in the house; a hundred years stay within the calendar."""

WholeMinutes: TypeAlias = Annotated[int, Field(ge=-int(MOST), le=int(MOST))]
"""A difference of minutes."""

Day: TypeAlias = Annotated[date, Field(ge=_FIRST, le=_LAST)]
"""A day as YYYY-MM-DD."""

Moment: TypeAlias = Annotated[
    datetime, Field(ge=datetime(_FIRST.year, 1, 1), le=datetime(_LAST.year, 12, 31))
]
"""Local clock time as YYYY-MM-DDTHH:MM:SS."""
