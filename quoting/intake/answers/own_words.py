"""Answers that name a choice in other words: ours, separately, tight, no bevel, August."""

from __future__ import annotations

import re

from quoting.core import Question
from quoting.intake.texts import (
    edge_text,
    edges_in,
    tolerances_in,
    tolerances_of,
    tolerances_text,
    weld_in,
    weld_text,
)

Fields = tuple[tuple[str, str], ...]
_FILLER = frozenset(
    ("the", "it", "is", "a", "please", "holds", "right", "wanted", "ends", "both", "yes", "to", "shell")
)
_MEANT = {
    "duplicate": (
        (
            r"once|only one|one only|first only|typed twice|duplicated?|(?<!no )mistake"
            r"|(ignore|delete|drop).*(second|one)",
            "once",
        ),
        (r"two (lots|lines|parts)|both|separate", "both"),
    ),
    "weld": (
        (r"^(no|not|none|nein|nicht)(?! problem)|no weld\w*|open|roll only|we\b.*\bweld", "none"),
    ),
    "edge_prep": ((r"^(no|none|nein|not bevel\w*)(?! problem)|(?<!not )(square|plain)", "none"),),
    "free_issue_ok": (
        (r"not free issue|(?<!if )(you|your|yours)(?!.*\bnot\b)|(include|price|quote) the plate|nein", ""),
        (r"(?<!not )free issue|(our|ours|us|we)(?!.*\bnot\b)|customer supplied|ja", "yes"),
    ),
    "ends": (
        (r"pre-?b\w+|crimp\w*", "pre-bend"),
        (r"(leave|left|stay)?\s*flat(?! off)(?!s)", "leave flat"),
        (r"trim\w*|cut", "trim after rolling"),
    ),
}  # fmt: skip
"""For each kind, words and the value of the choice that they mean; words of two choices are refused."""
_HARMLESS = {
    "number_ok": r"(it is |just )?(a |an |our |the |my )*"
    r"(internal|job|order|part|item|drawing|po|reference|note)?\s*(number|no\.?|reference|ref|note|internal)?"
    r"|for our use only|disregard|not relevant|irrelevant|none|no effect",
    "weight_ok": r"(the )?weight is (wrong|a guess|not right|off)"
    r"|(the )?sizes (are )?(correct|right)|trust the sizes",
    "revision_ok": r"(the )?(current|latest|newest)( one)?",
    "option_ok": r"(as |on )?(a |an |its )?(own|separate|option|optional)( line| option| item)?"
    r"|separately|include( it)?",
    "row_unit": r"(the )?columns?( are)?( right)?|(the |per |as )*head(ing|er|ed)",
    "stock_thickness": r"(yes,? )?buy( it)?|as drawn|exact(ly)?",
}  # fmt: skip
"""For each kind, words that say that the sheet holds as it stands."""
_MONTH = re.compile(r"\b(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b", re.I)
_REVISION = re.compile(r"(?:it is |latest is )?(?:rev(?:ision)?\.? ?)?([A-Z]|\d{1,2})", re.I)


def own_words(  # noqa: PLR0911 - a return for each kind of question
    question: Question, field: str, plain: str, *, inch: bool
) -> Fields:
    """Return the fields of the choice that other words mean, or of a sentence about work; else nothing."""
    if field == "due":
        return _by_month(question, plain)
    if field == "weld" and not re.search(r"\b(no|not|none|nicht|ourselves)\b", plain, re.I):
        return _weld(question, plain)
    if field == "edge_prep" and any(sign.isdecimal() for sign in plain):
        return _edges(question, plain, inch=inch)
    if found := _meant(question, field, plain):
        return found
    words = _HARMLESS.get(field)
    if words and not any(sign.isdecimal() for sign in plain) and re.fullmatch(words, plain.strip(" ."), re.I):
        keep = [
            one.fields for one in question.choices if not any(name == "left_out" for name, _ in one.fields)
        ]
        if field == "stock_thickness":
            keep = [one.fields for one in question.choices if "exactly" in one.label]
        return keep[0] if len(keep) == 1 else ()
    if field == "revision_ok" and (named := _REVISION.fullmatch(plain.strip(" ."))):
        return (("drawn_revision", named.group(1).upper()), ("revision_ok", "yes"))
    return _by_label(question, plain)


def _meant(question: Question, field: str, plain: str) -> Fields:
    values = {
        value for words, value in _MEANT.get(field, ()) if re.search(rf"(?<!\w)({words})(?!\w)", plain, re.I)
    }
    if len(values) != 1:
        return ()
    value = values.pop()
    if field == "free_issue_ok":
        start = "yes" if value else "no"
        found = [one.fields for one in question.choices if one.label.lower().startswith(start)]
    else:
        found = [one.fields for one in question.choices if (field, value) in one.fields]
    return found[0] if len(found) == 1 else ()


def _by_label(question: Question, plain: str) -> Fields:
    """Return the one choice that holds all the words but the empty ones: the diameter holds."""
    said = set(re.findall(r"[a-z0-9/.\-]+", plain.lower())) - _FILLER
    close = [
        one
        for one in question.choices
        if said and said <= set(re.findall(r"[a-z0-9/.\-]+", one.label.lower()))
    ]
    return close[0].fields if len(close) == 1 else ()


def _by_month(question: Question, plain: str) -> Fields:
    """Return the one date among the choices whose month is named; another day of that month is refused."""
    month = _MONTH.search(plain)
    days = re.findall(r"\d+", plain)
    found = [
        one.fields
        for one in question.choices
        if month
        and month.group(1).lower() in one.label.lower()
        and all(int(day) in [int(number) for number in re.findall(r"\d+", one.label)] for day in days)
    ]
    return found[0] if len(found) == 1 else ()


def _weld(question: Question, plain: str) -> Fields:
    said = weld_in(plain) if re.search(r"weld|seam", plain, re.I) else weld_in(f"weld {plain}")
    if said.weld:
        return (("weld", weld_text(said.weld)),)
    yes = [one.fields for one in question.choices if ("weld", "none") not in one.fields]
    if re.fullmatch(r"(yes|ok|okay|ja|please)\b.*|(you |please )*weld (it|the seam)( please)?", plain, re.I):
        return yes[0] if len(yes) == 1 else ()
    return _meant(question, "weld", plain)


def _edges(question: Question, plain: str, *, inch: bool) -> Fields:
    """Return the bevel of an answer, read after the words that it completes when it is not whole."""
    for text in (plain, f"{question.read}, {plain}"):
        said = edges_in(text, inch=inch)
        if said is not None and not said.open:
            return (("edge_prep", edge_text(said.prep)),)
    return ()


def tolerance_said(plain: str, known: str, *, inch: bool) -> Fields:
    """Return the tolerances of an answer beside those known, or that the shop's usual ones will do."""
    if re.fullmatch(
        r"(your |the |our |shop )?(usual|standard|normal|shop)( tolerances?| one)?|none", plain, re.I
    ):
        return (("tolerance", ""),)
    found = tolerances_in(plain, inch=inch, column=True)
    if not found:
        return ()
    both = tolerances_text(tuple(dict.fromkeys((*tolerances_of(known), *found))))
    return (("tolerances", both), ("tolerance", plain))
