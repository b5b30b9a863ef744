"""Quantities as people write them: 4, 4 ea, two, a dozen, 1/5/10."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

_WORDS: dict[str, int] = {
    "zero": 0, "a": 1, "one": 1, "single": 1, "two": 2, "pair": 2, "three": 3, "four": 4, "five": 5, "six": 6,
    "half-dozen": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "dozen": 12,
    "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18,
    "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
}  # fmt: skip
_PIECES = (
    r"(?:x|ea|each|pc|pcs|pce|pieces?|off|no|nos|nr|st|stk|stck|stuks?|uds?|u|unds?|unid|p[cç]s?|шт|件|个|pz|pza?s?|szt|ks|db|buc|kpl|adet|units?|un|qty|reqd|req'd|required|only|parts?"
    r"|shells?|rings?)"
)
_PLAIN = re.compile(
    rf"^\s*(?:(?:{_PIECES}\.?|n[.°º])[\s:]*)?\(?\s*(\d{{1,6}}|\d{{1,3}}(?:,\d{{3}})+)(?:[.,]0+)?"
    rf"\s*\)?[\s-]*(?:{_PIECES}\.?[\s]*)*$",
    re.IGNORECASE,
)
_LIST = re.compile(
    r"^\s*\d{1,6}(?:\s*[/,;&|+-]\s*\d{1,6}|\s+and\s+\d{1,6}|\s+\d{1,6})+\s*(?:ea|pcs?|off)?\.?\s*$", re.I
)
_GROUPS = re.compile(
    r"^\s*(?:(\d{1,4}|a|one|two|three|four|five|six)\s+)?(pairs?|pr|sets?\s+of\s+(\d{1,3}))\s*$", re.I
)
_SAID_TWICE = re.compile(
    rf"^\s*(?:(?P<number>\d{{1,2}})\s*[(/-]\s*(?P<word>[a-z]+)\s*\)?)\s*(?:{_PIECES}\.?\s*)*$", re.IGNORECASE
)
"""1 (ONE), 02 (two) nos: a number and its word."""
LARGEST_COUNT = 1_000_000
"""No order is of more pieces; a larger number is asked about."""


@dataclass(frozen=True, slots=True)
class Count:
    """A quantity: `number` when it is sure, `breaks` when prices at several quantities are asked for.

    `options` are what the text may mean, to be offered as choices and never taken.
    """

    number: int | None = None
    breaks: tuple[int, ...] = ()
    options: tuple[int, ...] = ()


def count_of(cell: object) -> Count:
    """Return the quantity a cell holds; an empty Count when nothing in it is sure.

    >>> count_of("4 pcs").number, count_of("1/5/10").breaks, count_of("n. 2").number
    (4, (1, 5, 10), 2)
    """
    if isinstance(cell, bool):
        return Count()
    if isinstance(cell, (int, float)):
        fits = float(cell).is_integer() and 0 <= cell <= LARGEST_COUNT
        return Count(int(cell)) if fits else Count()
    found = _written(str(cell))
    if max((found.number or 0, *found.breaks)) > LARGEST_COUNT:
        return Count()
    return replace(found, options=tuple(one for one in found.options if one <= LARGEST_COUNT))


def _written(text: str) -> Count:  # noqa: PLR0911 - a return for each way to write one
    if thousand := re.search(r"(?<!\d)(\d{1,3})[.,]000(?!\d)", text):
        few = int(thousand.group(1))  # a thousand to some readers, one piece to others
        return Count(options=(few, few * 1000))
    if match := _PLAIN.match(text):
        return Count(int(match.group(1).replace(",", "")))
    if match := _GROUPS.match(text):
        one = match.group(1).lower() if match.group(1) else "1"
        return Count(int(_WORDS.get(one, one)) * int(match.group(3) or 2))
    if (match := _SAID_TWICE.match(text)) and _WORDS.get(match["word"].lower()) == int(match["number"]):
        return Count(int(match["number"]))
    plain = text.strip().lower().rstrip(".")
    if plain in _WORDS or plain == "a dozen":
        return Count(_WORDS.get(plain, 12))
    if _LIST.match(text):
        numbers = rising_list(text)
        if len(numbers) >= 3 and not re.search(r"[-+]", text):
            return Count(numbers[0], numbers)
        return Count(options=tuple(dict.fromkeys(int(one) for one in re.findall(r"\d+", text)))[:4])
    guess = _in_words(text)
    return Count(options=(guess,) if guess else ())


def rising_list(text: str) -> tuple[int, ...]:
    """Return the numbers of a list that rises, of two or more: what a column of break quantities holds.

    >>> rising_list("1, 8"), rising_list("8/1")
    ((1, 8), ())
    """
    if not _LIST.match(text):
        return ()
    numbers = tuple(int(number) for number in re.findall(r"\d+", text))
    rising = all(low < high for low, high in pairwise(numbers)) and numbers[0] > 0
    return numbers if rising else ()


def _in_words(text: str) -> int | None:
    if re.search(r"[-+]\s*\d|\bpr\b|\bpairs\b", text):
        return None
    words = [
        word
        for word in re.findall(r"[a-z-]+|\d+", text.lower())
        if word not in ("a", "an", "of", "the", "and", "ea", "each", "pcs", "pieces", "off", "only")
    ]
    if any(not word.isdecimal() and word not in _WORDS for word in words):
        return None
    numbers = [
        int(word) if word.isdecimal() else _WORDS[word]
        for word in words
        if word.isdecimal() or word in _WORDS
    ]
    if "dozen" in words and len(numbers) > 1:
        return 12 * numbers[0]
    if len(numbers) == 1 or (len(numbers) > 1 and len(set(numbers)) == 1):
        return numbers[0]
    if len(numbers) == 2 and numbers[0] in (20, 30, 40, 50) and numbers[1] < 10:
        return sum(numbers)
    return None
