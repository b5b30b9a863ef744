"""Cells under the heading of some work that say who does it: Weld, by you; Paint, by others."""

from __future__ import annotations

import re
from functools import lru_cache

_OF_WORK = re.compile(
    r"\b(?:weld\w*|seams?|bevel\w*|chamfer\w*|prep\w*|edges?|paint\w*|prim(?:e|ed|er|ing)|coat\w*|blast\w*|galv\w*"
    r"|holes?|drill\w*|tests?|testing|nd[te]|hydro\w*|x-?ray|finish\w*|polish\w*|certs?|certific\w*|machin\w*"
    r"|lin(?:ed|ing)|insul\w*|tack\w*|fit-?up|clean\w*|inspect\w*|pwht|stress\w*|heat treat\w*"
    r"|pr[üu]f\w*|essais?|contr[ôo]les?|prueba\w*|ensayos?|collaud\w*|prov[ae]|keuring\w*|beproev\w*|badani\w*"
    r"|pr[óo]b[ay]|zkou[šs]\w*|provning|pr[øo]vning|testaus|vizsg[áa]lat\w*|испытан\w*|контрол\w*"
    r"|flanges?|nozzles?|lugs?|heads?|dished ends?|end ?plates?|covers?|lids?|legs?|stiff\w*|brackets?|bolts?"
    r"|gaskets?|trunnions?|ladders?|cut-?outs?|mark\w*|pack\w*|install\w*|erect\w*)\b",
    re.I,
)
_OF_MORE = re.compile(
    r"\b(?:plates?|material|matl|steel|stock|supply|supplied|issue|metal|remarks?|notes?|comments?|status|scope"
    r"|marks?(?: no)?)\b",
    re.I,
)
"""A heading with one of these is about the plate or the whole line."""
_DONE = r"\W*(?:(?:to be |is |all )?(?:done|made|cut|prepared|welded|painted|supplied|provided) )?"
_LAID_ON = (
    r"(?:\W*(?:(?:natural|hard|soft|\d{1,2} ?mm) )?(?:rubber|ebonite|ceramics?|refractory|epoxy|ptfe"
    r"|glass|tiles?|bricks?|polyurethane|pu|enamel|lead|paint|primer|zinc)[ ,:-]+)?"
)
"""What is laid on a part by those who do it: Lining, rubber by others."""
_OTHERS = re.compile(
    _LAID_ON
    + _DONE
    + r"(?:by|at|in|on|from) (?:our (?:own )?\w+|(?:the |our )?(?:others?|us|ourselves|them|site|field|yard"
    r"|plant|customer|cust\.?|client|owner|buyer|purchaser|erector|fabricator|installer|contractor|galvani[sz]er|painter|coater"
    r"|fitters?|welders?|crew|end[- ]?user|third part(?:y|ies)|specialist|own \w+)s?)(?: shop)?"
    r"(?: (?:later|after(?:wards)?|on site))?"
    r"(?:\W+\d+(?:[.,]\d+)? ?(?:bar[ga]?|psi[ga]?|[mk]pa|%|hrs?|h))?\W*"
    r"|\W*(?:bauseits|kundenseitig|durch (?:uns|den kunden|dritte|besteller))\W*"
    r"|\W*no\W+(?:thanks?\W+)?(?:we|i|they) (?:will |shall |can )?(?:do|weld|make|drill|paint|cut)"
    r"(?: (?:it|that|this|them))?(?: (?:ourselves|later|on site|here|in house))?\W*"
    r"|\W*(?:par (?:nous|le client|vos soins nous)"
    r"|por (?:nosotros|el cliente|n[óo]s|o cliente|terceros)|a (?:cura del|carico del) cliente|da noi"
    r"|door (?:ons|klant|derden)|we w[łl]asnym zakresie|przez klienta|z[áa]kazn[íi]kem|av (?:oss|kund|kunden)"
    r"|vevő által|asiakas)\W*",
    re.I,
)
_OURS = re.compile(
    _DONE
    + r"(?:by|at|from) (?:you|yours|yourselves|(?:the )?(?:roller|vendor|supplier|seller)|(?:your )?shop)\W*",
    re.I,
)


@lru_cache(maxsize=1024)
def is_work(header: str) -> bool:
    """Return whether a heading is about work on a part, and not about its plate or the whole line.

    >>> is_work("Edge prep"), is_work("Plate supplied"), is_work("Remarks")
    (True, False, False)
    """
    return _OF_WORK.search(header) is not None and _OF_MORE.search(header) is None


@lru_cache(maxsize=8192)
def who_does(text: str) -> str:
    """Return `others` or `us` for a cell that only says who does some work, nothing for any other.

    `us` is the shop that rolls, which the sheet calls you.

    >>> who_does("rubber by others"), who_does("done by your shop"), who_does("by you, full pen")
    ('others', 'us', '')
    """
    if _OTHERS.fullmatch(text):
        return "others"
    return "us" if _OURS.fullmatch(text) else ""
