"""Reads the edge preparation that a text asks for: `37.5 deg bevel, 1/16 land, both long edges`.

Trade words are common practice, no source. The usual angles are those of one edge: a 60 degree V is two
bevels of 30.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from quoting.core import EdgeKind, EdgePlace, EdgePrep, RangeError
from quoting.intake.texts.work_sizes import angle_in, size_beside

_LETTER = r"(?:^|(?<=[,;:(/]))\s*(?:[DH]|1/2 ?|½ ?)?(?-i:[VYXKUJv])[- ]?(?:naht|fuge|seam|butt)?"
"""The letter of a joint where a cell or a clause begins."""
_ASKED = re.compile(
    r"\b(?:bevel\w*|chamfer\w*|edge[- ]prep\w*|weld[- ]prep\w*|[jukvx][- ]?prep\w*|prepped|scarf\w*"
    r"|(?:single|double|sgl|dbl)[- ]?(?:v|vee|j|u)|vee|[jv][- ]?groove\w*|prep\s+v)\b"
    r"|^\W*(?:edges?|ends?)\b[^:\d]{0,12}:?\s*\d{1,2}(?:[.,-]\d+(?:/2)?)?\s*(?:deg|°)"
    rf"|{_LETTER}"
    r"\s?\d{2}(?:[.,]5)?\s?(?:°|º|deg)|(?<=\s)(?-i:V)\s?\d{2}\s?(?:°|º|deg)",
    re.I,
)
"""The letter of a joint with its degrees is one too: V 60°, K 45 deg."""
_BEHIND_A_LETTER = re.compile(rf"(?:{_LETTER}|(?<=\s)(?-i:V))\s?$", re.I)
_REFUSED = re.compile(
    r"\b(no|not|without|w/o)\s+(\w+\s+)?(bevel|chamfer|edge[- ]prep|weld[- ]prep|prep)"
    r"|\bsquare\s+(cut\s+)?edges?\b|\bno edge\b"
    r"|\b(bevel\w*|prep\w*|chamfer\w*)\s+(is\s+|done\s+)?by\s+(us|others?|customer|client|buyer)\b"
    r"|\bwe\s+(will\s+)?(bevel|prep)",
    re.I,
)
_ELSEWHERE = re.compile(r"\b(as|see|to|per)\s+(\w+\s+)?(note|drawing|dwg|drg|detail|sketch|spec|wps)\b", re.I)
_DOUBLE = re.compile(
    r"(?:^|[,;:(/])\s*(?-i:[XK]|D[VY])[- ]?\d{2}\s?(?:°|º|deg)"
    r"|\b(double|dbl|[xk][- ]?prep|x[- ]bevel|k[- ]bevel)\b",
    re.I,
)
_J = re.compile(
    r"^\W*(?-i:[UJ])[- ]?\d{2}\s?(?:°|º|deg)"
    r"|\b[ju][- ]?(prep\w*|groove|bevel)\b|\b(single|double|sgl|dbl)[- ]?[ju]\b",
    re.I,
)
_SQUARE = re.compile(r"\bsquare[- ](prep|edge prep)", re.I)
_INCLUDED = re.compile(r"(?-i:\bV)\s?\d{2}\s?(?:°|º|deg)|\b(incl\w*|v[- ]?(prep|groove|joint)?|vee)\b", re.I)
_PLACES = (
    (EdgePlace.ALL, re.compile(r"\b(all|four|4)[- ]?(round|around|edges?|sides?)\b", re.I)),
    (EdgePlace.SEAM, re.compile(r"\b(long(itudinal)?\s*(seam|edges?|sides?|joint)?|seams?|axial)\b", re.I)),
    (EdgePlace.ENDS, re.compile(r"\b(ends?|circ\w*|girth|round seams?)\b", re.I)),
)
_ONE = re.compile(r"\b(one|1|single)\s+(\w+\s+)?(end|edge|side)\b", re.I)
_BARE_V = re.compile(
    r"\b(?:(?-i:[VYXKUJ])(?=\s?\d)|v|vee)(?:[- ]?(?:prep|groove|joint|butt))?\s*"
    r"(\d{2}(?:[.,]\d)?)(?![\d/.]|\s*(?:mm|\"|in\b|x))",
    re.I,
)
"""A number right behind a V is its angle: single V 30."""
_LARGEST_OF_ONE_EDGE = 45.0
"""A V of no more degrees is told by the bevel of one edge, a wider one by what both make (common practice, no
source)."""
USUAL_ANGLE_DEG = 30.0


@dataclass(frozen=True, slots=True)
class EdgeSaid:
    """What a text asks of the edges: the preparation, and what it leaves open, in words (empty: nothing)."""

    prep: EdgePrep
    open: tuple[str, ...] = ()
    elsewhere: bool = False


@lru_cache(maxsize=8192)
def edges_in(text: str, *, inch: bool) -> EdgeSaid | None:
    """Return the edge preparation that a text asks for, None when it asks for none.

    What the text leaves open is filled with the usual: the edges of the long seam, both, at 30 degrees.

    >>> said = edges_in("37.5 deg bevel, 1/16 land, both long edges", inch=True)
    >>> said.prep.angle_deg, said.prep.land_mm, said.prep.place.value, said.prep.edges, said.open
    (37.5, 1.5875, 'long seam', 2, ())
    >>> edges_in("no bevel, square edges", inch=True) is None
    True
    """
    if not _ASKED.search(text) or _REFUSED.search(text):
        return None
    kind = _kind(text)
    angle = angle_in(text)
    if angle is None and (bare := _BARE_V.search(text)):
        angle = float(bare[1].replace(",", "."))
    place = next((place for place, pattern in _PLACES if pattern.search(text)), None)
    no_angle = angle is None and kind is not EdgeKind.SQUARE
    open_ = [name for name, missing in (("angle", no_angle), ("edges", place is None)) if missing]
    included = _INCLUDED.search(text) and (angle or 0) > _LARGEST_OF_ONE_EDGE
    if angle is not None and (included or re.search(r"\bincl", text, re.I)) and kind is not EdgeKind.J:
        angle /= 2
    counted = 4 if place is EdgePlace.ALL else 1 if _ONE.search(text) else 2
    try:
        prep = EdgePrep(
            kind,
            place or EdgePlace.SEAM,
            counted,
            0.0 if kind is EdgeKind.SQUARE else USUAL_ANGLE_DEG if angle is None else angle,
            size_beside("land|nose|root face|lands", text, inch=inch) or 0.0,
        )
    except RangeError:
        prep, open_ = EdgePrep(kind, place or EdgePlace.SEAM, counted, USUAL_ANGLE_DEG), [*open_, "angle"]
    return EdgeSaid(prep, tuple(dict.fromkeys(open_)), bool(_ELSEWHERE.search(text)))


_JOINT = re.compile(rf"(?:{_LETTER}|(?<=\s)(?-i:V)|\bhalf[- ]v)\s?\d{{2}}(?:[.,]5)?\s?(?:°|º|deg\w*)", re.I)


def without_joints(text: str) -> str:
    """Return a text without the letters of joints and their degrees, which are of no arc.

    >>> without_joints("Edge prep: V 60°, half shell")
    'Edge prep: , half shell'
    """
    return _JOINT.sub(" ", text).replace("  ", " ") if _JOINT.search(text) else text


def of_an_edge(before: str) -> bool:
    """Return whether what stands before degrees makes them those of a joint, and not of an arc: V 60°.

    >>> of_an_edge("R500, V "), of_an_edge("R500 x ")
    (True, False)
    """
    return _BEHIND_A_LETTER.search(before) is not None


def _kind(text: str) -> EdgeKind:
    if _J.search(text):
        return EdgeKind.J
    if _DOUBLE.search(text):
        return EdgeKind.DOUBLE_BEVEL
    return EdgeKind.SQUARE if _SQUARE.search(text) else EdgeKind.BEVEL


def edge_text(prep: EdgePrep) -> str:
    """Return a preparation as a draft keeps it.

    >>> edge_text(EdgePrep(EdgeKind.BEVEL, EdgePlace.SEAM, 2, 37.5, 1.5))
    'single bevel;long seam;2;37.5;1.5'
    """
    return f"{prep.kind.value};{prep.place.value};{prep.edges};{prep.angle_deg:g};{prep.land_mm:g}"


def edge_of(text: str) -> EdgePrep | None:
    """Return the preparation that `edge_text` wrote, None for an empty text or "none"."""
    if not text or text == "none":
        return None
    kind, place, edges, angle, land = text.split(";")
    return EdgePrep(EdgeKind(kind), EdgePlace(place), int(edges), float(angle), float(land))


def edge_said(text: str) -> str:
    """Return what `edge_text` wrote as a person says it; the land stays in the customer's own words.

    >>> edge_said("single bevel;long seam;2;37.5;1.5"), edge_said("none")
    ('single bevel of 37.5 degrees on both edges, long seam', 'edges as cut')
    """
    prep = edge_of(text)
    if prep is None:
        return "edges as cut"
    angle = f" of {prep.angle_deg:g} degrees" if prep.angle_deg else ""
    if prep.place is EdgePlace.ALL:
        return f"{prep.kind.value}{angle} all round"
    return f"{prep.kind.value}{angle} on {'both edges' if prep.edges > 1 else 'one edge'}, {prep.place.value}"
