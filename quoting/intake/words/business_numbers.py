"""The numbers of business: which of a statement's numbers a word explains, as days, dates, references."""

from __future__ import annotations

import re
from functools import cache, partial

from quoting.intake.words.business_lists import NAMES_A_PAPER, Known, has_stem, known_words
from quoting.intake.words.languages import folded

_CODE = r"(?:(?=[\w./\"-]*\d)(?![\w.]*\d\s?[x×]\s?\d)[A-Za-z]{0,8}[-/.]?\w[\w./-]*(?:\"-[\w-]+)?)"
_NO_SIZE = r"(?!\s*(?:mm\b|cm\b|m\b|\"|''|°|x\s?\d|×|off\b|pcs|stk|thk|deg|[øØ]|%|t\b))"
_SIGN = r"(?:[.:]?\s*(?:(?:no|nr|num|br)\b\.?|[nN][º°]\.?|№|#)|\s(?:n|č|c)\b\.?)"
_LETTER = (
    r"(?<=[\s.:])(?:(?-i:[A-Z])|(?:(?<=rev.)|(?<=ind.)|(?<=index.)|(?<=rev. )|(?<=ind. ))[a-z])(?![\w'’])"
)
_REFERENCE = re.compile(
    rf"(?P<word>[^\W\d_]+)(?P<sign>{_SIGN})?[.:]?\s*"
    rf"(?P<code>/?{_CODE}(?:(?:\s?/\s?|-)(?=\S*\d){_CODE})*(?:\s\d{{3,}})*|{_LETTER}){_NO_SIZE}",
    re.I,
)
"""A word that names a paper, a place or a thing, and its number or code: dwg 4410-ME-018, rev C, gate 4."""
_ORDINAL = re.compile(r"(?<![\w.,])\d{1,2}\.\s?(?P<word>[^\W\d_]+)")
"""3. üzem, 2. BA: which of them."""
_COUNTED = re.compile(
    r"(?<![\w.,/-])(?P<number>\d+(?:[.,]\d+)?(?:\s?(?:-|–|to|bis|a|à)\s?\d+)?)\.?\s?(?P<unit>%|€|\$|£|[^\W\d_]+)"
)
_MONTH_AND_YEAR = re.compile(r"(?P<unit>[^\W\d_]{3,9})\.?,?\s(?P<number>(?:19|20)\d\d)(?![\w.,-]*\d)")
_UNIT_FIRST = re.compile(
    r"(?P<unit>%|€|\$|£|\bv(?=[. ])|[^\W\d_]{2,})\.?\s?"
    r"(?P<number>\d+(?:[.,]\d+)*(?:\s?[-–/]\s?\d+)?)(?![\w.,-]*\d)"
)
_STREET = re.compile(
    r"\b\d{1,5}\s(?:(?-i:[A-Z])\w+\s){1,2}(?:rd|road|st|street|ave|avenue|drive|dr|way|lane|ln|blvd)\b"
    r"|\b\w{3,}(?:stra(?:ß|ss)e|str\.?|gasse|straat|laan|gatan|vägen|vej|veien)\s?\d{1,3}[a-z]?\b"
    r"|(?:adress\w*|anschrift|direcci[oó]n|indirizzo|endere[cç]o|adres\w*)\W+[^\d,;]{3,40},?"
    r"\s\d{1,4}[a-z]?\b(?!\s?(?:mm|x))"
    r"|\b(?:rue|via|viale|calle|rua|ul\.|avenida|ulica|ulice)\s[^\d,;]{3,30},?\s\d{1,4}\b",
    re.I,
)
_ALWAYS = re.compile(
    r"(?<![A-Za-z\d])(?:EN\s?)?10204(?:[:-]?2004)?(?:\s?(?:type|typ|tipo))?(?:[-:/ ]{0,3}(?:[23]\.1|2\.2)\b)?"
    r"|(?<![A-Za-z])ISO\s?13920(?:\s?[- ]\s?[A-D][E-H]?\b)?(?!\d)|\bISO\s?(?:9001|14001|45001)(?::\d{4})?\b"
    r"|\bincoterms\s?20\d\d\b|\S+@\S*|\b(?:www\.|https?:)\S+"
    r"|(?:[$€£]\s?|\b(?:eur|usd|gbp|chf)\s?)\d[\d.,' ]*(?:\s?(?:ea|each)\b)?"
    r"|\+\d{2}[\d /()-]{6,}\d|(?<![\w.,/-])0\d{2,4}\s?[/-]\s?\d{3}[\d -]*\d|\bQ[1-4]\b"
    r"|\b(?:tel|phone|mob|mobile|fax|handy|telefon|call)\b\W{0,3}\+?[\d][\d /()-]{5,}"
    r"|(?<![\d.,/-])(?:\d{1,2}[./-]\d{1,2}[./-](?:19|20)?\d\d|(?:19|20)\d\d-\d\d-\d\d)(?![\d./-])",
    re.I,
)
"""Numbers that say themselves what they are: standards of papers, money, telephones, dates with a year."""
_CERTIFICATE = re.compile(r"(?<![\d.,])(?:2[.,][12]|3[.,]1\.?[AB]?)(?![.,]?\d)(?!\s?(?:mm|m\b|x))", re.I)
_CLOCK = r"(?:[:.]\d\d)?\s?(?:h\b|hrs\b|uhr\b)?"
_HOURS = re.compile(
    rf"(?<![\d.,])(?:[01]?\d|2[0-4]){_CLOCK}\s?(?:-|–|to|bis|a|à|tot|do|til|till|en|e|y|et|und|and|och|og|i)\s?"
    rf"(?:1\d|2[0-4]){_CLOCK}(?!\d|[.,]\d)"
    r"|(?<![\d.,/])(?:[01]?\d|2[0-3])[:.][0-5]\d(?:\s?(?:h|hrs|uhr|u|am|pm)\b)"
    r"|(?<![\d.,/])(?:[01]?\d|2[0-3]):[0-5]\d(?![\d.,/])"
    r"|(?<![\d.,/])(?:[01]?\d|2[0-3])\s?[hu]\s?(?:[0-5]\d)?\b|\b[012]\d[0-5]0\s?[-–]\s?[012]\d[0-5]0\b",
    re.I,
)
_POSTCODE = re.compile(r"(?<![\w.,/-])\d{4,5}(?=\s(?-i:[A-ZÄÖÜÉÅØ][a-zäöüßéåø]{2,}))", re.I)
_TONNES = re.compile(r"(?<![\d.,/])\d{1,2}(?:[.,]\d)?\s?(?:t|to|tons?|tonnes?|tonn)\b", re.I)
_DAY = re.compile(
    r"(?<![\w.,/])(?:0[1-9]|[12]\d|3[01])[./](?:0[1-9]|1[0-2])(?![\d/])\.?"
    r"|(?<![\w.,/])(?:0[1-9]|1[0-2])/2\d(?!\d)"
)
_WEEK = re.compile(
    r"\b(?:sett|tydz|tyg|t[yý]d|vko|vk|uk|sapt|tjed|ned)\.\s?(?:[0-4]?\d|5[0-3])\b(?!\s?mm)", re.I
)
"""A week by its number behind its shortened name, which is another word elsewhere: sett. 4."""
_YEAR = re.compile(r"(?<![\w.,/-])(?:19[4-9]\d|20[0-4]\d)(?![\w,/-]|\s?mm|\.\d)")
_ELEVATION = re.compile(r"\bel(?:ev|evation)?\b\.?\s*[+±-]?\d+(?:[.,]\d+)?\b", re.I)
_TERM = re.compile(
    r"(?<![\w.,/-])(?:7|8|10|14|15|20|21|28|30|42|45|60|75|90|120|180)\.?(?=\s[^\W\d_]|\s?$|[,;])"
    r"(?!\s?(?:mm|cm|m|x|off|pcs|stk|st)\b)",
    re.I,
)
"""The days in which it is paid, whatever the language calls them."""
_LONG_CODE = re.compile(
    r"(?<![\w.,/-])(?!(?:SA|DN|PL|NPS|SCH)\b)(?:[A-Z]{2,4}[-/]\d{2,}[-/]\d[\w/-]*|\d{5,10}|\d{2,6}/(?:2\d|20[12]\d))"
    r"(?![\w/,.-]|\s?(?:mm|x))"
)
_NET = re.compile(r"\b(?:\d/\d{1,2}\s)?net(?:to)?\s\d{1,3}\b", re.I)
_MONEY = re.compile(r"(?<![\w.,])\d{1,3}(?:[.,' ]\d{3})*(?:[.,]\d\d)?\s?(?:€|eur\b|\$|£|ea\b|each\b)", re.I)
_PAGES = re.compile(r"\b\d{1,2}\s?(?:/|of|von|de|di|van|z|av)\s?\d{1,2}\b", re.I)
_NTH = re.compile(r"\b\d{1,2}(?:st|nd|rd|th)\b|\b\d{1,2}\s(?=noon\b)", re.I)
_DATED = ("delivery", "errand", "quote", "pay", "history", "visit")
_SIZE_SIGNS = re.compile(
    r"(?<![^\W\d_])[Øø](?![^\W\d_])|[⌀Φφ±×]|\d\s?=|=\s?\d|(?<![nN])°|\d\s?(?:mm|cm|µm|bar)\b|\d\s?x\s?\d"
    r"|\d\s?\"(?!-)|→",
    re.I,
)
_SHARES = frozenset(("pay", "penalty"))
_NUMBER_SIGNS = frozenset(("no", "nr", "n", "nos", "num"))
_UNIT_ENDS = ("tage", "tagen", "dagen", "dagar", "dage", "dager", "wochen", "weken", "monate", "monaten",
              "maanden")  # fmt: skip
NUMBER_ENDS = ("nr", "nummer", "szam", "numero", "nro", "number", "nummern")
_LEAST_SIGNS = 4
"""A bare number of fewer figures behind "quote" or "order" may be one of pieces, and is no reference."""


@cache
def _by_matter() -> tuple[tuple[re.Pattern[str], tuple[str, ...]], ...]:
    """Return the numbers that a matter explains: hours are those of a delivery, days those of a payment."""
    day_said = re.compile(
        r"\b(?:até o?|hasta el|antes del) ?(?:dia|día) \d{1,2}\b"
        rf"|\b(?:{known_words().before_days})(?: (?:the|mon|tue|wed|thu|fri|mo|di|mi|do|fr))?\.?\s"
        r"(?:[0-2]?\d|3[01])(?:\.|[./]\s?(?:0?\d|1[0-2])\.?)(?!\d|[./]\d|\s?(?:mm|x|\"))",
        re.I,
    )
    return (
        (_NET, ("pay",)),
        (_TERM, ("pay",)),
        (_LONG_CODE, ("quote", "ref")),
        (_MONEY, ("history", "pay", "quote")),
        (_NTH, ("delivery", "errand", "quote", "pay", "visit")),
        (_PAGES, ("ref",)),
        (_CERTIFICATE, ("cert",)),
        (_HOURS, ("delivery", "errand", "visit", "quote")),
        (_POSTCODE, ("delivery", "errand")),
        (_TONNES, ("delivery", "errand")),
        (day_said, _DATED),
        (_DAY, (*_DATED, "ref")),
        (_WEEK, _DATED),
        (_YEAR, ("history", "quote", "pay")),
        (_ELEVATION, ("place",)),
    )


def says_itself(text: str) -> bool:
    """Return whether a text holds a number that says itself what it is: EN 10204, a date, a telephone."""
    return _ALWAYS.search(text) is not None


def without_plain(text: str) -> str:
    """Return a text without the numbers that say themselves what they are.

    >>> without_plain("3.1 EN 10204, tel 0911 554 21"), without_plain("12 thk")
    ('3.1  ,  ', '12 thk')
    """
    return _STREET.sub(" ", _ALWAYS.sub(" ", text))


def has_size_sign(text: str) -> bool:
    """Return whether a text holds a sign or a unit of a size: 12 mm, Ø, 30°, 2 x 3."""
    return _SIZE_SIGNS.search(_ELEVATION.sub(" ", text)) is not None


def without_numbers(text: str, matters: frozenset[str]) -> str:
    """Return a text about these matters without the numbers that a word beside them explains.

    >>> without_numbers("in 3 days", frozenset(("delivery",))), without_numbers("2 off", frozenset())
    ('in  ', '2 off')
    """
    known = known_words()
    for pattern, needed in _by_matter():
        if matters & {*needed}:
            text = pattern.sub(" ", text)
    counted = partial(_without_count, matters=matters, known=known)
    text = _MONTH_AND_YEAR.sub(partial(_only_month, known=known), text)
    text = _UNIT_FIRST.sub(counted, _COUNTED.sub(counted, text))
    return _REFERENCE.sub(_without_code, _ORDINAL.sub(_without_ordinal, text))


def _without_count(match: re.Match[str], matters: frozenset[str], known: Known) -> str:
    unit = folded(match["unit"])
    fits = unit in known.units or has_stem(unit, known.unit_stems) or unit.endswith(_UNIT_ENDS)
    return " " if fits and (unit != "%" or matters & _SHARES) else match.group()


def _only_month(match: re.Match[str], known: Known) -> str:
    """Return a month without the year behind it: the day before it is still to be taken."""
    return match["unit"] if folded(match["unit"]) in known.units else match.group()


def _without_ordinal(match: re.Match[str]) -> str:
    known = known_words()
    named = folded(match["word"]) in known.refs | known.matters["place"].about
    return f" {match['word']}" if named else match.group()


def _without_code(match: re.Match[str]) -> str:
    """Return the word before a code without it, where the word names a paper, a place or a thing."""
    known = known_words()
    word, code, signed = folded(match["word"]), match["code"], match["sign"] is not None
    if not signed and known.matters["quote"].is_about(word) and code.isdecimal() and len(code) < _LEAST_SIGNS:
        return match.group()
    named = signed or word in known.refs or word.endswith(NUMBER_ENDS)
    if not (named or any(known.matters[name].is_about(word) for name in NAMES_A_PAPER)):
        return match.group()
    return " " if word in _NUMBER_SIGNS else f"{match['word']} "
