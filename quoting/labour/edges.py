"""Minutes of preparing edges, from metres, kind and thickness; all minutes are the shop's."""

from __future__ import annotations

from quoting.blanks import Blank
from quoting.core import EdgeKind, EdgePlace, EdgePrep
from quoting.shop import EdgeRules

# A bevel, with or without a land, is one cut on an edge that is square already; a double bevel two.
_CUTS = {EdgeKind.BEVEL: 1.0, EdgeKind.DOUBLE_BEVEL: 2.0}


def edge_metres(blank: Blank, prep: EdgePrep) -> float:
    """Return the metres of edge that one blank has prepared.

    A blank's seam edges lie across the roll (a cone's: along its slant); its end edges become the shell's
    ends, a cone's two of different length. One edge of two different ones is the longer.
    """
    seam, ends = _edges(blank)
    match prep.place:
        case EdgePlace.SEAM:
            lengths = seam
        case EdgePlace.ENDS:
            lengths = ends
        case EdgePlace.ALL:
            lengths = (*seam, *ends)
    return sum(sorted(lengths, reverse=True)[: prep.edges]) / 1000


def edge_allowance(prep: EdgePrep | None, rules: EdgeRules) -> tuple[float, float]:
    """Return what a blank is cut larger by for machined or ground edges, mm: on its girth and width.

    A bevel is burnt or cut from an edge that is at size already and takes none.

    >>> edge_allowance(EdgePrep(EdgeKind.J, EdgePlace.SEAM, 2), EdgeRules(machined_allowance_mm=3.0))
    (6.0, 0.0)
    """
    if prep is None or prep.kind not in (EdgeKind.J, EdgeKind.SQUARE):
        return 0.0, 0.0
    both = 2 if prep.place is EdgePlace.ALL else prep.edges
    each = both * rules.machined_allowance_mm
    seam = prep.place in (EdgePlace.SEAM, EdgePlace.ALL)
    ends = prep.place in (EdgePlace.ENDS, EdgePlace.ALL)
    return each * seam, each * ends


def edge_cuts(kind: EdgeKind, rules: EdgeRules) -> float:
    """Return how many cuts an edge of this kind takes."""
    match kind:
        case EdgeKind.SQUARE:
            return rules.square_cuts
        case EdgeKind.J:
            return rules.j_cuts
        case _:
            return _CUTS[kind]


def edge_minutes(metres: float, kind: EdgeKind, thickness_mm: float, rules: EdgeRules) -> float:
    """Return the minutes of preparing so many metres: cuts x (fixed + per mm of thickness)."""
    per_cut = rules.minutes_per_m + rules.minutes_per_m_mm * thickness_mm
    return metres * edge_cuts(kind, rules) * per_cut


def _edges(blank: Blank) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the lengths in mm of the seam edges and of the end edges."""
    seam = (blank.width_mm, blank.width_mm)
    if blank.cone is None:
        return seam, (blank.girth_mm, blank.girth_mm)
    return seam, (blank.girth_mm, blank.girth_mm * blank.cone.small_mm / blank.cone.large_mm)
