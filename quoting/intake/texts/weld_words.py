"""Reads the welding that a text asks of the shop: `full pen weld by roller`, `seal weld`, `tack only`.

A customer who says "we weld" or "weld by customer" asks for nothing. Common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from quoting.core import Extra, Penetration, WeldAsked

_THEIRS = r"(us|others?|customer\w*|cust|client|buyer|purchaser|site|field)"
_OURS = r"(you|roller\w*|vendor|supplier|seller|shop|fabricator|contractor|yourselves)"
_BESIDE = re.compile(
    r"\bweld(ing)?[- ](gap|opening|prep\w*|neck|ends?|map|allowance|shrinkage)s?\b"
    r"|\b(after|before|prior to|for|from|of|ready (for|to))\s+"
    r"(the\s+|our\s+|long\s+|seam\s+|final\s+|being\s+)*weld\w*"
    r"|\bre-?(round|roll)\w*[^,;.]*?(after|post)[- ]?\w*\s*weld\w*|\bpost[- ]weld\b"
    rf"|\b(re)?weld(ed|ing|s)?\b[^,;.]*\bby\s+{_THEIRS}\b|\bwe\s+(will\s+|shall\s+|do\s+the\s+)?weld\w*"
    rf"|\b{_THEIRS}\s+(to\s+|will\s+)?welds?\b|\b(field|site)[- ]weld\w*"
    r"|\b(no|not|un|without|w/o|excl\w*\.?)[- ]{0,2}\s*(long\s+|seam\s+)?weld\w*|\bweld\w*\s+not\b"
    r"|\bgrind\s+welds?\b|\blap\s+seam\w*",
    re.I,
)
_FULL = re.compile(
    r"\b(full|complete|100\s*%)[- ]*(joint[- ]*)?pen\w*|\bcjp\b|\bfully[- ]weld\w*"
    r"|\bweld(ed)?\s+(out|solid|full)",
    re.I,
)
_PARTIAL = re.compile(r"\b(partial|part)[- ]*(joint[- ]*)?pen\w*|\bpjp\b", re.I)
_SEAL = re.compile(r"\bseal[- ]?weld", re.I)
_ASKED = re.compile(
    rf"\bweld\w*\b[^,;.]*\bby\s+{_OURS}\b|\b{_OURS}\s+(to\s+)?welds?\b|\bweld\s+(the\s+)?(long\s+)?seams?\b"
    r"|\bseams?\s+(to be\s+)?welded\b|\bbutt[- ]?weld\w*",
    re.I,
)
_ANY = re.compile(r"\bweld(ed|ing)?\b", re.I)
_TACK = re.compile(r"\btack(ed|s|ing)?\b", re.I)
_TACK_WELD = re.compile(
    r"\b(tack(ed|s|ing)?[- ]*(weld(ed|ing|s)?|seams?)|welds? tack(ed|s)?)"
    r"(\W+(the|long|seams?|only|in|rolls))*",
    re.I,
)
"""A tack in so many words: the weld and the seam in them ask for no more than the tack."""
_NO_TACK = re.compile(r"\b(no|not|without|w/o|do not|don't)\s+tack|\bun-?tacked", re.I)
_GIRTH = re.compile(r"\b(girth|circ\w*|round)\s+(seams?|welds?)\b|\ball seams\b", re.I)
_LONG = re.compile(r"\blong\w*\s+(seams?|welds?)\b|\ball seams\b|\bseam\b", re.I)
_GOUGE = re.compile(r"\bback[- ]?(gouge|chip|goug)\w*|\bgouge and\b", re.I)
_EXTRAS = (
    (Extra.STRAIGHTEN, re.compile(r"\b(straighten\w*|level(l)?(ed|ing)|flatten\w*)\b", re.I)),
    (Extra.TEMPLATE, re.compile(r"\b(make|supply|provide|furnish)\s+(a\s+|the\s+)?template", re.I)),
    (
        Extra.GRIND_EDGES,
        re.compile(
            r"\b(grind|dress)\s+(all\s+|the\s+|cut\s+)*edges?\b|\bedges?\s+(to be\s+)?(ground|dressed)\b",
            re.I,
        ),
    ),
)
_NOT = re.compile(r"\b(no|not|without|w/o|excl\w*|do not)\W+(\w+\W+)?$", re.I)


@dataclass(frozen=True, slots=True)
class WeldSaid:
    """What a text asks: the weld (None for none), tacks in the rolls, and whether it is not clear."""

    weld: WeldAsked | None = None
    tack: bool = False
    unclear: bool = False


@lru_cache(maxsize=8192)
def weld_in(text: str) -> WeldSaid:
    """Return the welding that a text asks of us.

    >>> weld_in("full pen weld by roller").weld.penetration.value, weld_in("seams open, we weld").weld
    ('full penetration', None)
    >>> weld_in("tack only").tack, weld_in("welded shell").unclear, weld_in("weld gap 2 mm").unclear
    (True, True, False)
    """
    tack = bool(_TACK.search(text)) and not _NO_TACK.search(text)
    plain = _BESIDE.sub(" ", _TACK_WELD.sub(" tack ", text))
    depth = next(
        (
            penetration
            for pattern, penetration in (
                (_SEAL, Penetration.SEAL),
                (_PARTIAL, Penetration.PARTIAL),
                (_FULL, Penetration.FULL),
            )
            if pattern.search(plain)
        ),
        None,
    )
    theirs = re.search(rf"\bby\s+{_THEIRS}\b", text, re.I) and not re.search(rf"\bby\s+{_OURS}\b", text, re.I)
    if depth is None and _ASKED.search(plain):
        depth = Penetration.FULL
    if depth is None or theirs:
        left = _TACK.sub(" ", plain)
        return WeldSaid(None, tack, unclear=bool(_ANY.search(left)) and not theirs and not tack)
    girth = bool(_GIRTH.search(plain))
    return WeldSaid(
        WeldAsked(depth, not girth or bool(_LONG.search(plain)), girth, bool(_GOUGE.search(plain))), tack
    )


@lru_cache(maxsize=8192)
def extras_in(text: str) -> tuple[Extra, ...]:
    """Return the handwork that a text asks for.

    >>> extras_in("straighten before rolling, edges ground")
    (<Extra.STRAIGHTEN: 'straightening of the plate'>, <Extra.GRIND_EDGES: 'cut edges ground'>)
    """
    found = []
    for extra, pattern in _EXTRAS:
        match = pattern.search(text)
        if match and not _NOT.search(text[: match.start()]):
            found.append(extra)
    return tuple(found)


def weld_text(weld: WeldAsked) -> str:
    """Return a weld as a draft keeps it.

    >>> weld_text(WeldAsked(Penetration.FULL, back_gouge=True))
    'full penetration;long;gouge'
    """
    parts = [weld.penetration.value]
    parts += [name for name, asked in (("long", weld.long_seam), ("girth", weld.girth_seams)) if asked]
    return ";".join([*parts, *(["gouge"] if weld.back_gouge else [])])


def weld_of(text: str) -> WeldAsked | None:
    """Return the weld that `weld_text` wrote, None for an empty text or "none"."""
    if not text or text == "none":
        return None
    depth, *parts = text.split(";")
    return WeldAsked(Penetration(depth), "long" in parts, "girth" in parts, "gouge" in parts)


def weld_said(text: str) -> str:
    """Return what `weld_text` wrote as a person says it.

    >>> weld_said("full penetration;long;gouge"), weld_said("none")
    ('long seam welded by us, full penetration, back-gouged', 'no welding by us')
    """
    weld = weld_of(text)
    if weld is None:
        return "no welding by us"
    seams = (("long seam", weld.long_seam), ("girth seams", weld.girth_seams))
    gouge = ", back-gouged" if weld.back_gouge else ""
    named = " and ".join(name for name, asked in seams if asked)
    return f"{named} welded by us, {weld.penetration.value}{gouge}"
