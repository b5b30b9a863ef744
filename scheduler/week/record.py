"""The planned week as the record holds it, in the classes of `quoting.record`."""

from __future__ import annotations

from decimal import Decimal

from quoting.record import (
    ComparisonRecord,
    CureRecord,
    LateRecord,
    LaterRecord,
    LoadRecord,
    LotRecord,
    ObjectiveRecord,
    OperationRecord,
    OvertimeRecord,
    ScheduleRecord,
    SetupPartRecord,
    UnplannedRecord,
)
from scheduler.sequence import Aim, Saving
from scheduler.week.week_plan import Cure, Late, MachineLoad, PlannedOperation, WeekPlan


def schedule_record(week: WeekPlan) -> ScheduleRecord:
    """Return the planned week as the record holds it."""
    plan, cost = week.plan, week.plan.cost
    return ScheduleRecord(
        start=week.start,
        rolls=week.rolls,
        stations=week.stations,
        operations=tuple(_operation(slot) for slot in week.slots),
        objective=ObjectiveRecord(
            total=_money(cost.total),
            setup=_money(cost.setup),
            lateness=_money(cost.lateness),
            overtime=_money(cost.overtime),
            wip=_money(cost.wip),
            running=_money(cost.running),
        ),
        aim="money" if week.aim is Aim.MONEY else "dates-first",
        bound=_money(plan.bound),
        gap=round(week.gap, 6),
        proven=plan.proven,
        method=plan.method,
        overtime=_overtime(week),
        comparison=tuple(_comparison(saving) for saving in week.savings),
        late=tuple(_late(late) for late in week.late),
        loads=tuple(_load(load) for load in week.loads),
        unplanned=tuple(
            UnplannedRecord(item.line.id, item.line.customer, item.reason) for item in week.unplanned
        ),
        notes=(*week.notes, *filter(None, [week.fullest])),
    )


def _operation(slot: PlannedOperation) -> OperationRecord:
    line, plate, setup = slot.line, slot.work.plate, slot.setup
    return OperationRecord(
        id=slot.work.operation.id,
        kind=slot.work.kind,
        machine=slot.machine,
        line=line.id if line else None,
        customer=line.customer if line else None,
        plate=plate.id if plate else None,
        lot=LotRecord(line.lot.parts, line.lot.of) if line and line.lot else None,
        setup_start=slot.setup_start,
        setup_end=slot.setup_end,
        setup_minutes=slot.setup_minutes,
        setup_why=setup.why if setup else "",
        setup_parts=tuple(
            SetupPartRecord(why, round(minutes, 3)) for why, minutes in (setup.parts if setup else ())
        ),
        start=slot.start,
        run_minutes=slot.run_minutes,
        end=slot.end,
        due=line.due if line else None,
    )


def _overtime(week: WeekPlan) -> tuple[OvertimeRecord, ...]:
    return tuple(
        OvertimeRecord(machine, stretch.start, stretch.end)
        for machine, stretches in week.open_times.items()
        for stretch in stretches
        if stretch.overtime
    )


def _comparison(saving: Saving) -> ComparisonRecord:
    each = saving.lateness_per_setup_minute
    return ComparisonRecord(
        order=saving.name,
        setup_minutes=saving.plain.setup_minutes,
        lateness=_money(saving.plain.cost.lateness),
        total=_money(saving.plain.total),
        saved_setup_minutes=saving.setup_minutes,
        saved_money=_money(saving.money),
        added_lateness=_money(saving.lateness),
        lateness_per_saved_setup_minute=None if each is None else _money(each),
    )


def _late(late: Late) -> LateRecord:
    return LateRecord(
        line=late.line.id,
        customer=late.line.customer,
        finish=late.finish,
        due=late.due,
        days=late.days,
        cost=_money(late.cost),
        tried=late.tried,
        cures=tuple(_cure(cure) for cure in late.cures),
    )


def _cure(cure: Cure) -> CureRecord:
    return CureRecord(
        kind=cure.kind,
        do=cure.do,
        on_time=cure.on_time,
        late_minutes=cure.late,
        less_late_minutes=cure.less_late,
        money=_money(cure.money),
        later=tuple(LaterRecord(later.line, later.before, later.after) for later in cure.later),
        moved=cure.moved,
    )


def _load(load: MachineLoad) -> LoadRecord:
    return LoadRecord(
        machine=load.machine,
        monday=load.monday,
        open_minutes=load.open_minutes,
        setup_minutes=load.setup_minutes,
        run_minutes=load.run_minutes,
        share=round(load.share, 4),
    )


def _money(amount: Decimal) -> Decimal:
    return amount.quantize(Decimal("0.0001"))
