"""Cut sheets: each different layout of the run once, numbered in the order of the shop."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from quoting.books.look import alike, blank_owners, day_words, line_names, outline_words
from quoting.core import Outline, safe_name
from quoting.estimating import Estimate, GroupNest, cutting_minutes_of, lead_days_of, plate_name
from quoting.nesting import CutPlate, NestPlate, NestProblem, week_of

NOT_PLANNED: Mapping[str, datetime] = {}
STATIONS = {"shear": "On the shear", "thermal": "Cut by heat"}


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One layout: the plates cut so, the first standing for all, and the ids of the lines they serve.

    `number` is the same on all papers of the run. `due` is the first due day of its lines, `start` when the
    plan cuts the first of its plates; None when there is none. `waits` says that its pieces wait: it may be
    cut in a later week than other plates of the run.
    """

    number: int
    group: GroupNest
    cuts: tuple[CutPlate, ...]
    lines: tuple[str, ...]
    lead_days: int
    minutes: float
    due: date | None = None
    start: datetime | None = None
    waits: bool = False

    @property
    def cut(self) -> CutPlate:
        """Return the layout."""
        return self.cuts[0]

    @property
    def problem(self) -> NestProblem:
        """Return what was nested."""
        return self.group.problem

    @property
    def plate(self) -> NestPlate:
        """Return the stock plate that is cut."""
        return self.problem.plate(self.cut.plate)

    @property
    def cut_by(self) -> date | None:
        """Return the last day to cut it, None when no piece on it has a day."""
        return self.cut.cut_by

    @property
    def station(self) -> str:
        """Return where it is cut, `shear` or `thermal`."""
        return self.problem.cutting.method

    @property
    def name(self) -> str:
        """Return what the plates are called: `P-103 #1` or `P-103 #1, #2, #4`."""
        return ", ".join((plate_name(self.cut), *(f"#{cut.copy}" for cut in self.cuts[1:])))

    @property
    def stem(self) -> str:
        """Return the name of its drawings, without ending."""
        return f"plate-{self.number:02d}-{safe_name(plate_name(self.cut), fallback='plate')}"


def cut_sheets(estimate: Estimate, starts: Mapping[str, datetime] = NOT_PLANNED) -> tuple[CutSheet, ...]:
    """Return the layouts in shop order: by station, then as planned, else rack before bought, by due day.

    `starts` gives by plate name when the plan cuts it.
    """
    due = {result.line.id: result.line.due for result in estimate.lines}
    owners = {piece: result.line.id for piece, (result, _) in blank_owners(estimate).items()}
    found = [
        _sheet(group, cuts, owners, due, starts, estimate)
        for group in estimate.nests
        for cuts in alike(group.nest.cut_plates)
    ]
    first = min((week_of(sheet.cut_by) for sheet in found if sheet.cut_by), default=date.max)
    return tuple(
        replace(sheet, number=number, waits=_waits(sheet, first))
        for number, sheet in enumerate(sorted(found, key=_order), 1)
    )


def piece_names(estimate: Estimate) -> dict[str, str]:
    """Return what each blank is called on the cutting table: its line, and which of the line's blanks."""
    names = line_names(estimate)
    return {
        piece: names[result.line.id] + piece.removeprefix(result.line.id)
        for piece, (result, _) in blank_owners(estimate).items()
    }


def size_words(outline: Outline, *, inch: bool) -> str:
    """Return the size of a blank, short enough to stand in its drawing."""
    return outline_words(outline, inch=inch).replace(" degrees", "°").removeprefix("ring sector ")


def waiting_words(sheet: CutSheet) -> str:
    """Return until when a plate's cutting may wait; empty when it may not."""
    if not sheet.waits:
        return ""
    if sheet.cut_by is None:
        return "may be cut later: no day asked for"
    return f"may be cut later: week of {day_words(week_of(sheet.cut_by))}"


def source_words(plate: NestPlate) -> str:
    """Return where a plate comes from and whether its heat number is known."""
    if plate.count is None:
        return "to buy"
    kind = "remnant" if plate.remnant else "rack"
    return f"{kind}, heat {plate.heat}" if plate.heat else f"{kind}, no heat number"


def _sheet(
    group: GroupNest,
    cuts: tuple[CutPlate, ...],
    owners: Mapping[str, str],
    due: Mapping[str, date | None],
    starts: Mapping[str, datetime],
    estimate: Estimate,
) -> CutSheet:
    lines = tuple(dict.fromkeys(owners[put.piece] for put in cuts[0].placements))
    planned = [starts[plate_name(cut)] for cut in cuts if plate_name(cut) in starts]
    return CutSheet(
        number=0,
        group=group,
        cuts=cuts,
        lines=lines,
        lead_days=lead_days_of(estimate.shop, cuts[0].plate),
        minutes=cutting_minutes_of(group.problem.cutting, cuts[0], estimate.shop),
        due=min((day for line in lines if (day := due[line]) is not None), default=None),
        start=min(planned, default=None),
    )


def _waits(sheet: CutSheet, first_week: date) -> bool:
    later = sheet.cut_by is None or week_of(sheet.cut_by) > first_week
    return sheet.problem.waiting is not None and first_week < date.max and later


def _order(sheet: CutSheet) -> tuple[object, ...]:
    return (
        sheet.station,
        sheet.start or datetime.max,
        sheet.lead_days,
        sheet.due or date.max,
        sheet.group.material,
        sheet.group.thickness_mm,
        sheet.cut.plate,
        sheet.cut.copy,
    )
