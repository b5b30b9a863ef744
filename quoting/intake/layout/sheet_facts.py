"""What the words of a title, note or cover sheet say for all lines: side of the plate, unit, grade, sets."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quoting.core import Basis
from quoting.intake.layout.heading_grammar import is_word, sides_of
from quoting.intake.words import folded

_MARK = re.compile(r"^\s*(?:\(?\d{1,2}\s*[.):]|note\s*\d*\s*[:.)]|[-*•])\s*", re.I)
_PIECES = re.compile(r"[,;|:()\[\]/–—]|\s-\s|\.\s|\.$")
_SIZED = re.compile(r"\b(chords?|rises?|dims?|dimensions?|sizes|measurements|durchmesser|ø)\b|ø", re.I)
_SIDE_ALONE = re.compile(
    r"\W*(?:all\s+|dims?\s+|in\s+)*(?:o\.?\s?d\.?|i\.?\s?d\.?|ø\s?\w+\.?)s?(?:\s+(?:given|stated|shown|dims|sizes|quoted|only|size))?\W*",
    re.I,
)
_MM = re.compile(r"(?<![\d.,])(?<![\d.,]\s)\b(?:mm|millimet(?:er|re)s?|metric)\b", re.I)
_INCH = re.compile(
    r"(?<![\d.,])(?<![\d.,]\s)\b(?:inch(?:es)?|imperial|zoll|pouces?|pulgadas?|pollici|polegadas?|duim|cale)\b",
    re.I,
)
_NO_UNIT = re.compile(
    r"\b(tol\w*|gap|land|bevel|hole\w*|flange\w*|bolt\w*|spac\w*|max|min|wire|weld\w*)\b", re.I
)
_UNLESS = re.compile(r"\b(?:unless|u\.?n\.?o\b|except|throughout|where not|if not|otherwise)\b", re.I)
_NOT_ALL = re.compile(
    r"\b(?:items?|lines?|pos|marks?|parts?|refs?|only|hole\w*|flange\w*|weld\w*|bevel\w*)\b", re.I
)
_COUNT = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "both": 2, "one": 1}
_NUMBER = rf"(\d{{1,3}}|{'|'.join(_COUNT)})"
_OF_UNITS = re.compile(
    rf"(?<![A-Za-z\d./-]){_NUMBER}\s*(?:x\s*)?(?:(?:identical|equal|off|no\.?|nos|similar|such|new|complete|same|req'?d|adet|stk|stuck|pcs|ks|db|szt|st|шт)\s+){{0,2}}"
    r"([^\W\d_]+)",
    re.I,
)
_UNITS_OF = re.compile(
    rf"([^\W\d_]{{2,}})(?:\s+(?:required|reqd|wanted))?\s*[:=]\s*{_NUMBER}(?![\w/.-])", re.I
)
_UNITS_BESIDE = re.compile(
    rf"\b(?:no\.?|number|qty|quantity|nos)\.?\s+of\s+([^\W\d_]{{2,}})\W{{0,4}}{_NUMBER}(?![\w/.-])", re.I
)
_PER = re.compile(
    r"\b(?:per|pro|par|por|je|each|ea\.?|every|cada|chaque|for (?:one|1|each|a single)|na|za|ogni|bir|на)\s+"
    r"(?:(?:one|1)\s+)?([^\W\d_]{2,})"
    r"|\b(?:qty|quantity|pcs)\s*/\s*([^\W\d_]{2,})|\b(single)\b",
    re.I,
)
_COUNTED = re.compile(
    r"\b(qtys?|quantit\w*|pcs|pieces|numbers?|counts?|list\w*|bom|sizes|zestawienie|wykaz|elenco|distinta|nomenclature|stuckliste|stückliste|stuklijst|kusovn\w*|darabjegyz\w*|lista)\b",
    re.I,
)
_IN_ALL = re.compile(
    r"\b(total\w*|insgesamt|gesamt\w*|ogolem|lacznie|razem|celkem|toplam|osszesen|samtliche|in all"
    r"|altogether|overall)\b|\bfor (all|both)\b|\b(incl\w*|cover\w*) (all|both)\b"
    r"|\balready multiplied\b",
    re.I,
)


@dataclass(frozen=True, slots=True)
class SaidForAll:
    """What one text says for all lines; what it leaves open is empty. `sets` is how many units are ordered,
    `per_set` that the pieces are counted for one of them, `in_all` that they are counted for all.
    """

    basis: Basis | None = None
    unless: bool = False
    unit: str = ""
    sets: int = 0
    per_set: bool = False
    in_all: bool = False


def facts_in(text: str) -> SaidForAll:
    """Return what a text outside the rows says for all lines.

    >>> facts_in("Caisson cans (inches) - OD").basis, facts_in("Quantities are per tank - 3 tanks").sets
    (<Basis.OUTSIDE: 'outside'>, 3)
    """
    plain = _MARK.sub("", text)
    pieces = [piece for piece in _PIECES.split(plain) if piece and piece.strip()]
    sets = _sets(plain)
    return SaidForAll(
        _basis(plain, pieces),
        _UNLESS.search(plain) is not None,
        _unit(pieces),
        sets,
        _per_set(plain),
        bool(
            _IN_ALL.search(folded(plain)) and (_COUNTED.search(plain) or is_word("quantity", plain) or sets)
        ),
    )


def _basis(whole: str, pieces: list[str]) -> Basis | None:
    """Return the one side of the plate that a text about diameters names, or that stands alone in a piece."""
    found: set[Basis] = set()
    for piece in (whole, *pieces):
        if any(sign.isdecimal() for sign in piece) or _NOT_ALL.search(_UNLESS.split(piece)[0]):
            continue
        about = _UNLESS.split(piece)[0]
        sides = sides_of(about)
        sized = _SIZED.search(about) or is_word("diameter", about) or is_word("radius", about)
        if len(sides) == 1 and (sized or _SIDE_ALONE.fullmatch(about)) and not is_word("other", about):
            found |= sides
    return next(iter(found)) if len(found) == 1 else None


def _unit(pieces: list[str]) -> str:
    metric = inch = False
    for piece in pieces:
        if _NO_UNIT.search(piece):
            continue
        metric = metric or _MM.search(piece) is not None
        inch = inch or _INCH.search(piece) is not None
    return "" if metric == inch else "mm" if metric else "in"


def _sets(text: str) -> int:
    """Return how many sets, tanks or vessels a text orders; 0 where it names none, or two numbers."""
    pairs = [(number, noun) for number, noun in _OF_UNITS.findall(text)]
    pairs += [
        (number, noun) for pattern in (_UNITS_OF, _UNITS_BESIDE) for noun, number in pattern.findall(text)
    ]
    counts = {_COUNT.get(number.lower()) or int(number) for number, noun in pairs if is_word("units", noun)}
    if len(counts) > 1 or _per_set(text):
        counts.discard(1)  # "for one tank, 3 tanks are wanted"
    return counts.pop() if len(counts) == 1 else 0


def _per_set(text: str) -> bool:
    nouns = [one for groups in _PER.findall(text) for one in groups if one]
    return any(is_word("units", noun) for noun in nouns) and (
        _COUNTED.search(text) is not None or is_word("quantity", text)
    )
