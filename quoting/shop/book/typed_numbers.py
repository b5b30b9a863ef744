"""Numbers as people type them: fractions, feet, a unit behind the number, hundredweights, per cent."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from quoting.core import RollwrightError, SizeError, parse_length
from quoting.shop.quantities import LENGTH, Quantity

_NUMBER = re.compile(
    r"^([-+]?)(?:(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*/\s*(\d+)|(\d{1,3}(?:,\d{3})+|\d+)(\.\d*)?|(\.\d+))\s*(.*)$"
)

UNIT_WORDS = {
    "in": "in", "mm": "mm", "m": "m", "ft": "ft", "kg": "kg", "lb": "lb", "cwt": "cwt",
    "mpa": "MPa", "ksi": "ksi", "gpa": "GPa", "kw": "kW", "hp": "hp", "deg": "degrees",
    "mm_min": "mm/min", "in_min": "in/min", "m_min": "m/min", "ft_min": "ft/min",
    "kg_m3": "kg/m3", "lb_in3": "lb/in3", "min": "min", "hours": "hours", "days": "days",
    "min_per_mm": "min per mm", "min_per_in": "min per in", "min_per_m": "min per m",
    "min_per_ft": "min per ft", "min_per_m_mm": "min per m and mm", "min_per_ft_in": "min per ft and in",
    "kg_hour": "kg/hour", "lb_hour": "lb/hour", "per_kg": "per kg", "per_lb": "per lb",
    "per_cwt": "per cwt", "per_m": "per m", "per_ft": "per ft",
    "per_m3": "per m3", "per_ft3": "per ft3",
}  # fmt: skip
"""How a unit is written for people, by the ending of the setting's name."""

_OTHER_WORDS = {
    "lbs": "lb", "pound": "lb", "pounds": "lb", "#": "lb", "inch": "in", "inches": "in", '"': "in",
    "feet": "ft", "foot": "ft", "'": "ft", "hundredweight": "cwt", "kilo": "kg", "kilos": "kg",
    "minutes": "min", "minute": "min", "mins": "min", "degree": "deg", "°": "deg", "n/mm2": "mpa",
    "n/mm²": "mpa", "hour": "hours", "h": "hours", "day": "days", "fpm": "ft_min", "kg/m³": "kg_m3",
    "/lb": "per_lb", "/kg": "per_kg", "/cwt": "per_cwt", "/ft": "per_ft", "/m": "per_m",
}  # fmt: skip


class NoNumberError(RollwrightError):
    """A text is no number of this quantity; `example` is one that would do."""

    def __init__(self, what: str, example: str) -> None:
        super().__init__(what)
        self.example = example


def unit_of(word: str, kind: Quantity) -> str | None:
    """Return the name ending of a unit as a person wrote it, None when it is no unit of this quantity.

    >>> from quoting.shop.quantities import SPEED, WEIGHT
    >>> unit_of("Lbs.", WEIGHT), unit_of("ft/min", SPEED), unit_of("kg", SPEED)
    ('lb', 'ft_min', None)
    """
    plain = " ".join(word.casefold().split()).rstrip(".")
    for unit in kind.units:
        if plain in (unit, UNIT_WORDS[unit].casefold()):
            return unit
    other = _OTHER_WORDS.get(plain)
    return other if other in kind.units else None


def typed_number(text: str) -> tuple[Decimal, str] | None:
    """Return the number that a text begins with and what is left of it; None when it begins with none.

    >>> typed_number("1 1/2 in"), typed_number("2,200"), typed_number("about 4")
    ((Decimal('1.5'), 'in'), (Decimal('2200'), ''), None)
    """
    found = _NUMBER.match(text.strip())
    if not found:
        return None
    sign, units, top, bottom, whole, decimals, point, rest = found.groups()
    if top is not None:
        if not int(bottom):
            return None
        value = Fraction(int(units or 0)) + Fraction(int(top), int(bottom))
        number = Decimal(value.numerator) / Decimal(value.denominator)
    else:
        number = Decimal(point or whole.replace(",", "") + (decimals or ""))
    return (-number if sign == "-" else number), rest.strip()


def typed_amount(text: str, kind: Quantity, unit: str) -> Decimal:
    """Return the number in `unit` that a text says; the text may name a unit of its own.

    >>> from quoting.shop.quantities import WEIGHT
    >>> typed_amount("80 cwt", WEIGHT, "lb"), typed_amount("5'-6", LENGTH, "in")
    (Decimal('8000'), Decimal('66'))

    Raises NoNumberError.
    """
    found = typed_number(text)
    if found and not found[1]:
        return found[0]
    own = unit_of(found[1], kind) if found else None
    if found and own:
        return found[0] if own == unit else _tidy(float(found[0]) * kind.units[own] / kind.units[unit])
    if kind is LENGTH:
        try:
            return _tidy(parse_length(text, inch=True) / kind.units[unit])
        except SizeError as error:
            raise NoNumberError(str(error), "3/16") from error
    units = ", ".join(UNIT_WORDS[known] for known in kind.units)
    raise NoNumberError(f"a number, and behind it no unit but {units}", f"12 {UNIT_WORDS[unit]}")


def _tidy(value: float) -> Decimal:
    return Decimal(f"{value:.12g}").normalize() + 0
