"""Which size of a text a cone goes down to: cone to 300 ID, Konus auf Ø 500, tapers to 300."""

from __future__ import annotations

import re
from functools import lru_cache

from quoting.core import Mark, Measure
from quoting.intake.texts import shape_words

_GOES = (
    r"(?:con(?:e|es|ical\w*|i[cq]\w*|us\w*|[oi])|cônes?|kon(?:isch\w*|us\w*|[iu])?|kegel\w*|sto[żz]e?k\w*|ku[žz]el\w*"
    r"|frust\w*|reduc\w*|reduz\w*|taper\w*|narrow\w*|hoppers?|funnels?|verj[uü]n\w*|verloop\w*|konverg\w*|converg\w*)"
)
_TO = r"(?:(?:down\s+)?(?:on)?to|auf|naar|op|à|a|ad|na|do|su|til|till|para|pentru|la|på|→|-+>)"
_MARKS = (
    r"(?:(?:the|an?|small(?:er)?|end|other|top|bottom|of|[iom]\.?d\b\.?|[io]/d\b|inside|outside|inner|outer|mean"
    r"|dia(?:m(?:eter)?)?\b\.?|ø|⌀|[=:])\s*)*"
)
_END = re.compile(
    rf"\b{_GOES}\b[^\d;:]{{0,40}}?(?<![^\s,.]){_TO}\s+{_MARKS}"
    r"(?P<number>\d[\d.,]*(?:[ -]\d{1,2}/\d{1,2})?|\d{1,2}/\d{1,2})"
    r"(?!\s?(?:°|deg|kg|lbs?|%|pcs|off|days?|weeks?|thk|thick|long|lg|high)|[\d/])",
    re.I,
)


_BESIDE = re.compile(
    r"\b(?:for|on|at|above|below|under|over|with|to|into|of|and|plus|mates?|joins?|fits?|weld\w*|bolt\w*|see|like|as"
    r"|zu|zum|für|fur|an|am|auf|unter|über|mit|und|pour|sur|sous|avec|et|para|per|su|sotto|sopra|con|com|e|y"
    r"|na|do|pod|nad|z|i|voor|op|onder|boven|met|en|till|til|med|och|og)\b",
    re.I,
)
"""Before the cone of a text: it stands beside the part, and is none itself."""


@lru_cache(maxsize=8192)
def end_gone_to(text: str) -> str:
    """Return the number of the diameter that a text says its cone goes to from another one, or nothing.

    >>> end_gone_to("cone concentric to ID 500, 900 high"), end_gone_to("tapers to 12-1/2 ID")
    ('500', '12-1/2')
    >>> end_gone_to("cone 900 to 500"), end_gone_to("cone to 60 deg"), end_gone_to("below the cone to 500")
    ('', '', '')
    """
    match = _END.search(text)
    if match is None:
        return ""
    before = text[: match.start()]
    beside = _BESIDE.search(before) or shape_words(before)
    return "" if beside else match["number"].rstrip(".,")


def is_other_end(size: Measure, plain: str, gone_to: str) -> bool:
    """Return whether a size of a text is the one its cone goes to: a diameter, or nothing said of it."""
    may_be = size.mark in (None, Mark.DIAMETER) and bool(gone_to)
    return may_be and gone_to in plain[size.start : size.end]
