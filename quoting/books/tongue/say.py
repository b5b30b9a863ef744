"""Says finished English sentences in another language, or not at all: a quote is never half in two.

The rooms below write English. A sentence is found in the catalogue by its shape: `{n} pc` fits `25 pc`. What
stands in the braces is told by its name: own words are passed on, numbers, money, days and sizes are written
as the language writes them, `what`, `where` and `basis` are said by another entry, a `list` part by part;
`gone` is not said at all. A text of several sentences is said one by one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from functools import cached_property
from typing import Literal

_PART = re.compile(r"\{([a-z]+)(\d?)\}")
_DECIMAL = re.compile(r"(?<![\d.])\d+\.\d+(?![\d.])")
_MONEY = re.compile(r"(-?[\d,]+(?:\.\d+)?)( \S+)?")
_SHAPES = {
    "n": r"[\d,]+",
    "number": r"[\d,.]+",
    "money": r"-?[\d,]+(?:\.\d+)?(?: [A-Z]{3})?",
    "day": r"\d{1,2} [A-Z][a-z]{2,8} \d{4}",
    "size": r"[\d.,/'\" \-]*\d[\d.,/'\" \-]*(?: ?(?:mm|cm|m|in|ft|kg|lb))?\"?",
    "quoted": r'".*"',
    "basis": r"ID|OD|IR|OR|mean dia|mean radius",
    "where": r"(?: \(.*\))?",
}
_SIZE, _DAY = re.compile(_SHAPES["size"]), re.compile(_SHAPES["day"])
_BETWEEN = re.compile(r"(, (?:and )?|; | and | or )")
_SENTENCES = re.compile(r"(?<=[.?!]) (?=[A-Z])")


class UnsaidError(Exception):
    """A sentence that the language's catalogue does not have; its text is the English sentence."""


@dataclass(frozen=True)
class Tongue:
    """One language: its code and its entries, English to it. English has none and says all as it is."""

    code: str
    entries: Mapping[str, str]

    def say(self, text: str) -> str:
        """Return a finished English text in this language; UnsaidError when it has no entry."""
        if not self.entries or not text:
            return text
        if text in self.entries and "{" not in text:
            return self.entries[text]
        for shape, names, entry in self._shapes:
            found = shape.fullmatch(text)
            if found is None:
                continue
            try:
                return entry.format_map({name: self._part(name, found[name]) for name in names})
            except UnsaidError:
                continue
        return self._plain(text)

    def _plain(self, text: str) -> str:
        """Return a bare size or day, or several sentences; UnsaidError for anything else."""
        if _SIZE.fullmatch(text):
            return self.size(text)
        if _DAY.fullmatch(text):
            return self._day(text)
        sentences = _SENTENCES.split(text)
        if len(sentences) > 1:
            return " ".join(map(self.say, sentences))
        raise UnsaidError(text)

    def put(self, entry: str, **parts: str) -> str:
        """Return an entry with parts that are said already."""
        if not self.entries:
            return entry.format_map(parts)
        if entry not in self.entries:
            raise UnsaidError(entry)
        return self.entries[entry].format_map(parts)

    def day(self, day: date, form: Literal["long", "medium"] = "long") -> str:
        """Return a date, with the month's name or short."""
        from babel.dates import format_date  # noqa: PLC0415 - only where it is another language

        if not self.entries:
            return f"{day.day} {day:%b} {day.year}"
        return str(format_date(day, format=form, locale=self.code))

    def amount(self, number: Decimal | int, pattern: str = "#,##0.00") -> str:
        """Return a number: money by default, with `#,##0` whole."""
        from babel.numbers import format_decimal  # noqa: PLC0415 - only where it is another language

        if not self.entries:
            return f"{number:,.2f}" if "." in pattern else f"{number:,}"
        said = str(format_decimal(number, format=pattern, locale=self.code))
        return said.replace("\u202f", "\xa0")  # the narrow blank is missing in the fonts of papers

    def size(self, text: str) -> str:
        """Return sizes in a text with this language's decimal mark; fractions stay."""
        return _DECIMAL.sub(lambda found: found[0].replace(".", ","), text) if self.entries else text

    @cached_property
    def _shapes(self) -> list[tuple[re.Pattern[str], tuple[str, ...], str]]:
        """Return what each entry with parts looks like, those with most words of their own first."""
        found = []
        for english in sorted(self.entries, key=lambda text: -len(_PART.sub("", text))):
            names = tuple(name + number for name, number in _PART.findall(english))
            if names:
                found.append((_shape(english), names, self.entries[english]))
        return found

    def _part(self, name: str, text: str) -> str:
        kind = name.rstrip("0123456789")
        ways: dict[str, Callable[[str], str]] = {
            **dict.fromkeys(("own", "quoted"), str),
            **dict.fromkeys(("what", "where", "basis"), self.say),
            **dict.fromkeys(("size", "sizes"), self.size),
            "list": lambda listed: "".join(map(self._listed, _BETWEEN.split(listed))),
            "gone": lambda _: "",
            "day": self._day,
        }
        return ways.get(kind, self._money)(text)

    def _listed(self, text: str) -> str:
        """Return an item of a list, or what stands between two."""
        if _BETWEEN.fullmatch(text) is None:
            return self.say(text)
        word = text.strip(" ,;")
        return text.replace(word, self.say(word)) if word else text

    def _day(self, text: str) -> str:
        for form in ("%d %b %Y", "%d %B %Y"):
            try:
                return self.day(datetime.strptime(text, form).date())
            except ValueError:
                continue
        raise UnsaidError(text)

    def _money(self, text: str) -> str:
        found = _MONEY.fullmatch(text)
        try:
            number = Decimal(found[1].replace(",", "")) if found else None
        except InvalidOperation:
            number = None
        if found is None or number is None:
            raise UnsaidError(text)
        places = len(found[1].partition(".")[2])
        return self.amount(number, "#,##0" + ("." + "0" * places if places else "")) + (found[2] or "")


def _shape(english: str) -> re.Pattern[str]:
    parts: list[str] = []
    at = 0
    for found in _PART.finditer(english):
        parts.append(re.escape(english[at : found.start()]))
        parts.append(f"(?P<{found[1]}{found[2]}>{_SHAPES.get(found[1], '.+?')})")
        at = found.end()
    parts.append(re.escape(english[at:]))
    return re.compile("".join(parts), re.DOTALL)
