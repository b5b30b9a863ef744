"""Who asks, in the words of the sheets: beside labels, below a mail, in a title with a firm's name."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from quoting.intake.words import folded
from quoting.tables import Cell, Sheet, is_empty, text_of

_FIRST_ROWS, _LAST_ROWS = 40, 25
"""Who asks stands above the parts or below them."""
_FEW_CELLS, _SHORT = 4, 3
_LONGEST, _LONGEST_NAME = 80, 60
_MOST_AFTER_CLOSING = 4
_NAME = re.compile(r"(?:[^\W\d_][\w.'’-]*)(?:\s+[^\W\d_][\w.'’-]*){0,3}")
_PIECES = re.compile(r"\s*[,;|/]\s*|\s+[-–—]\s+")
_LABEL = re.compile(r"\s*(?P<label>[^:=]{2,40}?)\s*[:=]\s*(?P<value>.*)")
_NUMBERED = re.compile(r"(?P<label>[^\d:=]{3,30}?)[\s.:#№°-]*(?P<value>(?=[\w./-]*\d)[\w./-]{3,25})")
_NUMBER = re.compile(r"(?=[^\s]*\d)[\w./-]{2,25}")
_REACHED = re.compile(r"[^\s@]+@[^\s@]+|\+?[\d\s()./-]{6,20}")
_SIGNS = re.compile(r"[^\w&'’ ]+")
_SENTENCE = re.compile(r"[^\W\d_]{5,}\.\s+\S|[^\W\d_]{5,}\.$")
_UNITS = re.compile(r"\b(?:mm|cm|inch(?:es)?|zoll|kg|rfq|id|od|dia|thk)\b|\d{3}", re.I)


@dataclass(frozen=True, slots=True)
class WhoAsks:
    """The customer's name, reference and contact, each may be empty; `cells` are the texts that say it."""

    customer: str = ""
    reference: str = ""
    contact: str = ""
    cells: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class _Words:
    labels: dict[str, str]
    closing: frozenset[str]
    greeting: tuple[str, ...]
    firm: frozenset[str]
    departments: frozenset[str]


def who_asks(sheets: Sequence[Sheet]) -> WhoAsks:
    """Return who asks by the sheets as they were written.

    A label counts before the names below a mail, and these before a title with a firm's name in it.
    """
    found: dict[str, str] = {}
    cells: set[str] = set()
    for sheet in sheets:
        for row in _outside(sheet):
            for field, value, own in _labelled(row):
                found.setdefault(field, value)
                cells.update(own)
    for sheet in sheets:
        texts = [row[0] for row in _outside(sheet) if len(row) == 1]
        for field, value, own in (*_signed(texts), *_titled(texts)):
            found.setdefault(field, value)
            cells.update(own)
    return WhoAsks(
        found.get("customer", ""), found.get("reference", ""), found.get("contact", ""), frozenset(cells)
    )


_Found = tuple[str, str, tuple[str, ...]]
"""What a text says of who asks: the field, its value, and the cells that say it."""


def _outside(sheet: Sheet) -> Iterator[list[str]]:
    """Yield the texts of the first and last rows that hold a few cells only."""
    rows: Sequence[Sequence[Cell]] = sheet.rows
    if len(rows) > _FIRST_ROWS + _LAST_ROWS:
        rows = [*rows[:_FIRST_ROWS], *rows[-_LAST_ROWS:]]
    for row in rows:
        texts = [text_of(cell) for cell in row if not is_empty(cell)]
        if 0 < len(texts) <= _FEW_CELLS:
            yield texts


def _labelled(row: list[str]) -> Iterator[_Found]:
    for at, text in enumerate(row):
        after = row[at + 1] if at + 1 < len(row) else ""
        match = _LABEL.fullmatch(text)
        field = _field(match["label"] if match else text)
        if not field:
            if (numbered := _NUMBERED.fullmatch(text)) and _field(numbered["label"]) == "reference":
                yield "reference", numbered["value"], (text,)
            continue
        value = match["value"] if match else ""
        own: tuple[str, ...] = (text,)
        if not value and after and not _field(after) and not _LABEL.fullmatch(after) and (match or at == 0):
            value, own = after, (text, after)
        if value and len(value) <= _LONGEST and any(sign.isalnum() for sign in value):
            yield field, value.strip(), own if _says_no_more(field, value.strip(" .,;")) else ()


def _says_no_more(field: str, value: str) -> bool:
    """Return whether a value is a name or a number and nothing else: `Enquiry: two tapered cans` is more."""
    if field == "reference":
        return bool(_NUMBER.fullmatch(value))
    return _names_firm(value) or _is_person(value) or bool(_REACHED.fullmatch(value))


def _signed(texts: list[str]) -> Iterator[_Found]:
    """Yield the person and the firm below the words that end a mail."""
    for at, text in enumerate(texts):
        first, *rest = _PIECES.split(text.strip(" ,.!"), maxsplit=1)
        if _plain(first) not in _words().closing or (at == 0 and len(texts) > 1 and not rest):
            continue
        below = texts[at + 1 : at + 1 + _MOST_AFTER_CLOSING]
        named = [(text, name) for name in rest]
        named += [(own, name) for own in below for name in _PIECES.split(own)]
        for own, name in named:
            plain = name.strip(" ,.!")
            if _names_firm(plain):
                yield "customer", plain, (text, own)
            elif _is_person(plain):
                yield "contact", plain, (text, own)
        return


def _titled(texts: list[str]) -> Iterator[_Found]:
    """Yield a title that is a firm's name, or begins with one."""
    for text in texts:
        for piece in re.split(r"\s+[-–—|:]\s+|\s*[,;]\s+", text)[:1]:
            if _names_firm(piece.strip()) and not _greets(text):
                yield "customer", piece.strip(), (text,) if piece.strip() == text.strip() else ()
                return


def _names_firm(text: str) -> bool:
    """Return whether a text is the name of a firm: short, in capitals, with a word that only firms carry."""
    plain = f" {_plain(text)} "
    if (
        len(text) > _LONGEST_NAME
        or _SENTENCE.search(text)
        or _UNITS.search(text)
        or text.endswith((":", "?", "!"))
    ):
        return False
    words = text.split()
    if not words or not (words[0][0].isupper() or not words[0].isascii()):
        return False
    small = sum(word[0].islower() and len(word) > 3 for word in words)
    last = words[-1]
    ends = any(sign.isupper() or sign == "." for sign in last)
    return 2 * small <= len(words) and any(_holds(plain, word, ends=ends) for word in _words().firm)


def _holds(plain: str, word: str, *, ends: bool) -> bool:
    """Return whether a name holds a word that only firms carry; a short one `ends` it, in capitals."""
    if not word.isascii():
        return word in plain
    if len(word) <= _SHORT:
        return ends and plain.endswith(f" {word} ")
    return f" {word} " in plain or (len(word) > 5 and f"{word} " in plain)


def _is_person(text: str) -> bool:
    words = text.split()
    named = bool(_NAME.fullmatch(text)) and len(text) <= _LONGEST_NAME // 2
    named = named and _plain(text) not in _words().departments
    return named and all(word[0].isupper() for word in words if len(word) > 3) and words[0][0].isupper()


def _greets(text: str) -> bool:
    plain = f"{_plain(text)} "
    return plain.startswith(_words().greeting)


def _field(text: str) -> str:
    return _words().labels.get(_plain(text), "")


def _plain(text: str) -> str:
    """Return a text as labels and names of firms are compared: folded, without signs."""
    return " ".join(_SIGNS.sub(" ", folded(text)).split())


@cache
def _words() -> _Words:
    data = tomllib.loads(files(__package__).joinpath("who_asks.toml").read_text(encoding="utf-8"))
    told = {name: [_plain(one) for one in re.split(r"[;\n]", text)] for name, text in data.items()}
    labels = {word: field for field in ("contact", "reference", "customer") for word in told[field] if word}
    return _Words(
        labels,
        frozenset(filter(None, told["closing"])),
        tuple(f"{word} " for word in told["greeting"] if word),
        frozenset(filter(None, told["firm"])),
        frozenset(filter(None, told["department"])),
    )
