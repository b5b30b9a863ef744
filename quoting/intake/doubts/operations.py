"""The work besides rolling that a line asks for: read into its fields, and asked about where it is not clear.

Nothing that costs money is lost: what a text leaves open is priced the usual way and asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from quoting.core import Choice, EdgeKind, EdgePlace, EdgePrep, Penetration, Reading, WeldAsked
from quoting.intake.row_record import Doubt, Record
from quoting.intake.texts import (
    SAYS_NO,
    edge_said,
    edge_text,
    edges_in,
    extras_in,
    tolerances_in,
    tolerances_of,
    tolerances_text,
    weld_in,
    weld_said,
    weld_text,
)
from quoting.intake.words import left_without

_FIRST = r"((plate |to be |then |please )*(cut|roll|rolled|form|curve|bend)\w*\W*(and|&|\+|u|/|,|then)?\W*)*"
_ORDER = re.compile(
    rf"\W*{_FIRST}((one|1|single|long\w*|butt|seam|full\w*|side)\W+)*weld(ed|ing)?\W*"
    r"((along|the|long\w*|butt|one|single)\W+)*(seams?)?(\W*by (you|shop|vendor|roller))?\W*",
    re.I,
)
"""Words that order welding and say nothing else: roll and weld, seam welded. It is then a butt weld of full
penetration (common practice, no source)."""
_HEADED = re.compile(r"^[^\W\d][^:]{0,24}:\s*")
"""The heading that stands before a remark of a column nobody knows."""
_ANSWERED_NO = re.compile(rf"[^:]{{2,30}}:\s*(?:{'|'.join(map(re.escape, sorted(SAYS_NO)))})\W*", re.I)
"""A column of some work whose cell says that it is not wanted: Bevels, no."""
_FULL = weld_text(WeldAsked(Penetration.FULL))


def read_operations(record: Record, texts: Iterable[str], *, inch: bool) -> None:
    """Read edges, welding and handwork from a row's texts; a field that is there already stays."""
    _tolerance_column(record, inch=inch)
    texts = [text for text in (*texts, record.values.get("seam", "")) if text]
    for text in dict.fromkeys(texts):
        if _says_nothing(text, inch=inch) or _ANSWERED_NO.fullmatch(text):
            continue
        text = left_without(_ours(text), ("own_work",))  # noqa: PLW2901 - what others do is no work of ours
        _edges(record, text, inch=inch)
        _weld(record, text)
        _tolerances(record, text, inch=inch, column=False)
        extras = [record.values["extras"]] if record.values.get("extras") else []
        extras += [extra.value for extra in extras_in(text)]
        if extras:
            record.values["extras"] = ";".join(dict.fromkeys(";".join(extras).split(";")))


_CLAUSE_END = re.compile(r"(;|,\s|(?<=[a-z]{5})\.\s(?=[A-Z]))")
_BY_OTHERS = re.compile(
    r"\bby (?:the |our |their |your client'?s? )?(?:own )?(?:site |field |erection |maintenance )?"
    r"(?:erectors?|contractors?|site|field|crew|welders?|boilermakers?|fitters?|millwrights?|installers?|mechanics?"
    r"|client|customer|owner|buyer|purchaser|others|us|ourselves|(?<=our )(?:people|shop)|another shop"
    r"|machine shop|third part\w+)\b",
    re.I,
)
"""Who does a work that is not the roller: bevel both ends by erector."""


def _ours(text: str) -> str:
    """Return a text without the clauses about work that somebody else does.

    >>> _ours("bevel both ends by erector, weld seam")
    'weld seam'
    """
    if not _BY_OTHERS.search(text):
        return text
    pieces = _CLAUSE_END.split(text)
    return "".join(
        piece + end
        for piece, end in zip(pieces[::2], [*pieces[1::2], ""], strict=True)
        if not _BY_OTHERS.search(piece)
    ).strip()


@lru_cache(maxsize=32_768)
def _says_nothing(text: str, *, inch: bool) -> bool:
    """Return whether a text asks for no work: long sheets say the same in all their rows."""
    weld = weld_in(text)
    asked = weld.weld or weld.tack or weld.unclear or extras_in(text)
    return not asked and edges_in(text, inch=inch) is None and not tolerances_in(text, inch=inch)


def _tolerance_column(record: Record, *, inch: bool) -> None:
    """Read the tolerance column; what is not understood there is asked about, never taken as accepted."""
    text = record.values.get("tolerance", "")
    if not text:
        return
    if not _tolerances(record, text, inch=inch, column=True):
        asked = f'The tolerance reads "{text}"; on what is it, and how much?'
        doubt = Doubt("tolerance", record.where("tolerance")[0], text, asked)
        record.doubt(replace(doubt, blocking=False, assumed="our usual tolerances, not this one"))


def _tolerances(record: Record, text: str, *, inch: bool, column: bool) -> bool:
    found = tolerances_in(text, inch=inch, column=column)
    known = tolerances_of(record.values.get("tolerances", ""))
    if found:
        record.values["tolerances"] = tolerances_text(tuple(dict.fromkeys((*known, *found))))
    return bool(found)


def _edges(record: Record, text: str, *, inch: bool) -> None:
    said = edges_in(text, inch=inch)
    if said is None or record.values.get("edge_prep"):
        return
    record.values["edge_prep"] = edge_text(said.prep)
    words = f"{said.prep.kind.value}, {said.prep.place.value}"
    record.readings.append(Reading("edge_prep", record.place, text, words))
    if not said.open and not said.elsewhere:
        return
    what = " and ".join({"angle": "which bevel", "edges": "which edges"}[name] for name in said.open)
    asked = f'It says "{text}": {what or "which bevel, on which edges"}?'
    assumed = edge_said(edge_text(said.prep))
    blocking = said.elsewhere and len(said.open) > 1
    choices = (*_edge_choices(said.prep), Choice("no bevel, edges square", (("edge_prep", "none"),)))
    record.doubt(
        Doubt("edge_prep", record.place, text, asked, choices, blocking, "" if blocking else assumed)
    )


def _edge_choices(prep: EdgePrep) -> tuple[Choice, ...]:
    angle = prep.angle_deg if prep.kind is not EdgeKind.SQUARE else 0.0
    options = (
        ("both edges of the long seam", EdgePlace.SEAM, 2),
        ("both ends of the shell", EdgePlace.ENDS, 2),
        ("all round", EdgePlace.ALL, 4),
    )
    return tuple(
        Choice(
            f"{prep.kind.value} {angle:g} degrees, {words}",
            (("edge_prep", edge_text(EdgePrep(prep.kind, place, edges, angle, prep.land_mm))),),
        )
        for words, place, edges in options
    )


def _weld(record: Record, text: str) -> None:
    said = weld_in(text)
    if said.tack and not said.weld:
        record.values["seam"] = "tacked"
    if record.values.get("weld"):
        return
    if said.weld:
        record.values["weld"] = weld_text(said.weld)
        record.doubts.pop("weld", None)
        record.readings.append(Reading("weld", record.place, text, said.weld.penetration.value))
        return
    if said.unclear:
        choices = (
            Choice("you weld it, full penetration", (("weld", _FULL),)),
            Choice("we do not, the seam stays open", (("weld", "none"),)),
        )
        asked = f'It says "{text}": shall we weld the seam, and to which penetration?'
        assumed = "no welding by us"
        if _ORDER.fullmatch(_HEADED.sub("", text)):
            record.values["weld"] = _FULL
            record.readings.append(Reading("weld", record.place, text, "full penetration"))
            assumed = weld_said(_FULL)
        record.doubt(Doubt("weld", record.place, text, asked, choices, blocking=False, assumed=assumed))
