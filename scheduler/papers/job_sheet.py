"""All that one job's set-up sheet says, as words and numbers; PDF and board only place it.

Every value is the customer's, computed, or a setting of the shop's book. What nobody told stays empty, and
the paper prints a box to write in.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from quoting.core import Basis, Outline, Rectangle, Sector
from quoting.labour import CLEAN, CODES
from quoting.record import ArcRecord, ConeRecord, CylinderRecord, PassesRecord, SectorRecord
from quoting.shop import Roll, Shop
from scheduler.jobs import RE_ROUND, WonLine
from scheduler.papers.checks import checks_of, lift_rows, pinch_rows, springback_rows
from scheduler.papers.sizes import Sizes
from scheduler.papers.steps import RollStep, steps_of, stop_words, tilt_words
from scheduler.week import PlannedOperation, WeekPlan, begin_of

_BASIS = {Basis.INSIDE: "ID", Basis.OUTSIDE: "OD", Basis.MEAN: "mean diameter"}
_OF_THE_PRICE = re.compile(r"\bpric|\bquot|nothing is added|as a (name|remark)|not read as", re.I)
"""Assumptions that say what is not in the price, or how a word was read: nothing for the roll."""
_RADIUS = {
    Basis.INSIDE: "inside radius",
    Basis.OUTSIDE: "outside radius",
    Basis.MEAN: "mean radius",
}


@dataclass(frozen=True, slots=True)
class BlankKind:
    """One kind of blank of a job: what it is called, how many, its outline, weight, and its grain."""

    name: str
    pieces: int
    outline: Outline
    weight_kg: float
    grain: str


@dataclass(frozen=True, slots=True)
class JobSheet:
    """One job in its place on a roll.

    `asked` is the size as the customer called it out, `roll_to` the sizes that it is rolled to by name.
    `setting` is the record's passes, `kinds` the kinds of blank that are rolled so. Rows are pairs of a name
    and a value; an empty value is a box to write in. `asked_for` has to be read at the roll, `remarks` may.
    """

    slot: PlannedOperation
    line: WonLine
    roll: Roll | None
    place: tuple[int, int]
    late_days: int
    asked: str
    roll_to: tuple[tuple[str, str], ...]
    setting: PassesRecord | None
    kinds: tuple[BlankKind, ...]
    steps: tuple[RollStep, ...]
    pinch: tuple[tuple[str, str], ...]
    ends: tuple[tuple[str, str], ...]
    checks: tuple[tuple[str, str], ...]
    springback: tuple[str, ...]
    lift: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    asked_for: tuple[str, ...]
    remarks: tuple[str, ...]
    due: date | None

    @property
    def re_round(self) -> bool:
        """Return whether it is the second visit, after welding."""
        return self.slot.work.kind == RE_ROUND

    @property
    def begin(self) -> datetime:
        """Return when somebody has to be at the roll."""
        return begin_of(self.slot)

    @property
    def identity(self) -> str:
        """Return customer, line, part number and revision, as far as they were told."""
        told = self.line.told
        number = self.line.number if self.line.number != self.line.id else ""
        parts = (
            self.line.customer,
            f"line {number}" if number else "",
            f"part {told.part_no}" if told and told.part_no else "",
            f"rev {told.revision}" if told and told.revision else "",
            told.description if told else "",
        )
        return " · ".join(filter(None, parts))


def job_sheets(week: WeekPlan, shop: Shop) -> tuple[JobSheet, ...]:
    """Return the sheets of a week, roll by roll in running order; one more for each further way to roll."""
    found = []
    late = {item.line.id: item.days for item in week.late}
    rolls = {roll.name: roll for roll in shop.rolls}
    for name in week.rolls:
        slots = [slot for slot in week.on(name) if slot.line is not None]
        for place, slot in enumerate(slots, 1):
            for settings in _alike(slot):
                found.append(_sheet(slot, settings, shop, rolls.get(name), (place, len(slots)), late))
    return tuple(found)


def _alike(slot: PlannedOperation) -> list[list[PassesRecord]]:
    """Return the kinds of blank of a job in groups that are rolled alike; one empty group without any."""
    assert slot.line is not None
    groups: dict[object, list[PassesRecord]] = {}
    for setting in slot.line.settings_on(slot.machine):
        key = (setting.steps, setting.pinch_gap_mm, setting.tilt_mm_per_m)
        groups.setdefault(key, []).append(setting)
    return list(groups.values()) or [[]]


def _sheet(
    slot: PlannedOperation,
    settings: list[PassesRecord],
    shop: Shop,
    roll: Roll | None,
    place: tuple[int, int],
    late: Mapping[str, int],
) -> JobSheet:
    line = slot.line
    assert line is not None
    sizes = Sizes(shop.inch)
    setting = settings[0] if settings else None
    re_round = slot.work.kind == RE_ROUND
    return JobSheet(
        slot=slot,
        line=line,
        roll=roll,
        place=place,
        late_days=late.get(line.id, 0),
        asked=_asked(line, sizes),
        roll_to=_roll_to(line, setting, sizes),
        setting=setting,
        kinds=tuple(_kind(line, each) for each in settings) or (_plain_kind(line),),
        steps=steps_of(line, setting, sizes, re_round=re_round),
        pinch=pinch_rows(setting, sizes),
        ends=(*stop_words(setting, sizes, re_round=re_round), *tilt_words(setting, sizes)),
        checks=checks_of(line, setting, sizes),
        springback=springback_rows(line, setting, sizes),
        lift=lift_rows(line, sizes),
        cautions=_cautions(slot, line, shop.lifting.gloves),
        asked_for=_asked_for(line),
        remarks=_remarks(line, setting),
        due=line.due,
    )


def _asked(line: WonLine, sizes: Sizes) -> str:
    """Return the size as it was called out, its basis spelt out."""
    if line.told is None:
        return f"{sizes.both(line.diameter_mm)} ID"
    shape = line.told.shape
    match shape:
        case ConeRecord():
            ends = f"{sizes.both(shape.large_mm)} to {sizes.both(shape.small_mm)}"
            return f"{ends} {_BASIS[shape.basis]}"
        case ArcRecord():
            return f"{sizes.both(shape.radius_mm)} {_RADIUS[shape.basis]}, {shape.angle_deg:g}°"
        case CylinderRecord():
            return f"{sizes.both(shape.diameter_mm)} {_BASIS[shape.basis]}"


def _roll_to(line: WonLine, setting: PassesRecord | None, sizes: Sizes) -> tuple[tuple[str, str], ...]:
    """Return inside, mean and outside diameter of the rolled piece; of a cone at its small end."""
    inside, t = line.diameter_mm, line.thickness_mm
    end = " small end" if line.cone else ""
    rows = [(f"ID{end}", inside), (f"mean{end}", inside + t), (f"OD{end}", inside + 2 * t)]
    large = setting.kind.large_mean_diameter_mm if setting and setting.kind else None
    if large:
        rows = [rows[0], ("ID large end", large - t)]
    return tuple((name, sizes.both(mm)) for name, mm in rows)


def _kind(line: WonLine, setting: PassesRecord) -> BlankKind:
    kind = setting.kind
    if kind is None:
        return _plain_kind(line)
    parts = setting.quantity
    if line.lot is not None:
        parts = max(1, round(parts * line.quantity / line.lot.of))
    outline = _outline(kind.sector, kind.width_mm, kind.length_mm)
    return BlankKind(setting.blank, parts, outline, kind.weight_kg, line.grain.get(setting.blank, ""))


def _plain_kind(line: WonLine) -> BlankKind:
    """Return the blank of an older record, which holds only the first kind."""
    blank = line.blank
    if blank is None:
        outline: Outline = Rectangle(line.width_mm, line.width_mm)
        return BlankKind(line.id, line.quantity, outline, line.weight_kg, "")
    outline = _outline(blank.sector, blank.width_mm, blank.length_mm)
    return BlankKind(line.id, line.quantity * blank.pieces, outline, line.weight_kg, "")


def _outline(sector: SectorRecord | None, width_mm: float, length_mm: float) -> Outline:
    if sector:
        return Sector(sector.outer_radius_mm, sector.inner_radius_mm, sector.angle_deg)
    return Rectangle(width_mm, length_mm)


def _cautions(slot: PlannedOperation, line: WonLine, gloves: str) -> tuple[str, ...]:
    """Return the cautions that apply, whole sentences; cleaning only where the set-up cleans."""
    cleans = any("clean" in why for why, _ in slot.setup.parts) if slot.setup else False
    own = [text for text in line.cautions if text not in (CODES, CLEAN)]
    rule = f"Gloves: {gloves.rstrip('.')}."
    return tuple(dict.fromkeys((*own, *((CLEAN,) if cleans else ()), rule)))


def _asked_for(line: WonLine) -> tuple[str, ...]:
    """Return what the customer asked for beside the sizes, and what the verdict warns of."""
    told = line.told
    if told is None:
        return ()
    rows = (
        f"edges: {told.edges}" if told.edges else "",
        f"we weld: {told.weld}" if told.weld else "",
        "certificate asked for" if told.certificate else "",
        "the customer's own plate" if told.free_issue else "",
        *(f"asked: {text}" for text in told.remarks),
        *told.verdict.flags,
    )
    return tuple(dict.fromkeys(filter(None, rows)))


def _remarks(line: WonLine, setting: PassesRecord | None) -> tuple[str, ...]:
    """Return what the passes note, and what was assumed and stands on the quote."""
    told = line.told.assumptions if line.told else ()
    assumed = (text for text in told if not _OF_THE_PRICE.search(text))
    notes = setting.notes if setting else ()
    return tuple(dict.fromkeys((*notes, *(f"assumed: {text}" for text in assumed))))
