"""Dates and weeks as people write them, and the fractions that a spreadsheet turned into dates."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction

from quoting.intake.words import folded

_ISO = re.compile(r"^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$")
_CHINESE = re.compile(r"^(\d{4})\s*年\s*(\d{1,2})\s*月\s*(\d{1,2})\s*日?$")
_NUMERIC = re.compile(r"^(\d{1,2})([-/.])(\d{1,2})\2(\d{2}|\d{4})$")
_SHORT = re.compile(r"^(\d{1,2})([/.])(\d{1,2})\.?$")
_WEEK = re.compile(
    r"^(?:(?:due|delivery|in|by|ship)\s+)?(?:weeks?|wk|kw|w|cw|s|sem|sett|tydz|tyden|vecka|hafta|het|v|uge)\W{0,2}(?:no\W*)?(\d{1,2})"
    r"(?:(?:\s*[/.,’'-]\s*|\s+(?:of\s+)?)(\d{2}|\d{4}))?\.?$",
    re.I,
)
_WEEK_LAST = re.compile(
    r"^(?:(?:due|delivery|in|by|ship)\s+)?(?P<number>\d{1,2})\.?\s?(?:weeks?|wk|kw|cw|sem|tyden|hafta|het)\b\W*(?P<year>\d{4})?$"
    r"|^(?P<first>\d{4})\W{0,2}(?:weeks?|wk|kw|cw)\W{0,2}(?P<then>\d{1,2})$",
    re.I,
)
"""5. KW 2027, 2027 KW 5; a bare 3 weeks is no week of the year."""
_ISO_WEEK = re.compile(r"^(\d{4})\W?w(\d{2})(?:-(\d))?$", re.I)
_MONTHS = {
    name: month
    for month, names in enumerate(
        (
            "jan january januar janv janvier ene enero gen gennaio januari janeiro sty styczen leden"
            " ledna stycznia ocak tammikuu tammikuuta ianuarie января январь",
            "feb february februar fevr fevrier febrero febbraio februari fev fevereiro lut luty unor"
            " unora lutego subat helmikuu helmikuuta februarie февраля февраль",
            "mar march marz mrz mars marzo maart mrt marco marzec brezen"
            " brezna marca mart marcius marts maaliskuu maaliskuuta martie марта март",
            "apr april avr avril abr abril aprile kwi kwiecien duben"
            " dubna kwietnia nisan aprilis huhtikuu huhtikuuta aprilie апреля апрель",
            "may mai mayo mag maggio mei maio maj kveten kvetna maja mayis majus toukokuu toukokuuta мая май",
            "jun june juni juin junio giu giugno junho cze czerwiec cerven"
            " cervna czerwca haziran junius kesakuu kesakuuta iunie июня июнь",
            "jul july juli juil juillet julio lug luglio julho lip lipiec"
            " cervence lipca temmuz julius heinakuu heinakuuta iulie июля июль",
            "aug august aout ago agosto augustus sie sierpien srpen"
            " srpna sierpnia agustos augusztus augusti elokuu elokuuta августа август",
            "sep sept september septembre septiembre set settembre setembro wrz wrzesien zari"
            " wrzesnia eylul szeptember syyskuu syyskuuta septembrie сентября сентябрь",
            "oct october okt oktober octobre octubre ott ottobre out outubro paz pazdziernik rijen"
            " rijna pazdziernika ekim lokakuu lokakuuta octombrie октября октябрь",
            "nov november novembre noviembre novembro lis listopad"
            " listopadu listopada kasim marraskuu marraskuuta noiembrie ноября ноябрь",
            "dec december dez dezember decembre dic diciembre dicembre dezembro gru grudzien prosinec"
            " prosince grudnia aralik joulukuu joulukuuta decembrie декабря декабрь",
        ),
        1,
    )
    for name in names.split()
}
_WEEKDAYS = {day[:3]: number for number, day in enumerate(("mon", "tue", "wed", "thu", "fri", "sat", "sun"))}
_WORDS = re.compile(r"[^\W\d_]+|\d+")
_NO_YEAR = re.compile(r"\d{5}")
_TWO_NUMBERS = re.compile(r"\d\D+\d")
"""A date with its year, as it is asked for where today is not known, has a second number."""
_FURTHEST_YEARS = 5
_FRIDAY = 4


@dataclass(frozen=True, slots=True)
class DateRead:
    """The date, or the two it could be (month first, day first); `odd` says what is wrong with a text."""

    value: date | None = None
    either: tuple[date, date] | None = None
    odd: str = ""


def date_of(
    cell: object, *, today: date | None = None, header: str = "", day_first: bool = False
) -> DateRead:
    """Return the date of a cell; nothing when it holds none.

    A week is its Friday (ISO 8601 weeks, from Monday). A date without a year is the next such day from
    `today`. `day_first` settles 10/12: the customer's language or another date of the column says so.

    >>> date_of("2026-03-05").value, date_of("03/05/2026").either is not None
    (datetime.date(2026, 3, 5), True)
    >>> date_of("KW 50", today=date(2026, 11, 30)).value, date_of("Fri 12 Dec", today=date(2026, 11, 30)).odd
    (datetime.date(2026, 12, 11), '12 December 2026 is a Saturday')
    """
    if isinstance(cell, date):
        day = cell.date() if isinstance(cell, datetime) else cell
        return _sane(DateRead(day), today)
    if isinstance(cell, (int, float)) and not isinstance(cell, bool):
        return _number(float(cell), today, header)
    return _sane(_written(" ".join(str(cell).split()), today, header, day_first=day_first), today)


def _sane(read: DateRead, today: date | None) -> DateRead:
    day = read.value
    if today is not None and day is not None and abs(day.year - today.year) > _FURTHEST_YEARS:
        return DateRead(odd=f"the year {day.year} cannot be meant")
    return read


def _number(number: float, today: date | None, header: str) -> DateRead:
    """Read a bare number: a week under a heading that says so, or the day count of a spreadsheet."""
    if not number.is_integer():
        return DateRead()
    if today is not None and 1 <= number <= 53 and _week_header(header):
        return _week(int(number), "", today)
    if 40_000 <= number <= 60_000:
        return DateRead(
            odd=f"as a spreadsheet counts days it is {date(1899, 12, 30) + timedelta(int(number)):%d %B %Y}"
        )
    return DateRead()


def _week_header(header: str) -> bool:
    return re.search(r"\b(week|wk|kw|sett|sem|tydz)\b", header, re.I) is not None


def _written(text: str, today: date | None, header: str, *, day_first: bool) -> DateRead:  # noqa: PLR0911
    if today is None and not _TWO_NUMBERS.search(text):
        return DateRead()
    if match := _ISO.match(text.split("T", maxsplit=1)[0].split(" ", maxsplit=1)[0]) or _CHINESE.match(text):
        return _made_or_odd(*(int(part) for part in match.groups()))
    if match := _NUMERIC.match(text):
        first, second = int(match.group(1)), int(match.group(3))
        year = int(match.group(4)) + (2000 if len(match.group(4)) == 2 else 0)
        return _two_ways(year, first, second, day_first=day_first or match.group(2) == ".")
    if match := _ISO_WEEK.match(text):
        return _iso_week(int(match.group(1)), int(match.group(2)), int(match.group(3) or 5))
    if today is None:
        return DateRead() if _NO_YEAR.search(text) else _named(text, date(2000, 1, 1), year_needed=True)
    if match := _WEEK.match(text):
        return _week(int(match.group(1)), match.group(2) or "", today)
    match = _WEEK_LAST.match(text)
    if match and (match["year"] or match["first"] or not text.lower().endswith("weeks")):
        return _week(int(match["number"] or match["then"]), match["year"] or match["first"] or "", today)
    if _week_header(header) and (match := re.fullmatch(r"(\d{1,2})\s*[/.-]\s*(\d{4}|\d{2})", text)):
        return _week(int(match[1]), match[2], today)
    if text.isdecimal():
        return _number(float(text), today, header)
    if (match := _SHORT.match(text)) and not re.fullmatch(r"\d/\d", text):
        return _next_two_ways(
            int(match.group(1)), int(match.group(3)), today, day_first=day_first or match.group(2) == "."
        )
    return DateRead() if _NO_YEAR.search(text) else _named(text, today)


def _two_ways(year: int, first: int, second: int, *, day_first: bool) -> DateRead:
    us, eu = _made(year, first, second), _made(year, second, first)
    if day_first:
        return DateRead(eu) if eu else DateRead(us, odd="" if us else "there is no such day")
    if us and eu and us != eu:
        return DateRead(either=(us, eu))
    return DateRead(us or eu, odd="" if us or eu else "there is no such day")


def _next_two_ways(first: int, second: int, today: date, *, day_first: bool) -> DateRead:
    years = {True: _next(today, second, first), False: _next(today, first, second)}
    us, eu = years[False], years[True]
    if day_first:
        return DateRead(eu) if eu else DateRead(odd="there is no such day")
    if us and eu and us != eu:
        return DateRead(either=(us, eu))
    return DateRead(us or eu, odd="" if us or eu else "there is no such day")


def _next(today: date, month: int, day: int) -> date | None:
    this = _made(today.year, month, day)
    return this if this is None or this >= today else _made(today.year + 1, month, day)


def _week(number: int, year: str, today: date) -> DateRead:
    wanted = (int(year) + (2000 if len(year) == 2 else 0)) if year else today.year
    read = _iso_week(wanted, number, _FRIDAY + 1)
    if not year and read.value is not None and read.value < today:
        read = _iso_week(wanted + 1, number, _FRIDAY + 1)
    return read


def _iso_week(year: int, week: int, day: int) -> DateRead:
    try:
        return DateRead(date.fromisocalendar(year, week, day))
    except ValueError:
        return DateRead(odd=f"{year} has no week {week}")


def _named(text: str, today: date, *, year_needed: bool = False) -> DateRead:  # noqa: PLR0911
    """Read `17 Dec 2026`, `Dec 17`, `Fri 11 Dec`, `21st December 2026`; other words make it no date."""
    tidy = re.sub(r"(?<=\d)(st|nd|rd|th)\b", "", text)
    month = weekday = None
    numbers: list[int] = []
    for word in _WORDS.findall(tidy):
        plain = folded(word)
        if word.isdecimal():
            numbers.append(int(word))
        elif plain in _MONTHS and month is None:
            month = _MONTHS[plain]
        elif (
            plain[:3] in _WEEKDAYS
            and len(plain) in (3, 4, 5, 6, 7, 8, 9)
            and plain.endswith(("day", plain[:3], "s", "r"))
        ):
            weekday = _WEEKDAYS[plain[:3]]
        elif plain not in ("the", "of", "by", "on", "de", "due", "before", "required", "delivery"):
            return DateRead()
    if month is None or not 1 <= len(numbers) <= 2:
        return DateRead()
    day, year = numbers[0], numbers[1] if len(numbers) == 2 else None
    if day > 31 and year is not None:
        day, year = year, day
    if year is not None and year < 100:
        year += 2000
    if year is None and year_needed:
        return DateRead()
    if (
        re.search(r"\d\s*[-–]\s*\d", text)
        and not re.search(r"\d{4}", text)
        and len(numbers) == 2
        and year
        and year < 2020
    ):
        return DateRead(odd="it is a range of days")
    found = _made(year, month, day) if year is not None else _next(today, month, day)
    if found is None:
        return DateRead(odd="there is no such day")
    if weekday is not None and found.weekday() != weekday:
        return DateRead(odd=f"{found:%d %B %Y} is a {found:%A}".replace(" 0", " "))
    return DateRead(found)


def _made_or_odd(year: int, month: int, day: int) -> DateRead:
    found = _made(year, month, day)
    return DateRead(found, odd="" if found else "there is no such day")


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
