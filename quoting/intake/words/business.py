"""Statements that are mere business: how it is paid, packed, delivered, marked, which drawing it is of."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from quoting.intake.words.business_lists import INSIDE, Known, has_stem, known_words
from quoting.intake.words.business_numbers import (
    NUMBER_ENDS,
    has_size_sign,
    says_itself,
    without_numbers,
    without_plain,
)
from quoting.intake.words.languages import CJK, folded

_LONGEST = 300
"""Letters of the longest statement that is looked at: a longer one is a paragraph to read."""
_TOKEN = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?|[\w]*\d[\w.,]*")
_CLAUSES = re.compile(
    r"[;,:()\[\]–—|!?=\n，、。；：（）]|\s[-/+]\s|(?<=[^\W\d_]{4})\.\s+(?=[^\W\d_])|(?<=[)%])\.\s|^\W+"
)
_UNCHANGED = re.compile(
    r"\b(?:no|without|sans|sin|senza|ohne|keine?|bez|ingen|inga|geen|sem)\s(?:other\s|any\s|further\s)*"
    r"(?:chg|changes?|änderung(?:en)?|changements?|modifications?|cambios|modifiche|zmian|změn|zmeny"
    r"|ändring(?:ar)?|endringer|ændringer|wijziging(?:en)?|alterações)\b"
    r"(?: to (?:the |these |those )?(?:parts|items|lines|sizes|drawings?))?"
    r"|\b(?:delivery |invoice |billing |e?-?mail )?address (?:has )?changed\b"
    r"|\bsupersedes our (?:rfq|enquiry|inquiry|request|quote|list)\b"
    r"|\b(?:issued|released) for (?:construction|fabrication|manufacture)\b"
    r"|\bp ?& ?id\b|\bhalf an hour\b|\b(?:mill |material )?test (?:reports?|certs?|certificates?)\b"
    r"|\brolled (?:plate )?(?:shells|plates?|parts|items)\b(?=\W*(?:$|[-,;/]))",
    re.I,
)
"""What says that nothing changes, what papers are called, and what a title calls the parts of a list."""
_OUT_OF_SCOPE = re.compile(
    r"\bnot (?:(?:in|part of|included in|to be in) )(?:your|ur|the|this|our)(?: own)? "
    r"(?:price|scope|offer|quote|quotation|supply|enquiry|order)\b|\bdo(?: not|n'?t) scale\b"
    r"|\bno (?:pay|payment)\b",
    re.I,
)
_OF_LINES = re.compile(r"\b(?:items?|lines?|pos|parts?|marks?|nos?\.?\s?\d)\b", re.I)
_OF_A_LIST = frozenset(("quote", "ref", "place", "history"))
_NOTHING_DENIED = frozenset(("ref", "place", "quote", "history", "pay"))
"""Matters of the line itself: a line that is not required is no business."""
_NAMED = frozenset(("ref", "place"))
_PLAIN_NOT = frozenset(("not", "no", "none", "never", "dont", "don't"))
_NOT = re.compile(r"\b(?:not|no|none|never|don'?t)\b", re.I)
_CALLED_OFF = re.compile(
    r"\b(?:not|no|never|don'?t|none)\b.{0,30}\b(?:need|requir|want|necess|longer|more\b|yet|final|approv|releas"
    r"|valid|correct|current|updat|availab|complet|frozen|firm)"
    r"|\b(?:not|no|never|don'?t|none)\s(?:\w+\s){0,2}(?:quot|pric|offer|bid|tender|make|made|roll|supply|fab|order"
    r"|item|line|part|pos|this|these|us[ei]|includ|cotiz|ofert|offr|fabric|produc|compr)",
    re.I,
)
"""What calls a line off, or says that a paper is not the last."""
_CARRIED = frozenset(("pay", "penalty"))
"""Matters that a clause without a word of its own may go on with in words that no list knows."""
_CLOSED = frozenset(("cert", "delivery", "packing", "marking", "by_others", "errand", "visit"))
"""Matters about which a part is changed in the same words: delivered in halves, marked and punched."""
_SIDES = frozenset(("OD", "Od", "ID", "OR"))


@lru_cache(maxsize=16_384)
def is_business(text: str) -> bool:
    """Return whether a text is about known business matters in all its clauses, and changes no part.

    It holds no word of a size, a shape, a material, work or change, and no number that no word explains.

    >>> is_business("Zahlung 30 Tage netto, 14 Tage 2 % Skonto"), is_business("see dwg 4410-18 rev C")
    (True, True)
    >>> is_business("Zahlung 30 Tage, Blech wird beigestellt"), is_business("rev C changes length to 12")
    (False, False)
    """
    if len(text) > _LONGEST:
        return False
    known = known_words()
    plain = _UNCHANGED.sub(" ", without_plain(text))
    if not _OF_LINES.search(plain):
        plain = _OUT_OF_SCOPE.sub(" ", plain)
    if has_size_sign(plain):
        return False
    if CJK.search(plain):
        plain = known.han.sub(lambda match: f" {match.group()} ", plain)
    matters = _matters(plain, known)
    if says_itself(text):
        matters |= _matters(text, known)
    if not matters:
        return _only_parts(plain, known)
    plain = without_numbers(plain, matters)
    if any(sign.isdigit() for sign in plain):
        return False
    clauses = [clause for clause in _CLAUSES.split(plain) if _TOKEN.search(clause)]
    own = [_matters(clause, known) for clause in clauses]
    heard = next((one for one in own if one), matters)
    for clause, about in zip(clauses, own, strict=True):
        if not _harmless(_Clause(clause, about, heard, text.isupper()), known):
            return False
        heard |= about
    return True


_ELIDED = re.compile(r"^(?:qu|[djlmnst])['’](?=\w{3})")


@lru_cache(maxsize=65_536)
def _plain(token: str) -> str:
    """Return a word folded, without what is elided before it: d'épaisseur, req'd."""
    word = folded(token)
    return _ELIDED.sub("", word).replace("'", "") if "'" in word else word


@dataclass(frozen=True, slots=True)
class _Clause:
    """A clause, the matters that its own words are about, and those that were spoken of before it."""

    text: str
    own: frozenset[str]
    heard: frozenset[str]
    capital: bool

    @property
    def about(self) -> frozenset[str]:
        """Return what it is about: it goes on with what was said before where it names no matter."""
        return self.own or self.heard


def _only_parts(text: str, known: Known) -> bool:
    """Return whether a text names nothing but plant that parts belong to: COOLING TOWER, upper stack."""
    words = [_plain(word) for word in _TOKEN.findall(text)]
    words = [word for word in words if word not in known.joins]
    place = known.matters["place"]
    return bool(words) and all(word in known.parts or word in place.joins for word in words)


def _matters(text: str, known: Known) -> frozenset[str]:
    """Return the matters that the words of a clause are about."""
    words = [_plain(word) for word in _TOKEN.findall(text)]
    found = set().union(*map(_matters_of, words))
    if any(_is_work(word) for word in words):
        found.discard("errand")
        by_them = any(word in known.others or has_stem(word, known.other_stems) for word in words)
        if by_them and not any(word in known.roller for word in words):
            found.add("by_others")
    return frozenset(found)


@lru_cache(maxsize=65_536)
def _matters_of(word: str) -> frozenset[str]:
    """Return the matters that one word is about; long lists say the same few words in every row."""
    return frozenset(name for name, one in known_words().matters.items() if one.is_about(word))


@lru_cache(maxsize=65_536)
def _is_work(word: str) -> bool:
    """Return whether a word is work on the surface or at the place where the part goes."""
    known = known_words()
    return word in known.work or any(one in word for one in known.working)


_BY = re.compile(
    r"\b(?:by|durch|vom|seitens|par|por|dal?|door|przez|av|af|tarafından|tarafindan|de către|od)\s+\w", re.I
)


def _harmless(clause: _Clause, known: Known) -> bool:
    """Return whether a clause holds no word that may change a part, and few that are known to no list."""
    tokens, matters = _TOKEN.findall(clause.text), clause.about
    if matters & _NOTHING_DENIED and (
        _CALLED_OFF.search(clause.text) or (matters & _NAMED and _NOT.search(clause.text))
    ):
        return False
    if "by_others" in clause.heard and not clause.own and _BY.search(clause.text):
        return False  # painting by the client, priming by AN: whoever that is, he is not who was said before
    of_list = bool(matters & _OF_A_LIST)
    unknown = names = 0
    for at, token in enumerate(tokens):
        kind = _kind(token, clause, known)
        if kind == "changes" or (kind == "unknown" and CJK.search(token)):
            return False
        if kind == "unknown" and token[0].isupper() and (at or of_list) and (of_list or not clause.capital):
            names += 1
        elif kind == "unknown":
            unknown += 1
    nobody = matters & _CLOSED and not of_list and not known.somebody.search(clause.text)
    nameless = nobody or known.included.search(clause.text)
    most = 0 if nameless else max(known.matters[name].names for name in matters)
    return names <= most and unknown <= _unknown_of(clause, known, len(tokens))


def _kind(token: str, clause: _Clause, known: Known) -> str:
    """Return what a word is in a clause: known, one that changes a part, or unknown."""
    word, matters = _plain(token), clause.about
    spoken = [known.matters[name] for name in clause.own | clause.heard]
    if word in known.negations and matters & _NOTHING_DENIED and word not in _PLAIN_NOT:
        return "changes"
    own = any(word in one.about or word in one.joins for one in spoken) or token.lower() == "día"
    if own or any(one.begin and word.startswith(one.begin) for one in spoken):
        return "known"
    if _is_work(word) and "by_others" not in matters:
        return "changes"
    if _changes(token, word, known) and not _is_work(word):
        return "changes"
    return "known" if _joins(token, word, clause, known) else "unknown"


def _joins(token: str, word: str, clause: _Clause, known: Known) -> bool:
    """Return whether a word only joins in a clause: another form of a known one, a name of a part or unit."""
    matters = clause.about
    if any(has_stem(word, known.matters[name].stems) for name in clause.own | clause.heard):
        return True
    if word.endswith(NUMBER_ENDS) or word in known.joins or word in known.units or word in known.refs:
        return True
    if len(word) == 1 and not (token.isupper() and "cert" in matters):
        return True
    if "by_others" in matters and (
        word in known.others or has_stem(word, known.other_stems) or _is_work(word)
    ):
        return True
    return bool(matters & _OF_A_LIST) and word in known.parts


def _changes(token: str, word: str, known: Known) -> bool:
    """Return whether a word may change a part: "od" is "from" in some languages, "OD" is a diameter."""
    if token in _SIDES or word in known.changes or word.startswith(known.begin):
        return True
    return len(word) > INSIDE and any(one in word for one in known.inside)


def _unknown_of(clause: _Clause, known: Known, words: int) -> int:
    """Return how many words of a clause may be known to no list: none where work is said the same way."""
    closed = clause.about & _CLOSED
    if (not clause.own and not clause.heard <= _CARRIED) or known.included.search(clause.text):
        return 0
    most = [known.matters[name].unknown for name in closed or clause.about]
    allowed = min(most) if closed else max(most)
    return min(allowed, words // 2, allowed if clause.own else 1)
