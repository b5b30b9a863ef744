"""Words in shape, ends, certificate and remark cells, and what they mean for the line."""

from __future__ import annotations

import re
import tomllib
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from quoting.core import Ends

BASIS_WORDS = {
    "id": "inside", "i": "inside", "inside": "inside", "ir": "inside", "inside dia": "inside",
    "od": "outside", "o": "outside", "outside": "outside", "or": "outside", "outside dia": "outside",
    "i/s": "inside", "o/s": "outside", "inner": "inside", "outer": "outside", "neutral": "mean",
    "neutral axis": "mean", "middle": "mean",
    "innen": "inside", "a": "outside", "aussen": "outside",
    "md": "mean", "m": "mean", "mean": "mean", "cl": "mean", "c/l": "mean", "centerline": "mean",
    "centreline": "mean", "mean dia": "mean",
}  # fmt: skip
_ENDS_CELL = {
    "yes": Ends.PRE_BEND, "y": Ends.PRE_BEND, "x": Ends.PRE_BEND, "no": Ends.LEAVE_FLAT, "n": Ends.LEAVE_FLAT,
    "trim": Ends.TRIM, "trimmed": Ends.TRIM, "flat": Ends.LEAVE_FLAT, "pb": Ends.PRE_BEND,
}  # fmt: skip
_YES = re.compile(r"^(true|req'?d\.?|required|3\.1|3\.2|2\.2|mtrs?|certs?|1)\b|3\.1|mtr|cert", re.I)
_CUT_OFF = re.compile(r"(to be |be )?(trim|cut|crop|remove)\w*\b")
SAYS_NO = frozenset((
    "no", "n", "nein", "non", "nee", "nie", "não", "nao", "nej", "nei", "ne", "ei", "nem", "hayır", "hayir",
    "нет", "否", "无", "不",
))  # fmt: skip
SAYS_YES = frozenset((
    "yes", "y", "x", "✓", "✔", "ja", "oui", "si", "sí", "sim", "tak", "ano", "igen", "evet", "var", "kyllä",
    "да", "是", "有",
))  # fmt: skip
"""Whole answers in a cell, as several languages give them (from memory)."""
_NO = re.compile(r"^(not|none|n/a|-|false|0|w/o|without|not req)\b", re.I)
_NOT_BEFORE = re.compile(r"\b(no|not|without|w/o|excl\w*)\W+(\w+\W+)?$", re.I)


@cache
def _rules(kind: str) -> tuple[tuple[re.Pattern[str], Any], ...]:
    table = tomllib.loads(files(__package__).joinpath("trade_words.toml").read_text(encoding="utf-8"))
    return tuple((re.compile("|".join(rule["any"]), re.I), rule["sets"]) for rule in table[kind])


@lru_cache(maxsize=4096)
def _shape(text: str) -> tuple[tuple[str, str], ...]:
    for pattern, found in _rules("shape"):
        if pattern.search(text):
            return tuple(found.items())
    return ()


def shape_words(text: str) -> dict[str, str]:
    """Return the shape fields that a text names; nothing when it names none.

    >>> shape_words("Half shell"), shape_words("cone, concentric")
    ({'shape': 'arc', 'half': 'yes'}, {'shape': 'cone'})
    """
    return dict(_shape(text))


@lru_cache(maxsize=4096)
def may_be_segment(text: str, *, beside_arcs: bool) -> bool:
    """Return whether a text may mean a part of a circle without naming it.

    Some words do so only in a sheet that also orders arcs. Common practice, no source.

    >>> may_be_segment("tank, half", beside_arcs=False), may_be_segment("shroud", beside_arcs=True)
    (True, False)
    """
    return any(pattern.search(text) for pattern, where in _rules("segment") if beside_arcs or where == "any")


@lru_cache(maxsize=4096)
def ends_in(text: str) -> Ends | None:
    """Return what a remark says about the ends; ductwork is rolled without pre-bend.

    Common practice, no source.

    >>> ends_in("no pre-bend, flats OK"), ends_in("prebend both ends")
    (<Ends.LEAVE_FLAT: 'leave flat'>, <Ends.PRE_BEND: 'pre-bend'>)
    """
    for pattern, ends in _rules("ends"):
        if pattern.search(text):
            return Ends(ends)
    return None


def ends_cell(text: str, header: str) -> Ends | None:
    """Return what a cell of an ends column says; a bare yes or no answers a header that says pre-bend."""
    plain = text.lower().strip()
    if "flat" in header.lower() and (found := ends_in(text) or _about_flats(plain)):
        return found
    said = "yes" if plain in SAYS_YES else "no" if plain in SAYS_NO else plain
    if said in ("yes", "no") and "pre" not in header.lower():
        return None
    return ends_in(text) or _ENDS_CELL.get(said) or (Ends.TRIM if _CUT_OFF.match(plain) else None)


def _about_flats(plain: str) -> Ends | None:
    """Return what a cell under a heading about flats says of them: ok, none, cut off."""
    if _CUT_OFF.match(plain):
        return Ends.TRIM
    if re.match(r"(ok|okay|allowed|accept\w*|fine|leave|may stay|permitted|left)\b", plain):
        return Ends.LEAVE_FLAT
    return Ends.PRE_BEND if re.match(r"(no|none|nil|without|not (ok|allowed|accept\w*))\b", plain) else None


def yes_no(text: str) -> bool | None:
    """Return yes or no from a cell that answers its header, None when it does neither."""
    first = text.lower().replace(",", " ").split()[:1]
    if _NO.match(text) or SAYS_NO.intersection(first):
        return False
    return True if _YES.search(text) or SAYS_YES.intersection(first) else None


@lru_cache(maxsize=4096)
def flags_in(text: str) -> tuple[str, ...]:
    """Return which of certificate, free_issue, re_round and grain_along a remark asks for.

    A word with "no" or "without" before it asks for nothing.

    >>> flags_in("MTRs please, re-round after weld"), flags_in("no MTR")
    (('certificate', 're_round'), ())
    """
    found = []
    for pattern, name in _rules("flag"):
        match = pattern.search(text)
        if match and not _NOT_BEFORE.search(text[: match.start()]):
            found.append(name)
    return tuple(found)
