"""The drawings of one job: its blank, and the three rolls for the pre-bend and for the last pass."""

from __future__ import annotations

from quoting.core import EdgePrep, Rectangle
from quoting.drawings import BlankExtras, RolledPlate, RollsAt, Sketch, blank_sketch, rolls_sketch
from quoting.forming import nip_of, slide_point
from scheduler.jobs import WonLine
from scheduler.papers.job_sheet import JobSheet
from scheduler.papers.sizes import Sizes
from scheduler.papers.steps import RollStep

_SEAMS_APART = 5.0


def blank_picture(sheet: JobSheet, sizes: Sizes, size_mm: tuple[float, float]) -> Sketch:
    """Return the dimensioned drawing of the first kind of blank."""
    kind = sheet.kinds[0]
    words = sizes.long if isinstance(kind.outline, Rectangle) else sizes.exact
    extras = BlankExtras(_prep(sheet), seam_offset_mm(sheet.line))
    return blank_sketch(kind.outline, words, grain=kind.grain, size_mm=size_mm, extras=extras)


def seam_offset_mm(line: WonLine) -> float:
    """Return how far the seams of neighbour courses stand apart at least; 0 for one course.

    Five times the thicker plate: API Std 650 (2007) 5.1.5.2 b for tanks, read in a stored copy of its page
    (scribd.com/document/74638157); for vessels ASME VIII-1 UW-9(d), from memory.
    """
    return _SEAMS_APART * line.thickness_mm if line.blank and line.blank.courses > 1 else 0.0


def _prep(sheet: JobSheet) -> EdgePrep | None:
    told = sheet.line.told.edge_prep if sheet.line.told else None
    if told is None:
        return None
    return EdgePrep(told.kind, told.place, told.edges, told.angle_deg, told.land_mm)


def roll_pictures(sheet: JobSheet, size_mm: tuple[float, float]) -> tuple[Sketch, ...]:
    """Return the rolls at the pre-bend and at the last pass; none without slide geometry or positions."""
    bends = [step for step in sheet.steps if step.record.pre_bend][:1]
    last = [step for step in sheet.steps if not step.record.pre_bend][-1:]
    made = (_rolls(sheet, step, size_mm) for step in (*bends, *last))
    return tuple(picture for picture in made if picture is not None)


def _rolls(sheet: JobSheet, step: RollStep, size_mm: tuple[float, float]) -> Sketch | None:
    record, roll = step.record, sheet.roll
    nip = nip_of(roll) if roll else None
    if roll is None or nip is None or record.readout_mm is None:
        return None
    kind = sheet.setting.kind if sheet.setting else None
    blank = sheet.line.blank
    plate = RolledPlate(
        thickness_mm=sheet.line.thickness_mm,
        loaded_mm=record.loaded_radius_mm,
        final_mm=record.final_radius_mm,
        girth_mm=kind.girth_mm if kind else blank.length_mm if blank else sheet.line.width_mm,
        reverse=record.pre_bend,
    )
    at = slide_point(nip, record.readout_mm + roll.readout_zero_mm)
    rolls = RollsAt(nip.top_radius_mm, nip.pinch_radius_mm, nip.bending_radius_mm, at)
    return rolls_sketch(rolls, plate, f"{step.name}: {step.shows}", size_mm=size_mm)
