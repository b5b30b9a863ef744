"""A small invented week made by hand: two rolls, a shear, a late line, a re-round, and a line left out."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from quoting.labour import CLEAN, CODES, FEED, RING
from quoting.record import BlankRecord, PassesRecord, SectorRecord, StepRecord
from quoting.shop import Family
from scheduler.jobs import CUT, RE_ROUND, ROLL, PlateToCut, Setup, ShopOperation, WonLine
from scheduler.jobs.won_lines import RollChoice
from scheduler.sequence import Assignment, Mode, Operation, Plan, Saving
from scheduler.sequence.plan import Cost, OvertimeUsed
from scheduler.week import Late, MachineLoad, OpenTime, PlannedOperation, Unplanned, WeekPlan

MONDAY = date(2026, 11, 30)
LIGHT, HEAVY, SHEAR = "Light 5 ft", "Heavy [10] ft: the long-named roll by the door", "Shear"
FORMULA = '=HYPERLINK("http://invented.example","pay here")'


def setting(*, notes: tuple[str, ...] = ()) -> PassesRecord:
    """Return the record's passes of one kind of blank: both ends pre-bent, two passes, one re-roll."""

    def step(number: int, readout_mm: float, end: str, **kind: bool) -> StepRecord:
        return StepRecord(
            number=number,
            final_radius_mm=308.0,
            loaded_radius_mm=301.0,
            readout_mm=readout_mm,
            lift_mm=1.0,
            end_leading=end,
            pre_bend=kind.get("pre_bend", False),
            re_roll=kind.get("re_roll", False),
        )

    return PassesRecord(
        blank="L-1 a",
        quantity=2,
        pinch_gap_mm=6.35,
        pre_bend_readout_mm=25.4,
        flat_lead_mm=12.7,
        flat_tail_mm=12.7,
        stop_before_tail_mm=20.0,
        re_rolls=1,
        tilt_mm_per_m=None,
        steps=(
            step(1, 25.4, "A", pre_bend=True),
            step(2, 25.4, "B", pre_bend=True),
            step(3, 50.8, "A"),
            step(4, 63.5, "A"),
            step(5, 66.04, "B", re_roll=True),
        ),
        notes=notes,
    )


def flat(*, sector: SectorRecord | None = None, pieces: int = 1) -> BlankRecord:
    """Return the flat blank of a line."""
    return BlankRecord(
        length_mm=1935.1,
        width_mm=1524.0,
        sector=sector,
        weight_kg=145.0,
        pieces=pieces,
        courses=1,
        seams=1,
        part_weight_kg=145.0,
        notes=(),
    )


def line(line_id: str, roll: str, **changes: Any) -> WonLine:
    """Return a line of 2 carbon steel cylinders quoted on `roll`."""
    plain = WonLine(
        id=line_id,
        number=line_id,
        customer="Example Tank Works (invented)",
        part='Cylinder 24" ID x 60" long, 1/4" A36',
        quantity=2,
        material="A36",
        family=Family.CARBON,
        thickness_mm=6.35,
        width_mm=1524.0,
        diameter_mm=609.6,
        cone=False,
        weight_kg=145.0,
        lift="crane",
        crew=2,
        crane=True,
        due=date(2026, 12, 4),
        re_round=False,
        plates=(f"P-{line_id} #1",),
        choices=(RollChoice(roll, 90.0, 0.0, (setting(),)),),
        cautions=(FEED, RING, CLEAN, CODES),
        price=Decimal("1000.00"),
        blank=flat(),
    )
    return replace(plain, **changes)


def at(day: int, clock: str) -> datetime:
    """Return a moment of the week: day 0 is the Monday."""
    hours, minutes = clock.split(":")
    return datetime.combine(MONDAY, datetime.min.time()) + timedelta(
        days=day, hours=int(hours), minutes=int(minutes)
    )


def rolled(
    won: WonLine, roll: str, setup: Setup, start: datetime, end: datetime, kind: str = ROLL
) -> PlannedOperation:
    """Return a slot whose set-up ends when the rolling starts."""
    minutes = int((end - start) / timedelta(minutes=1))
    operation = Operation(f"{kind} {won.id}", won.id, (Mode(roll, minutes),), crew=won.crew)
    begin = start - timedelta(minutes=setup.minutes)
    return PlannedOperation(ShopOperation(operation, kind, line=won), roll, setup, begin, start, start, end)


def cut(won: WonLine, start: datetime, minutes: int, here_in_days: int = 0) -> PlannedOperation:
    """Return the slot in which the plate of a line is cut."""
    plate = PlateToCut(won.plates[0], won.material, won.thickness_mm, "shear", minutes, here_in_days)
    operation = Operation(f"{CUT} {plate.id}", plate.id, (Mode(SHEAR, minutes),), crew=1)
    end = start + timedelta(minutes=minutes)
    return PlannedOperation(ShopOperation(operation, CUT, plate=plate), SHEAR, None, start, start, start, end)


def sample_week() -> WeekPlan:
    """Return the planned week."""
    first = line("L-1", LIGHT, due=date(2026, 12, 2))
    stainless = line("L-2", LIGHT, customer=FORMULA, family=Family.STAINLESS, material="304", due=None)
    ring = line("L-3", HEAVY, re_round=True, due=date(2026, 12, 1))
    moved = line("L-4", LIGHT, due=date(2026, 12, 9))
    no_roll = line("L-9", "Giant 20 ft")
    cold = Setup((('gap 3/8" -> 1/4", both ends', 10.0), ("first-off", 8.0)))
    clean = Setup((("clean rolls, stainless after carbon", 25.0), ("first-off", 8.0)))
    same = Setup((("same part", 3.0),))
    slots = (
        rolled(first, LIGHT, cold, at(0, "08:00"), at(0, "09:30")),
        rolled(stainless, LIGHT, clean, at(1, "08:00"), at(1, "09:10")),
        rolled(ring, HEAVY, cold, at(0, "09:00"), at(0, "10:00")),
        rolled(moved, HEAVY, cold, at(2, "08:00"), at(2, "09:00")),
        rolled(ring, HEAVY, same, at(8, "07:30"), at(8, "08:00"), RE_ROUND),
        cut(first, at(0, "07:00"), 20),
        cut(ring, at(0, "07:20"), 30),
        cut(stainless, at(1, "07:00"), 15, here_in_days=1),
        cut(moved, at(1, "07:15"), 15),
    )
    plan = _plan(slots)
    plain = replace(plan, cost=Cost(setup=Decimal("90.00"), lateness=Decimal("20.00")))
    days = (0, 1, 2, 3, 4, 7, 8, 9, 10, 11)
    opened = tuple(OpenTime(at(day, "07:00"), at(day, "15:30")) for day in days)
    overtime = OpenTime(at(1, "15:30"), at(1, "17:30"), overtime=True)
    return WeekPlan(
        shop="Bent Creek Plate Rolling (invented)",
        currency="USD",
        start=MONDAY,
        rolls=(LIGHT, HEAVY),
        stations=(SHEAR,),
        slots=slots,
        open_times={
            LIGHT: tuple(sorted((*opened, overtime), key=lambda o: o.start)),
            HEAVY: opened,
            SHEAR: opened,
        },
        plan=plan,
        savings=(Saving("due-day order", plain, 20, Decimal("-6.50"), Decimal("30.00")),),
        late=(Late(ring, at(8, "08:00"), date(2026, 12, 1), Decimal("50.00")),),
        loads=(
            MachineLoad(LIGHT, MONDAY, 2670, 51, 160),
            MachineLoad(LIGHT, MONDAY + timedelta(days=7), 2550, 0, 0),
            MachineLoad(HEAVY, MONDAY, 2550, 36, 120),
            MachineLoad(HEAVY, MONDAY + timedelta(days=7), 2550, 3, 30),
            MachineLoad(SHEAR, MONDAY, 2550, 0, 80),
            MachineLoad(SHEAR, MONDAY + timedelta(days=7), 0, 0, 0),
        ),
        unplanned=(Unplanned(no_roll, "no roll of the shop's book can do it: Giant 20 ft"),),
        notes=("@a note that begins like a formula",),
    )


def _plan(slots: tuple[PlannedOperation, ...]) -> Plan:
    midnight = datetime.combine(MONDAY, datetime.min.time())

    def minute(moment: datetime) -> int:
        return int((moment - midnight) / timedelta(minutes=1))

    return Plan(
        assignments=tuple(
            Assignment(
                slot.work.operation.id,
                slot.machine,
                minute(slot.setup_start),
                slot.setup_minutes,
                minute(slot.start),
                minute(slot.end),
            )
            for slot in slots
        ),
        cost=Cost(setup=Decimal("60.00"), lateness=Decimal("50.00"), overtime=Decimal("6.50")),
        bound=Decimal("100.00"),
        proven=False,
        method="by hand",
        overtime=(OvertimeUsed(LIGHT, 1440 + 930, 1440 + 1050),),
    )
