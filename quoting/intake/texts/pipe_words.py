"""Pipe sizes in words: NPS 24 STD, 16" sch 40, DN500 XS pipe, std wall.

The sizes and walls are those of ASME B36.10M and B36.19M (`quoting/core/units/pipes.toml`).
"""

from __future__ import annotations

import re
from functools import lru_cache

_NUMBER = r"(?:5s|10s|40s|80s|10|20|30|40|60|80|100|120|140|160)"
_NAMED = r"(?:std|xxs|xxh|xs|xh)"
_SCHEDULE = re.compile(
    rf"\b(?:sch(?:ed(?:ule)?)?|c[eé]d(?:ula)?)\.?\s*[-/:]?\s*(?P<led>{_NUMBER}|{_NAMED})\b"
    rf"|(?<!nps )(?<!dn )\b(?P<before>{_NUMBER})\s*sch(?:ed(?:ule)?)?\b\.?(?!\s*[-/:]?\s*(?:\d|{_NAMED}\b))"
    rf"|\bs[/-](?P<short>{_NUMBER}|{_NAMED})\b"
    rf"|\b(?P<weight>std|xs|xxs|xh)\.?\s*(?:wt|wgt|weight|wall)\b\.?"
    rf"|\b(?P<named>{_NAMED})\b(?=\.?\s*(?:\d{{1,2}}(?:\"|in\b)?\s*)?(?:pipe|nps)\b)"
    rf"|(?P<lead>\b(?:nps|dn|nb)\s?\d{{1,4}}(?:\s?\d/\d)?\"?|\b\d{{1,2}}(?:\"|in\b|\s?(?:nps|nb)\b)(?:\s*(?:nps|nb)\b)?(?:\s+pipe)?)"
    rf"[\s,x]+(?P<after>{_NAMED})\b(?:\.?\s*(?:wt|wgt|weight|wall)\b\.?)?",
    re.I,
)
_ALONE = re.compile(
    rf"(?:sch(?:ed(?:ule)?)?\.?\s*)?(?P<named>{_NAMED})\.?(?:\s*(?:wt|wgt|wall|weight))?\.?", re.I
)
_BARE = re.compile(rf"(?P<number>{_NUMBER})", re.I)
_SAME = {"XH": "XS", "XXH": "XXS"}
_NOMINAL = re.compile(
    r"(?<![\d./-])(?P<size>\d{1,2}(?:[ -]\d/\d)?)(?:\s?(?:\"|''|in\b\.?|inch\b))?"
    r"(?P<rest>(?:\s*(?:nom\w*|dia\.?|pipe))*\s*[,x]?\s*(?:of\s+)?)(?=§)"
    r"|(?<=§)(?P<more>\s*)(?P<late>\d{1,2}(?:[ -]\d/\d)?)(?:\s?(?:\"|''|in\b\.?|inch\b))?(?=\s*pipe\b)",
    re.I,
)
_NAMED_SIZE = re.compile(r"\b(?:nps|dn|nb)\s?\d|\d\"?\s?(?:nps|nb)\b|\bod\b|\bo\.d\b|\bid\b", re.I)


@lru_cache(maxsize=8192)
def schedule_in(text: str) -> tuple[str, str]:
    """Return the pipe schedule that a text names ("" for none), and the text with its pipe as `NPS 24`.

    >>> schedule_in('16" sch 40 x 1500 mm long'), schedule_in("DN500 STD x 2000 lg")
    (('40', 'NPS 16 ;  x 1500 mm long'), ('STD', 'DN500 ;  x 2000 lg'))
    >>> schedule_in("std tolerance")
    ('', 'std tolerance')
    """
    match = _SCHEDULE.search(text)
    if match is None:
        return "", text
    name = next(
        match[group] for group in ("led", "before", "short", "weight", "named", "after") if match[group]
    )
    lead = f"{match['lead']} " if match["lead"] else ""
    marked = f"{text[: match.start()]}{lead}§{text[match.end() :]}"
    if not _NAMED_SIZE.search(text):
        marked = _NOMINAL.sub(
            lambda found: f"{found['more'] or ''}NPS {found['size'] or found['late']} ", marked, 1
        )
    return _named(name), re.sub(r"\bpipe\b", "", marked.replace("§", "; "), flags=re.I)


_ONE = r"(?:std|xxs|xs|sch(?:edule)?\.?\s?\d{1,3}s?|\d{1,3}s)"
_TWO_SCHEDULES = re.compile(rf"\W*{_ONE}\s*(?:or|/|and|&)\s*{_ONE}\W*", re.I)


def is_two_schedules(text: str) -> bool:
    """Return whether a cell names two schedules of a pipe, and leaves open which is meant.

    >>> is_two_schedules("std or XS"), is_two_schedules("STD")
    (True, False)
    """
    return _TWO_SCHEDULES.fullmatch(text) is not None


def schedule_cell(text: str, *, column: bool) -> str:
    """Return the schedule that a cell holds and nothing else; a bare 40 only in a column of schedules.

    >>> schedule_cell("Sch 40", column=False), schedule_cell("40", column=True)
    ('40', '40')
    >>> schedule_cell("40", column=False)
    ''
    """
    plain = text.strip()
    match = _ALONE.fullmatch(plain) or (_BARE.fullmatch(plain) if column else None)
    if match is not None:
        return _named(next(iter(match.groupdict().values())))
    match = _SCHEDULE.fullmatch(plain)
    found = match and next((match[name] for name in ("led", "before", "short", "weight") if match[name]), "")
    return _named(found) if found else ""


def _named(name: str) -> str:
    plain = name.upper().rstrip(".")
    return _SAME.get(plain, plain)


_DN = re.compile(r"\b(?:dn|mm)\b", re.I)
_SIZE_ALONE = re.compile(r"(?P<size>\d{1,4}(?:[ -]\d/\d)?)\s*(?:\"|''|in\b\.?|inch)?(?:\s*pipe)?", re.I)
_TWO_SIZES = re.compile(r"(\d{1,4}\"?)\s*(?:[/x×→]|-+>|\s-\s|\bto\b)\s*(\d{2,4}\"?)", re.I)
"""The pipes at the two ends of a reducer: 1000/800; 24 x 20."""
_LARGEST_NPS = 80


def nominal_cell(text: str, header: str) -> str:
    """Return a cell of a column of nominal pipe sizes as `NPS 24` or `DN 600`; any other text as it stands.

    >>> nominal_cell('24"', "Pipe size"), nominal_cell("600", "DN"), nominal_cell("24 OD", "Pipe size")
    ('NPS 24', 'DN 600', '24 OD')
    >>> nominal_cell("1000/800", "DN"), nominal_cell('24" x 20"', "Pipe size")
    ('DN 1000/DN 800', 'NPS 24/NPS 20')
    """
    ends = _TWO_SIZES.fullmatch(text.strip())
    if ends is not None:
        return "/".join(nominal_cell(end, header) for end in ends.groups())
    match = _SIZE_ALONE.fullmatch(text.strip())
    if match is None:
        return text
    size = match["size"]
    metric = _DN.search(header) is not None or (size.isdecimal() and int(size) > _LARGEST_NPS)
    return f"{'DN' if metric else 'NPS'} {size}"
