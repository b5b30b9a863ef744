"""Nesting: the cheapest set of plates for one group of pieces (one material, one thickness), checked, with
a bound.

`nest(problem, effort=..., seed=..., stop=...)` is the one way in, `nest_for_less` asks it only where that can
pay. The caller loops over groups.

**Objective.** cost = price of the plates cut - value of the drops worth keeping + cutting, where a drop
counts for

    value = share x plate price x drop area / plate area - keep cost,

if that is more than nothing and the drop at least `least_width` x `least_length`, so a remnant is used when
that is cheaper than a new plate, no plate is opened for less than it brings, and few large drops are worth
more than many small ones.
A piece keeps `gap = kerf + max(spacing, lead-in)` to its neighbours and the margin to the plate's edge; a
plate with mill edges loses `mill_trim` on every side first (common practice, no source: 1/2 in). Boxes are
grown by the gap on two sides, and so is the plate: then "apart by the gap" is "not overlapping".

**First layouts** (pure Python, enough for a quick run of up to 60 pieces). Plates are filled one by one
with maximal free rectangles (Jylanki 2010, "A thousand ways to pack the bin - a practical approach to two-
dimensional rectangle bin packing") or, on a shear, with guillotine parts that remember the stage and the
length of every cut. The next plate is the one of least net price per area placed. Then a few plates are
emptied and filled anew in another order (ruin and recreate: Schrimpf, Schneider, Stamm-Wilbrandt & Dueck
2000, J. Comput. Phys. 159, 139-171).

**Compiled search** (normal and thorough; rectangles). One plate is taken away, or swapped for a cheaper
one, and its pieces are settled on the others by guided ejection (Nagata & Braysy 2009, Oper. Res. Lett.
37, 333-338): what is pushed out is what has been hard to place least often. Whether a set fits one plate
is asked of maximal rectangles and of a skyline packer that asks each gap for its best piece (after Wei,
Oon, Zhu & Lim 2011, Eur. J. Oper. Res. 215, 337-346), and remembered; most sets that cannot fit are turned
down before by the dual feasible functions of the bound, which is exact and cheap (`filters`). Where a plate
holds many pieces, one order of all pieces is searched by swaps and moves instead, the skyline growing across
the plate and along it in turns. Counted work ends every search, never the clock.

**Combination** (normal and thorough; cones too). Every plate that a search fills is pooled; set covering
over the pooled layouts, with plates filled anew as the dual prices ask (Gilmore & Gomory 1961, Oper. Res. 9,
849-859), dives and a mixed integer search, picks the cheapest set of them (`combine`). More effort is never
dearer: each effort starts with what the one below it found.

**Proof of small groups** (normal and thorough, single rectangles, up to some 15 copies). Every set of pieces
on every plate gets a cost it cannot be below; the cheapest split of all pieces at these costs is a bound,
and the sets in it are looked at closely with CP-SAT until they are known layouts or the work runs out (logic-
based Benders, `proof`). Layouts are free there, so on a shear it stays a bound.

**Bound.** A dual feasible function f maps [0, L] to [0, f(L)] so that sizes which fit a length still fit
after it. For any two, f across and g along the plate,

    number of plates >= ceil( sum_i f(w_i) g(h_i) / (f(W) g(H)) ),

a piece that may be turned counting with the smaller of its two products (Fekete & Schepers 2004, Math.
Meth. Oper. Res. 60, 311-329; Boschetti & Mingozzi 2003, 4OR 1, 27-42 and 135-147); W and H are first
lowered to the largest sum of piece sizes they can hold. In money, with unused metal credited at the share
s that a drop can fetch,

    cost >= n p - s p / A (n A - sum a_i)  for one size of price p and area A, and
    cost >= sum_i min over plates of ((p - s p U / A) b_i / B + s p a_i / A)  for several sizes,

with a_i the piece, b_i the piece and its gap, U and B the usable area without and with the gap, less the
most that plates of limited number can save, plus the cutting of the outlines (thermal). `Nest.bound` is
the larger; `Nest.gap` = (cost - bound) / cost.

**Cones.** Annular sectors nest as true shapes: rows of sectors behind each other or side by side and
turned end for end, at the closest pitch that keeps the gap, and the corners beside the arcs stay free for
small pieces.

**Days and priorities.** Pieces know the day they must be cut by. With `Waiting` every week is nested by
itself as well: an earlier week opens the plates it needs, later pieces fill what is left of them, but no
plate is cut in a week for pieces of a later one only; taken when it costs no more than the shop allows and
ties up less money early (`Nest.waited`). When stock runs short, pieces of higher priority are placed first,
then those to be cut sooner.

**Checker.** `check` shares no code with what makes a nest. It counts plates and pieces; looks at edges,
distances (sectors as polygons), grain, heat numbers, days and drops; replays every stroke of a shear on the
plate; works out metres, pierces, strokes, yield and money again; and holds the reasons for what is not
placed, and what waiting is said to cost, against the stock. `nest` never returns a layout that fails it.
Published checks: `tests/published/test_packing_rectangles.py`; figures on the 500 class instances:
`python -m tests.benchmarks.nesting`. Volume and page numbers of the papers are from memory.
"""

from quoting.nesting.nest_problem import (
    CuttingRule,
    DropRule,
    NestPlate,
    NestProblem,
    Piece,
    Waiting,
    week_of,
)
from quoting.nesting.nest_result import CutPlate, Drop, Nest, Placement, ShearCut, Waited
from quoting.nesting.solve import nest, nest_for_less
from quoting.nesting.still_cut import still_cut

__all__ = [
    "CutPlate",
    "CuttingRule",
    "Drop",
    "DropRule",
    "Nest",
    "NestPlate",
    "NestProblem",
    "Piece",
    "Placement",
    "ShearCut",
    "Waited",
    "Waiting",
    "nest",
    "nest_for_less",
    "still_cut",
    "week_of",
]
