"""From a rolled shape to the flat blanks it is cut from."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.blanks.blank_plan import Blank, BlankPlan
from quoting.blanks.cone import ConePiece, cone_form, cone_pieces, edge_length, overall_height
from quoting.blanks.courses import course_widths, girth_weld_notes
from quoting.blanks.girth import developed_girth, neutral_diameter
from quoting.blanks.note_words import both, count
from quoting.core import Arc, Cone, Cylinder, Ends, RangeError, Rectangle, Shape, mean_diameter

KG_PER_MM3 = 1e-9
"""Turns mm3 times kg/m3 into kg."""


def _more_than_0(**values: float) -> None:
    for name, value in values.items():
        if not value > 0:
            raise RangeError(name, value, "more than 0")


def _0_or_more(**values: float) -> None:
    for name, value in values.items():
        if not value >= 0:
            raise RangeError(name.replace("_", " "), value, "0 or more")


@dataclass(frozen=True, slots=True)
class HowCut:
    """How a part is shared out among blanks; lengths in mm.

    Courses along the axis are equal, or `course_width_mm` wide with the remainder last (a cone's are equal);
    `seams` is the pieces round the girth. Trim is the extra at the leading and the trailing end of every
    piece (None: the same as leading), used with `Ends.TRIM` only. `edge_girth_mm` and `edge_width_mm` are
    what machining the edges takes off a piece again, over both its edges (a cone's width gets none).
    RangeError for less than one course or seam and for negative lengths.
    """

    courses: int = 1
    seams: int = 1
    weld_gap_mm: float = 0.0
    trim_mm: float = 0.0
    trim_tail_mm: float | None = None
    course_width_mm: float | None = None
    edge_girth_mm: float = 0.0
    edge_width_mm: float = 0.0

    def __post_init__(self) -> None:
        _more_than_0(courses=self.courses, seams=self.seams)
        _0_or_more(weld_gap=self.weld_gap_mm, trim=self.trim_mm, trim_tail=self.trim_tail_mm or 0.0)
        _0_or_more(edge_allowance=min(self.edge_girth_mm, self.edge_width_mm))

    def trims_mm(self, ends: Ends) -> tuple[float, float]:
        """Return the extra at the leading and at the trailing end."""
        if ends is not Ends.TRIM:
            return 0.0, 0.0
        return self.trim_mm, self.trim_mm if self.trim_tail_mm is None else self.trim_tail_mm


WHOLE = HowCut()
"""One piece, nothing taken off and nothing added."""


@dataclass(frozen=True, slots=True)
class _Cut:
    """What the development needs besides the shape."""

    thickness_mm: float
    density: float
    ends: Ends
    courses: int
    seams: int
    gap_mm: float
    trim_mm: float
    tail_mm: float
    id: str
    course_width_mm: float | None
    edge_girth_mm: float
    edge_width_mm: float

    @property
    def extra_mm(self) -> float:
        """Return what the flat is longer than the developed girth."""
        return self.trim_mm + self.tail_mm + self.edge_girth_mm

    def weight(self, area_mm2: float) -> float:
        return area_mm2 * self.thickness_mm * self.density * KG_PER_MM3


def develop(
    line_shape: Shape,
    thickness_mm: float,
    density: float,
    *,
    ends: Ends,
    how: HowCut = WHOLE,
    id: str = "blank",
) -> BlankPlan:
    """Return the blanks of one part, exact on the mean diameter; lengths in mm, density in kg/m3.

    A cylinder's girth pi D less one gap a seam is shared equally by `how.seams` pieces. An arc keeps its full
    angle: gaps come off only between pieces, never at the free edges. A cone is an annular sector in
    `how.seams` segments. Blank weights include the trim, the part's weight does not. RangeError when nothing
    is left of the blank, or a cone is given a course width.

    >>> from quoting.core.order import Basis
    >>> plan = develop(Cylinder(610, Basis.INSIDE, 2438.4), 25.4, 7850, ends=Ends.PRE_BEND)
    >>> round(plan.blanks[0].outline.length_mm, 2)
    1996.17
    """
    _more_than_0(thickness=thickness_mm, density=density)
    cut = _Cut(
        thickness_mm,
        density,
        ends,
        how.courses,
        how.seams,
        how.weld_gap_mm,
        *how.trims_mm(ends),
        id,
        how.course_width_mm,
        how.edge_girth_mm,
        how.edge_width_mm,
    )
    if isinstance(line_shape, Cone):
        if how.course_width_mm is not None:
            raise RangeError(
                "course width", f"{how.course_width_mm:g} mm", "none for a cone: its courses are equal"
            )
        return _cone(line_shape, cut)
    return _straight(line_shape, cut)


def _straight(shape: Cylinder | Arc, cut: _Cut) -> BlankPlan:
    mean, arc_deg, welds = _mean_arc_welds(shape, cut)
    girth = (developed_girth(mean, cut.thickness_mm, arc_deg) - welds * cut.gap_mm) / cut.seams
    if girth <= 0:
        raise RangeError("weld gap", cut.gap_mm, f"{welds} gaps must leave some plate in the girth")
    widths = course_widths(shape.length_mm, cut.courses, cut.gap_mm, cut.course_width_mm)
    counts: dict[float, int] = {}
    for width in widths:
        counts[width] = counts.get(width, 0) + cut.seams
    blanks = tuple(
        Blank(
            id=cut.id if len(counts) == 1 else f"{cut.id}.{number}",
            outline=Rectangle(width + cut.edge_width_mm, girth + cut.extra_mm),
            per_part=per_part,
            thickness_mm=cut.thickness_mm,
            weight_kg=cut.weight((width + cut.edge_width_mm) * (girth + cut.extra_mm)),
            mean_diameter_mm=mean,
            width_mm=width,
            girth_mm=girth,
            arc_deg=arc_deg / cut.seams,
            ends=cut.ends,
            trim_mm=cut.trim_mm,
            trim_tail_mm=cut.tail_mm,
        )
        for number, (width, per_part) in enumerate(counts.items(), 1)
    )
    part_weight = cut.weight(sum(widths) * girth * cut.seams)
    notes = (
        *_girth_notes(mean, cut),
        *_gap_notes(shape, welds, cut),
        *_course_notes(mean, widths, cut),
        *_edge_notes(cut),
    )
    return BlankPlan(blanks, cut.courses, cut.seams, cut.gap_mm, part_weight, notes)


def _mean_arc_welds(shape: Cylinder | Arc, cut: _Cut) -> tuple[float, float, int]:
    """Return the mean diameter in mm, the angle in degrees and the number of long seams of the whole part."""
    if isinstance(shape, Cylinder):
        return mean_diameter(shape.diameter_mm, shape.basis, cut.thickness_mm), 360.0, cut.seams
    mean = mean_diameter(2 * shape.radius_mm, shape.basis, cut.thickness_mm)
    return mean, shape.angle_deg, cut.seams - 1


def _girth_notes(mean: float, cut: _Cut) -> tuple[str, ...]:
    neutral = neutral_diameter(mean, cut.thickness_mm)
    if neutral == mean:
        return (f"mean diameter used: {both(mean)}",)
    return (
        f"mean diameter {both(mean)}; bend is tight (inside radius up to 5 t), so the blank is developed on "
        f"the neutral layer, {both(neutral)} (DIN 6935): prove it on a try piece",
    )


def _gap_notes(shape: Cylinder | Arc, welds: int, cut: _Cut) -> tuple[str, ...]:
    if cut.gap_mm == 0:
        return ()
    taken = f"weld gap {both(cut.gap_mm)} taken off at {count(welds, 'long seam')}"
    if isinstance(shape, Cylinder):
        return (taken,)
    free = "no weld gap taken off the free edges of the arc"
    return (taken, free) if welds else (free,)


def _course_notes(mean: float, widths: tuple[float, ...], cut: _Cut) -> tuple[str, ...]:
    if len(widths) == 1:
        return ()
    gap = f", girth-weld gap {both(cut.gap_mm)} taken off the length" if cut.gap_mm else ""
    return (
        f"{count(len(widths), 'course')}, {count(len(widths) - 1, 'girth seam')}{gap}",
        *girth_weld_notes(mean + cut.thickness_mm, cut.thickness_mm, widths),
    )


def _edge_notes(cut: _Cut, *, cone: bool = False) -> tuple[str, ...]:
    """Return what is left on for machined edges; a cone's ends get nothing, which is said."""
    sides = (("girth", cut.edge_girth_mm), ("width", 0.0 if cone else cut.edge_width_mm))
    left = [f"{both(mm)} on the {side}" for side, mm in sides if mm]
    said = (f"left on for machined edges: {', '.join(left)}",) if left else ()
    by_hand = cone and cut.edge_width_mm
    return (*said, "nothing left on the cone's ends for machining: add it by hand") if by_hand else said


def _cone(shape: Cone, cut: _Cut) -> BlankPlan:
    form = cone_form(shape, cut.thickness_mm)
    trim = cut.extra_mm / 2
    pieces = cone_pieces(form, courses=cut.courses, seams=cut.seams, weld_gap_mm=cut.gap_mm, trim_mm=trim)
    blanks = tuple(_cone_blank(piece, number, cut) for number, piece in enumerate(pieces, 1))
    part_weight = cut.weight(sum(piece.finished.area_mm2 for piece in pieces)) * cut.seams
    notes = [
        f"cone mean diameters used: {both(form.large_mm)} and {both(form.small_mm)}",
        f"slant {both(form.slant_mm)}",
        f"height over the square-cut edges {both(overall_height(form, cut.thickness_mm))}",
    ]
    if cut.gap_mm:
        notes.append(
            f"weld gap {both(cut.gap_mm)} taken off at {count(cut.seams, 'long seam')}, at mid-slant"
        )
    if cut.courses > 1:
        notes.append(f"{count(cut.courses, 'course')}, {count(cut.courses - 1, 'girth seam')}")
    notes += _edge_notes(cut, cone=True)
    return BlankPlan(blanks, cut.courses, cut.seams, cut.gap_mm, part_weight, tuple(notes))


def _cone_blank(piece: ConePiece, number: int, cut: _Cut) -> Blank:
    return Blank(
        id=cut.id if cut.courses == 1 else f"{cut.id}.{number}",
        outline=piece.cut,
        per_part=cut.seams,
        thickness_mm=cut.thickness_mm,
        weight_kg=cut.weight(piece.cut.area_mm2),
        mean_diameter_mm=piece.form.small_mm,
        width_mm=piece.form.slant_mm,
        girth_mm=edge_length(piece.finished.outer_radius_mm, piece.finished.angle_deg),
        arc_deg=360.0 / cut.seams,
        ends=cut.ends,
        trim_mm=cut.trim_mm,
        trim_tail_mm=cut.tail_mm,
        cone=piece.form,
    )
