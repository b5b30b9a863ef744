"""What a sheet says of all its parts: the sizes that rows may leave out, and in which order numbers stand."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from quoting.intake.parts.marks import mark_at, meanings, plain_signs, shortened

_FEWEST, _MOST = 3, 5
_PARTED = re.compile(
    r"\s*(?:(?<![^\W\d_])x(?![^\W\d_])|[*|>;]|(?<![^\W\d_]o)(?<![^\W\d_]i)/(?!d\b)|(?<=\s)[-](?=\s)|,(?!\d)"
    r"|\bby\b)\s*"
)
_LED = re.compile(
    r"^.*(?:[:=(]|\b(?:as|are|is|given|in|sizes?|dims?|dimensions?|list|quote|order|ma(?:ss|ß)e"
    r"|abmessungen|cotes|cotas|medidas|misure"
    r"|maten|wymiary|rozm\w+|matt|mitat|olcu\w*|meretek|dimensiuni|dimenzije)\b)\s*"
)
_UNITS = re.compile(r"[(\[]?\s*\b(?:in\s)?(?:mm|cm|inch(?:es)?|ins?|ft)\b\.?\s*[)\]]?|[()\[\].\"']")
_WORDS = re.compile(r"[^\W\d_ø]+|ø\s?[^\W\d_]*")
_EMPTY = frozenset((
    "the", "a", "all", "in", "of", "plate", "shell", "size", "given", "as", "is", "are", "mm", "clear",
    "plates", "along", "axis", "rolled", "finished", "unless", "noted", "otherwise", "stated", "please",
    "order", "this", "that",
))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Told:
    """What a sheet says of all parts: fields that a row may lack, whether the side, and orders of numbers.

    Each order is the fields of the numbers (D, R, T, L, ...) with the side of each, or "".
    """

    fields: frozenset[str] = frozenset()
    side: bool = False
    orders: tuple[tuple[tuple[str, str], ...], ...] = ()


NOTHING = Told()


def orders_in(texts: Iterable[str]) -> tuple[tuple[tuple[str, str], ...], ...]:
    """Return the orders of sizes that texts without figures list.

    >>> orders_in(["Sizes are ID x length x thk", "shells and cones"])
    ((('D', 'inside'), ('L', ''), ('T', '')),)
    """
    return tuple(dict.fromkeys(order for text in texts if (order := _order(text))))


def _order(text: str) -> tuple[tuple[str, str], ...]:
    """Return the order that a clause of a text lists: sizes parted by x or by commas, a word of each."""
    for sentence in _SENTENCES.split(plain_signs(text)):
        for part in (*sentence.split(", "), sentence):
            if found := _listed(part):
                return found
    return ()


_SENTENCES = re.compile(r"[.;]\s+(?=[^\W\d_]{3})|\n")


def _listed(text: str) -> tuple[tuple[str, str], ...]:
    pieces = [piece.strip() for piece in _PARTED.split(text)]
    if len(pieces) < _FEWEST or any(map(str.isdecimal, text)):
        return ()
    fields = [_field(piece, first=at == 0, last=at == len(pieces) - 1) for at, piece in enumerate(pieces)]
    known = [one for one in fields if one is not None]
    whole = len(known) == len(fields) and len(known) <= _MOST
    names = ["L" if name in ("W", "H") else name for name, _ in known]
    if not whole or len(set(names)) < len(names) or "T" not in names or not {"D", "R"} & {*names}:
        return ()
    return tuple(known)


def _field(piece: str, *, first: bool, last: bool) -> tuple[str, str] | None:
    """Return the field and the side that one piece of a list names; nothing where it holds another word."""
    if first and (led := _LED.match(piece)):
        piece = piece[led.end() :] or piece
    if last:
        piece = re.split(r"\s*(?:[:,;.(]\s|\()", piece)[0] if not re.match(r"\W*\(", piece) else piece
    piece = " ".join(_UNITS.sub(" ", piece).split())
    field, side = "", ""
    at = 0
    while at < len(piece):
        if piece[at] == " ":
            at += 1
            continue
        mark = mark_at(piece, at)
        word = _WORDS.match(piece, at)
        if mark is not None:
            means, at = meanings(mark.group()), mark.end()
        elif word is not None:
            at = word.end()
            if word.group() in _EMPTY:
                continue
            means = shortened(word.group())
            if not means:
                return None
        else:
            return None
        strong = [one for one in means if not one.weak and not one.end] or list(means)
        names = {one.field for one in strong if one.field}
        field = field or next((one.field for one in strong if one.field), "") if names else field
        side = side or next((one.side for one in strong if one.side), "")
    if side and not field:
        field = "D"
    return (field, side) if field else None
