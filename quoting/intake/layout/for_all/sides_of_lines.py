"""Sides of some lines: which lines a sentence gives inside and which outside."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quoting.core import Basis
from quoting.intake.layout.heading_grammar import is_word, sides_of

A_MARK = re.compile(r"^\s*(?:\(?\d{1,2}\s*[.):]|note\s*\d*\s*[:.)]|[-*•])\s*", re.I)
_A_LINE = r"[^\W\d_]{0,3}[-.]?\d{1,3}(?:[./]\d{1,2})?[^\W\d_]?(?![\w]|[/.]\d)"
_AND_LINE = r"(?:,|;|&|\+|/|and|und|et|ve|e|i|y|og|och|en|és|to|thru|through|bis|do|à|až|-|–)"
_LISTED = re.compile(rf"{_A_LINE}(?:\s*{_AND_LINE}\s*{_A_LINE})*", re.I)
_UP_TO = re.compile(
    rf"(?P<first>{_A_LINE})\s*(?:-|–|to|thru|through|bis|do|à|až)\s*(?P<last>{_A_LINE})|(?P<one>{_A_LINE})",
    re.I,
)
_LINE_PARTS = re.compile(r"(?P<lead>.*?)(?P<number>\d+)(?P<letter>[^\W\d_]?)")
_LED_BY = re.compile(
    r"\s*(?:note?s?|n\.?b|uwaga|pozn\w*|hinweis|anm\w*|obs|opm|bemerkung|remarque|nota)\s*[:.]\s*", re.I
)
_POINTED = re.compile(r"\b([io])\.\s?d\b\.?", re.I)
_WORD_OR_SIGN = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?|[,;.:()=–-]|\S")
_A_ROW = re.compile(
    r"(?:items?|lines?|rows?|marks?|tags?|parts?|no['’]?l[uıi]\w*|kalem\w*|zeilen?|lignes?|rader|righe|voci"
    r"|partidas|l[ií]neas?|itens|regels|pozycj\w*|pozic\w*|rep[eè]res|t[eé]telek\w*|[cç]ap(?:[tl][aıi]r[ıi]?)?)",
    re.I,
)
_ALL_BUT_THOSE = re.compile(
    r"\b(?:(?:all |the |alle |tous les |todos los |tutti gli |todos os |wszystkie |v[sš]echny )?"
    r"(?:others?|rest|remaining|remainder|balance|anderen?|übrigen|ubrigen|autres|restantes|demás|demas|otros|altri|altre"
    r"|outros|overige|andere|pozosta[łl]e|inne|ostatn[ií]|övriga|ovriga|øvrige|resten|reszta|zbytek|di[ğg]erleri"
    r"|többi)|sonst|otherwise|elsewhere)\b",
    re.I,
)
_BETWEEN = frozenset((
    "on", "of", "for", "at", "the", "in", "is", "are", "be", "to", "and", "given", "as", "measured", "und",
    "bei", "sind", "ist", "von", "der", "die", "des", "les", "pour", "et", "en", "sont", "est", "de", "du",
    "los", "las", "para", "son", "y", "del", "per", "sono", "e", "i", "dla", "jest", "są", "pro", "jsou",
    "je",
    "a", "för", "är", "och", "for", "er", "og", "voor", "zijn", "ve", "ise", "dims", "sizes", "side", "dir",
    "olacak", "olacaktır", "olarak", "faces", "face", "while", "but", "all",
))  # fmt: skip
_APART = frozenset(
    (",", ";", ".", "and", "und", "et", "y", "e", "i", "a", "och", "og", "ve", "en", "while", "but")
)
"""What must stand between a side and the next lines: without it a number may be a size."""


@dataclass(frozen=True, slots=True)
class SideOfLines:
    """The side of the plate on which a note says some lines are given; `others` means all but those."""

    lines: frozenset[str]
    basis: Basis
    others: bool = False


@dataclass(frozen=True, slots=True)
class _Token:
    """Lines by their numbers, the others, or a side; `apart` that it begins anew."""

    lines: frozenset[str] | None = None
    others: bool = False
    basis: Basis | None = None
    apart: bool = False


def sides_of_lines(text: str) -> tuple[SideOfLines, ...]:
    """Return which lines a note says are inside, and which outside; none where it says anything else too.

    >>> [(sorted(one.lines), str(one.basis)) for one in sides_of_lines("Dia on lines 1 thru 3 ID, 4a, 5 OD")]
    [(['1', '2', '3'], 'inside'), (['4a', '5'], 'outside')]
    >>> sides_of_lines("Item 3: OD 50, ID 48")
    ()
    """
    if _A_ROW.search(text) is None and not is_word("number", text):
        return ()
    tokens = _side_tokens(_POINTED.sub(r"\1d", _LED_BY.sub("", A_MARK.sub("", text), count=1)))
    if tokens is None or len(tokens) < _A_PAIR or len(tokens) % _A_PAIR:
        return ()
    found: list[SideOfLines] = []
    for at, (one, other) in enumerate(zip(tokens[::2], tokens[1::2], strict=True)):
        lines, side = (one, other) if one.basis is None else (other, one)
        if side.basis is None or lines.basis is not None or (at and not one.apart):
            return ()
        if (one.basis is None) != (tokens[0].basis is None):
            return ()
        found.append(SideOfLines(lines.lines or frozenset(), side.basis, lines.others))
    named = frozenset().union(*(one.lines for one in found))
    if not named or len(named) != sum(len(one.lines) for one in found):
        return ()
    return tuple(SideOfLines(named, one.basis, others=True) if one.others else one for one in found)


_A_PAIR = 2
_SENTENCES = re.compile(r"(?<=[^\W\d_])[.;]\s+")


def says_sides_of_some(text: str) -> bool:
    """Return whether a sentence of a text says the side of lines by their numbers."""
    if not any(sign.isdecimal() for sign in text):
        return False
    return any(sides_of_lines(one) for one in _SENTENCES.split(text))


def _side_tokens(text: str) -> list[_Token] | None:
    """Return the lines and sides of a note in their order; None where a word is neither, nor joins them."""
    tokens: list[_Token] = []
    at, apart = 0, False
    while at < len(text):
        if match := _LISTED.match(text, at):
            tokens.append(_Token(lines=_numbers(match.group()), apart=apart))
        elif match := _ALL_BUT_THOSE.match(text, at):
            tokens.append(_Token(others=True, apart=apart))
        elif match := _WORD_OR_SIGN.match(text, at):
            word = match.group()
            sides = sides_of(word)
            if len(sides) == 1:
                tokens.append(_Token(basis=next(iter(sides)), apart=apart))
            elif word.lower() in _APART:
                apart = True
                at = match.end()
                continue
            elif not _joins(word):
                return None
            else:
                at = match.end()
                continue
        else:
            at += 1
            continue
        at, apart = match.end(), False
        if len(tokens) >= _A_PAIR and tokens[-1].basis and tokens[-1].basis == tokens[-2].basis:
            tokens.pop()  # inside diameter, ID: said twice
    return tokens


def _joins(word: str) -> bool:
    """Return whether a word of a note about sides names no more than lines, diameters or what joins them."""
    plain = word.lower()
    known = plain in _BETWEEN or not word[0].isalnum() or _A_ROW.fullmatch(word)
    return bool(known) or any(is_word(kind, word) for kind in ("number", "diameter", "radius"))


def _numbers(listed: str) -> frozenset[str]:
    """Return the numbers of a list of lines, those between the ends of a range too."""
    found: set[str] = set()
    for match in _UP_TO.finditer(listed):
        if match["one"]:
            found.add(match["one"].lower())
            continue
        first, last = (_LINE_PARTS.fullmatch(match[end]) for end in ("first", "last"))
        found |= {match["first"].lower(), match["last"].lower()}
        if first and last and (first["lead"] == last["lead"] or not last["lead"]):
            found |= {
                f"{first['lead']}{one}".lower() for one in range(int(first["number"]), int(last["number"]))
            }
    return frozenset(found)
