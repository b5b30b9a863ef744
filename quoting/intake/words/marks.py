"""Marks that tie a row to a note: the letter or number it points to, a star or a hash beside a cell."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

_SIGN = r"\*{1,3}|[†‡§]|\#(?!\s*\d)"
_QUOTED = r"[\"'“”‘’(\[]\s*(?P<letters>[A-Za-z]{1,3}|\*{1,3}|[#†‡§])\s*[\"'“”‘’)\]]"
_NAMED = {
    "*": r"asterisk\w*|stars?|starred|stern(?:chen)?|ast[ée]risque|ast[ée]risco|asterisco|sterretje"
    r"|gwiazdk\w*|hv[eě]zdi[čc]k\w*",
    "#": r"hash(?:tag)?|pound sign|raute(?:zeichen)?|di[èe]se|almohadilla|cancelletto|cerquilha|hekje",
    "†": r"dagger|cross",
}  # fmt: skip
_MARKED = (
    r"marked|flagged|tagged|starred|bearing|carrying|followed by|shown with|noted with|with|having|labell?ed"
    r"|markiert\w*|(?:ge)?kennzeichne\w*|mit|marqu[ée]\w*|rep[ée]r[ée]\w*|avec|marcad\w*|se[ñn]alad\w*|assinalad\w*"
    r"|z(?:e)? znak\w+|com sinal|con se[ñn]al|avec (?:un |le )?signe|mit (?:dem )?zeichen"
    r"|con|com|contrassegnat\w*|segnat\w*|gemarkeerd\w*|gemerkt\w*|met|oznacz\w*|označ\w*|m[äæ]rk\w*|med"
)
_MARK_SAID = re.compile(
    rf"\b(?:{_MARKED})\b\W{{0,3}}(?:(?:with|by|an?|the|einem|un|une|uno|een|en|con|com|avec|mit|met|med)\s+){{0,2}}"
    rf"(?:{_QUOTED}|(?P<sign>{_SIGN})|(?P<name>{'|'.join(_NAMED.values())})(?!\w))|\b(?P<starred>starred)\b",
    re.I,
)
_MARK_LEADS = re.compile(rf"^\W{{0,2}}?(?P<sign>{_SIGN})\)?\s*(?:[=:–-]\s*)?(?=\S*[^\W\d_])")
_BUT = re.compile(
    r"[,;(]?\s*\b(?:unless|except(?:ing)?|but|other than|apart from|ausser|außer|sauf|salvo|excepto|eccetto"
    r"|tranne|exceto|behalve|opr[óo]cz|krom[ěe])\b",
    re.I,
)
_LINKS = re.compile(
    r"^[\s,;:=)–-]*(?:(?:which|that|those|these|they|it|ones?|then|shall|should|must|will|to|be|is|are|get|gets|in"
    r"|en|em|uit|use|made|of|from|go|come|sind|ist|aus|sont|est|son|es|sono|zijn|są|jsou|är|er)\b[\s,:=]*)*",
    re.I,
)
_ROWS_BEFORE = re.compile(
    r"[\s,;(–-]*(?:\b(?:for|on|at|of|where|if|only|the|all|items?|lines?|rows?|parts?|pos(?:itions?)?|shells?|cans?"
    r"|pieces?|those|ones|are|is|für|pour|para|per|voor|alle)\b\.?[\s,]*)*$",
    re.I,
)
_LABEL = re.compile(
    r"(?:^|[;.:]\s+|\n)\W{0,2}(?:(?:(?:foot)?notes?|nota|anm\w*|remarks?)\b\W*)?\(?(?P<label>[A-Za-z]|\d{1,2})\s*(?:[).:]|\s[–-])\s+"
    r"(?=\S)",
    re.I,
)
_POINTS = re.compile(
    r"\b(?:foot-?)?(?:notes?|notas?|nb|anm(?:erkung)?|fu(?:ß|ss)note|hinweis|remarks?|opmerking|uwaga|pozn(?:[áa]mka)?)\b"
    r"\.?\s*(?:no\.?\s*|nr\.?\s*|n[°º]\s*|#\s*)?\(?(?P<label>[A-Za-z]|\d{1,2})\)?(?![\w/])",
    re.I,
)
_POINTED_AT = re.compile(r"[^\s(][^(]*\s(?P<label>[A-Za-z]|\d{1,2})\)\s*$")
"""304 2): the sign of a foot note behind a cell's text."""
_AT_END = re.compile(r"(?:^|.*?[^\s*#†‡§])\s*(?P<sign>\*{1,3}|[#†‡§])\s*\)?\s*$", re.S)
_LETTERS_AT_END = re.compile(r"(?P<plain>.*\S)\s*[(\[](?P<letters>[A-Za-z]{1,3})[)\]]\s*$", re.S)
_AT_START = re.compile(r"\s*(?P<sign>\*{1,3}|[†‡§])\s*\S")


@dataclass(frozen=True, slots=True)
class MarkRule:
    """What a note says of rows with a mark, and what it says of all others; either may be empty."""

    mark: str
    marked: str
    others: str = ""


@lru_cache(maxsize=4096)
def mark_rule(text: str) -> MarkRule | None:
    """Return what a note says of the rows that bear a mark, None where it names no mark.

    >>> mark_rule("S275 unless marked #, which is S355")
    MarkRule(mark='#', marked='S355', others='S275')
    >>> mark_rule("* to be 304L"), mark_rule("304L for the items marked *")
    (MarkRule(mark='*', marked='304L', others=''), MarkRule(mark='*', marked='304L', others=''))
    """
    if match := _MARK_LEADS.match(text):
        return MarkRule(match["sign"], _LINKS.sub("", text[match.end() :]).strip())
    match = _MARK_SAID.search(text)
    if match is None:
        return None
    before, after = text[: match.start()], _LINKS.sub("", text[match.end() :]).strip(" .")
    but = _BUT.search(before)
    if but:
        return MarkRule(_mark(match), after, _LABEL.sub("", before[: but.start()]).strip(" ,;"))
    if any(sign.isalnum() for sign in after):
        return MarkRule(_mark(match), after, _LABEL.sub("", _ROWS_BEFORE.sub("", before)).strip(" ,;"))
    return MarkRule(_mark(match), _LABEL.sub("", _ROWS_BEFORE.sub("", before)).strip(" ,;"))


def _mark(match: re.Match[str]) -> str:
    if own := match["letters"] or match["sign"]:
        return own.upper()
    said = (match["name"] or match["starred"]).lower()
    return next(sign for sign, names in _NAMED.items() if re.fullmatch(names, said, re.I))


def labelled(text: str) -> list[tuple[str, str]]:
    """Return the notes of a text by their labels, in lower case.

    >>> labelled("Notes: 1) sizes in mm; 2) Ø inside"), labelled("a. 316L, not 304")
    ([('1', 'sizes in mm'), ('2', 'Ø inside')], [('a', '316L, not 304')])
    """
    found = list(_LABEL.finditer(text))
    ends = [match.start() for match in found[1:]] + [len(text)]
    return [
        (match["label"].lower(), text[match.end() : end].strip(" ;."))
        for match, end in zip(found, ends, strict=False)
    ]


def pointed_at(text: str) -> list[str]:
    """Return the labels of notes that a text points to: see note a, as note 2.

    >>> pointed_at("304 (see note A)"), pointed_at("notes to follow")
    (['a'], [])
    """
    if "ot" not in text and not any(sign in text for sign in ")nNfFhHrRuUpP"):
        return []
    found = [match["label"].lower() for match in _POINTS.finditer(text)]
    behind = _POINTED_AT.match(text)
    return found if behind is None or found else [behind["label"].lower()]


class MarkedNotes:
    """The notes of a sheet by the labels and marks that rows bear."""

    def __init__(self, notes: list[str]) -> None:
        self._labels: dict[str, list[str]] = {}
        self._marks: dict[str, list[str]] = {}
        for note in notes:
            for label, text in labelled(note):
                self._labels.setdefault(label, []).append(text)
            for text in re.split(r";\s+", note):
                if (rule := mark_rule(text)) and rule.marked:
                    self._marks.setdefault(rule.mark, []).append(rule.marked)

    def __bool__(self) -> bool:
        return bool(self._labels or self._marks)

    def about(self, cell: str) -> list[str]:
        """Return the notes that a cell points to, or bears the mark of."""
        found = [text for label in pointed_at(cell) for text in self._labels.get(label, ())]
        for mark in self._borne(cell) if self._marks else ():
            found += self._marks.get(mark, ())
        return found

    def plain(self, cell: str) -> str:
        """Return a cell without the mark of a note behind it: 304 * as 304."""
        if not self._marks:
            return cell
        if (letters := _LETTERS_AT_END.match(cell)) and letters["letters"].upper() in self._marks:
            return letters["plain"].rstrip()
        match = _AT_END.match(cell)
        if match is None or match["sign"] not in self._marks or not cell[: match.start("sign")].strip():
            return cell
        return cell[: match.start("sign")].rstrip(" (")

    def _borne(self, cell: str) -> list[str]:
        signs = [match["sign"] for match in (_AT_END.match(cell), _AT_START.match(cell)) if match]
        if letters := _LETTERS_AT_END.match(cell):
            signs.append(letters["letters"].upper())
        if cell.strip().upper() in self._marks:
            signs.append(cell.strip().upper())
        return list(dict.fromkeys(signs))
