"""Prices of a minute."""

from __future__ import annotations

from decimal import Decimal

from quoting.core import InputError


def per_minute(money: Decimal, minutes: int = 1) -> Decimal:
    """Money a minute from money for that many minutes, rounded to the four decimals the sequencers count
    in.

    >>> per_minute(Decimal(50), 1440)
    Decimal('0.0347')
    """
    return (money / minutes).quantize(Decimal("0.0001"))


def check_rate(what: str, rate: Decimal) -> None:
    """Refuse a price that is negative or has more decimals than the sequencers count in."""
    if rate < 0:
        raise InputError(f"The {what} is negative", read=str(rate))
    if rate != per_minute(rate):
        raise InputError(
            f"The {what} has more than four decimals", read=str(rate), would_do="use per_minute()"
        )
