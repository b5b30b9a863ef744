"""Which lines a note names by their numbers, and which grades it gives to several groups of them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise

from quoting.core import NumberStyle
from quoting.intake.texts import part_text
from quoting.intake.words import said_in_text
from quoting.shop import Materials

ITEMS = re.compile(
    r"(?<!\ball )(?<!\bevery )(?<!\beach )(?<!\bof )"
    r"(?:\b(?:items?|lines?|lots?|seq(?:uence)?s?\.?|po[sz](?:[iy][cz][a-zãóçęęąí]*|ition)?s?\.?|[ií]te[mn]s?|rep[eè]res?|kalem|t[eé]tel\w*|marks?|parts?|reps?\.?"
    r"|no\.?s?(?=[\s.:]*\d))|(?<!\w)#)\s*(?:no\.?\s*)?"
    r"((?:[A-Z]{0,3}-?\d{1,4}[A-Za-z]?|[A-Z]\d?)(?:\s*(?:,|and|&|\+|to|thru|through|-|–|à|bis|y|e|et|und|i|och|og|en|ve|a)\s*(?:[A-Z]{0,3}-?\d{1,4}[A-Za-z]?))*)\b",
    re.I,
)
REFS = re.compile(r"\b(?:[Rr]ef|REF)\.?\s+([A-Z]\d{0,2})\b")
_PIECES = re.compile(
    r"([A-Za-z]{0,3}-?)(\d{1,4})([A-Za-z]?)\s*(?:(to|thru|through|-|–|à|bis)\s*[A-Za-z]{0,3}-?(\d{1,4}))?"
)


def items_in(text: str) -> frozenset[str]:
    """Return the line numbers a text names, in lower case: item 4, items 1 to 3, pos. A2 and A5.

    >>> sorted(items_in("items 1 to 3 and 7: free issue"))
    ['1', '2', '3', '7']
    """
    found: set[str] = set()
    found |= {match.group(1).lower() for match in REFS.finditer(text)}
    for match in ITEMS.finditer(text):
        if re.match(r"(no|#)", match.group(), re.I) and not _of_a_line(text, match.start()):
            continue
        if _OF_A_PLANT.search(text[: match.start()]) and match.group()[:5].lower() == "line ":
            continue
        for lead, first, letter, _, last in _PIECES.findall(match.group(1)):
            word = "lot " if match.group().lower().startswith("lot") else ""
            found.add(f"{word}{lead}{first}{letter}".lower())
            if last and int(first) < int(last) < int(first) + _MOST:
                found |= {f"{word}{lead}{number}".lower() for number in range(int(first), int(last) + 1)}
        found |= _those_behind(text, match)
    return frozenset(found)


_OF_A_PLANT = re.compile(
    r"\b(?:tailings?|production|process\w*|assembly|slurry|conveyor|kiln|feed|steam|coating|paint\w*|filling|packing"
    r"|bottling|drain|main|supply|return|sewer|water|gas|air|exhaust|flue|pipe|transfer|mill|plant|crushing|screening"
    r"|sinter\w*|pickling|galvani[sz]ing|casting|discharge|pulp|belt|tank|stack|duct|train)\s+$",
    re.I,
)
"""What stands before a line of a plant, which is no line of the sheet: tailings line 2."""


def _of_a_line(text: str, start: int) -> bool:
    """Return whether `no. 3` or `#3` in a note is a line, and no finish and no number of the note itself.

    It is where the note names lines, or where it opens with it and calls something off or holds it.
    """
    if re.search(r"\b(item|line|pos)", text, re.I):
        return True
    opens = not any(sign.isalnum() for sign in text[:start])
    return opens and any(said.name == "status" and said.does != "note" for said in said_in_text(text)[0])


_MOST = 100
"""So many lines may be named by a first and a last one, or by the first alone."""
_ONWARDS = re.compile(
    r"\s*(?:onwards?|and (?:up|above|over|on|onwards?|following|after|later|higher)|upwards?|ff?\.?(?!\w)"
    r"|\+(?!\s?\d)"
    r"|and all (?:after|following)|to (?:the )?end|(?:und|u\.) (?:folgende|ff)|et suivant\w*|y siguientes"
    r"|en adelante|e seguent\w*|in poi|en verder|i dalej|i kolejn\w*|a d[aá]le|och fram[aå]t|og frem\w*"
    r"|eteenpäin)",
    re.I,
)
_FROM = re.compile(
    r"\b(?:from|ab|à partir d[ue]s?|a partir d[aeo]l?|dal(?:la)?|desde(?: el| la)?|vanaf|fra|från"
    r"|starting (?:with|at))\s+(?:the )?$",
    re.I,
)
_LAST_NUMBER = re.compile(r"([A-Za-z]{0,3}-?)(\d{1,4})$")


def _those_behind(text: str, match: re.Match[str]) -> set[str]:
    """Return the lines behind the last of those named, where a note goes on with them: item 6 onwards."""
    last = _LAST_NUMBER.search(match.group(1))
    begins = _FROM.search(text[: match.start()]) and len(_PIECES.findall(match.group(1))) == 1
    if last is None or not (begins or _ONWARDS.match(text, match.end())):
        return set()
    number = int(last[2])
    return {f"{last[1]}{one}".lower() for one in range(number, number + _MOST)}


_REST = re.compile(
    r"\b(?:all |the |alle |tous les |todos los |tutti gli )?"
    r"(?:others?|rest|remaining|remainder|balance|übrigen?|autres|restantes|demás|otros|altri|altre|outros|overige"
    r"|pozosta[łl]e|ostatn[ií]|övriga|øvrige|resten|reszta|zbytek)\b(?: (?:items?|lines?|parts?|pos\w*))?",
    re.I,
)
_JOINS = frozenset((
    "material", "materials", "matl", "grade", "grades", "steel", "plate", "plates", "in", "of", "is", "are",
    "to", "be", "from", "for", "and", "made", "use", "all", "the", "with", "items", "item", "lines", "line",
    "thru", "through", "pos", "while", "but", "ab",
))  # fmt: skip
"""The words that may stand beside the lines and their grades."""
_WORD = re.compile(r"[^\W\d_]+")
_DIGIT = re.compile(r"\d")


def grades_of_lines(text: str, materials: Materials) -> tuple[tuple[frozenset[str], str], ...]:
    """Return which lines a note gives which grade, where it says nothing else and gives several.

    The rest has no numbers: it is all but those named. So reads "items 1 to 5 in 304L, item 6 on S235JR".
    """
    part = part_text(text, NumberStyle.POINT, materials)
    lines = [match.start() for match in ITEMS.finditer(text)]
    lines += [match.start() for match in _REST.finditer(text)]
    grades = {text.find(words): words for _, words in part.grades}
    if len(lines) < len(("one", "other")) or len(lines) != len(grades) or -1 in grades or part.said:
        return ()
    order = sorted((*((at, False) for at in lines), *((at, True) for at in grades)))
    if any(one[1] == other[1] for one, other in pairwise(order)) or not _only_joined(text, grades.values()):
        return ()
    first = 0 if order[0][1] else 1
    ends = [*[at for at, is_grade in order if is_grade == (first == 0)][1:], len(text)]
    starts = [0, *ends[:-1]]
    found = []
    for words, start, end in zip(dict(sorted(grades.items())).values(), starts, ends, strict=True):
        chunk = text[start:end].replace(words, " ")
        found.append((frozenset[str]() if _REST.search(chunk) else items_in(chunk), words))
    return tuple(found) if sum(not own for own, _ in found) <= 1 else ()


def _only_joined(text: str, grades: Iterable[str]) -> bool:
    """Return whether a text holds nothing but lines, grades, and what joins them."""
    for words in grades:
        text = text.replace(words, " ")
    left = _ONWARDS.sub(" ", ITEMS.sub(" ", _REST.sub(" ", text)))
    return all(word in _JOINS for word in _WORD.findall(left.lower())) and not _DIGIT.search(left)
