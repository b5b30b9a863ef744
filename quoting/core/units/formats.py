"""Lengths and weights as the shop reads them: fractions of an inch where they are exact, else decimals."""

from __future__ import annotations

from math import gcd

from quoting.core.units.gauges import MM_PER_INCH

FRACTION_EXACT_INCH = 0.001
"""A length this near to a 64th is written as the fraction (0.188 reads 3/16)."""
LB_PER_KG = 1 / 0.45359237
"""International avoirdupois pound, exact by definition (1959)."""
_WHOLE_MM = 0.002
_A_SIDE_MM = 100.0
"""A side of a plate, from here up, is not bought in 64ths: 3000 mm is no 118-7/64 in."""


def format_length(mm: float, *, inch: bool, feet: bool = False, mark: bool = True) -> str:
    """Return a length as the shop writes it.

    Inches come as fractions to 1/64 where exact to 0.001 in, else with 3 decimals (4 below an inch); `feet`
    writes feet and inches from 12 in up. Millimetres come with at most 2 decimals. `mark` adds the unit.

    >>> format_length(38.1, inch=True), format_length(1689.1, inch=True, feet=True)
    ('1-1/2"', '5\\'-6-1/2"')
    >>> format_length(3.4163, inch=True), format_length(1836.58, inch=False)
    ('0.1345"', '1836.58 mm')
    """
    if mm < 0:
        return "-" + format_length(-mm, inch=inch, feet=feet, mark=mark)
    if not inch:
        return _trimmed(mm, 2) + (" mm" if mark else "")
    inches = mm / MM_PER_INCH
    if feet and inches >= 12 - FRACTION_EXACT_INCH / 2:
        whole_feet = int((inches + FRACTION_EXACT_INCH / 2) // 12)
        rest = max(0.0, inches - 12 * whole_feet)
        return f"{whole_feet}'-{_inches(rest)}" + ('"' if mark else "")
    return _inches(inches) + ('"' if mark else "")


def format_stock(mm: float, *, inch: bool) -> str:
    """Return a size of plate as it is bought: what is metric stays metric in an inch shop's books.

    >>> format_stock(8, inch=True), format_stock(6.35, inch=True), format_stock(3.4163, inch=True)
    ('8 mm', '1/4"', '0.1345"')
    >>> format_stock(3000, inch=True), format_stock(3048, inch=True)
    ('3000 mm', '120"')
    """
    return format_length(mm, inch=inch and not _metric(mm))


def _metric(mm: float) -> bool:
    """Return whether a size is of whole or half mm and no fraction of an inch."""
    inches = _inches(mm / MM_PER_INCH)
    side = mm >= _A_SIDE_MM and inches.endswith(("/64", "/32"))
    return abs(mm * 2 - round(mm * 2)) < _WHOLE_MM and ("." in inches or side)


def _inches(inches: float) -> str:
    sixty_fourths = round(inches * 64)
    near = abs(inches - sixty_fourths / 64) < FRACTION_EXACT_INCH
    if not near or (sixty_fourths == 0 and inches > 0):
        return _trimmed(inches, 3 if inches >= 1 else 4)
    whole, part = divmod(sixty_fourths, 64)
    if not part:
        return str(whole)
    shared = gcd(part, 64)
    return (f"{whole}-" if whole else "") + f"{part // shared}/{64 // shared}"


def _trimmed(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def format_weight(kg: float, *, inch: bool) -> str:
    """Return a weight in lb or kg: whole from 10 up, else one decimal.

    >>> format_weight(100, inch=True), format_weight(4.25, inch=False)
    ('220 lb', '4.2 kg')
    """
    value = kg * LB_PER_KG if inch else kg
    return f"{value:,.{0 if value >= 10 else 1}f} {'lb' if inch else 'kg'}"
