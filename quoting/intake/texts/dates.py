"""Dates as people write them, and the fractions that a spreadsheet turned into dates."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction

_ISO = re.compile(r"^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$")
_NUMERIC = re.compile(r"^(\d{1,2})[-/.](\d{1,2})[-/.](\d{2}|\d{4})$")
_WORDY = ("%d %b %Y", "%d %B %Y", "%b %d %Y", "%B %d %Y", "%d-%b-%y", "%d-%b-%Y", "%d %b %y", "%b %d %y")


@dataclass(frozen=True, slots=True)
class DateRead:
    """The date, or the two dates it could be (month first, day first)."""

    value: date | None = None
    either: tuple[date, date] | None = None


def date_of(cell: object) -> DateRead:
    """Return the date of a cell; nothing when it holds none.

    >>> date_of("2026-03-05").value, date_of("03/05/2026").either is not None
    (datetime.date(2026, 3, 5), True)
    """
    if isinstance(cell, date):
        return DateRead(cell.date() if isinstance(cell, datetime) else cell)
    return _written(str(cell).strip())


def _written(text: str) -> DateRead:
    if match := _ISO.match(text.split("T", maxsplit=1)[0].split(" ", maxsplit=1)[0]):
        return DateRead(_made(*(int(part) for part in match.groups())))
    if match := _NUMERIC.match(text):
        first, second, year = (int(part) for part in match.groups())
        year += 2000 if year < 100 else 0
        us, eu = _made(year, first, second), _made(year, second, first)
        if us and eu and us != eu:
            return DateRead(either=(us, eu))
        return DateRead(us or eu)
    tidy = " ".join(re.sub(r"(?<=\d)(st|nd|rd|th)\b|[,.]", " ", text).split())
    for form in _WORDY:
        try:
            return DateRead(datetime.strptime(tidy, form).date())
        except ValueError:
            continue
    return DateRead()


def _made(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def fractions_behind(value: date) -> tuple[tuple[str, float], ...]:
    """Return the fractions (as text and number) that a spreadsheet may have turned into this date.

    1/4 becomes 4 January or 1 April of the current year, 1/32 January 1932, 1-1/2 the first of January 2002.

    >>> [text for text, _ in fractions_behind(date(2026, 1, 4))]
    ['1/4']
    >>> [text for text, _ in fractions_behind(date(2002, 1, 1))]
    ['1-1/2']
    """
    month, day, year = value.month, value.day, value.year % 100
    found: dict[str, float] = {}
    for whole, top in ((month, day), (day, month)):
        if year in (2, 4, 8, 16, 32, 64) and top < year and value.year >= 2000 and year <= 16:
            found[f"{whole}-{top}/{year}"] = whole + top / year
    if day == 1 and year in (16, 32, 64) and month < year:
        found[f"{month}/{year}"] = month / year
    for top, bottom in ((month, day), (day, month)):
        if bottom in (2, 4, 8, 16, 32, 64) and top < bottom:
            found[f"{top}/{bottom}"] = float(Fraction(top, bottom))
    if not found:
        found[f"{month}/{day}"] = month / day
    return tuple(found.items())
