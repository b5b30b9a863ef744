"""Words in shape, ends, certificate and remark cells, and what they mean for the line."""

from __future__ import annotations

import re

from quoting.parts import Ends

_SHAPES: tuple[tuple[str, dict[str, str]], ...] = (
    (r"\becc(entric)?\b|\boffset cone\b|\bsquare[- ]to[- ]round\b|\bs\s?q\s?/?\s?rd\b|\boblique\b", {"shape": "unsupported"}),
    (r"\bhalf[- ]?(shells?|round|circle|pipe|cylinders?|sections?)\b|^\s*(half|1/2|½)\s*$|\bsemi[- ]?(circle|circular|cylind)|\b1/2 shell", {"shape": "arc", "half": "yes"}),
    (r"\bquadrant|\bquarter[- ](shells?|round|circle)", {"shape": "arc", "angle": "90"}),
    (r"\bcon(e|es|ical)\b|\bfrust(um|a)\b|\bconcentric reducer|\bcone\b|\breducer\b|\bhopper\b", {"shape": "cone"}),
    (r"\barcs?\b|\bsegments?\b|\bseg\b|\bsectors?\b|\bcurved\b|\bpartial\b|\bsaddle\b|\bpads?\b|\brepads?\b", {"shape": "arc"}),
    (r"\bcyl(inders?|\.)?\b|\bshells?\b|\bcans?\b|\btubes?\b|\bpipes?\b|\brings?\b|\bfull\b|\bround\b|\bsleeves?\b|\bliners?\b|\bducts?\b|\bcasings?\b|\bcourses?\b|\bbarrel\b|\bstack\b|\bdrum\b", {"shape": "cylinder"}),
    (r"\bflat\b", {"shape": "flat"}),
    (r"\belbows?\b|\bheads?\b|\bdish|\bflanges?\b|\bangles?\b|\bchannels?\b|\bbeams?\b|\btees?\b|\bbars?\b|\bbox\b|\brect", {"shape": "unsupported"}),
)  # fmt: skip
_SHAPE_RULES = tuple((re.compile(pattern, re.I), found) for pattern, found in _SHAPES)
_ENDS = (
    (re.compile(r"\b(no|without|w/o|not?)\s+pre-?\s?bend|\bflats?\s+(are\s+)?(ok|okay|allowed|acceptable|accepted)\b|\bleave\s+flats?\b|\bduct(ing|work|s)?\b|\bhvac\b|\bas[- ]rolled ends\b", re.I), Ends.LEAVE_FLAT),
    (re.compile(r"\btrim(med)?\s+(the\s+)?(flats?|ends?|after)\b|\bflats?\s+(cut off|trimmed|removed)\b|\btrim after rolling\b", re.I), Ends.TRIM),
    (re.compile(r"\bpre-?\s?(bend|bent)|\bno\s+flats?\b|\bflats?\s+not\s+(ok|allowed|acceptable)\b|\btrue to (the )?edge", re.I), Ends.PRE_BEND),
)  # fmt: skip
_ENDS_CELL = {
    "yes": Ends.PRE_BEND, "y": Ends.PRE_BEND, "x": Ends.PRE_BEND, "no": Ends.LEAVE_FLAT, "n": Ends.LEAVE_FLAT,
    "trim": Ends.TRIM, "trimmed": Ends.TRIM, "flat": Ends.LEAVE_FLAT, "pb": Ends.PRE_BEND,
}  # fmt: skip
_YES = re.compile(
    r"^(y|yes|x|✓|✔|true|req'?d\.?|required|3\.1|3\.2|2\.2|mtrs?|certs?|1)\b|3\.1|mtr|cert", re.I
)
_NO = re.compile(r"^(n|no|not|none|n/a|-|false|0|w/o|without|not req)", re.I)
_CERT = re.compile(r"\b(mtrs?|mill certs?|material certs?|certs? req|3\.1|en ?10204|with certs?)\b", re.I)
_FREE = re.compile(
    r"\bfree[- ]issue|\bcustomer[- ](supplied|furnished|plate|material)|\bmaterial by (us|customer|others)|\bby customer\b|\bwe supply\b|\bcfm\b",
    re.I,
)
_RE_ROUND = re.compile(r"\bre-?\s?round(ed|ing)?\b|\bre-?\s?roll(ed|ing)?\b", re.I)
_GRAIN = re.compile(r"\bgrain\b", re.I)


def shape_words(text: str) -> dict[str, str]:
    """Return the shape fields that a text names; nothing when it names none.

    >>> shape_words("Half shell"), shape_words("cone, concentric")
    ({'shape': 'arc', 'half': 'yes'}, {'shape': 'cone'})
    """
    for pattern, found in _SHAPE_RULES:
        if pattern.search(text):
            return dict(found)
    return {}


def ends_in(text: str) -> Ends | None:
    """Return what a remark says about the ends; ductwork is rolled without pre-bend (common practice, no source).

    >>> ends_in("no pre-bend, flats OK"), ends_in("prebend both ends")
    (<Ends.LEAVE_FLAT: 'leave flat'>, <Ends.PRE_BEND: 'pre-bend'>)
    """
    for pattern, ends in _ENDS:
        if pattern.search(text):
            return ends
    return None


def ends_cell(text: str, header: str) -> Ends | None:
    """Return what a cell of an ends column says; a bare yes or no answers a header that says pre-bend."""
    found = ends_in(text)
    if found is None and (text.lower() not in ("yes", "y", "x", "no", "n") or "pre" in header.lower()):
        found = _ENDS_CELL.get(text.lower().strip())
    return found


def yes_no(text: str) -> bool | None:
    """Return yes or no from a cell that answers its header, None when it does neither."""
    if _NO.match(text):
        return False
    return True if _YES.search(text) else None


def flags_in(text: str) -> tuple[str, ...]:
    """Return which of certificate, free_issue, re_round and grain a remark asks for; a remark with 'no' in it none.

    >>> flags_in("MTRs please, re-round after weld")
    ('certificate', 're_round')
    """
    found = []
    for name, pattern in (
        ("certificate", _CERT), ("free_issue", _FREE), ("re_round", _RE_ROUND), ("grain_along", _GRAIN)
    ):  # fmt: skip
        match = pattern.search(text)
        if match and not re.search(
            r"\b(no|not|without|w/o|excl\w*)\W+(\w+\W+)?$", text[: match.start()], re.I
        ):
            found.append(name)
    return tuple(found)
