"""The problem in whole micrometres, as the packers see it, and the pieces that no plate can hold.

A piece is grown by the gap on its far sides and so is the usable part of the plate: then "apart by the
gap" is "not overlapping". Lengths are rounded to the micrometre and every plate gets `SLACK` on top, so
that sums of rounded inch sizes that fill a plate exactly still fit; 0.01 mm is far below what any cutter
holds.
"""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import Rectangle
from quoting.nesting.nest_problem import NestPlate, NestProblem, Piece
from quoting.nesting.nest_result import PlateRemark, Unplaced, Why
from quoting.nesting.plate.lengths import SLACK, micrometres
from quoting.nesting.plate.packers import GuillotineRects
from quoting.nesting.plate.refusals import not_freed, refusal, too_long
from quoting.nesting.plate.variants import Member, Variant
from quoting.nesting.shear import beyond_the_blade, trimmed

_MOST_STAGES_OF_ONE = 3  # a cut that makes two rectangles of an L, and two that free a corner of one


@dataclass(frozen=True, slots=True)
class PackedPiece:
    """A piece for the packers. `area` is true metal in mm2; `plates` are the indices of the plates
    that can hold it, `least` is its narrowest extent, `boxes` the sizes of its variants.
    """

    piece: int
    count: int
    variants: tuple[Variant, ...]
    area: float
    needs_heat: bool
    plates: frozenset[int]
    least: int
    boxes: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Bin:
    """A plate for the packers: usable size grown by the gap. `price`, `area` (mm2) and `limit` (None: no
    limit); a drop counts for `drop_share` of the price of its area."""

    plate: int
    w: int
    h: int
    limit: int | None
    price: float
    area: float
    margin: float
    blocked: tuple[int, int, int, int] | None
    has_heat: bool
    drop_share: float

    def is_left(self, used: int) -> bool:
        """Return whether there is one more when so many are used."""
        return self.limit is None or used < self.limit


@dataclass(frozen=True, slots=True)
class PackingProblem:
    """Everything the search needs; `gap` in micrometres. `drop_*` are the least sizes and the value share,
    `areas` those of the items.
    """

    problem: NestProblem
    items: tuple[PackedPiece, ...]
    bins: tuple[Bin, ...]
    unplaced: tuple[Unplaced, ...]
    remarks: tuple[PlateRemark, ...]
    gap: int
    longest_cut: int
    drop_small: int
    drop_large: int
    drop_share: float
    areas: tuple[float, ...]


def prepare(problem: NestProblem) -> PackingProblem:
    """Return the problem in micrometres; pieces that no plate can hold come out as unplaced with a reason."""
    gap = micrometres(problem.cutting.gap_mm)
    bins, remarks = _bins(problem, gap)
    items: list[PackedPiece] = []
    unplaced: list[Unplaced] = []
    for index, piece in enumerate(problem.pieces):
        found = _item(problem, index, piece, bins, gap)
        if isinstance(found, PackedPiece):
            items.append(found)
        else:
            unplaced.append(found)
    small, large = sorted((problem.drops.least_width_mm, problem.drops.least_length_mm))
    return PackingProblem(
        problem,
        tuple(items),
        tuple(bins),
        tuple(unplaced),
        tuple(remarks),
        gap,
        longest_cut(problem),
        micrometres(small),
        micrometres(large),
        max((one.drop_share for one in bins), default=0.0),
        tuple(item.area for item in items),
    )


def _bins(problem: NestProblem, gap: int) -> tuple[list[Bin], list[PlateRemark]]:
    bins: list[Bin] = []
    remarks: list[PlateRemark] = []
    for index, plate in enumerate(problem.plates):
        margin = problem.cutting.margin_mm(plate)
        w = plate.length_mm - 2 * margin
        h = plate.width_mm - 2 * margin
        if w <= 0 or h <= 0:
            text = f"{plate.width_mm:g} x {plate.length_mm:g} mm is nothing but margin ({margin:g} mm a side)"
            remarks.append(PlateRemark(plate.id, Why.PLATE_TOO_SMALL, text))
            continue
        if beyond_the_blade(problem, plate):
            text = (
                f"the mill edges of {plate.width_mm:g} x {plate.length_mm:g} mm cannot be trimmed: "
                f"the shear's longest cut is {problem.cutting.longest_cut_mm:g} mm"
            )
            remarks.append(PlateRemark(plate.id, Why.BEYOND_BLADE, text))
            continue
        bins.append(
            Bin(
                index,
                micrometres(w) + gap + SLACK,
                micrometres(h) + gap + SLACK,
                plate.count,
                float(plate.price),
                plate.area_mm2,
                margin,
                _blocked(plate, margin, gap),
                plate.has_heat,
                float(problem.drops.share_of(plate)),
            )
        )
    return bins, remarks


def _blocked(plate: NestPlate, margin: float, gap: int) -> tuple[int, int, int, int] | None:
    if plate.notch is None:
        return None
    x = micrometres(plate.length_mm - plate.notch.length_mm - 2 * margin) + gap
    y = micrometres(plate.width_mm - plate.notch.width_mm - 2 * margin) + gap
    far = micrometres(plate.length_mm + plate.width_mm) + gap
    return x, y, x + far, y + far


def _item(
    problem: NestProblem, index: int, piece: Piece, bins: list[Bin], gap: int
) -> PackedPiece | Unplaced:
    refused = refusal(problem, piece)
    if refused:
        return Unplaced(piece.id, piece.quantity, *refused)
    variants = _variants(problem, piece, gap)
    fitting = [k for k, one in enumerate(bins) if any(fits(v, one) for v in variants)]
    within = [k for k in fitting if _within_blade(problem, piece, bins[k])]
    if fitting and not within:
        return Unplaced(piece.id, piece.quantity, *too_long(problem, piece))
    freed = [k for k in within if _freed(problem, variants, bins[k], problem.cutting.stages)]
    if within and not freed:
        needed = _stages_needed(problem, variants, [bins[k] for k in within])
        return Unplaced(piece.id, piece.quantity, *not_freed(problem, piece, needed))
    allowed = [k for k in freed if bins[k].has_heat or not piece.needs_heat]
    if not allowed:
        return Unplaced(piece.id, piece.quantity, *_why_not(problem, piece, bins, fitting, gap))
    return PackedPiece(
        index,
        piece.quantity,
        variants,
        piece.outline.area_mm2,
        piece.needs_heat,
        frozenset(allowed),
        min(min(variant.w, variant.h) for variant in variants),
        tuple({(variant.w, variant.h): None for variant in variants}),
    )


def _within_blade(problem: NestProblem, piece: Piece, plate: Bin) -> bool:
    """Return whether no side of the piece is longer than the blade where all its sides must be cut."""
    if not trimmed(problem, problem.plates[plate.plate]):
        return True
    return max(piece.outline.box()) <= problem.cutting.longest_cut_mm


def _freed(problem: NestProblem, variants: tuple[Variant, ...], plate: Bin, stages: int) -> bool:
    """Return whether the shear can free the piece from a plate that it has for itself."""
    if problem.cutting.method != "shear":
        return True
    empty = GuillotineRects(
        plate.w, plate.h, plate.blocked, rule=0, stages=stages, longest=longest_cut(problem)
    )
    return any(empty.spot(variant.w, variant.h) is not None for variant in variants)


def _stages_needed(problem: NestProblem, variants: tuple[Variant, ...], plates: list[Bin]) -> int | None:
    """Return how many stages free the piece from one of the plates; None when the blade is too short."""
    for stages in range(problem.cutting.stages + 1, _MOST_STAGES_OF_ONE + 1):
        if any(_freed(problem, variants, plate, stages) for plate in plates):
            return stages
    return None


def longest_cut(problem: NestProblem) -> int:
    """Return the longest stroke of the shear in micrometres, `SLACK` included."""
    return micrometres(min(problem.cutting.longest_cut_mm, 1e9)) + SLACK


def fits(variant: Variant, plate: Bin) -> bool:
    """Return whether the variant fits an empty plate."""
    if variant.w > plate.w or variant.h > plate.h:
        return False
    blocked = plate.blocked
    return blocked is None or variant.w <= max(blocked[0], 0) or variant.h <= max(blocked[1], 0)


def _variants(problem: NestProblem, piece: Piece, gap: int) -> tuple[Variant, ...]:
    if isinstance(piece.outline, Rectangle):
        return _rectangle_variants(piece, gap, piece.turn)
    from quoting.nesting.plate.sectors import sector_variants  # noqa: PLC0415 - shapely is heavy

    margin = problem.cutting.margin_mm
    room = (
        max(plate.length_mm - 2 * margin(plate) for plate in problem.plates),
        max(plate.width_mm - 2 * margin(plate) for plate in problem.plates),
    )
    return sector_variants(piece, problem.cutting.gap_mm, room)


def _rectangle_variants(piece: Piece, gap: int, turn: bool) -> tuple[Variant, ...]:
    dx, dy = (micrometres(extent) for extent in piece.outline.box())
    flat = Variant(dx + gap, dy + gap, (Member(0, 0, dx, dy, 0.0),))
    if not turn or dx == dy:
        return (flat,)
    return flat, Variant(dy + gap, dx + gap, (Member(0, 0, dy, dx, 90.0),))


def _why_not(
    problem: NestProblem, piece: Piece, bins: list[Bin], fitting: list[int], gap: int
) -> tuple[Why, str]:
    if fitting:
        return Why.NO_HEAT, "needs a certificate, and no plate that holds it has a heat number"
    dx, dy = piece.outline.box()
    if not piece.turn:
        turned = Variant(micrometres(dy) + gap, micrometres(dx) + gap, ())
        if any(fits(turned, one) for one in bins):
            text = (
                f"{dx:g} mm must run along the grain, and the plates long enough are too narrow for {dy:g} mm"
            )
            return Why.GRAIN, text
    largest = max(problem.plates, key=lambda plate: plate.area_mm2)
    margin = problem.cutting.margin_mm(largest)
    text = f"{dy:g} x {dx:g} mm is larger than every plate; the largest, {largest.id}, is "
    text += f"{largest.width_mm:g} x {largest.length_mm:g} mm"
    if margin:
        text += f" and usable to {largest.width_mm - 2 * margin:g} x {largest.length_mm - 2 * margin:g} mm"
    return Why.TOO_LARGE, text
