"""Splits a text about one part into numbers, marks, signs and words, each with its place in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from quoting.core import NumberStyle
from quoting.intake.parts.marks import mark_at, meanings, plain_signs, shortened
from quoting.intake.parts.no_sizes import begins_a_code, code_at, is_counted, may_be_a_name, no_size_at
from quoting.intake.parts.numbers import number_at
from quoting.intake.parts.snippet import FILLERS, GRADE, Kind, Snippet

_CJK = re.compile(r"[\u4e00-\u9fff]")
_WORD = re.compile(r"[^\W\d_](?:[^\W\d_]|['.&/](?=[^\W\d_]))*\.?")
_TIMES = re.compile(r"[xX*](?![^\W\d_])|by(?![^\W\d_])", re.I)
_BREAKS = ",;\n|/()[]"


@dataclass(frozen=True, slots=True)
class Writing:
    """How a file writes sizes: its decimal sign, and whether a bare number is of inches, else of mm.

    Where its unit is not known bare numbers are not clear (not `bare`).
    """

    style: NumberStyle
    inch: bool
    bare: bool = True


def pieces_of(
    text: str, writing: Writing, masked: tuple[tuple[int, int], ...] = ()
) -> tuple[Snippet, ...] | None:
    """Return the pieces of a text, or nothing where one of its numbers can be read in two ways.

    `masked` are stretches that are known already, the names of grades.

    >>> [str(one.kind) for one in pieces_of("ID 1200 x 8", Writing(NumberStyle.POINT, inch=False))]
    ['mark', 'number', 'times', 'number']
    """
    plain = plain_signs(text)
    found: list[Snippet] = []
    at, spaced = 0, False
    while at < len(plain):
        if plain[at] == " ":
            at, spaced = at + 1, True
            continue
        hidden = next((end for start, end in masked if start <= at < end), 0)
        piece = (
            Snippet(Kind.WORD, at, hidden, sign=GRADE)
            if hidden
            else _piece(plain, text, at, writing, spaced=spaced)
        )
        if piece is None:
            return None
        found.append(replace(piece, spaced=spaced))
        at, spaced = piece.end, False
    found = _sides_apart(_said_once(found))
    pieces = tuple(_without_names(plain, _counted(plain, found)))
    unknown = not writing.bare and any(one.kind is Kind.NUMBER and not one.unit for one in pieces)
    return None if unknown else pieces


def _piece(text: str, own: str, at: int, writing: Writing, *, spaced: bool) -> Snippet | None:
    """Return the piece that begins here, or nothing for a number that is not clear."""
    if known := no_size_at(text, at):
        return None if known.kind is Kind.UNCLEAR else known
    number = number_at(text, at, writing.style, inch=writing.inch)
    if number is not None:
        return None if number.kind is Kind.UNCLEAR else number
    if match := _TIMES.match(text, at):
        return Snippet(Kind.TIMES, at, match.end())
    return _words(text, own, at) or _sign(text[at], at, spaced=spaced)


def _words(text: str, own: str, at: int) -> Snippet | None:
    """Return the mark, the code or the word that begins here."""
    mark = mark_at(text, at)
    if mark is not None and not begins_a_code(text, at, mark.end()) and not _is_a_word(text, own, mark):
        return Snippet(Kind.MARK, at, mark.end(), means=meanings(mark.group()))
    if code := code_at(text, at):
        return code
    match = _CJK.match(text, at) or _WORD.match(text, at)
    if match is None:
        return None
    if means := shortened(match.group()):
        return Snippet(Kind.MARK, at, match.end(), means=means)
    return Snippet(Kind.WORD, at, match.end())


def _without_names(text: str, pieces: list[Snippet]) -> list[Snippet]:
    """Return the pieces with the number of a part's name as none of a size: tank 1, can 3 of 5; 02 / ID 9."""
    for at, piece in enumerate(pieces):
        if piece.kind is Kind.NUMBER and may_be_a_name(piece):
            before, after = pieces[at - 1] if at else None, pieces[at + 1] if at + 1 < len(pieces) else None
            named = (
                before is not None
                and _is_noun(text, before)
                and (after is None or after.kind in _NO_SIZE_BESIDE)
            )
            listed = text[piece.start] == "0" and after is not None and after.kind is Kind.BREAK
            if named or listed:
                pieces[at] = replace(piece, kind=Kind.OTHER)
    return pieces


def _said_once(pieces: list[Snippet]) -> list[Snippet]:
    """Return the pieces with a size in inches and in millimetres as the first of both: 60" (1524mm).

    What says it again belongs to the number.
    """
    found: list[Snippet] = []
    at = 0
    while at < len(pieces):
        piece, after = pieces[at], pieces[at + 1 : at + 4]
        count = _AGAIN.get(after[0].sign, 0) if after else 0
        if 0 < count <= len(after) and _same(piece, after[1]) and (count == _PAIR or after[2].sign in ")]"):
            unit = piece.unit or ("in" if after[1].unit == "mm" else "mm")
            piece, at = replace(piece, end=after[count - 1].end, unit=unit), at + count
        found.append(piece)
        at += 1
    return found


_PAIR = 2
_AGAIN = {"(": 3, "[": 3, "/": _PAIR, "=": _PAIR}
"""What stands between the two ways of one size, and how many pieces belong to the second one."""
_APART = 0.005
_MM_PER_INCH = 25.4


def _same(one: Snippet, other: Snippet) -> bool:
    """Return whether two numbers are one length in inches and in millimetres, but for their rounding."""
    units = {one.unit, other.unit}
    if one.kind is not Kind.NUMBER or other.kind is not Kind.NUMBER or not units & {"in", "mm"}:
        return False
    if not units <= {"in", "mm", ""} or one.unit == other.unit:
        return False
    inches = one.unit == "in" or other.unit == "mm"
    first, second = (one, other) if inches else (other, one)
    return abs(first.value * _MM_PER_INCH - second.value) <= max(_APART * second.value, _ROUNDED)


_ROUNDED = 0.06


def _sides_apart(pieces: list[Snippet]) -> list[Snippet]:
    """Return the pieces with each of two marks before its own of two numbers: outside/inside 1060/1020."""
    found = list(pieces)
    for at in range(len(found) - 5):
        first, sign, second, one, parted, other = found[at : at + 6]
        marks = all(piece.kind is Kind.MARK and any(m.side for m in piece.means) for piece in (first, second))
        numbers = one.kind is other.kind is Kind.NUMBER
        if marks and numbers and sign.sign == parted.sign == "/":
            found[at : at + 6] = [first, one, parted, second, other, replace(sign, kind=Kind.WORD, sign="")]
    return found


_NO_SIZE_BESIDE = (Kind.WORD, Kind.BREAK, Kind.OTHER)
_SHORTEST_NOUN = 3


def _is_noun(text: str, piece: Snippet) -> bool:
    word = text[piece.start : piece.end].strip(".")
    noun = piece.kind is Kind.WORD and len(word) >= _SHORTEST_NOUN and word.isalpha() and not piece.sign
    return noun and word not in FILLERS


_WORDS_TOO = frozenset((
    "de", "di", "da", "du", "do", "ad", "et", "e", "i", "a", "s", "is", "os", "or", "al",
    "as", "es", "ds", "ra",
))  # fmt: skip
"""Marks that are words of some language too."""
_TIED = re.compile(r"\s?[=:]|\.?\d")
_NEAR = re.compile(r"\s?\d")


def _is_a_word(text: str, own: str, mark: re.Match[str]) -> bool:
    """Return whether a mark is only a word here: not tied to a number, and no capital right before one.

    De 914 and e=10 are marks; tramos de 20 and 6 e 8 are not.
    """
    if own[mark.start() : mark.end()].lower() == "cap":  # no çap, where it is not tied to a number
        return _TIED.match(text, mark.end()) is None
    if mark.group().strip(".") not in _WORDS_TOO or _TIED.match(text, mark.end()):
        return False
    capital = own[mark.start()].isupper() and not own.isupper()
    behind_a_number = text[: mark.start()].rstrip()[-1:].isdecimal()
    if behind_a_number:
        return text[mark.start() - 1] == " " and not own[mark.start() : mark.end()].strip(".").isupper()
    return not (capital and _NEAR.match(text, mark.end()))


def _sign(sign: str, at: int, *, spaced: bool) -> Snippet:
    parts = sign in _BREAKS or (sign == "-" and spaced)
    return Snippet(Kind.BREAK if parts else Kind.WORD, at, at + 1, sign=sign)


def _counted(text: str, pieces: list[Snippet]) -> list[Snippet]:
    """Return the pieces with a small number before a word as a count where it begins the text: 2 drums."""
    first = next((at for at, piece in enumerate(pieces) if piece.kind is Kind.NUMBER), None)
    if first is None or first + 1 >= len(pieces):
        return pieces
    number, after = pieces[first], pieces[first + 1]
    word = after.kind is Kind.WORD and after.spaced and text[after.start].isalpha()
    if word and is_counted(text, number):
        pieces[first] = replace(number, kind=Kind.OTHER)
    return pieces
